#include "samelight/report/check/gradient_answer.hpp"
#include "samelight/assess/check/gradient.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/io/adjustment_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

void check_gradient(const GradientRequest& request) {
    if (request.ramp.empty() && !request.before.empty()) {
        throw Error(ErrorKind::input, "--before", "a ramp before without one after",
                    "RAMP, the same ramp with the adjustment");
    }
    if (request.ramp.empty() && request.adjustment.empty()) {
        throw Error(ErrorKind::input, "RAMP", "neither a ramp nor --adjustment",
                    "a file of a measured ramp, an adjustment, or both");
    }
    if (request.adjustment.empty() && !request.readings.empty()) {
        throw Error(ErrorKind::input, "--readings", "readings without --adjustment",
                    "the adjustment whose gain is to be weighed");
    }
    if (request.bits < 8 || request.bits > 12) {
        throw Error(ErrorKind::input, "--bits", to_text(request.bits), "8 to 12");
    }
    if (!(request.gate > 0.0 && request.gate <= 100.0)) {
        throw Error(ErrorKind::input, "--gate", to_text(request.gate), "above 0, up to 100");
    }
}

std::size_t choice_typed(const std::string& typed, const char* option, const std::string& first,
                         const std::string& second) {
    if (typed != first && typed != second) {
        throw Error(ErrorKind::input, option, "\"" + io::harmless(typed) + "\"",
                    first + " or " + second);
    }
    return typed == first ? 0 : 1;
}

/// Gives each reading without a signal that of its name, as check understands names.
void take_signals_by_name(const SignalNames& names, std::vector<PatchReading>& readings) {
    for (PatchReading& reading : readings) {
        if (!reading.signal) {
            if (const auto shown = names.shown(reading)) {
                reading.signal = shown->signal;
            }
        }
    }
}

/// Readings as ramps; what is wrong with them is said of the file.
std::optional<MeasuredRamps> ramps_typed(const std::string& file, const GradientRequest& request,
                                         GradientAnswer& answer, MeasuredEnds& ends) {
    const std::string& correction = request.correction;
    const Quantisation codes(request.bits, SignalRange::full);
    if (file.empty()) {
        return {};
    }
    ReadingsOpened opened = open_patch_readings({file, correction, {}, PictureWindows::one});
    say_how_read(file, opened.understood, answer.understood);
    std::move(opened.warnings.begin(), opened.warnings.end(), std::back_inserter(answer.warnings));
    take_signals_by_name(SignalNames({}, codes), opened.readings);
    const MeasuredEnds own = measured_ends(opened.readings);
    ends.white_cd_m2 = ends.white_cd_m2 ? ends.white_cd_m2 : own.white_cd_m2;
    ends.black_cd_m2 = ends.black_cd_m2 ? ends.black_cd_m2 : own.black_cd_m2;
    try {
        return measured_ramps(opened.readings);
    } catch (const Error& error) {
        throw Error(error.kind(), ErrorPlace{io::harmless(file), error.place().line, 0},
                    error.found(), error.wanted());
    }
}

/// Patches that have their signals; each is to be what the chosen display makes of them.
std::vector<ProvedColour> proved_colours(const std::vector<PatchReading>& readings,
                                         const IntendedDisplay& chosen, const std::string& file) {
    std::vector<ProvedColour> colours;
    for (const PatchReading& reading : readings) {
        const bool usable =
            reading.signal && std::all_of(reading.signal->begin(), reading.signal->end(),
                                          [](double s) { return s >= 0.0 && s <= 1.0; });
        // Near black CIEDE2000 is the instrument's noise: greys of a thousandth of white are left to other tools.
        if (!usable || chosen.xyz(*reading.signal)[1] < 1e-3 * chosen.white()[1]) {
            continue;
        }
        const std::string name =
            reading.patch.empty() ? "line " + std::to_string(reading.line) : reading.patch;
        colours.push_back({name, *reading.signal, reading.xyz, chosen.xyz(*reading.signal)});
    }
    if (colours.empty()) {
        throw Error(ErrorKind::input, io::harmless(file), "no patch with its signals",
                    "names of the proof's list, or r, g, b or level_pct beside the readings");
    }
    return colours;
}

}  // namespace

GradientAnswer answer_gradient(const GradientRequest& request) {
    check_gradient(request);
    const auto between = static_cast<TableReading>(
        1 - choice_typed(request.between, "--between", "tetrahedral", "trilinear"));
    const auto when = static_cast<ReadWhen>(
        choice_typed(request.readings_taken, "--readings-taken", "without", "with"));
    GradientAnswer answer;
    answer.adjustment_file = request.adjustment;
    answer.ramp_file = request.ramp;
    MeasuredEnds ends;
    std::optional<Adjustment> adjustment;
    if (!request.adjustment.empty()) {
        io::AdjustmentFile file = io::read_adjustment_csv(request.adjustment, between);
        say_how_read(request.adjustment, file.understood, answer.understood);
        adjustment = std::move(file.adjustment);
    }
    std::optional<ReadingsOpened> proof;
    if (!request.readings.empty()) {
        proof =
            open_patch_readings({request.readings, request.correction, {}, PictureWindows::one});
        say_how_read(request.readings, proof->understood, answer.understood);
        answer.warnings = proof->warnings;
        ends = measured_ends(proof->readings);
    }
    std::optional<MeasuredRamps> before = ramps_typed(request.before, request, answer, ends);
    std::optional<MeasuredRamps> ramp = ramps_typed(request.ramp, request, answer, ends);
    IntentOpened intent = open_intent(request.intent, ends);
    std::move(intent.understood.begin(), intent.understood.end(),
              std::back_inserter(answer.understood));
    std::move(intent.warnings.begin(), intent.warnings.end(), std::back_inserter(answer.warnings));
    assess::GradientRequest asked{std::move(intent.chosen), std::move(adjustment), request.bits,
                                  std::move(ramp), std::move(before)};
    asked.gate = request.gate;
    asked.threads = request.threads;
    asked.colours_read = when;
    if (proof) {
        const Quantisation codes(request.bits, SignalRange::full);
        take_signals_by_name({proof_patches(intent.plain, codes), codes}, proof->readings);
        asked.colours = proved_colours(proof->readings, asked.intended, request.readings);
    }
    static_cast<assess::GradientAnswer&>(answer) =
        assess::about({request.ramp.empty() ? request.adjustment : request.ramp},
                      [&asked] { return assess::answer_gradient(asked); });
    return answer;
}

}  // namespace samelight::report
