#include "samelight/report/check/check_answer.hpp"
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/proof/readings_doubts.hpp"
#include "report/targets/made_for.hpp"
#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

/// A white that gives no light is no white to judge against.
MeasuredEnds ends_of(const ReadingsOpened& opened) {
    MeasuredEnds ends = measured_ends(opened.readings);
    if (ends.white_cd_m2 && !(*ends.white_cd_m2 > 0.0)) {
        throw Error(ErrorKind::input, opened.source,
                    "a full white of " + to_text(*ends.white_cd_m2) + " cd/m2", "one with light");
    }
    return ends;
}

/// Readings from before the work that are of a later day.
void warn_of_later(const std::vector<PatchReading>& now, const ReadingsOpened& before,
                   std::vector<Warning>& warnings) {
    const auto after = first_day(now);
    const auto earlier = first_day(before.readings);
    if (after && earlier && *earlier > *after) {
        warnings.push_back(Warning{"before_is_later",
                                   {{"file", io::harmless(before.source)},
                                    {"before", io::date_text(*earlier)},
                                    {"now", io::date_text(*after)}}});
    }
}

/// Targets of single patches, and how they are called.
struct TargetsOpened {
    ProofTargets targets;
    std::string called;
    TargetsMade made;
};

/// Without what they were made for, which the first screen says anyway.
std::string kind_of_targets(const std::string& said) {
    return io::harmless(said.substr(0, said.find(';')));
}

std::optional<TargetsOpened> open_targets(const CheckRequest& request, const Quantisation& codes,
                                          std::vector<std::string>& understood,
                                          std::vector<Warning>& warnings) {
    if (request.targets.empty()) {
        return {};
    }
    if (!request.intent.white.empty()) {
        throw Error(ErrorKind::input, "--white", "a white beside --targets",
                    "none: the targets have theirs");
    }
    io::PatchReadingsFile file = io::read_patch_readings_csv(
        request.targets, {codes.bits(), codes.range(), !request.range.empty()});
    say_how_read(file.source, file.understood, understood);
    require_columns_in_order({file.source, file.rows}, warnings);
    warnings.insert(warnings.end(), file.warnings.begin(), file.warnings.end());
    const std::string source = io::harmless(file.source);
    constexpr std::string_view mark = "targets: ";
    const bool kind_said = file.remark.starts_with(mark);
    return TargetsOpened{
        {file.rows, SignalNames({}, codes), {source}},
        source + (kind_said ? " (" + kind_of_targets(file.remark.substr(mark.size())) + ")" : ""),
        kind_said ? made_in_remark(file.remark) : TargetsMade{}};
}

/// The display about the white of the targets.
void take_white(const ProofTargets& targets, IntentOpened& intent) {
    const auto& white = targets.white();
    try {
        intent.chosen = intent.plain.with_white(
            chromaticity(Tristimulus<Cie1931_2deg>(white[0], white[1], white[2])));
    } catch (const Error& error) {
        throw Error(ErrorKind::input, "--targets", error.found(),
                    "targets whose white the primaries hold (--encoding says whose)");
    }
    intent.white_chosen = true;
}

}  // namespace

CheckAnswer answer_check(const CheckRequest& request) {
    if (!(request.gate > 0.0 && request.gate <= 100.0)) {
        throw Error(ErrorKind::input, "--gate", to_text(request.gate), "above 0, up to 100");
    }
    const Quantisation codes = codes_typed(request.bits, request.range);
    ReadingsTyped typed = request.readings;
    typed.unsaid = {codes.bits(), codes.range(), !request.range.empty()};
    ReadingsOpened now = open_patch_readings(typed);
    std::vector<std::string> understood;
    say_how_read(now.source, now.understood, understood);
    std::vector<Warning> warnings = now.warnings;
    std::optional<TargetsOpened> targets = open_targets(request, codes, understood, warnings);
    const MeasuredEnds ends = ends_of(now);
    IntentTyped meant = request.intent;
    if (targets) {
        take_made(targets->made, meant);
    }
    IntentOpened intent = open_intent(meant, ends);
    if (targets) {
        take_white(targets->targets, intent);
    }
    assess::CheckRequest asked{{now.source, std::move(now.readings), intent.chosen, intent.plain},
                               {}};
    if (!request.before.empty()) {
        typed.file = request.before;
        ReadingsOpened before = open_patch_readings(typed);
        IntentOpened then = open_intent(meant, ends_of(before));
        if (targets) {
            take_white(targets->targets, then);
        }
        warn_of_later(asked.now.readings, before, warnings);
        // What names no file is of the readings now.
        std::copy_if(before.warnings.begin(), before.warnings.end(), std::back_inserter(warnings),
                     [](const Warning& w) { return w.find<std::string>("file") != nullptr; });
        asked.before.emplace(assess::CheckedReadings{before.source, std::move(before.readings),
                                                     std::move(then.chosen),
                                                     std::move(then.plain)});
    }
    asked.white_chosen = intent.white_chosen;
    asked.white_level =
        request.intent.white_cd_m2 ? WhiteLevel::asked_for : WhiteLevel::as_measured;
    asked.gate.gate = request.gate;
    asked.quantisation = codes;
    asked.threads = request.threads;
    if (targets) {
        asked.targets = std::move(targets->targets);
    }
    const bool corrected = now.correction.has_value();
    if (corrected) {
        asked.gate.correction = std::move(now.correction->correction);
    }
    understood.insert(understood.end(), intent.understood.begin(), intent.understood.end());
    warnings.insert(warnings.begin(), intent.warnings.begin(), intent.warnings.end());
    return {assess::about({request.readings.file}, [&] { return assess::answer_check(asked); }),
            intent.white_chosen,
            corrected,
            targets ? targets->called : "",
            !request.intent.white_cd_m2 && !ends.white_cd_m2,
            !request.intent.black_cd_m2 && !ends.black_cd_m2,
            std::move(understood),
            std::move(warnings)};
}

}  // namespace samelight::report
