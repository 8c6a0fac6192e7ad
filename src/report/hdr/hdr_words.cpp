#include "report/hdr/hdr_words.hpp"

#include <cmath>
#include <string>
#include <vector>

#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t hdr_name_room = 40;

std::string nits(double cd_m2) { return to_text(cd_m2, cd_m2 < 100.0 ? 1 : 0) + " cd/m2"; }

std::string end_words(const PqTracking& tracking) {
    const std::string cut = "cut at " + nits(tracking.clip.peak_cd_m2);
    const std::string rolled = "rolled off to " + nits(tracking.roll_off.peak_cd_m2) +
                               " as from a programme of " +
                               nits(tracking.roll_off.programme_cd_m2.value_or(0.0));
    const std::string left = " (fits to " + to_text(tracking.fit().residual_itp, 1) + " DE ITP)";
    switch (tracking.end) {
        case PqEnd::clip:
            return "then " + cut + left;
        case PqEnd::roll_off:
            return "then " + rolled + left;
        case PqEnd::either:
            return "then " + cut + ", or " + rolled + ": both fit" + left;
        case PqEnd::neither:
            break;
    }
    return "neither a cut nor a roll-off of BT.2390 fits (" +
           to_text(tracking.fit().residual_itp, 1) + " DE ITP left)";
}

void add_peak(const HdrAnswer& answer, KeyFigures& figures) {
    const assess::HdrWhite* peak = &answer.whites.front();
    for (const assess::HdrWhite& white : answer.whites) {
        peak = white.xyz[1] > peak->xyz[1] ? &white : peak;
    }
    figures.figures.push_back(
        {"Peak", nits(peak->xyz[1]),
         "in a window of " + per_cent(peak->window_pct) +
             (peak->readings > 1 ? "; steady to " + to_text(100.0 * peak->spread, 1) + " % over " +
                                       std::to_string(peak->readings) + " readings"
                                 : "; read once")});
    if (const assess::HdrWhite* window = answer.fading()) {
        figures.figures.push_back({"Fading", to_text(-100.0 * *window->fade, 1) + " %",
                                   "less after " + to_text(window->fade_s.value_or(0.0), 0) +
                                       " s in the window of " + per_cent(window->window_pct)});
    }
    if (answer.limiter) {
        const assess::HdrWhite& largest = answer.whites.back();
        figures.figures.push_back(
            {per_cent(largest.window_pct) + " window", nits(largest.xyz[1]) + ",",
             answer.limiter->falls_at_pct
                 ? "the limiter holds light back from " + per_cent(*answer.limiter->falls_at_pct) +
                       " on; " + per_cent(*answer.limiter->holds_to_pct) + " still has the peak"
                 : "no limiter: no window is darker by more than " +
                       to_text(100.0 * answer.limiter->fall, 0) + " %"});
    }
}

void add_white(const HdrAnswer& answer, KeyFigures& figures) {
    const assess::HdrWhite& reference = answer.whites[answer.reference];
    const auto at = xyY_from_xyz(reference.xyz);
    std::string note = "in " + per_cent(reference.window_pct);
    if (reference.off_chosen_xy) {
        note += ", " + to_text(*reference.off_chosen_xy, 4) + " from the chosen white";
    }
    if (answer.whites.size() > 1) {
        const assess::HdrWhite& moved = answer.most_moved();
        note += "; moves by " + to_text(moved.drift_uv, 4) + " in u'v' at most (" +
                per_cent(moved.window_pct) + ")";
    }
    figures.figures.push_back(
        {"White", "x " + to_text(at[0], 4) + ", y " + to_text(at[1], 4) + ",", note});
    if (const assess::HdrWhite* least = answer.least_sum()) {
        const bool whole = *least->sum_over_white >= assess::HdrAnswer::adds_up;
        figures.figures.push_back(
            {"R + G + B", to_text(100.0 * *least->sum_over_white, 0) + " % of white",
             "in " + per_cent(least->window_pct) +
                 (whole ? "" : ": a white sub-pixel; bright colours stay darker than white")});
    }
}

void add_pq(const HdrAnswer& answer, KeyFigures& figures) {
    const PqTracking& tracking = *answer.tracking;
    const PqFit& fit = tracking.fit();
    if (tracking.tracking_itp > assess::HdrAnswer::tracks_itp) {
        figures.figures.push_back({"PQ", "not followed,",
                                   "off by " + to_text(tracking.tracking_itp, 1) +
                                       " DE ITP up to " + nits(fit.knee_cd_m2) + ", at worst " +
                                       to_text(tracking.worst_tracking_itp, 1) +
                                       "; about 1 is the step that is seen"});
        figures.figures.push_back(
            {"Beyond that", nits(fit.peak_cd_m2) + " at most,", end_words(tracking)});
        return;
    }
    figures.figures.push_back(
        {"PQ", "to " + nits(fit.knee_cd_m2),
         "(" + to_text(100.0 * fit.knee_signal, 0) + " % of the signal), " + end_words(tracking)});
    figures.figures.push_back({"Below that", to_text(tracking.tracking_itp, 1) + " DE ITP off,",
                               "at worst " + to_text(tracking.worst_tracking_itp, 1) +
                                   "; about 1 is the step that is seen"});
}

}  // namespace

std::string per_cent(double value) { return rounded(value, 2) + " %"; }

std::string missing_words(assess::HdrMissing missing) {
    return missing == assess::HdrMissing::windows
               ? "full white in windows of 2, 10, 25, 50 and 100 %"
               : "a ladder of greys in PQ, " + std::to_string(fewest_pq_greys) + " at least";
}

std::string missing_listed(const HdrAnswer& answer) {
    std::string text;
    for (const assess::HdrMissing missing : answer.missing) {
        text += (text.empty() ? "" : ", and ") + missing_words(missing);
    }
    return text;
}

VerdictLine hdr_verdict(const HdrAnswer& answer) {
    switch (answer.verdict) {
        case assess::HdrVerdict::white_off:
            return {"White is off in HDR",
                    "the chosen white doesn't hold there; set it in this mode, too.", Mood::act};
        case assess::HdrVerdict::pq_off:
            return {"PQ isn't followed",
                    "greys are off below the knee; see to the mode's curve and brightness first.",
                    Mood::act};
        case assess::HdrVerdict::white_moves:
            return {"White moves with the window", "judge and set it at 10 %.", Mood::look};
        case assess::HdrVerdict::holds:
            return {"As it should be",
                    "what was read of white holds, and PQ is followed to the knee.", Mood::done};
        case assess::HdrVerdict::holds_in_part:
            return {answer.tracking ? "PQ is followed to the knee" : "White holds in every window",
                    "that is all that can be told. Read " + missing_listed(answer) + ", too.",
                    Mood::look};
        case assess::HdrVerdict::cannot_tell:
            break;
    }
    return {"Can't tell", "read " + missing_listed(answer) + ".", Mood::look};
}

std::string hdr_few_greys(const HdrAnswer& answer) {
    if (!answer.ladder.obstacle) {
        return "";
    }
    const PqLadder& ladder = answer.ladder;
    switch (*ladder.obstacle) {
        case NoPqTracking::few_greys:
            break;
        case NoPqTracking::bright_black:
            return "How PQ is followed can't be told: black reads " +
                   to_text(ladder.black_cd_m2, 2) +
                   " cd/m2, too bright beside the greys. Read it in a dark room.";
        case NoPqTracking::beyond_pq:
            return "How PQ is followed can't be told: a grey reads above 10,000 cd/m2, where PQ "
                   "ends.";
    }
    const std::size_t read = ladder.greys.size();
    const bool white_alone = read == 1 && ladder.greys[0].signal >= 1.0;
    const std::string counted = read == 0     ? "no grey was read of 0.05 cd/m2 or more"
                                : white_alone ? "full white is the only grey that was read"
                                : read == 1   ? "1 grey was read of 0.05 cd/m2 or more"
                                              : std::to_string(read) +
                                                  " greys were read of 0.05 cd/m2 or more, full "
                                                  "white counted";
    return "How PQ is followed can't be told: " + counted +
           (ladder.too_dark > 0 ? " (and " + std::to_string(ladder.too_dark) + " darker)" : "") +
           "; " + std::to_string(fewest_pq_greys) + " are wanted, 13 or more are better.";
}

std::string hdr_windows_supposed(const HdrAnswer& answer) {
    if (answer.windows_supposed == 0) {
        return "";
    }
    const bool one = answer.windows_supposed == 1;
    return answer.windows_supposed == answer.readings
               ? "The file has no window_pct: all its readings are taken to be of a window of 10 %."
               : std::to_string(answer.windows_supposed) + " of " +
                     std::to_string(answer.readings) + " readings " +
                     (one ? "names no window_pct and is" : "name no window_pct and are") +
                     " taken to be of a window of 10 %.";
}

KeyFigures hdr_figures(const HdrAnswer& answer) {
    KeyFigures figures;
    if (!answer.whites.empty()) {
        add_peak(answer, figures);
        add_white(answer, figures);
    }
    if (answer.tracking) {
        add_pq(answer, figures);
    }
    return figures;
}

std::string hdr_advice(const HdrAnswer& answer) {
    std::string text;
    if (answer.tracking && answer.tracking->end == PqEnd::clip) {
        text = "The display cuts: let the player tone-map to " +
               nits(answer.tracking->clip.peak_cd_m2) + ".";
    } else if (answer.tracking && answer.tracking->end == PqEnd::roll_off) {
        text = "The display rolls off by itself: a player that tone-maps, too, does it twice.";
    }
    if (answer.limiter && answer.limiter->falls_at_pct) {
        text += (text.empty() ? "" : " ") +
                std::string("Read white and greys in windows of up to ") +
                per_cent(*answer.limiter->holds_to_pct) + ".";
    }
    return text;
}

std::string hdr_rests_on(const HdrAnswer& answer) {
    std::string text = "Rests on " + std::to_string(answer.readings) + " readings of " +
                       short_name(answer.source, hdr_name_room) +
                       (answer.corrected ? ", corrected." : ", not corrected.");
    if (answer.tracking) {
        text += " Greys of PQ in the window of " + per_cent(answer.tracking->window_pct) +
                "; a cut leaves " + to_text(answer.tracking->clip.residual_itp, 2) +
                " DE ITP, a roll-off " + to_text(answer.tracking->roll_off.residual_itp, 2) +
                " (root mean squares of luminance alone).";
    }
    if (answer.limiter && !(answer.limiter->noise > 0.0)) {
        text += " No repeats: how steady a window is isn't known.";
    }
    return text;
}

}  // namespace samelight::report
