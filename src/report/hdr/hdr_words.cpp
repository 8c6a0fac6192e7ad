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
/// From where on a white has moved, u'v', and a window fades, relative. Common practice, no source.
constexpr double white_moves_uv = 0.002;
constexpr double fades = 0.02;

std::string nits(double cd_m2) { return to_text(cd_m2, cd_m2 < 100.0 ? 1 : 0) + " cd/m2"; }

/// The window that loses most light while it is shown.
const assess::HdrWhite* fading(const HdrAnswer& answer) {
    const assess::HdrWhite* most = nullptr;
    for (const assess::HdrWhite& white : answer.whites) {
        if (white.fade && *white.fade < -fades && (most == nullptr || *white.fade < *most->fade)) {
            most = &white;
        }
    }
    return most;
}

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
    if (const assess::HdrWhite* window = fading(answer)) {
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

void add_pq(const PqTracking& tracking, KeyFigures& figures) {
    const PqFit& fit = tracking.fit();
    figures.figures.push_back(
        {"PQ", "to " + nits(fit.knee_cd_m2),
         "(" + to_text(100.0 * fit.knee_signal, 0) + " % of the signal), " + end_words(tracking)});
    figures.figures.push_back({"Below that", to_text(tracking.tracking_itp, 1) + " DE ITP off,",
                               "at worst " + to_text(tracking.worst_tracking_itp, 1) +
                                   "; about 1 is the step that is seen"});
}

}  // namespace

std::string per_cent(double value) { return rounded(value, 2) + " %"; }

VerdictLine hdr_verdict(const HdrAnswer& answer) {
    constexpr double tracks_itp = 3.0;
    constexpr double white_off_xy = 0.003;
    const bool white = !answer.whites.empty();
    if (white && answer.whites[answer.reference].off_chosen_xy.value_or(0.0) > white_off_xy) {
        return {"White is off in HDR",
                "the chosen white doesn't hold there; set it in this mode, too.", Mood::act};
    }
    if (answer.tracking && answer.tracking->tracking_itp > tracks_itp) {
        return {"PQ isn't followed",
                "greys are off below the knee; see to the mode's curve and brightness first.",
                Mood::act};
    }
    if (answer.whites.size() > 1 && answer.most_moved().drift_uv > white_moves_uv) {
        return {"White moves with the window", "judge and set it at 10 %.", Mood::look};
    }
    return {"As it should be",
            answer.tracking ? "what was read of white holds, and PQ is followed to the knee."
                            : "what was read of white holds; no greys of PQ were read.",
            Mood::done};
}

KeyFigures hdr_figures(const HdrAnswer& answer) {
    KeyFigures figures;
    if (!answer.whites.empty()) {
        add_peak(answer, figures);
        add_white(answer, figures);
    }
    if (answer.tracking) {
        add_pq(*answer.tracking, figures);
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
    } else if (!answer.no_tracking.empty()) {
        text += " No tracking of PQ: " + answer.no_tracking + ".";
    }
    if (answer.limiter && !(answer.limiter->noise > 0.0)) {
        text += " No repeats: how steady a window is isn't known.";
    }
    return text;
}

}  // namespace samelight::report
