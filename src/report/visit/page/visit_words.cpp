#include "report/visit/page/visit_words.hpp"

#include <cmath>
#include <string>

#include "report/words/text_layout.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// "1, 2, 5 and 10 %" of the screen.
std::string window_list(const StepReadings& readings) {
    std::string text;
    for (const VisitPatch& patch : readings.patches) {
        text += (text.empty() ? "" : ", ") + to_text(patch.window_pct);
    }
    return text + " %";
}

std::string times_with(const StepReadings& readings) {
    const std::string text = readings.rounds == 1   ? "once"
                             : readings.rounds == 2 ? "twice"
                                                    : "3 times";
    return text + (readings.with_reference > 0 ? " with both instruments" : " with the meter");
}

/// Those that a correction is made from, and their mixtures.
std::string primaries_in_words(const StepReadings& readings) {
    const bool mixtures = readings.patches.size() > 4;
    const std::string first = "red, green, blue, white, ";
    if (readings.with_reference == 0) {
        return first + (mixtures ? "cyan, magenta, yellow, " : "") + times_with(readings);
    }
    return first + times_with(readings) + (mixtures ? "; their mixtures with the meter" : "");
}

}  // namespace

std::string minutes_in_words(double minutes) {
    const long whole = std::lround(std::ceil(minutes - 1e-9));
    if (whole < 60) {
        return std::to_string(whole) + " min";
    }
    const std::string hours = std::to_string(whole / 60) + " h";
    return whole % 60 == 0 ? hours : hours + " " + std::to_string(whole % 60) + " min";
}

std::string clock_of(double minutes) {
    const long whole = std::lround(minutes);
    const std::string rest = std::to_string(whole % 60);
    return std::to_string(whole / 60) + ":" + (rest.size() < 2 ? "0" : "") + rest;
}

std::string display_and_mode(const VisitRequest& visit, std::size_t display, std::size_t mode) {
    const std::string& name = visit.displays[display].modes[mode].name;
    return visit.displays[display].name + (name.empty() ? "" : ", " + name);
}

std::string step_in_a_word(VisitStep step) {
    switch (step) {
        case VisitStep::warm_up:
            return "wait";
        case VisitStep::white_first:
            return "white";
        case VisitStep::set_white:
            return "set it";
        case VisitStep::white_again:
            return "white again";
        case VisitStep::primaries:
            return "primaries";
        case VisitStep::black:
            return "black";
        case VisitStep::greys:
            return "greys";
        case VisitStep::windows:
            return "windows";
        case VisitStep::proof:
            break;
    }
    return "proof";
}

std::string step_in_words(const VisitPlanStep& step) {
    const std::string count = std::to_string(step.readings.patches.size());
    switch (step.step) {
        case VisitStep::warm_up:
            return step.minutes > 0.0 ? "wait until white is steady: read it every minute"
                                      : "it is warm by now: white stands still, or wait";
        case VisitStep::white_first:
            return "white, " + times_with(step.readings);
        case VisitStep::set_white:
            return "set white to its target";
        case VisitStep::white_again:
            return "white again, " + times_with(step.readings) + ": does it stand as set?";
        case VisitStep::primaries:
            return primaries_in_words(step.readings);
        case VisitStep::black:
            return "black, " + times_with(step.readings);
        case VisitStep::greys:
            return count + " greys, once with the meter";
        case VisitStep::windows:
            return "white in windows of " + window_list(step.readings) + ", grey between them";
        case VisitStep::proof:
            break;
    }
    return "proof: " + count + " colours, once with the meter";
}

std::string step_in_a_table(const VisitPlanStep& step) {
    const std::string rounds =
        step.readings.rounds > 1 ? ", " + std::to_string(step.readings.rounds) + " rounds" : "";
    switch (step.step) {
        case VisitStep::warm_up:
            return "wait; white every minute";
        case VisitStep::white_again:
            return "white again" + rounds + ": does it stand as set?";
        case VisitStep::primaries:
            return std::string("red, green, blue, white") +
                   (step.readings.patches.size() > 4 ? ", their mixtures" : "") + rounds;
        case VisitStep::windows:
            return std::to_string(step.readings.patches.size()) + " windows, grey between them";
        case VisitStep::greys:
        case VisitStep::proof:
            return std::to_string(step.readings.patches.size()) +
                   (step.step == VisitStep::greys ? " greys" : " colours of the proof");
        default:
            return step_in_a_word(step.step) + rounds;
    }
}

std::string left_out_in_words(const VisitRequest& visit, const VisitLeftOut& left) {
    const std::string of = display_and_mode(visit, left.display, left.mode);
    switch (left.what) {
        case VisitOmission::windows_few:
            return of + ": 4 windows instead of 8";
        case VisitOmission::proof_few:
            return of + ": 32 colours of the proof instead of 120";
        case VisitOmission::greys_few:
            return of + ": 7 greys instead of 13";
        case VisitOmission::mixtures:
            return of + ": cyan, magenta and yellow";
        case VisitOmission::windows:
            return of + ": all windows";
        case VisitOmission::proof:
            return of + ": all colours of the proof";
        case VisitOmission::mode:
            return of + ": the whole mode";
        case VisitOmission::display:
            break;
    }
    return visit.displays[left.display].name + ": the whole display";
}

std::string warm_up_in_words(const WarmUp& warm_up) {
    const std::string over = to_text(warm_up.limits.minutes) + " minutes";
    const std::string moved = "In " + over + " white moves x " +
                              with_sign(warm_up.moves[0].change, 4) + " and y " +
                              with_sign(warm_up.moves[1].change, 4) + ", its luminance " +
                              with_sign(100.0 * warm_up.moves[2].change, 1) + " %";
    const std::string limits = " (limits " + to_text(warm_up.limits.xy, 4) + " and " +
                               to_text(100.0 * warm_up.limits.luminance_share, 0) + " %)";
    switch (warm_up.verdict) {
        case WarmUpVerdict::read_longer:
            return "The readings span " + to_text(warm_up.span_min, 1) + " min: read white for " +
                   over + " at least.";
        case WarmUpVerdict::read_more_often:
            return "The readings scatter too much, or are too few, to tell a movement of " +
                   to_text(warm_up.limits.xy, 4) + ": read white more often.";
        case WarmUpVerdict::begin:
        case WarmUpVerdict::wait:
            break;
    }
    std::string text = moved + limits + ".";
    if (warm_up.verdict == WarmUpVerdict::wait) {
        text += warm_up.wait ? " Steady in about " + minutes_in_words(warm_up.wait->likely_min) +
                                   " (" + minutes_in_words(warm_up.wait->least_min) + " to " +
                                   minutes_in_words(warm_up.wait->most_min) + ")."
                             : " No end of it is to be seen yet.";
    }
    return text;
}

}  // namespace samelight::report
