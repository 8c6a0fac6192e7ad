#pragma once
// The readings of one picture: one mode, one place on the screen and, where asked, windows of one size. What is read in others is of another white.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Whether windows of all sizes stay.
enum class PictureWindows { all, one };

/// What is kept, and what isn't.
struct OnePicture {
    /// In the order of the file.
    std::vector<PatchReading> readings;
    /// What they have in common; a window is absent where all stay, or the file has none.
    std::string mode, position;
    std::optional<double> window_pct = {};
    /// How many readings of other modes, positions and windows were left out.
    std::size_t other_modes = 0, other_positions = 0, other_windows = 0;

    /// All of them.
    [[nodiscard]] std::size_t left_out() const noexcept {
        return other_modes + other_positions + other_windows;
    }
};

/// Whether a position is the middle of the screen by its name: centre, center, middle, c or none. Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API bool is_centre(const std::string& position);

/// The mode of most readings; of those the place in the middle, else that of most; of those, where asked, the window of most. Of equally many what comes first in the file. Readings without a
/// position are kept with those of the middle. Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API OnePicture one_picture(const std::vector<PatchReading>& readings,
                                     PictureWindows windows);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/readings/impl/one_picture.ipp"
#endif
