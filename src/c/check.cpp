#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/c/samelight.h"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace {

using samelight::Error;
using samelight::ErrorKind;
using samelight::ErrorPlace;
using samelight::PatchReading;

constexpr double not_given = std::numeric_limits<double>::quiet_NaN();

ErrorPlace reading_at(std::size_t index) { return {"reading " + std::to_string(index)}; }

void require_finite(const std::array<double, 3>& xyz, std::size_t index) {
    // Brighter than this is nothing that an instrument was ever before.
    constexpr double most_cd_m2 = 1e9;
    for (const double value : xyz) {
        if (!(std::abs(value) <= most_cd_m2)) {
            throw Error(ErrorKind::domain, reading_at(index), samelight::to_text(value),
                        "X, Y, Z in cd/m2");
        }
    }
}

std::array<double, 3> signal_of(const std::array<double, 3>& signal, std::size_t index) {
    for (const double value : signal) {
        if (!(value >= 0.0) || !(value <= 1.0)) {
            throw Error(ErrorKind::domain, reading_at(index),
                        "a signal of " + samelight::to_text(value), "0 to 1");
        }
    }
    return signal;
}

/// What was shown: a name, a signal or both.
void take_shown(const samelight_patch_readings& own,
                const std::vector<std::array<double, 3>>& signals, std::size_t index,
                PatchReading& reading) {
    if (own.patches != nullptr && own.patches[index] != nullptr) {
        reading.patch = samelight::c::text_of(own.patches[index], "patch");
    }
    if (!signals.empty()) {
        reading.signal = signal_of(signals[index], index);
    }
    if (reading.patch.empty() && !reading.signal) {
        throw Error(ErrorKind::input, reading_at(index), "neither a name nor a signal",
                    "one of the two at least");
    }
}

struct NamedReadings {
    std::string source;
    std::vector<PatchReading> readings;
};

NamedReadings readings_of(const samelight_patch_readings* readings) {
    const auto own = samelight::c::taken(readings, samelight_patch_readings_defaults, "readings");
    NamedReadings result{samelight::c::text_of(own.name, "readings' name"), {}};
    const auto xyz = samelight::c::rows_of<3>(own.xyz, "xyz");
    std::vector<std::array<double, 3>> signals;
    if (own.signals.values != nullptr) {
        signals = samelight::c::rows_of<3>(own.signals, "signals");
    }
    if (xyz.size() != own.count || (!signals.empty() && signals.size() != own.count)) {
        throw Error(ErrorKind::shape, ErrorPlace{"readings"},
                    std::to_string(own.count) + " readings, " + std::to_string(xyz.size()) +
                        " rows of X, Y, Z, " + std::to_string(signals.size()) + " of signals",
                    "as many of each");
    }
    for (std::size_t i = 0; i < own.count; ++i) {
        PatchReading reading;
        reading.xyz = xyz[i];
        require_finite(reading.xyz, i);
        take_shown(own, signals, i, reading);
        result.readings.push_back(std::move(reading));
    }
    return result;
}

void correct(const samelight::Correction& correction, NamedReadings& readings,
             std::vector<samelight::Warning>& warnings) {
    if (correction.observer != samelight::Cie1931_2deg::id) {
        throw Error(ErrorKind::input, ErrorPlace{"correction"},
                    "one whose values are of the observer " + correction.observer,
                    "one for " + std::string(samelight::Cie1931_2deg::id));
    }
    for (PatchReading& reading : readings.readings) {
        const samelight::Corrected corrected =
            samelight::corrected_reading(correction, reading.xyz);
        reading.xyz = corrected.xyz.values();
        if (warnings.empty() && !corrected.warnings.empty()) {
            warnings.push_back(corrected.warnings.front());
        }
    }
}

/// The encoding's id. Nothing else is let through: other names would be those of files.
std::string encoding_of(const char* encoding) {
    const std::string id = samelight::c::text_or(encoding, "encoding", "bt709");
    if (id.find_first_of("./\\") != std::string::npos) {
        throw Error(ErrorKind::input, ErrorPlace{"encoding"}, "\"" + id + "\"",
                    "bt709, p3-d65, p3-cinema, bt2020, smpte-c, ebu-3213 or ntsc-1953");
    }
    return id;
}

std::optional<double> luminance_of(double value, const char* name) {
    if (std::isnan(value)) {
        return {};
    }
    if (!std::isfinite(value)) {
        throw Error(ErrorKind::domain, ErrorPlace{name}, samelight::to_text(value),
                    "cd/m2, or NaN for as measured");
    }
    return value;
}

/// What the display is meant to show, with its ends as the readings have them where nothing is said.
samelight::report::IntentOpened intent_of(const samelight_check_options& own,
                                          const NamedReadings& readings) {
    const samelight::MeasuredEnds ends = samelight::measured_ends(readings.readings);
    if (ends.white_cd_m2 && !(*ends.white_cd_m2 > 0.0)) {
        throw Error(ErrorKind::input, ErrorPlace{readings.source},
                    "a full white of " + samelight::to_text(*ends.white_cd_m2) + " cd/m2",
                    "one with light");
    }
    samelight::report::IntentTyped typed;
    typed.encoding = encoding_of(own.encoding);
    typed.curve = samelight::c::text_or(own.curve, "curve", "bt1886");
    typed.white_cd_m2 = luminance_of(own.white_cd_m2, "white_cd_m2");
    typed.black_cd_m2 = luminance_of(own.black_cd_m2, "black_cd_m2");
    samelight::report::IntentOpened intent = [&] {
        try {
            return samelight::report::open_intent(typed, ends);
        } catch (const Error& error) {
            // Options of the command begin with two dashes there.
            const std::string place = error.place().name;
            const std::size_t first = place.find_first_not_of('-');
            throw Error(error.kind(),
                        ErrorPlace{first == std::string::npos ? "intent" : place.substr(first)},
                        error.found(), error.wanted());
        }
    }();
    if (std::isnan(own.white_x) != std::isnan(own.white_y)) {
        throw Error(ErrorKind::domain, ErrorPlace{"white_x, white_y"}, "one of x and y alone",
                    "both, or none");
    }
    if (!std::isnan(own.white_x)) {
        intent.chosen = samelight::assess::about({"white_x, white_y"}, [&] {
            return intent.plain.with_white(
                samelight::Chromaticity<samelight::Cie1931_2deg>(own.white_x, own.white_y));
        });
        intent.white_chosen = true;
    }
    return intent;
}

samelight::Quantisation codes_of(const samelight_check_options& own) {
    if (own.bits < 8 || own.bits > 16) {
        throw Error(ErrorKind::input, ErrorPlace{"bits"}, std::to_string(own.bits), "8 to 16");
    }
    return {own.bits, own.limited_range != 0 ? samelight::SignalRange::limited
                                             : samelight::SignalRange::full};
}

samelight::report::CheckAnswer answer_of(const samelight_patch_readings* readings,
                                         const samelight_check_options* options) {
    const auto own =
        samelight::c::taken_or_defaults(options, samelight_check_options_defaults, "options");
    if (!(own.gate_de00 > 0.0) || !(own.gate_de00 <= 100.0)) {
        throw Error(ErrorKind::input, ErrorPlace{"gate_de00"}, samelight::to_text(own.gate_de00),
                    "above 0, up to 100");
    }
    const samelight::Quantisation codes = codes_of(own);
    NamedReadings now = readings_of(readings);
    std::optional<NamedReadings> before;
    if (own.before != nullptr) {
        before = readings_of(own.before);
    }
    std::vector<samelight::Warning> warnings;
    if (own.correction != nullptr) {
        correct(own.correction->value.correction, now, warnings);
        std::vector<samelight::Warning> of_before;
        if (before) {
            correct(own.correction->value.correction, *before, of_before);
        }
    }
    samelight::report::IntentOpened intent = intent_of(own, now);
    const samelight::MeasuredEnds ends = samelight::measured_ends(now.readings);
    samelight::assess::CheckRequest asked{
        {now.source, std::move(now.readings), intent.chosen, intent.plain}, {}};
    if (before) {
        samelight::report::IntentOpened then = intent_of(own, *before);
        asked.before.emplace(
            samelight::assess::CheckedReadings{before->source, std::move(before->readings),
                                               std::move(then.chosen), std::move(then.plain)});
    }
    asked.white_chosen = intent.white_chosen;
    asked.white_level = std::isnan(own.white_cd_m2) ? samelight::WhiteLevel::as_measured
                                                    : samelight::WhiteLevel::asked_for;
    asked.gate.gate = own.gate_de00;
    asked.quantisation = codes;
    asked.threads = own.threads;
    if (own.correction != nullptr) {
        asked.gate.correction = own.correction->value.correction;
    }
    samelight::report::CheckAnswer answer{samelight::assess::about(
        {now.source}, [&] { return samelight::assess::answer_check(asked); })};
    answer.white_chosen = intent.white_chosen;
    answer.corrected = own.correction != nullptr;
    answer.white_supposed = std::isnan(own.white_cd_m2) && !ends.white_cd_m2;
    answer.black_supposed = std::isnan(own.black_cd_m2) && !ends.black_cd_m2;
    answer.understood = std::move(intent.understood);
    answer.warnings = std::move(warnings);
    return answer;
}

}  // namespace

void samelight_patch_readings_defaults(samelight_patch_readings* readings) {
    if (readings != nullptr) {
        *readings = {};
        readings->size = sizeof(samelight_patch_readings);
    }
}

void samelight_check_options_defaults(samelight_check_options* options) {
    if (options != nullptr) {
        *options = {};
        options->size = sizeof(samelight_check_options);
        options->white_x = options->white_y = not_given;
        options->white_cd_m2 = options->black_cd_m2 = not_given;
        options->gate_de00 = 3.0;
        options->bits = 8;
        options->threads = 1;
    }
}

samelight_status samelight_check(const samelight_patch_readings* readings,
                                 const samelight_check_options* options,
                                 samelight_check_answer** answer, samelight_error* error) {
    return samelight::c::made(answer, "answer", error,
                              [&] { return answer_of(readings, options); });
}

void samelight_check_summary_defaults(samelight_check_summary* summary) {
    if (summary != nullptr) {
        *summary = {};
        summary->size = sizeof(samelight_check_summary);
        summary->verdict_code = summary->reason_code = summary->largest_patch = "";
    }
}

samelight_status samelight_check_answer_summary(const samelight_check_answer* answer,
                                                samelight_check_summary* summary,
                                                samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(summary, "summary");
        const auto& own = samelight::c::given(answer, "answer").value;
        const samelight::GateAnswer& gate = own.now.chosen.gate;
        samelight::c::hand_over(
            samelight_check_summary{sizeof(samelight_check_summary), code_of(own.verdict),
                                    code_of(own.reason), gate.probability, gate.largest,
                                    gate.standard_uncertainty,
                                    own.now.readings.points.at(gate.at).shown.name.c_str(),
                                    own.now.readings.points.size(), own.over_gate,
                                    own.now.found.faults.size(), own.now.found.unexplained},
            out);
    });
}

void samelight_check_cause_defaults(samelight_check_cause* cause) {
    if (cause != nullptr) {
        *cause = {};
        cause->size = sizeof(samelight_check_cause);
        cause->code = cause->channel_code = cause->patch = cause->other = "";
    }
}

samelight_status samelight_check_answer_cause(const samelight_check_answer* answer, size_t index,
                                              samelight_check_cause* cause,
                                              samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(cause, "cause");
        const auto& faults = samelight::c::given(answer, "answer").value.now.found.faults;
        if (index >= faults.size()) {
            throw Error(ErrorKind::shape, ErrorPlace{"index"}, std::to_string(index),
                        "one below " + std::to_string(faults.size()));
        }
        const samelight::Fault& fault = faults[index];
        samelight::c::hand_over(samelight_check_cause{sizeof(samelight_check_cause),
                                                      code_of(fault.kind),
                                                      code_of(fault.channel),
                                                      fault.measured,
                                                      fault.intended,
                                                      fault.strength,
                                                      fault.patches,
                                                      fault.patch.c_str(),
                                                      fault.other.c_str(),
                                                      {fault.xy[0], fault.xy[1]}},
                                out);
    });
}

samelight_status samelight_check_answer_json(const samelight_check_answer* answer,
                                             samelight_text** json, samelight_error* error) {
    return samelight::c::made(json, "json", error, [&] {
        return samelight::report::check_json(samelight::c::given(answer, "answer").value);
    });
}

void samelight_check_answer_destroy(samelight_check_answer* answer) { delete answer; }
