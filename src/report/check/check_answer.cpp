#include "samelight/report/check/check_answer.hpp"
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <cmath>
#include <string>
#include <utility>

#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

Quantisation check_codes(const CheckRequest& request) {
    if (request.range != "full" && request.range != "limited") {
        throw Error(ErrorKind::input, "--range", "\"" + io::harmless(request.range) + "\"",
                    "full or limited");
    }
    if (request.bits < 8 || request.bits > 16) {
        throw Error(ErrorKind::input, "--bits", to_text(request.bits), "8 to 16");
    }
    if (!(request.gate > 0.0 && request.gate <= 100.0)) {
        throw Error(ErrorKind::input, "--gate", to_text(request.gate), "above 0, up to 100");
    }
    return {request.bits, request.range == "full" ? SignalRange::full : SignalRange::limited};
}

/// A white that gives no light is no white to judge against.
MeasuredEnds ends_of(const ReadingsOpened& opened) {
    MeasuredEnds ends = measured_ends(opened.readings);
    if (ends.white_cd_m2 && !(*ends.white_cd_m2 > 0.0)) {
        throw Error(ErrorKind::input, opened.source,
                    "a full white of " + to_text(*ends.white_cd_m2) + " cd/m2", "one with light");
    }
    return ends;
}

}  // namespace

CheckAnswer answer_check(const CheckRequest& request) {
    const Quantisation codes = check_codes(request);
    ReadingsOpened now = open_patch_readings(request.readings);
    const MeasuredEnds ends = ends_of(now);
    IntentOpened intent = open_intent(request.intent, ends);
    assess::CheckRequest asked{{now.source, std::move(now.readings), intent.chosen, intent.plain},
                               {}};
    if (!request.before.empty()) {
        ReadingsOpened before = open_patch_readings({request.before, request.readings.correction});
        IntentOpened then = open_intent(request.intent, ends_of(before));
        asked.before.emplace(assess::CheckedReadings{before.source, std::move(before.readings),
                                                     std::move(then.chosen),
                                                     std::move(then.plain)});
    }
    asked.white_chosen = intent.white_chosen;
    asked.white_level =
        request.intent.white_cd_m2 ? WhiteLevel::asked_for : WhiteLevel::as_measured;
    asked.gate.gate = request.gate;
    asked.quantisation = codes;
    const bool corrected = now.correction.has_value();
    if (corrected) {
        asked.gate.correction = std::move(now.correction->correction);
    }
    std::vector<std::string> understood;
    say_how_read(now.source, now.understood, understood);
    understood.insert(understood.end(), intent.understood.begin(), intent.understood.end());
    return {assess::about({request.readings.file}, [&] { return assess::answer_check(asked); }),
            intent.white_chosen,
            corrected,
            !request.intent.white_cd_m2 && !ends.white_cd_m2,
            !request.intent.black_cd_m2 && !ends.black_cd_m2,
            std::move(understood),
            std::move(now.warnings)};
}

}  // namespace samelight::report
