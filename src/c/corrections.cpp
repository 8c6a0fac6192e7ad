#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_choose.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/c/samelight.h"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace {

using samelight::Error;
using samelight::ErrorKind;
using samelight::ErrorPlace;

/// A correction, and its answer's text where that is wanted; both or none are handed over.
template <class F>
samelight_status made_with_text(samelight_correction** correction, samelight_text** json,
                                samelight_error* error, F&& make) noexcept {
    if (json != nullptr) {
        *json = nullptr;
    }
    std::unique_ptr<samelight_text> text;
    const samelight_status status = samelight::c::made(correction, "correction", error, [&] {
        std::pair<samelight::StoredCorrection, std::string> both =
            std::forward<F>(make)(json != nullptr);
        if (json != nullptr) {
            text = std::make_unique<samelight_text>(samelight_text{std::move(both.second)});
        }
        return std::move(both.first);
    });
    if (status == SAMELIGHT_OK && json != nullptr) {
        *json = text.release();
    }
    return status;
}

samelight::CorrectionMethod method_of(const char* typed) {
    const std::vector<std::string> names = samelight::report::meter_fit_methods();
    const std::string name = samelight::c::text_or(typed, "method", names.front().c_str());
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
        std::string known;
        for (const std::string& one : names) {
            known += (known.empty() ? "" : ", ") + one;
        }
        throw Error(ErrorKind::input, ErrorPlace{"method"}, "\"" + name + "\"", "one of " + known);
    }
    // In the order of CorrectionMethod.
    return static_cast<samelight::CorrectionMethod>(at - names.begin());
}

samelight::assess::MeterFitOptions fit_options_of(const samelight_fit_options* options) {
    const auto own =
        samelight::c::taken_or_defaults(options, samelight_fit_options_defaults, "options");
    samelight::assess::MeterFitOptions result;
    result.method = method_of(own.method);
    result.wanted_half_width = own.wanted_half_width;
    result.resamples = own.resamples;
    result.seed = own.seed;
    result.threads = own.threads;
    if (own.noise_xy != 0.0) {
        result.noise_from = samelight::NoiseFrom::stated;
        result.stated = samelight::stated_noise(own.noise_xy);
    }
    samelight::assess::require_valid(result);
    return result;
}

samelight::assess::DisplayReadings readings_of(const samelight_paired_readings* readings) {
    const auto own = samelight::c::taken(readings, samelight_paired_readings_defaults, "readings");
    const auto reference = samelight::c::rows_of<3>(own.reference_xyz, "reference_xyz");
    const auto meter = samelight::c::rows_of<3>(own.meter_xyz, "meter_xyz");
    if (reference.size() != own.count || meter.size() != own.count) {
        throw Error(ErrorKind::shape, ErrorPlace{"readings"},
                    std::to_string(own.count) + " pairs, " + std::to_string(reference.size()) +
                        " and " + std::to_string(meter.size()) + " rows",
                    "as many of each");
    }
    samelight::assess::DisplayReadings display;
    display.name = samelight::c::text_of(own.name, "display's name");
    samelight::c::place(own.patches, "patches");
    for (std::size_t i = 0; i < own.count; ++i) {
        const std::string patch = samelight::c::text_of(own.patches[i], "patch");
        const int round = own.rounds != nullptr ? own.rounds[i] : 1;
        if (round < 1) {
            throw Error(ErrorKind::domain, ErrorPlace{"round of pair " + std::to_string(i)},
                        std::to_string(round), "1 or more");
        }
        display.readings.push_back({patch, samelight::Instrument::reference, round, reference[i]});
        display.readings.push_back({patch, samelight::Instrument::meter, round, meter[i]});
    }
    return display;
}

/// Expanded uncertainties of x, y and Y; NaN where they can't be told.
std::array<double, 3> half_widths_of(const samelight::Correction& correction,
                                     const std::array<double, 3>& meter) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    if (!correction.covariance) {
        return {none, none, none};
    }
    try {
        return samelight::certainty(correction, meter).half_widths();
    } catch (const Error&) {
        return {none, none, none};
    }
}

samelight::assess::MeterChooseRequest asked_of(const samelight_choice_request& own) {
    samelight::assess::MeterChooseRequest asked;
    asked.panels.push_back(samelight::c::listed(samelight::c::given(own.panel, "panel").value));
    asked.options = {own.mismatch_percent, own.limit_uv};
    samelight::assess::require_valid(asked.options);
    constexpr std::size_t most_corrections = 10'000;
    if (own.correction_count > most_corrections) {
        throw Error(ErrorKind::shape, ErrorPlace{"corrections"},
                    std::to_string(own.correction_count),
                    std::to_string(most_corrections) + " at most");
    }
    if (own.correction_count > 0) {
        samelight::c::place(own.corrections, "corrections");
        samelight::c::place(own.names, "names");
    }
    for (std::size_t i = 0; i < own.correction_count; ++i) {
        asked.corrections.push_back({samelight::c::text_of(own.names[i], "name of a correction"),
                                     samelight::c::given(own.corrections[i], "correction").value});
        samelight::assess::require_usable(asked.corrections.back());
    }
    if (own.meter != nullptr) {
        asked.meter = samelight::c::meter_of(own.meter);
    }
    return asked;
}

samelight_choice choice_of(const samelight::PanelChoice& choice) {
    samelight_choice said;
    samelight_choice_defaults(&said);
    said.best = choice.best ? static_cast<std::int64_t>(*choice.best) : -1;
    said.verdict_code = code_of(choice.verdict);
    said.expected_uv = choice.chosen().white_uv;
    said.good_enough = choice.good_enough ? 1 : 0;
    return said;
}

}  // namespace

void samelight_paired_readings_defaults(samelight_paired_readings* readings) {
    if (readings != nullptr) {
        *readings = {};
        readings->size = sizeof(samelight_paired_readings);
    }
}

void samelight_fit_options_defaults(samelight_fit_options* options) {
    if (options != nullptr) {
        const samelight::assess::MeterFitOptions usual;
        *options = {sizeof(samelight_fit_options),
                    nullptr,
                    usual.wanted_half_width,
                    0.0,
                    usual.resamples,
                    usual.seed,
                    usual.threads};
    }
}

samelight_status samelight_correction_fit(const samelight_paired_readings* readings,
                                          const samelight_fit_options* options,
                                          samelight_correction** correction, samelight_text** json,
                                          samelight_error* error) {
    return made_with_text(correction, json, error, [&](bool text_wanted) {
        samelight::assess::MeterFitRequest asked;
        asked.options = fit_options_of(options);
        asked.display = readings_of(readings);
        const samelight::report::MeterFitAnswer answer{
            samelight::assess::about({asked.display.name},
                                     [&] { return samelight::assess::answer_meter_fit(asked); }),
            {},
            {},
            {}};
        return std::pair{answer.stored,
                         text_wanted ? samelight::report::meter_fit_json(answer) : std::string()};
    });
}

void samelight_meter_defaults(samelight_meter* meter) {
    if (meter != nullptr) {
        *meter = {};
        meter->size = sizeof(samelight_meter);
    }
}

samelight_status samelight_correction_model(const samelight_meter* meter,
                                            const samelight_panel* panel,
                                            const samelight_observer* observer,
                                            samelight_correction** correction,
                                            samelight_text** json, samelight_error* error) {
    return made_with_text(correction, json, error, [&](bool text_wanted) {
        samelight::assess::MeterModelRequest asked{
            samelight::c::meter_of(meter),
            samelight::c::listed(samelight::c::given(panel, "panel").value)};
        if (observer != nullptr) {
            asked.observer = observer->value;
        }
        const std::string subject = asked.meter.rows.observer + " with " + asked.panel.name;
        const samelight::report::MeterModelAnswer answer{
            samelight::assess::about({subject},
                                     [&] { return samelight::assess::answer_meter_model(asked); }),
            {}};
        return std::pair{answer.stored,
                         text_wanted ? samelight::report::meter_model_json(answer) : std::string()};
    });
}

void samelight_correction_facts_defaults(samelight_correction_facts* facts) {
    if (facts != nullptr) {
        *facts = {};
        facts->size = sizeof(samelight_correction_facts);
        facts->method_code = facts->verdict_code = facts->observer_id = "";
    }
}

samelight_status samelight_correction_facts_of(const samelight_correction* correction,
                                               samelight_correction_facts* facts,
                                               samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(facts, "facts");
        const samelight::Correction& own =
            samelight::c::given(correction, "correction").value.correction;
        samelight_correction_facts said;
        samelight_correction_facts_defaults(&said);
        const std::array<double, 9> matrix = own.xyz_from_meter();
        std::copy(matrix.begin(), matrix.end(), said.xyz_from_meter);
        said.method_code = code_of(own.method);
        said.verdict_code = own.verdict ? code_of(*own.verdict) : "";
        said.observer_id = own.observer.c_str();
        said.raw_channels = own.raw_channels ? 1 : 0;
        said.covariance_known = own.covariance ? 1 : 0;
        samelight::c::hand_over(said, out);
    });
}

samelight_status samelight_correction_apply(const samelight_correction* correction,
                                            const samelight_rows* meter_xyz, double* xyz,
                                            size_t xyz_stride, double* half_widths,
                                            size_t half_width_stride, int32_t* outside,
                                            samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const samelight::Correction& own =
            samelight::c::given(correction, "correction").value.correction;
        const auto rows =
            samelight::c::rows_of<3>(samelight::c::given(meter_xyz, "meter_xyz"), "meter_xyz");
        const samelight::c::RowsOut out(xyz, 3, xyz_stride, rows.size(), "xyz");
        std::optional<samelight::c::RowsOut> widths;
        if (half_widths != nullptr) {
            widths.emplace(half_widths, 3, half_width_stride, rows.size(), "half_widths");
        }
        std::vector<double> corrected;
        std::vector<double> how_sure;
        std::vector<std::int32_t> beyond;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const auto reading = samelight::assess::about({"reading " + std::to_string(i)}, [&] {
                return samelight::corrected_reading(own, rows[i]);
            });
            const auto& values = reading.xyz.values();
            corrected.insert(corrected.end(), values.begin(), values.end());
            if (widths) {
                const auto sure = half_widths_of(own, rows[i]);
                how_sure.insert(how_sure.end(), sure.begin(), sure.end());
            }
            // Of the correction's warnings there is but this one (corrected_reading()).
            beyond.push_back(reading.warnings.empty() ? 0 : 1);
        }
        out.write(corrected);
        if (widths) {
            widths->write(how_sure);
        }
        if (outside != nullptr) {
            std::copy(beyond.begin(), beyond.end(), outside);
        }
    });
}

void samelight_choice_request_defaults(samelight_choice_request* request) {
    if (request != nullptr) {
        *request = {};
        request->size = sizeof(samelight_choice_request);
        const samelight::assess::MeterChooseOptions usual;
        request->mismatch_percent = usual.mismatch_percent;
        request->limit_uv = usual.limit_uv;
    }
}

void samelight_choice_defaults(samelight_choice* choice) {
    if (choice != nullptr) {
        *choice = {};
        choice->size = sizeof(samelight_choice);
        choice->best = -1;
        choice->verdict_code = "";
    }
}

samelight_status samelight_correction_choose(const samelight_choice_request* request,
                                             samelight_choice* choice, samelight_text** json,
                                             samelight_error* error) {
    if (json != nullptr) {
        *json = nullptr;
    }
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(choice, "choice");
        const auto asked =
            asked_of(samelight::c::taken(request, samelight_choice_request_defaults, "request"));
        samelight::report::MeterChooseAnswer answer;
        static_cast<samelight::assess::MeterChooseAnswer&>(answer) =
            samelight::assess::about({asked.panels.front().name},
                                     [&] { return samelight::assess::answer_meter_choose(asked); });
        if (json != nullptr) {
            *json = new samelight_text{samelight::report::meter_choose_json(answer)};
        }
        samelight::c::hand_over(choice_of(answer.panels.front().choice), out);
    });
}

samelight_status samelight_correction_from_json(const char* name, const char* bytes, size_t length,
                                                samelight_correction** correction,
                                                samelight_error* error) {
    return samelight::c::made(correction, "correction", error, [&] {
        const std::string source = samelight::c::text_of(name, "name");
        return samelight::io::parse_correction(samelight::c::bytes_given(bytes, length), source);
    });
}

samelight_status samelight_correction_to_json(const samelight_correction* correction,
                                              samelight_text** json, samelight_error* error) {
    return samelight::c::made(json, "json", error, [&] {
        return samelight::io::correction_text(samelight::c::given(correction, "correction").value);
    });
}

void samelight_correction_destroy(samelight_correction* correction) { delete correction; }
