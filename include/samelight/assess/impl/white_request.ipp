#pragma once
// The bodies of assess/white_request.hpp.

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "samelight/assess/reading_notes.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/display/light_doubts.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/spectrum/column_doubts.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The step of a spectrum's wavelengths in their middle; the ends may be uneven.
inline double step_in_the_middle(const Spectrum& light) { return light.band_nm(light.size() / 2); }

inline assess::ReadingNotes notes_of_light(const ColumnInQuestion& column,
                                           const std::string& source, const Sampling& sampling) {
    return {{}, light_doubts(column, source, sampling), step_in_the_middle(column.light)};
}

SAMELIGHT_INLINE std::optional<SampledLight> light_before(const assess::WhitePanel& panel) {
    if (const auto* measured = std::get_if<assess::WhiteAsMeasured>(&panel.white)) {
        return measured->light;
    }
    if (const auto set_to = set_before(panel)) {
        return shown_light(panel.panel, set_white(panel.panel, *set_to));
    }
    return std::nullopt;
}

SAMELIGHT_INLINE std::optional<Chromaticity<Cie1931_2deg>> set_before(
    const assess::WhitePanel& panel) {
    const auto* set = std::get_if<assess::WhiteSetTo>(&panel.white);
    return set != nullptr ? std::optional(set->xy) : std::nullopt;
}

SAMELIGHT_INLINE void require_panels(std::size_t count) {
    if (count == 0) {
        throw Error(ErrorKind::input, "white", "no panel", "at least one");
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
        for (Warning& doubt : light_doubts(column, name, sampling)) {
            notes.warnings.push_back(std::move(doubt));
        }
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
    return {Panel(std::move(name), spectra, sampling), nullptr, WhiteNative{}, std::move(notes)};
}

SAMELIGHT_INLINE WhitePanel generic_display(const GenericModel& model, const Sampling& sampling) {
    return {generic_panel(model, sampling), &model, WhiteNative{}, {}};
}

SAMELIGHT_INLINE WhiteAsMeasured measured_white(const std::string& name, const Spectrum& light,
                                                const Sampling& sampling) {
    return {enter(light, sampling),
            samelight::detail::notes_of_light({"white", light}, name, sampling)};
}

SAMELIGHT_INLINE WhiteReference measured_reference(const std::string& name, const Spectrum& light,
                                                   const Sampling& sampling) {
    return {light_reference(name, light, sampling), true,
            samelight::detail::notes_of_light({"light", light}, name, sampling)};
}

SAMELIGHT_INLINE WhiteReference display_as_reference(const WhitePanel& display) {
    ReadingNotes notes = display.notes;
    const auto reference = [&]() -> Reference {
        if (const auto set_to = samelight::detail::set_before(display)) {
            return display_reference(display.panel, *set_to);
        }
        if (const auto* measured = std::get_if<WhiteAsMeasured>(&display.white)) {
            notes.warnings.insert(notes.warnings.end(), measured->notes.warnings.begin(),
                                  measured->notes.warnings.end());
            return {display.panel.name(), "that display as it stands", measured->light, {}};
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
