#pragma once
// The light that a white must look like. Sources: CIE illuminants as cie_illuminant(); the rest is measured or modelled, which is said.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A measured white that is none anyone would set, being over .01 in x, y from every usual one: a display's native one, say.
struct UnlikelyWhite {
    /// The nearest of the usual ones: D65, say.
    std::string nearest;
    /// How far it is, in x, y.
    double distance_xy = 0.0;
    /// Whether it is known to be a display's.
    bool of_display = false;
};

/// A reference white: its light on the sampling of the problem, what to call it, and what must be known about it.
struct Reference {
    /// As it was asked for.
    std::string name;
    /// One phrase for people.
    std::string meaning;
    SampledLight light;
    std::vector<Warning> warnings;
    /// Where its white is none that anyone would set; said among the warnings (unlikely_white_warning()).
    std::optional<UnlikelyWhite> unlikely_white = {};

    /// What an instrument reads for it.
    [[nodiscard]] Chromaticity<Cie1931_2deg> xy() const {
        return chromaticity(tristimulus<Cie1931_2deg>(light));
    }
};

/// Warning `reference_white_native`, of the reference's `unlikely_white`, which must be there. Throws as chromaticity().
SAMELIGHT_API Warning unlikely_white_warning(const Reference& reference);

/// What is to be said, "reference_generic", where a reference is the light of a generic model.
SAMELIGHT_API Warning generic_reference_warning();

/// A CIE illuminant as the reference: A, C, E, D50, D65, ... Throws Error (domain) for a name that isn't one.
SAMELIGHT_API Reference illuminant_reference(std::string_view name, const Sampling& sampling = {});

namespace detail {

inline std::string xy_text(const Chromaticity<Cie1931_2deg>& xy) {
    return "x " + to_text(xy.x(), 4) + ", y " + to_text(xy.y(), 4);
}

}  // namespace detail

/// What a measured light is: a display's white could be set otherwise.
enum class LightOf {
    /// A lamp, daylight, or nobody knows.
    anything,
    /// A display's white.
    display
};

/// A single measured light as the reference.
SAMELIGHT_API Reference light_reference(std::string name, const Spectrum& light,
                                        const Sampling& sampling = {},
                                        LightOf of = LightOf::anything);

/// A display as the reference: its native white, as measured, or red + green + blue at full drive.
/// Throws Error (domain) where the panel's primaries have no common scale and white wasn't measured.
SAMELIGHT_API Reference display_reference(const Panel& panel);

/// A display as the reference, its white set to `xy` by instrument. Throws Error (domain) where that lies outside its gamut.
SAMELIGHT_API Reference display_reference(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/reference.ipp"
#endif
