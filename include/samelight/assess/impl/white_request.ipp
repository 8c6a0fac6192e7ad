#pragma once
// The bodies of assess/white_request.hpp.

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/reading_notes.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/light_flags.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The step of a spectrum's wavelengths in their middle; the ends may be uneven.
inline double step_in_the_middle(const Spectrum& light) { return light.band_nm(light.size() / 2); }

inline assess::ReadingNotes notes_of_light(const ColumnInQuestion& column,
                                           const std::string& source, const Sampling& sampling) {
    return {{},
            light_flags(column, source, sampling),
            step_in_the_middle(column.light),
            is_clipped(column)};
}

SAMELIGHT_INLINE void require_panels(std::size_t count) {
    if (count == 0) {
        throw Error(ErrorKind::input, "panels", "none", "at least one");
    }
    if (count > assess::most_white_displays) {
        throw Error(ErrorKind::input, "panels", std::to_string(count),
                    std::to_string(assess::most_white_displays) +
                        " at most in one answer, any number one after another");
    }
}

SAMELIGHT_INLINE void require_additivity_floor(double floor_xy, const std::string& where) {
    if (!(floor_xy >= 0.0) || !(floor_xy <= 0.1)) {
        throw Error(ErrorKind::input, where, to_text(floor_xy), "0 to 0.1, in x and y");
    }
}

SAMELIGHT_INLINE void require_reading_noise(double noise_xy) {
    if (!(noise_xy > 0.0) || !(noise_xy < 0.1)) {
        throw Error(ErrorKind::input, "instrument noise", to_text(noise_xy),
                    "a standard deviation of x and y above 0 and below 0.1, such as 0.0005");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE WhitePanel measured_panel(std::string name, const PanelSpectra& spectra,
                                           const Sampling& sampling) {
    ReadingNotes notes;
    notes.step_nm = samelight::detail::step_in_the_middle(spectra.red);
    const auto look_at = [&](const ColumnInQuestion& column) {
        for (Warning& flag : light_flags(column, name, sampling)) {
            notes.warnings.push_back(std::move(flag));
        }
        notes.clipped = notes.clipped || is_clipped(column);
    };
    look_at({"red", spectra.red});
    look_at({"green", spectra.green});
    look_at({"blue", spectra.blue});
    if (spectra.white) {
        look_at({"white", *spectra.white});
    }
    if (spectra.black) {
        look_at({"black", *spectra.black, true});
    }
    return {Panel(std::move(name), spectra, sampling), nullptr, {}, std::move(notes)};
}

SAMELIGHT_INLINE WhitePanel generic_display(const GenericModel& model, const Sampling& sampling) {
    return {generic_panel(model, sampling), &model, {}, {}};
}

SAMELIGHT_INLINE WhiteBefore measured_white(const std::string& name, const Spectrum& light,
                                            const Sampling& sampling) {
    return {WhiteAsItStands{rebin(light, sampling)},
            samelight::detail::notes_of_light({"white", light}, name, sampling)};
}

SAMELIGHT_INLINE WhiteBefore white_as_read(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy,
                                           std::optional<double> luminance) {
    if (!set_white(panel, xy).in_gamut()) {
        throw Error(ErrorKind::domain, "white now",
                    "x " + to_text(xy.x(), 4) + ", y " + to_text(xy.y(), 4) +
                        ", which red, green and blue of " + panel.name() + " can't make",
                    "what the instrument reads for that display's white");
    }
    return {WhiteSetTo{xy}, {}, true, luminance};
}

SAMELIGHT_INLINE WhiteReference measured_reference(const std::string& name, const Spectrum& light,
                                                   const Sampling& sampling) {
    return {light_reference(name, light, sampling), true,
            samelight::detail::notes_of_light({"light", light}, name, sampling)};
}

SAMELIGHT_INLINE WhiteReference display_as_reference(const WhitePanel& display) {
    ReadingNotes notes = display.notes;
    const auto reference = [&]() -> Reference {
        if (const auto set_to = xy_set_to(display.white.base)) {
            return display_reference(display.panel, *set_to);
        }
        if (const SampledLight* measured = light_as_it_stands(display.white.base)) {
            notes.warnings.insert(notes.warnings.end(), display.white.notes.warnings.begin(),
                                  display.white.notes.warnings.end());
            notes.clipped = notes.clipped || display.white.notes.clipped;
            return {display.panel.name(), "that display as it stands", *measured, {}};
        }
        return display_reference(display.panel);
    }();
    if (display.model != nullptr) {
        notes.warnings.push_back(generic_reference_warning());
    }
    return {reference, display.model == nullptr, std::move(notes)};
}

SAMELIGHT_INLINE double field_seen_by(const Observer& observer) {
    try {
        if (const auto conditions = cone_conditions_named(observer.id())) {
            return conditions->field_deg;
        }
    } catch (const Error&) {  // an observer of one's own, by a name that only begins so
    }
    return observer.id().find("10deg") != std::string::npos ? 10.0 : 2.0;
}

}  // namespace samelight::assess
