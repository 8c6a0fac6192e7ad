#pragma once
// An answer about whites that was kept, read back: targets, how sure they are, the verdict, and how people differ.
#include <array>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/people.hpp"

namespace samelight::io {

/// A white target as it was kept, CIE 1931.
struct KeptTarget {
    /// Id of the observer for whom it matches; of several viewers' white what the answer calls it.
    std::string observer;
    Chromaticity<Cie1931_2deg> xy;
    /// xy minus the reference's.
    std::array<double, 2> from_reference{};
    /// Of red, green, blue and, where there is one, white emitter, the largest 1; unknown without a common scale.
    std::optional<std::vector<double>> drive = {};
    /// Luminance against the native white, or the white as it stands; unknown likewise.
    std::optional<double> luminance_ratio = {};
    /// Whether the display can show it.
    bool in_gamut = true;
};

/// How sure the white to dial in is, as it was kept.
struct KeptUncertainty {
    /// Of x and y: xx, xy, yx, yy.
    CovarianceMatrix<2> covariance_xy;
    /// Expanded, coverage 95 %, of x and of y.
    std::array<double, 2> half_widths{};
    /// Code of the cause that makes most of it.
    std::string dominant_code;
};

/// Where people want a display's white, as it was kept.
struct KeptPeople {
    /// Who they are, in English.
    std::string description;
    /// Diameter of the field, degrees.
    double field_deg = 2.0;
    TargetRegion region;
    /// How many have a target that the display can't show, and how many have none.
    std::size_t outside = 0, impossible = 0;
    /// Distance in u', v' from which two people's targets count as apart, and the share of pairs that are, 0 to 1.
    double pair_threshold_uv = 0.0, pair_share = 0.0;
};

/// The verdict, as it was kept.
struct KeptVerdict {
    /// Codes of Verdict and AdviceReason. A later version may have more of them.
    std::string verdict_code, reason_code;
    /// The white that might be dialled in.
    Chromaticity<Cie1931_2deg> white;
};

/// One display of a kept answer.
struct KeptDisplay {
    std::string name;
    /// "measured", "generic" or "readings".
    std::string kind_code;
    std::optional<Chromaticity<Cie1931_2deg>> native_white = {};
    /// One an observer, in the answer's order; one at least.
    std::vector<KeptTarget> targets = {};
    /// The white of named viewers together.
    std::optional<KeptTarget> together = {};
    std::optional<KeptUncertainty> uncertainty = {};
    std::optional<KeptPeople> people = {};
    std::optional<KeptVerdict> verdict = {};
};

/// A kept answer about whites.
struct KeptWhites {
    /// The file's name as it was given.
    std::string source;
    /// Which version made it.
    std::string version;
    std::string reference;
    Chromaticity<Cie1931_2deg> reference_xy;
    /// In the answer's order.
    std::vector<KeptDisplay> displays;

    /// The display of that name, or null; the first of several.
    [[nodiscard]] const KeptDisplay* find(std::string_view name) const {
        for (const KeptDisplay& display : displays) {
            if (display.name == name) {
                return &display;
            }
        }
        return nullptr;
    }
};

/// Reads an answer about whites, "samelight/white/1". As parse_white_answer(), and throws Error (system) for what can't be opened or read.
[[nodiscard]] SAMELIGHT_API KeptWhites read_white_answer(const std::filesystem::path& file);

/// Understands the text of such an answer: numbers come back to the last digit. Keys that this version doesn't know are left alone, as a later
/// one may have them.
/// @param bytes  at most 16 MiB, brackets 32 within each other at most
/// @param source its name, for messages
/// Throws Error (input), one line that names the key, for what is no such answer.
[[nodiscard]] SAMELIGHT_API KeptWhites parse_white_answer(std::string_view bytes,
                                                          const std::string& source);

}  // namespace samelight::io
