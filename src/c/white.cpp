#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/c/samelight.h"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/target.hpp"

namespace {

using samelight::Error;
using samelight::ErrorKind;
using samelight::ErrorPlace;
using samelight::assess::WhitePanel;
using samelight::assess::WhiteRequest;

constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

/// More than anyone asks for; above it a count was never meant.
constexpr std::size_t most_observers = 1000;
constexpr std::size_t most_viewers = 26;

void require_at_most(std::size_t count, std::size_t most, const char* name) {
    if (count > most) {
        throw Error(ErrorKind::shape, ErrorPlace{name}, std::to_string(count),
                    std::to_string(most) + " at most");
    }
}

void take_viewers(const samelight_white_options& own, WhiteRequest& asked) {
    require_at_most(own.viewer_count, most_viewers, "viewers");
    if (own.viewer_count > 0) {
        samelight::c::place(own.viewers, "viewers");
    }
    for (std::size_t i = 0; i < own.viewer_count; ++i) {
        const samelight_viewer& viewer = own.viewers[i];
        asked.viewers.push_back(
            {std::isnan(viewer.age_years) ? std::nullopt : std::optional(viewer.age_years),
             viewer.field_deg});
    }
}

WhiteRequest asked_for(const samelight_reference* reference,
                       const samelight_white_options* options) {
    const auto own =
        samelight::c::taken_or_defaults(options, samelight_white_options_defaults, "options");
    WhiteRequest asked{samelight::c::given(reference, "reference").value};
    require_at_most(own.observer_count, most_observers, "observers");
    if (own.observer_count > 0) {
        samelight::c::place(own.observers, "observers");
    }
    for (std::size_t i = 0; i < own.observer_count; ++i) {
        asked.observers.push_back(samelight::c::given(own.observers[i], "observer").value);
    }
    if (own.population != nullptr) {
        asked.population = own.population->value;
    }
    take_viewers(own, asked);
    asked.instrument = {
        own.wavelength_shift_nm, own.bandwidth_nm, own.stray_light, own.noise, own.step_nm,
        own.reading_noise_xy};
    asked.additivity_floor_xy = own.additivity_floor_xy;
    asked.threads = own.threads;
    return asked;
}

std::vector<std::string> subjects_of(const WhiteRequest& asked) {
    std::vector<std::string> subjects;
    for (const WhitePanel& panel : asked.panels) {
        subjects.push_back(panel.panel.name());
    }
    subjects.push_back("reference " + asked.reference.reference.name);
    return subjects;
}

samelight::report::WhiteAnswer answer_of(const samelight_reference* reference,
                                         const samelight_panel* const* panels, std::size_t count,
                                         const samelight_white_options* options) {
    WhiteRequest asked = asked_for(reference, options);
    for (const WhitePanel* panel : samelight::c::panels_of(panels, count)) {
        asked.panels.push_back(*panel);
    }
    return {samelight::assess::about(subjects_of(asked),
                                     [&] { return samelight::assess::answer_white(asked); }),
            {}};
}

const samelight::assess::PanelPart& part_at(const samelight_white_answer* answer,
                                            std::size_t index) {
    const auto& panels = samelight::c::given(answer, "answer").value.panels;
    if (index >= panels.size()) {
        throw Error(ErrorKind::shape, ErrorPlace{"index"}, std::to_string(index),
                    "one below " + std::to_string(panels.size()));
    }
    return panels[index];
}

void say_verdict(const samelight::assess::PanelPart& part, samelight_white_part& said) {
    if (part.advice) {
        said.verdict_code = code_of(part.advice->verdict);
        said.reason_code = code_of(part.advice->reason);
        said.before_uv = part.advice->sight.before;
        said.after_uv = part.advice->sight.after;
    }
    if (part.budget) {
        said.half_width_x = part.budget->half_width_x();
        said.half_width_y = part.budget->half_width_y();
        said.dominant_code = part.budget->dominant().code.c_str();
    }
}

samelight_white_part said_of(const samelight::assess::PanelPart& part) {
    samelight_white_part said;
    samelight_white_part_defaults(&said);
    const samelight::Target& white = part.dialled();
    said.x = white.xy.x();
    said.y = white.xy.y();
    said.delta_x = white.from_reference.first();
    said.delta_y = white.from_reference.second();
    said.in_gamut = white.in_gamut() ? 1 : 0;
    said.luminance_ratio = white.luminance_ratio.value_or(not_known);
    if (white.drive) {
        said.drive_count = std::min<std::size_t>(white.drive->size(), 4);
        std::copy_n(white.drive->begin(), said.drive_count, said.drive);
    }
    said.warning_count = part.targets.warnings.size();
    say_verdict(part, said);
    return said;
}

/// The displays of a batch, "unit 0" and so on.
std::vector<WhitePanel> units_of(const samelight_spectra& lights, std::size_t per_unit) {
    if (per_unit < 3 || per_unit > 5 || lights.count % per_unit != 0) {
        throw Error(ErrorKind::shape, ErrorPlace{"lights"},
                    std::to_string(lights.count) + ", " + std::to_string(per_unit) + " a unit",
                    "3, 4 or 5 a unit, and as many for each");
    }
    const std::vector<samelight::Spectrum> all = samelight::c::spectra_of(lights, "light");
    std::vector<WhitePanel> units;
    for (std::size_t at = 0; at < all.size(); at += per_unit) {
        const std::string name = "unit " + std::to_string(at / per_unit);
        samelight::PanelSpectra spectra{all[at], all[at + 1], all[at + 2]};
        if (per_unit > 3) {
            spectra.white = all[at + 3];
        }
        if (per_unit > 4) {
            spectra.black = all[at + 4];
        }
        units.push_back(samelight::assess::about(
            {name}, [&] { return samelight::assess::measured_panel(name, spectra); }));
    }
    return units;
}

/// Where targets of many units go.
struct BatchColumns {
    std::vector<double> xy = {}, half_widths = {};

    void add(const samelight::assess::PanelPart& part) {
        xy.push_back(part.targets.targets.front().xy.x());
        xy.push_back(part.targets.targets.front().xy.y());
        half_widths.push_back(part.budget ? part.budget->half_width_x() : not_known);
        half_widths.push_back(part.budget ? part.budget->half_width_y() : not_known);
    }
};

/// With their doubt. Of people nothing is told, so there is one.
BatchColumns targets_with_doubt(WhiteRequest asked, const std::vector<WhitePanel>& units) {
    samelight::PopulationParameters one;
    one.count = 1;
    asked.population = samelight::Population(one);
    samelight::assess::WhiteSeries series(asked);
    constexpr std::size_t at_once = 32;
    BatchColumns columns;
    for (std::size_t at = 0; at < units.size(); at += at_once) {
        const std::size_t count = std::min(at_once, units.size() - at);
        std::vector<samelight::assess::PanelPart> parts;
        try {
            parts = series.next({&units[at], count});
        } catch (const Error&) {
            // Which of them it was.
            for (std::size_t i = at; i < at + count; ++i) {
                samelight::assess::about({units[i].panel.name()}, [&] {
                    return series.next({&units[i], 1}).size();
                });
            }
            throw;
        }
        for (const samelight::assess::PanelPart& part : parts) {
            columns.add(part);
        }
    }
    return columns;
}

BatchColumns targets_alone(const WhiteRequest& asked, const std::vector<WhitePanel>& units) {
    const samelight::Observer observer =
        asked.observers.empty() ? samelight::standard_observer<samelight::Cie2015_2deg>()
                                : asked.observers.front();
    BatchColumns columns;
    for (const WhitePanel& unit : units) {
        const auto target = samelight::assess::about({unit.panel.name()}, [&] {
            return white_target(unit.panel, asked.reference.reference, observer);
        });
        columns.xy.push_back(target.xy.x());
        columns.xy.push_back(target.xy.y());
    }
    return columns;
}

}  // namespace

void samelight_white_options_defaults(samelight_white_options* options) {
    if (options != nullptr) {
        *options = {};
        options->size = sizeof(samelight_white_options);
        const samelight::InstrumentLimits usual;
        options->reading_noise_xy = usual.reading_noise_xy;
        options->wavelength_shift_nm = usual.wavelength_shift_nm;
        options->bandwidth_nm = usual.bandwidth_nm;
        options->stray_light = usual.stray_light;
        options->noise = usual.noise;
        options->step_nm = usual.step_nm;
        options->threads = 1;
    }
}

samelight_status samelight_white(const samelight_reference* reference,
                                 const samelight_panel* const* panels, size_t panel_count,
                                 const samelight_white_options* options,
                                 samelight_white_answer** answer, samelight_error* error) {
    return samelight::c::made(answer, "answer", error,
                              [&] { return answer_of(reference, panels, panel_count, options); });
}

void samelight_white_part_defaults(samelight_white_part* part) {
    if (part != nullptr) {
        *part = {};
        part->size = sizeof(samelight_white_part);
        part->coverage = 0.95;
        for (double* value :
             {&part->x, &part->y, &part->half_width_x, &part->half_width_y, &part->delta_x,
              &part->delta_y, &part->luminance_ratio, &part->before_uv, &part->after_uv}) {
            *value = not_known;
        }
        part->verdict_code = part->reason_code = part->dominant_code = "";
    }
}

size_t samelight_white_answer_count(const samelight_white_answer* answer) {
    return answer != nullptr ? answer->value.panels.size() : 0;
}

samelight_status samelight_white_answer_part(const samelight_white_answer* answer, size_t index,
                                             samelight_white_part* part, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(part, "part");
        samelight::c::hand_over(said_of(part_at(answer, index)), out);
    });
}

samelight_status samelight_white_answer_targets(const samelight_white_answer* answer, size_t index,
                                                double* xy, size_t xy_stride, size_t count,
                                                samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto& targets = part_at(answer, index).targets.targets;
        if (count != targets.size()) {
            throw Error(ErrorKind::shape, ErrorPlace{"xy"}, "room for " + std::to_string(count),
                        std::to_string(targets.size()) + ", one an observer");
        }
        const samelight::c::RowsOut out(xy, 2, xy_stride, count, "xy");
        std::vector<double> rows;
        for (const samelight::Target& target : targets) {
            rows.push_back(target.xy.x());
            rows.push_back(target.xy.y());
        }
        out.write(rows);
    });
}

samelight_status samelight_white_answer_json(const samelight_white_answer* answer,
                                             samelight_text** json, samelight_error* error) {
    return samelight::c::made(json, "json", error, [&] {
        return samelight::report::white_json(samelight::c::given(answer, "answer").value);
    });
}

void samelight_white_answer_destroy(samelight_white_answer* answer) { delete answer; }

samelight_status samelight_white_json(const samelight_reference* reference,
                                      const samelight_panel* const* panels, size_t panel_count,
                                      const samelight_white_options* options, samelight_text** json,
                                      samelight_error* error) {
    return samelight::c::made(json, "json", error, [&] {
        return samelight::report::white_json(answer_of(reference, panels, panel_count, options));
    });
}

samelight_status samelight_white_targets(const samelight_reference* reference,
                                         const samelight_spectra* lights, size_t lights_per_unit,
                                         const samelight_white_options* options, double* xy,
                                         size_t xy_stride, double* half_widths,
                                         size_t half_width_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        WhiteRequest asked = asked_for(reference, options);
        const std::vector<WhitePanel> units =
            units_of(samelight::c::given(lights, "lights"), lights_per_unit);
        const samelight::c::RowsOut out(xy, 2, xy_stride, units.size(), "xy");
        if (half_widths == nullptr) {
            out.write(targets_alone(asked, units).xy);
            return;
        }
        const samelight::c::RowsOut widths(half_widths, 2, half_width_stride, units.size(),
                                           "half_widths");
        const BatchColumns columns = targets_with_doubt(std::move(asked), units);
        out.write(columns.xy);
        widths.write(columns.half_widths);
    });
}
