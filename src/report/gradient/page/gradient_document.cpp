#include "report/gradient/page/gradient_document.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "report/document/report_words.hpp"
#include "report/gradient/page/gradient_words.hpp"
#include "report/meter/page/meter_words.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

using assess::AdjustmentFindings;

const MeasuredStep& worst_measured(const GradientAnswer& answer) {
    const MeasuredFindings& ramp = answer.measured->ramps[answer.measured->worst];
    return ramp.steps[ramp.worst];
}

std::string percent_words(double share) { return to_text(100.0 * share, 0) + " %"; }

/// Signals in per cent, which any depth of codes has in common.
std::string signal_words(const std::array<double, 3>& s) {
    const auto pct = [](double v) { return to_text(100.0 * v, 1); };
    return s[0] == s[1] && s[1] == s[2]
               ? pct(s[0]) + " %"
               : "R " + pct(s[0]) + " G " + pct(s[1]) + " B " + pct(s[2]) + " %";
}

VerdictLine worked_out_verdict(const AdjustmentFindings& found, int bits) {
    const RampFindings& ramp = found.ramps[found.worst];
    const RampStep& step = ramp.worst;
    const std::string codes = " at " + std::to_string(bits) + " bits";
    if (!step.made) {
        return {"It doesn't show",
                "the adjustment makes no visible step" + codes + " (it adds at most " +
                    to_text(std::max(0.0, step.excess), 1) + " of a step that is just seen).",
                Mood::done};
    }
    const auto gained = step.gained();
    const bool none = gained[0] <= 1.0;
    const bool tint = ramp.kind == RampKind::grey && gained[1] == step.after.colour;
    return {"It shows",
            "the adjustment makes a jump of " + to_text(gained[1], 1) + " visible steps" +
                (tint ? " of tint" : "") + codes +
                (none ? "; without it none is seen there (" + to_text(gained[0], 1) + ")."
                      : "; without it that step is " + to_text(gained[0], 1) + "."),
            Mood::stop};
}

VerdictLine measured_verdict(const GradientAnswer& answer) {
    const MeasuredStep& step = worst_measured(answer);
    const std::string against =
        answer.measured->before_measured ? " more than before" : " more than its neighbours";
    const std::string figure =
        to_text(step.jump, 1) + " +/- " + to_text(step.expanded, 1) + " visible steps";
    switch (answer.verdict) {
        case StepVerdict::shows:
            return {"It shows",
                    "one step of the measured ramp jumps by " + figure + against +
                        (answer.measured->before_measured ? ": the adjustment made it." : "."),
                    Mood::stop};
        case StepVerdict::does_not_show:
            return {"It doesn't show",
                    "no step of the measured ramp jumps visibly" + against + " (at most " + figure +
                        ").",
                    Mood::done};
        case StepVerdict::cannot_tell:
            break;
    }
    return {"Can't tell", "the largest jump is " + figure + against + ".", Mood::look};
}

std::string worked_out_place(const AdjustmentFindings& found, int bits) {
    const RampFindings& ramp = found.ramps[found.worst];
    const RampStep& step = ramp.worst;
    return ramp_words(ramp.kind, ramp.hue_deg, ramp.saturation_pct) + ", " + codes_words(step.in) +
           " of " + std::to_string((1 << bits) - 1) + "; " + light_words(step.xyz);
}

std::string measured_place(const GradientAnswer& answer) {
    const MeasuredStep& step = worst_measured(answer);
    return "from " + signal_words(step.from.signal) + " to " + signal_words(step.to.signal) +
           "; read as " + light_words(step.from.xyz);
}

bool equal_shares(const TradePoint& point) {
    return std::all_of(point.shares.begin(), point.shares.end(),
                       [&point](double share) { return share == point.shares.front(); });
}

std::string share_words(const TradePoint& point, const AdjustmentFindings& found) {
    if (equal_shares(point)) {
        const double share = point.shares.front();
        return share <= 0.0   ? "Leave the adjustment out"
               : share >= 1.0 ? "Keep the adjustment as it is"
                              : "Take the whole adjustment back to " + percent_words(share);
    }
    constexpr std::size_t most = 4;
    std::string words;
    std::size_t named = 0;
    std::size_t more = 0;
    for (std::size_t k = 0; k < point.shares.size(); ++k) {
        if (point.shares[k] >= 1.0) {
            continue;
        }
        if (named == most) {
            ++more;
            continue;
        }
        ++named;
        words += words.empty() ? "Take back " : ", ";
        if (k < found.adjustment.controls().size()) {
            const AdjustmentMove& move = found.adjustment.controls()[k];
            words += control_words(move) + " to " +
                     amount_words(move.kind, point.shares[k] * move.amount);
        } else {
            words += "the table to " + percent_words(point.shares[k]);
        }
    }
    return words + (more > 0 ? " and " + std::to_string(more) + " more (--details)" : "");
}

std::string gate_words(const TradePoint& point, const GradientAnswer& answer) {
    if (!point.worst_de00) {
        return "";
    }
    return "the worst colour is then DE00 " + to_text(*point.worst_de00, 2) + " (gate " +
           to_text(answer.gate, 1) + ", " + answer.colours[point.worst_colour].name + ")";
}

std::string left_words(const TradePoint& point) {
    return point.step.step.made
               ? "the largest jump is still " + to_text(point.step.step.gained()[1], 1) + " steps"
               : "no step is made";
}

std::string what_to_do(const GradientAnswer& answer) {
    const AdjustmentFindings& found = *answer.adjustment;
    const TradeOff& trade = found.trade;
    const TradePoint& whole = trade.curve.back();
    if (answer.colours.empty()) {
        return (found.shows() ? share_words(trade.free, found) + ": up to there " +
                                    left_words(trade.free) + ". "
                              : "") +
               "What that costs in accuracy isn't known: name the patches read, --readings.";
    }
    if (!found.shows()) {
        const bool kept = *whole.worst_de00 <= answer.gate;
        return kept ? "Leave it: " + gate_words(whole, answer) + "."
                    : "It is smooth, but " + gate_words(whole, answer) + ": adjust again.";
    }
    const TradePoint* best = trade.best();
    if (best == nullptr) {
        return "No part of this adjustment keeps the gate: with the whole of it " +
               gate_words(whole, answer) + ". Adjust otherwise.";
    }
    const std::string words = share_words(*best, found) + ": " + gate_words(*best, answer) + ", " +
                              left_words(*best) + ".";
    return best->step.step.made ? words + " No smoother one that keeps the gate was found." : words;
}

/// The controls that are set beyond their limit, the furthest first.
std::string limits_words(const AdjustmentFindings& found) {
    constexpr std::size_t most = 2;
    std::vector<const DriveLimit*> beyond;
    for (const DriveLimit& limit : found.limits) {
        if (limit.beyond()) {
            beyond.push_back(&limit);
        }
    }
    std::stable_sort(beyond.begin(), beyond.end(), [](const DriveLimit* a, const DriveLimit* b) {
        return a->limit / a->set < b->limit / b->set;
    });
    std::string words;
    for (std::size_t i = 0; i < std::min(most, beyond.size()); ++i) {
        const bool table = beyond[i]->part >= found.adjustment.controls().size();
        words += words.empty() ? "" : "; ";
        if (table) {
            words += "the table shows from " + percent_words(beyond[i]->limit) + " of it";
        } else {
            const AdjustmentMove& move = found.adjustment.controls()[beyond[i]->part];
            words += control_words(move) + " shows beyond " +
                     amount_words(move.kind, beyond[i]->limit) + " (set " +
                     amount_words(move.kind, move.amount) + ")";
        }
    }
    return beyond.size() > most ? words + "; " + std::to_string(beyond.size() - most) + " more"
                                : words;
}

std::string codes_line(const GradientAnswer& answer) {
    const auto& depths = answer.adjustment->depths;
    const auto own = std::find_if(depths.begin(), depths.end(),
                                  [&answer](const auto& d) { return d.bits == answer.bits; });
    std::string words = std::to_string(own->lost) + " of " + std::to_string(1 << own->bits) +
                        " codes lost in the channel that loses most, " +
                        std::to_string(own->reversals) + " reversals, " +
                        (own->longest_flat > 1 ? "up to " + std::to_string(own->longest_flat) +
                                                     " codes in a row shown as one colour"
                                               : "none shown as one colour");
    for (const auto& depth : depths) {
        if (depth.bits != answer.bits) {
            words += "; at " + std::to_string(depth.bits) + " bits it " +
                     (depth.made ? "shows" : "doesn't show");
        }
    }
    return words;
}

std::string noise_words(const assess::MeasuredGradients& measured) {
    return "one reading scatters by " + to_text(100.0 * measured.noise, 2) + " %" +
           (measured.noise_known ? ", from repeats" : ", assumed: repeat readings to know it");
}

/// What nothing is said of, in all ramps.
std::string unjudged_words(const assess::MeasuredGradients& measured) {
    std::size_t count = 0;
    std::size_t all = 0;
    for (const MeasuredFindings& ramp : measured.ramps) {
        count += ramp.unjudged;
        all += ramp.steps.size();
    }
    return count == 0 ? ""
                      : " " + std::to_string(count) + " of " + std::to_string(all) +
                            (count == 1 ? " steps isn't" : " steps aren't") +
                            " judged: beside black a jump looks like the curve's bend.";
}

std::string how_sure_words(const GradientAnswer& answer) {
    if (answer.by_measurement) {
        return "By measurement; " + noise_words(*answer.measured) +
               (answer.measured->before_measured
                    ? "."
                    : "; a ramp without the adjustment would tell whose the jumps are.") +
               unjudged_words(*answer.measured);
    }
    return std::string(answer.measured ? "The readings can't tell, so worked out" : "Worked out") +
           " for a panel that rounds to " + std::to_string(answer.bits) +
           " bits once; one that works finer shows less. A ramp on the set decides.";
}

Section gradient_answer_section(const GradientAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential,
                answer.by_measurement ? measured_verdict(answer)
                                      : worked_out_verdict(*answer.adjustment, answer.bits));
    KeyFigures figures;
    figures.figures.push_back({answer.verdict == StepVerdict::does_not_show ? "Most" : "Where",
                               answer.by_measurement
                                   ? measured_place(answer)
                                   : worked_out_place(*answer.adjustment, answer.bits),
                               ""});
    section.add("where", Level::essential, std::move(figures));
    if (answer.adjustment) {
        section.add("do", Level::essential, Paragraph{what_to_do(answer)});
        if (const std::string limits = limits_words(*answer.adjustment); !limits.empty()) {
            section.add("limits", Level::essential, Paragraph{"Alone, " + limits + "."});
        }
        section.add("codes", Level::essential, Paragraph{"Codes: " + codes_line(answer) + "."});
    } else if (answer.verdict != StepVerdict::does_not_show) {
        section.add("do", Level::essential,
                    Paragraph{answer.verdict == StepVerdict::shows
                                  ? "Measure each code between those two to see it alone; name the "
                                    "adjustment, --adjustment, for a milder one."
                                  : "Measure each code between those two, each five times."});
    }
    section.add("how-sure", Level::essential, Paragraph{how_sure_words(answer)});
    add_meter_cautions(answer.warnings, section);
    return section;
}

Section gradient_foundation(const GradientAnswer& answer) {
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add(
        "steps", Level::reason,
        Paragraph{
            "A visible step of greys is the contrast that a standard viewer just sees of the "
            "pattern that suits the eye best (Barten); of colours a DE ITP of 1 (BT.2124). A step "
            "counts as made where it is visible and by more than one visible step larger than the "
            "display's own there, or the other way round."});
    if (answer.measured) {
        foundation.add(
            "measured-steps", Level::reason,
            Paragraph{"A measured step is compared with a smooth curve through the three and the "
                      "four colours on each side of it, and with what it jumped by before: another "
                      "curve or tint is no jump, nor is a step that was mended."});
    }
    foundation.add(
        "ramps", Level::reason,
        Paragraph{
            "Ramps of all codes: black to white, black to six hues, a grey of 75 % to each of "
            "them, around the full and the half pale hues at 75 %. What a control does "
            "between its own colour and others is taken to fade evenly."});
    if (!answer.colours.empty()) {
        foundation.add(
            "accuracy", Level::reason,
            Paragraph{"Accuracy: " + std::to_string(answer.colours.size()) + " patches, read " +
                      code_of(answer.colours_read) +
                      " the adjustment; its change is added as the intended display makes it. Read "
                      "them again once it is set."});
    }
    add_meter_reading(answer.warnings, answer.understood, foundation);
    return foundation;
}

}  // namespace

Document gradient_document(const GradientAnswer& answer) {
    Document document{"Gradients: is the correction worth its banding?", {}};
    document.sections.push_back(gradient_answer_section(answer));
    if (answer.adjustment) {
        document.sections.push_back(gradient_controls_section(answer));
        document.sections.push_back(gradient_codes_section(answer));
    }
    if (answer.measured) {
        document.sections.push_back(gradient_measured_section(answer));
    }
    document.sections.push_back(gradient_foundation(answer));
    return document;
}

Document gradient_client_document(const GradientAnswer& answer) {
    Document document{"How smooth gradients are on this display", {}};
    Section section{"answer", ""};
    const char* said =
        answer.verdict == StepVerdict::shows
            ? "Smooth gradients, such as skies, may show stripes with this setting that they don't "
              "show without it."
        : answer.verdict == StepVerdict::does_not_show
            ? "The setting adds no visible stripes to smooth gradients, such as skies."
            : "Whether the setting adds stripes to smooth gradients couldn't be told from these "
              "readings.";
    section.add("verdict", Level::essential, Paragraph{said});
    section.add("how", Level::essential,
                Paragraph{answer.by_measurement
                              ? "Measured on this display, step by step."
                              : "Worked out for each of the display's steps from the setting."});
    document.sections.push_back(std::move(section));
    return document;
}

std::string gradient_page(const GradientAnswer& answer, const TextPage& page) {
    return text_of(gradient_document(answer), page);
}

std::string gradient_report(const GradientAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? gradient_client_document(answer)
                                                      : gradient_document(answer),
                   words);
}

}  // namespace samelight::report
