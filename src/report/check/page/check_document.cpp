#include "report/check/page/check_document.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/check/page/check_parts.hpp"
#include "report/document/report_words.hpp"
#include "report/proof/judged_by.hpp"
#include "report/words/command_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/check_words.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

/// Causes on the first screen; the rest stands below.
constexpr std::size_t causes_shown = 3;

std::string patches_word(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " patch" : " patches");
}

std::string gate_figures(const CheckAnswer& answer) {
    const GateAnswer& gate = answer.now.chosen.gate;
    const std::size_t count = answer.now.readings.points.size();
    return (count == 1 ? "the DE00 of the only patch read is "
                       : "the largest DE00 of " + patches_word(count) + " is ") +
           to_text(gate.largest, 2) + " (" + largest_patch(answer) + "), the gate " +
           to_text(answer.gate, 2);
}

VerdictLine check_verdict(const CheckAnswer& answer) {
    switch (answer.verdict) {
        case assess::CheckVerdict::pass:
            return {"Pass", gate_figures(answer) + ".", Mood::done};
        case assess::CheckVerdict::fail:
            return {"Fail",
                    gate_figures(answer) + "; " + std::to_string(answer.over_gate) +
                        (answer.over_gate == 1 ? " is" : " are") + " over it.",
                    Mood::act};
        case assess::CheckVerdict::cannot_tell:
            return {"Can't tell", gate_figures(answer) + ": too near for these readings.",
                    Mood::look};
        case assess::CheckVerdict::read_again:
            break;
    }
    if (answer.reason == assess::CheckReason::doubtful_patches) {
        return {"Read again",
                gate_figures(answer) + "; without readings that are in doubt it would pass.",
                Mood::look};
    }
    return {"Read again",
            gate_figures(answer) + (answer.reason == assess::CheckReason::instrument
                                        ? ", and that looks like the instrument, not the set."
                                        : ", as a correction of another set has it."),
            Mood::look};
}

/// Whether readings with the right correction are wanted before anything is set.
bool correct_first(const CheckAnswer& answer) {
    return answer.reason == assess::CheckReason::instrument ||
           answer.reason == assess::CheckReason::correction;
}

/// What to do about a cause, where readings were corrected and where not.
std::string remedy_words(const CheckAnswer& answer, const Fault& fault) {
    return fault.kind == FaultKind::instrument_off && answer.corrected
               ? "Read again with the correction for this very set, or without one."
               : fault_remedy(fault);
}

const ProvenGrey* white_level(const GreyTrack& greys) {
    return !greys.levels.empty() && greys.levels.back().signal > 0.995 && greys.levels.back().xy
               ? &greys.levels.back()
               : nullptr;
}

/// x and y off the target: as all patches tell together where the white is at fault, for one reading of white has its noise; as read where that is another one, as beside clipped white.
std::array<double, 2> white_as_told(const CheckAnswer& answer, const ProvenGrey& white) {
    for (const Fault& fault : answer.now.found.faults) {
        if (fault.kind == FaultKind::white_off) {
            const ProofPoint& read = answer.now.readings.points[white.point];
            const double off =
                std::hypot(fault.xy[0] - (*white.xy)[0], fault.xy[1] - (*white.xy)[1]);
            // A white's x, y scatter by 0.27 of what X, Y, Z do, relative: four deviations, in both.
            const double noise = 1.5 * answer.now.readings.noise.standard_deviation(read.xyz[1]) /
                                 read.xyz[1] / std::sqrt(static_cast<double>(read.count));
            return off < std::max(noise, 0.0005) ? fault.xy : *white.xy;
        }
    }
    return *white.xy;
}

KeyFigures check_figures(const CheckAnswer& answer) {
    KeyFigures figures;
    const GreyTrack& greys = answer.now.greys;
    if (const ProvenGrey* white = white_level(greys)) {
        const std::array<double, 2> xy = white_as_told(answer, *white);
        figures.figures.push_back(
            {"White", "x " + with_sign(xy[0], 4) + ", y " + with_sign(xy[1], 4),
             std::string("off the ") + (answer.white_chosen ? "chosen" : "encoding's") +
                 " white, at " + to_text(white->measured_cd_m2, 1) + " cd/m2"});
    }
    if (!greys.levels.empty() && greys.gamma && greys.intended_gamma) {
        figures.figures.push_back(
            {"Greys", "gamma " + to_text(*greys.gamma, 2) + ",",
             "meant " + to_text(*greys.intended_gamma, 2) + "; tint up to " +
                 to_text(greys.largest_duv, 4) + " in u'v'" +
                 (greys.largest_duv > 0.0 ? " (" + greys.levels[greys.at].name + ")" : "")});
    }
    if (!answer.now.chosen.groups.empty()) {
        const MeasureSummary& all = answer.now.chosen.groups.back().de00;
        std::string note = "95 % below " + to_text(all.percentile_95, 2);
        if (answer.before && answer.shared->all()) {
            const MeasureSummary& then = answer.before->chosen.groups.back().de00;
            note += "; before the work " + to_text(then.mean, 2) + " and " +
                    to_text(then.percentile_95, 2) + ", largest " + to_text(then.largest, 2);
        }
        figures.figures.push_back({"DE00", to_text(all.mean, 2) + " on average,", note});
    }
    if (answer.now.plain) {
        const MeasureSummary& plain = answer.now.plain->groups.back().de00;
        figures.figures.push_back(
            {"Plain white", "DE00 " + to_text(plain.mean, 2) + " on average,",
             "largest " + to_text(plain.largest, 2) + ": the white was moved on purpose"});
    }
    KeyFigure by = judged_by(answer.now.chosen.intended);
    if (!answer.targets.empty()) {
        by.note += "; each patch by its own target of " + answer.targets;
    }
    figures.figures.push_back(by);
    return figures;
}

std::string sure_words(const CheckAnswer& answer) {
    const GateAnswer& gate = answer.now.chosen.gate;
    const ProofNoise& noise = answer.now.readings.noise;
    std::string text = "How sure: " + gate_rule_words(gate);
    text += noise.from == ProofNoiseFrom::repeats
                ? " Noise from the repeats."
                : " Noise assumed (0.2 %): nothing was read repeatedly.";
    if (!answer.corrected) {
        text += " No correction named.";
    }
    if (answer.white_supposed) {
        text += " White wasn't read: 100 cd/m2 supposed.";
    }
    if (answer.black_supposed) {
        text += " Black wasn't read: 0 cd/m2 supposed.";
    }
    return text;
}

/// Names of the patches that the panel can't show, three at most, and how those inside are.
std::string gamut_words(const CheckAnswer& answer, const GateAnswer& inside) {
    constexpr std::size_t most = 3;
    const auto& outside = answer.now.found.outside_gamut;
    const std::size_t count = answer.now.readings.points.size() - outside.size();
    std::string text = "Outside: ";
    for (std::size_t i = 0; i < std::min(most, outside.size()); ++i) {
        text += (i > 0 ? ", " : "") + answer.now.readings.points[outside[i]].shown.name;
    }
    text += (outside.size() > most ? " and " + std::to_string(outside.size() - most) + " more"
                                   : std::string()) +
            ". Inside: " + patches_word(count) + ", largest DE00 " + to_text(inside.largest, 2) +
            ", ";
    switch (inside.verdict) {
        case GateVerdict::pass:
            return text + "which passes.";
        case GateVerdict::fail:
            return text + "which fails.";
        case GateVerdict::cannot_tell:
            break;
    }
    return text + "too near the gate to tell.";
}

void add_causes(const CheckAnswer& answer, Section& section) {
    const std::vector<Fault>& faults = answer.now.found.faults;
    if (answer.reason == assess::CheckReason::correction) {
        section.add(
            "correction", Level::essential,
            Caution{
                "correction",
                "White and primaries are off no more than by a correction of another set. Read again with "
                "the right one, or without any; what is still off then is the set's own."});
    }
    // The patches inside take a line of their own.
    const std::size_t most = answer.now.inside_gamut ? causes_shown - 1 : causes_shown;
    std::size_t shown = 0;
    for (std::size_t i = 0; i < faults.size(); ++i) {
        // What a wrong correction does, too, is to be read again before it is set.
        const bool first =
            shown < most && !(correct_first(answer) && assess::of_correction_too(faults[i].kind));
        shown += first ? 1 : 0;
        // Nor does what matters less than the instrument.
        shown = faults[i].kind == FaultKind::instrument_off ? most : shown;
        section.add("cause-" + std::to_string(i + 1), first ? Level::essential : Level::reason,
                    Caution{code_of(faults[i].kind),
                            fault_sentence(faults[i]) + " " + remedy_words(answer, faults[i])});
    }
    if (answer.now.inside_gamut) {
        section.add("gamut", Level::essential,
                    Paragraph{gamut_words(answer, *answer.now.inside_gamut)});
    }
    const bool known = !faults.empty();
    const bool bad = answer.verdict == assess::CheckVerdict::fail;
    if (bad && (!known || answer.now.found.unexplained > 0)) {
        const std::size_t left = known ? answer.now.found.unexplained : answer.over_gate;
        section.add("unexplained", Level::essential,
                    Paragraph{patches_word(left) + " of those " + (left == 1 ? "is" : "are") +
                              " off in a way that no cause known here explains: see the table."});
    }
}

std::string screen_words(const Uniformity& screen) {
    const PositionReading& dark = screen.positions[screen.luminance_at];
    const PositionReading& tinted = screen.positions[screen.duv_at];
    const bool holds = screen.largest_target_duv < chromaticity_gate;
    return "Screen: up to " + with_sign(100.0 * screen.largest_luminance, 0) + " % (" +
           dark.position + ") and " + to_text(screen.largest_duv, 4) + " in u'v' (" +
           tinted.position + ") from the centre; the white target " +
           (holds ? "holds everywhere."
                  : "is missed by " + to_text(screen.largest_target_duv, 4) + " at " +
                        screen.positions[screen.target_at].position + ".");
}

std::string mode_words(const ProofReadings& readings) {
    const std::string left = std::to_string(readings.in_other_modes);
    return "Judged is " +
           (readings.mode.empty() ? std::string("what names no mode") : "mode " + readings.mode) +
           " alone; " + left + (left == "1" ? " reading" : " readings") +
           " of other modes: --mode NAME.";
}

/// Before and now, where they don't have the same patches.
std::string compared_words(const assess::SharedPatches& shared) {
    const std::string alone = std::to_string(shared.only_now) + " are read now alone, " +
                              std::to_string(shared.only_before) + " before alone.";
    if (shared.in_both == 0) {
        return "Before and now have no patch in common, so they can't be compared: " + alone;
    }
    const MeasureSummary& then = shared.before.back().de00;
    const MeasureSummary& now = shared.now.back().de00;
    const auto figures = [](const MeasureSummary& s) {
        return to_text(s.mean, 2) + " on average, largest " + to_text(s.largest, 2);
    };
    return "Before the work, by the " + patches_word(shared.in_both) + " in both: DE00 " +
           figures(then) + "; now " + figures(now) + ". " + alone;
}

/// Readings without a target of their own.
std::string without_target_words(std::size_t left) {
    return std::to_string(left) + (left == 1 ? " reading has" : " readings have") +
           " no target of " + (left == 1 ? "its" : "their") + " own and " +
           (left == 1 ? "is" : "are") + " left out.";
}

Section check_answer_section(const CheckAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, check_verdict(answer));
    add_causes(answer, section);
    section.add("figures", Level::essential, check_figures(answer));
    if (!answer.now.screen.empty()) {
        section.add("screen", correct_first(answer) ? Level::reason : Level::essential,
                    Paragraph{screen_words(answer.now.screen.front())});
    }
    if (answer.shared && !answer.shared->all()) {
        section.add("compared", Level::essential, Paragraph{compared_words(*answer.shared)});
    }
    if (answer.now.readings.in_other_modes > 0) {
        section.add("mode", Level::essential, Paragraph{mode_words(answer.now.readings)});
    }
    if (answer.now.without_target > 0) {
        section.add("targets", Level::essential,
                    Paragraph{without_target_words(answer.now.without_target)});
    }
    section.add("how-sure", Level::essential, Paragraph{sure_words(answer)});
    std::size_t number = 0;
    for (const Warning& warning : answer.warnings) {
        if (warning.code != "negative_noise") {
            section.add("caution-" + std::to_string(++number), Level::essential,
                        Caution{warning.code, command_sentence(warning)});
        }
    }
    return section;
}

Section check_groups_section(const CheckAnswer& answer) {
    Section section{"groups", "By group"};
    section.heading_level = Level::reason;
    section.add("table", Level::reason, group_table(answer));
    if (answer.before && answer.shared->in_both > 0) {
        section.add("before", Level::reason, before_table(answer));
    }
    section.add("chart", Level::reason, group_chart(answer));
    return section;
}

std::string check_rests_on(const CheckAnswer& answer) {
    const ProofReadings& readings = answer.now.readings;
    std::size_t count = 0;
    for (const ProofPoint& point : readings.points) {
        count += point.count;
    }
    std::string text =
        "Rests on " + std::to_string(count) + " readings of " +
        patches_word(readings.points.size()) +
        (readings.window_pct ? " in a window of " + to_text(*readings.window_pct, 1) + " %"
                             : std::string()) +
        (readings.mode.empty() ? "" : ", picture mode " + readings.mode) + ".";
    const GateAnswer& gate = answer.now.chosen.gate;
    text += " Of the largest DE00's uncertainty the noise makes " + to_text(gate.from_noise, 2) +
            ", the correction " + to_text(gate.from_correction, 2) + ". " + gate_rule_words(gate) +
            " Noise adds most to the largest of many: without that it is " +
            to_text(gate.estimate, 2) + ". What was read within the gate fails nothing (JCGM 106).";
    return text;
}

}  // namespace

Document check_document(const CheckAnswer& answer) {
    Document document{"Whether the display shows what it is meant to", {}};
    document.sections.push_back(check_answer_section(answer));
    document.sections.push_back(check_groups_section(answer));
    if (answer.now.greys.levels.size() > 1) {
        Section greys{"greys", "Greys"};
        greys.heading_level = Level::reason;
        greys.add("table", Level::reason, grey_table(answer));
        if (std::any_of(answer.now.greys.levels.begin(), answer.now.greys.levels.end(),
                        [](const ProvenGrey& l) { return l.gamma && l.intended_gamma; })) {
            greys.add("gamma", Level::reason, gamma_chart(answer));
        }
        document.sections.push_back(std::move(greys));
    }
    if (!answer.now.screen.empty()) {
        Section screen{"screen", "Across the screen"};
        screen.heading_level = Level::reason;
        for (std::size_t i = 0; i < answer.now.screen.size(); ++i) {
            screen.add("table-" + std::to_string(i + 1), Level::reason,
                       screen_table(answer.now.screen[i]));
        }
        document.sections.push_back(std::move(screen));
    }
    Section patches{"patches", "Patch by patch"};
    patches.heading_level = Level::detail;
    patches.add("gamut", Level::reason, gamut_chart(answer));
    patches.add("table", Level::detail, patch_table(answer));
    document.sections.push_back(std::move(patches));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("rests-on", Level::reason, Paragraph{check_rests_on(answer)});
    if (!answer.understood.empty()) {
        std::string text = "Read so:";
        for (const std::string& sentence : answer.understood) {
            text += " " + sentence;
        }
        foundation.add("read-so", Level::detail, Paragraph{text});
    }
    document.sections.push_back(std::move(foundation));
    return document;
}

std::string check_page(const CheckAnswer& answer, const TextPage& page) {
    return text_of(check_document(answer), page);
}

std::string check_report(const CheckAnswer& answer, const ReportWords& words) {
    return page_of(
        words.audience == Audience::client ? check_client_document(answer) : check_document(answer),
        words);
}

}  // namespace samelight::report
