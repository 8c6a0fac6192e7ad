#pragma once
// What a display shows before its white is moved, said once for every answer that starts from it. Own.
#include <optional>
#include <variant>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The display shows the white of its own full drive.
struct NativeWhite {};

/// The display's white was set by instrument to a CIE 1931 chromaticity. Its light is worked out from the display's spectra, whichever
/// unit's these are: another unit of its type makes the same reading of other light.
struct WhiteSetTo {
    Chromaticity<Cie1931_2deg> xy;
};

/// The white as it stands, measured on the set in its present mode, on the panel's sampling, black included.
struct WhiteAsItStands {
    SampledLight light;
};

/// What a display shows before anything is moved.
using WhiteBase = std::variant<NativeWhite, WhiteSetTo, WhiteAsItStands>;

/// Whether the white of full drive is the base.
[[nodiscard]] inline bool is_native(const WhiteBase& base) {
    return std::holds_alternative<NativeWhite>(base);
}

/// The light of a white as it stands; null for the other two. Valid as long as `base` is.
[[nodiscard]] inline const SampledLight* light_as_it_stands(const WhiteBase& base) {
    const auto* stands = std::get_if<WhiteAsItStands>(&base);
    return stands != nullptr ? &stands->light : nullptr;
}
const SampledLight* light_as_it_stands(const WhiteBase&& base) = delete;

/// The x, y that the white was set to by instrument; none for the other two.
[[nodiscard]] inline std::optional<Chromaticity<Cie1931_2deg>> xy_set_to(const WhiteBase& base) {
    const auto* set = std::get_if<WhiteSetTo>(&base);
    return set != nullptr ? std::optional(set->xy) : std::nullopt;
}

/// The light that `panel` shows before anything is moved; none where that is its native white. Throws as match().
[[nodiscard]] SAMELIGHT_API std::optional<SampledLight> light_shown(const Panel& panel,
                                                                    const WhiteBase& base);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/white_base.ipp"
#endif
