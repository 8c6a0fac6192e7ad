#include "samelight/report/advice_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>

#include "report/white/pair_words.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/white/people.hpp"

namespace samelight::report {
namespace {

constexpr const char* by_eye = "et it by eye, side by side with the reference.";

std::string uv_text(double uv) { return to_text(uv, 4); }

std::string before_text(MovedFrom before) {
    return before == MovedFrom::reference_xy ? "at the reference's x, y" : "as it is";
}

/// "DE00 5.0 as it is, after the move 3.1".
std::string de00_text(const Advice& advice, MovedFrom before) {
    return "DE00 " + to_text(advice.de00_before, 1) + " " + before_text(before) +
           ", after the move " + to_text(advice.de00_after, 1);
}

/// Less than what just shows side by side, about 1 (common practice): few will thank for it. The verdict weighs u'v', so that DE00 may even rise.
std::string small_gain_text(const Advice& advice) {
    const double gain = advice.de00_before - advice.de00_after;
    return gain <= 0.0 ? " In DE00 nothing is gained." : gain < 1.0 ? " A small gain." : "";
}

/// A move by less than its own doubt says so.
std::string doubt_text(const Advice& advice) {
    return advice.uncertain_along_xy > advice.to_move_xy
               ? " It is the likelier side, not a sure one: what isn't known along its way, ±" +
                     to_text(advice.uncertain_along_xy, 4) + " in x, y, is more than the move, " +
                     to_text(advice.to_move_xy, 4) + "."
               : "";
}

/// What the move does to a population: "of 100 viewers 53 see it clearly nearer, ...".
std::string shares_text(const PeopleShares& shares) {
    if (!shares.telling()) {
        return "for how many it is nearer " + std::to_string(shares.count) +
               (shares.count == 1 ? " computed person" : " computed people") + " can't tell";
    }
    const double nearer = std::round(100.0 * shares.nearer);
    const double further = std::round(100.0 * shares.further);
    return "of 100 viewers " + to_text(nearer, 0) + " see it clearly nearer, " +
           to_text(std::max(0.0, 100.0 - nearer - further), 0) + " no difference, " +
           to_text(further, 0) + " clearly further";
}

/// For whom of named people the move is.
std::string helped_text(const Advice& advice) {
    const std::size_t all = advice.viewer_count;
    std::string text = advice.viewers_nearer.size() == all && all > 1
                           ? (all == 2 ? "both viewers" : "all " + std::to_string(all) + " viewers")
                           : viewers_text(advice.viewers_nearer);
    if (!advice.viewers_further.empty()) {
        text += ", at the cost of " + viewers_text(advice.viewers_further);
    }
    return text;
}

std::string worst_off_text(const Advice& advice) {
    const double gain = advice.sight.gain();
    return gain > 0.0 ? "moving it would win " + uv_text(gain) +
                            " u'v' for whoever is worst off, too little to see."
                      : "moving it would not help whoever is worst off.";
}

std::string unsure_text(const Advice& advice, MovedFrom before) {
    const double gain = advice.sight.gain();
    const bool wins = gain > 5e-5;
    return before_text(before) + " it looks " + uv_text(advice.sight.before) + " u'v' off to " +
           (advice.viewer_count > 1    ? "whoever is worst off"
            : advice.viewer_count == 1 ? "the viewer"
                                       : "a typical viewer") +
           ", but which way isn't sure enough: moving it by these numbers " +
           (wins ? "is expected to win " + uv_text(gain) + " of that"
                 : "isn't expected to win anything") +
           ". S" + by_eye;
}

/// What the figures say.
std::string weighed_text(const Advice& advice, MovedFrom before) {
    switch (advice.reason) {
        case AdviceReason::nearer:
            return before_text(before) + " it looks DE00 " + to_text(advice.de00_before, 1) +
                   " off on average, after the move " + to_text(advice.de00_after, 1) + "; " +
                   shares_text(advice.people) + "." + small_gain_text(advice) + doubt_text(advice);
        case AdviceReason::nearer_to_worst_off:
            return "it brings the white nearer to the reference for " + helped_text(advice) +
                   (advice.viewer_count > 1 ? ": whoever is worst off is expected to see "
                                            : ": expected is ") +
                   de00_text(advice, before) + "." + doubt_text(advice);
        case AdviceReason::opposed:
            return advice.viewer_count > 0
                       ? both_names(advice.opposed[0], advice.opposed[1]) +
                             " want whites on opposite sides; this one lies between. S" + by_eye
                       : "for " + both_names(advice.opposed[0], advice.opposed[1]) +
                             " it should go opposite ways, and numbers can't choose. S" + by_eye;
        case AdviceReason::below_instrument:
            return "what there is to move, " + to_text(advice.to_move_xy, 4) +
                   " in x, y, is less than the instrument can tell.";
        case AdviceReason::helps_too_few:
            return "moving it would help only " + share_of_viewers(advice.people.any_nearer) +
                   (advice.verdict == Verdict::ask_the_eyes ? std::string(": s") + by_eye : ".");
        case AdviceReason::too_little_for_worst_off:
            return worst_off_text(advice);
        case AdviceReason::direction_unsure:
            return unsure_text(advice, before);
        default:
            return before_text(before) + " it looks " + uv_text(advice.sight.before) +
                   " u'v' off to a typical viewer, and moving it would win " +
                   uv_text(std::max(0.0, advice.sight.gain())) + " of that, too little to see.";
    }
}

}  // namespace

std::string weighed(const Advice& advice) {
    const std::string whom = advice.viewer_count > 1    ? "whoever is worst off"
                             : advice.viewer_count == 1 ? "the viewer"
                                                        : "the average eye";
    return "Weighed over all that isn't known: for " + whom + " the move takes it from " +
           uv_text(advice.sight.before) + " to " + uv_text(advice.sight.after) +
           " u'v' off the right white. \"Clearly\" means by more than " + uv_text(uv_step_radius) +
           " u'v', which a good eye just sees between two whites side by side (the one-step circle of "
           "CIE TN 001:2014; MacAdam's ellipses of 1942).";
}

std::string share_of_viewers(double share) {
    const double hundredths = 100.0 * share;
    if (share > 0.5 && hundredths < 50.5) {
        return "just over half of the viewers";
    }
    if (share <= 0.5 && hundredths >= 49.5) {
        return share < 0.5 ? "just under half of the viewers" : "half of the viewers";
    }
    const double whole =
        share < 1.0 ? std::clamp(std::round(hundredths), share > 0.0 ? 1.0 : 0.0, 99.0) : 100.0;
    return to_text(whole, 0) + " in 100 viewers";
}

std::string sentence(const Advice& advice, MovedFrom before) {
    constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
    switch (advice.reason) {
        case AdviceReason::now_of_another_type:
            return "the white as it stands is of another type of display than the one named, it seems; see below.";
        case AdviceReason::now_of_another_display:
            return "the white as it stands is of another display than the spectra, it seems; see below.";
        case AdviceReason::display_of_another_type:
            return "the display is of another type than the one named, it seems; see below.";
        case AdviceReason::now_is_no_white:
            return "the white as it stands is no white; see below, and measure white.";
        case AdviceReason::read_no_white:
            return "what was read as white is no white; see below, and measure white.";
        case AdviceReason::uncertainty_unknown:
            return "how sure it is can't be worked out; see below.";
        case AdviceReason::clipped:
            return "the instrument seems to have been saturated; see below, and measure again.";
        case AdviceReason::column_misread:
            return names.at(advice.misread_primary.value_or(0)) +
                   std::string(" was misread, it seems; see below, and measure it again.");
        case AdviceReason::eye_far_from_normal:
            return "a match by eye that no normal eye would set is no ground to move it; see below, and match again.";
        default:
            return weighed_text(advice, before);
    }
}

}  // namespace samelight::report
