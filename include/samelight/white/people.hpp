#pragma once
// What is known and said of the people before a display, as plain values. What works them out is in target_distribution, eye_match, mismatch,
// viewer_group and advice; a page that only says them need not build those.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/individual.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where people want a panel's white, and how far they differ: a statement about people, not about the target's certainty.
struct TargetRegion {
    /// With a target.
    std::size_t people;
    Chromaticity<Cie1931_2deg> mean;
    /// Of x and of y apart.
    Chromaticity<Cie1931_2deg> median;
    /// Row after row: xx, xy, yx, yy.
    CovarianceMatrix<2> covariance_xy;
    /// The same in u'v'.
    CovarianceMatrix<2> covariance_uv;
    /// Holds `coverage` of a normal distribution; centre: the mean.
    Ellipse ellipse_xy;
    Ellipse ellipse_uv;
    /// The first so many give the mean within .0001, as do all larger powers of 2; none where these people are too few to tell: the
    /// first half of them still gives another mean than all.
    std::optional<std::size_t> people_for_mean;
};

/// What is known of a person's eye: the likeliest individual and how sure each of the eight deviations is.
struct EyeKnowledge {
    Individual likeliest;
    /// Of the eight deviations in their own units, row after row.
    CovarianceMatrix<8> covariance;

    /// 8 x 8. Valid as long as this object is.
    [[nodiscard]] Eigen::MatrixXd matrix() const&& {
        return static_cast<const EyeKnowledge&>(*this).matrix();
    }
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> matrix() const& {
        return {covariance.data(), 8, 8};
    }
};

/// A white that a person set by eye on a panel until it looked like the reference, as the instrument then read it.
struct EyeMatch {
    Chromaticity<Cie1931_2deg> xy;
    /// Standard deviation of such a setting in x and in y: what the same person's next try would differ by, the instrument's noise
    /// included. The default is a modelling choice, of the size of one MacAdam 1942 ellipse near white.
    double sd_xy = 0.001;
};

/// What a match by eye taught.
struct EyeLesson {
    EyeKnowledge eye;
    /// How unlikely such a match was before: chi squared, 2 degrees of freedom, of its distance from what was predicted, against the
    /// prediction's covariance and the match's own: see surprising_match.
    double surprise;
    /// "eye_far_from_normal" where `far_from_normal`
    std::vector<Warning> warnings;
    /// `surprise` is above that: hardly any normal eye would set such a white.
    bool far_from_normal = false;
};

/// A predicted target: where, and how sure. Normal, to first order in the deviations.
struct PredictedTarget {
    Chromaticity<Cie1931_2deg> xy;
    /// xx, xy, yx, yy
    CovarianceMatrix<2> covariance;
};

/// What is known of someone before any match: the average eye of the age and field, spread as people are. Source: Asano, Fairchild & Blonde
/// 2016, as asano2016_spread has it.
SAMELIGHT_API EyeKnowledge eye_of_age(const ConeConditions& conditions,
                                      const DeviationSpread& spread = asano2016_spread);

/// Someone who watches: a letter, and what is known of their eye.
struct Viewer {
    /// A, B, C: never a person's name
    std::string name;
    EyeKnowledge eye;
    /// Whether a match by eye is behind it.
    bool matched = false;
    /// False: of the ages that the population has, any.
    bool age_known = true;
    /// Whether one of the matches is such as hardly any normal eye would set (EyeLesson::far_from_normal).
    bool far_from_normal = false;
};

/// How far two whites look apart to one person.
struct SeenDifference {
    /// Distance in u'v' of that person's own X, Y, Z.
    double uv;
    /// CIEDE2000 at equal luminance, the reference as white, in that person's own CIELAB; NaN where it wasn't asked for
    double de00;
};

/// What is expected to be seen of a white by an eye that is only estimated, over all that the eye may be.
struct ExpectedDifference {
    /// Means, as SeenDifference has them.
    double uv;
    double de00;
    /// 95 of 100 of the eye's possibilities see a difference in between.
    double de00_low;
    double de00_high;
};

/// The largest distance that any of these people sees, in u'v' of their own; 0 for nobody. Own.
SAMELIGHT_API double largest_uv(const std::vector<SeenDifference>& seen);

/// A white that the display might be set to, and what each viewer sees of it.
struct CandidateWhite {
    std::string name;
    Chromaticity<Cie1931_2deg> xy;
    /// By the likeliest eye of each, in the viewers' order.
    std::vector<SeenDifference> seen;
    /// Over all that each one's eye may be, in the same order.
    std::vector<ExpectedDifference> expected = {};

    /// The largest distance that any of them sees, u'v'.
    [[nodiscard]] double largest_uv() const { return samelight::largest_uv(seen); }
};

/// The answer for a group of viewers.
struct ViewerGroup {
    /// Each viewer's own, in their order.
    std::vector<PredictedTarget> targets;
    /// Left as it is, the average viewer's where the panel can show it, the compromise.
    std::vector<CandidateWhite> candidates;
    /// Probability that two viewers' targets lie over `threshold_uv` apart.
    std::vector<std::vector<double>> disagreement;
    double threshold_uv;

    /// The white to dial in: the last candidate.
    [[nodiscard]] const CandidateWhite& compromise() const { return candidates.back(); }
};

/// One way to set the whites of a group of displays, and what people then see.
struct GroupSetting {
    std::string name;
    /// One a display.
    std::vector<Chromaticity<Cie1931_2deg>> whites;
    /// Between two displays, over all people and pairs: u'v' of their own.
    double between_mean_uv;
    /// 95 % of these are below
    double between_p95_uv;
    /// Between a display and the reference, over all people and displays.
    double from_reference_mean_uv;
    double from_reference_p95_uv;
};

/// The place of "each to the reference" among the settings that judge_display_group() returns: an index, without unit. Own.
inline constexpr std::size_t setting_of_each_alone = 1;

/// Distances from the right white in u', v' of CIE 1931, on average over what is not known.
struct ExpectedSight {
    /// Of the white as it is; of named viewers, for whoever is worst off.
    double before;
    /// Of the white that might be dialled in.
    double after;
    /// Of the best white there is, once the eyes have been asked.
    double by_eye;
    /// Probability that the white as it is lies further off than can be seen.
    double visible_before;
    /// Probability that the move brings it nearer by what can be seen.
    double nearer;
    /// And further away.
    double further;

    /// What the move is expected to win, u'v' of CIE 1931; below 0 a loss.
    [[nodiscard]] double gain() const { return before - after; }
};

/// Whether to move the white at all.
enum class Verdict {
    /// The offset is expected to be seen as nearer: by a typical viewer, or by whoever of a viewer group is worst off.
    move,
    /// It isn't, and nothing better is at hand; or something is to be put right first.
    leave,
    /// It isn't, or two observers or viewers pull opposite ways, but a match by eye is expected to win.
    ask_the_eyes
};

/// Fewer people than this don't say how people differ, nor for how many a move is one for the better. Own choice.
inline constexpr std::size_t fewest_telling_people = 20;

/// What a move does to the people judged, each as the likeliest eye; shares from 0 to 1. "Nearer" and "further" by more than can be seen
/// side by side, uv_step_radius in u'v' of the person's own.
struct PeopleShares {
    double nearer;
    double alike;
    double further;
    /// Nearer by however little.
    double any_nearer;
    /// Mean over the people, u'v' of their own.
    double mean_gain_uv;
    /// How many they are.
    std::size_t count;

    /// Whether they are enough to stand for a population.
    [[nodiscard]] bool telling() const { return count >= fewest_telling_people; }
};

/// Why the verdict is what it is. Each says which members of Advice hold its facts; report/verdict_words.hpp has it in English.
enum class AdviceReason {
    /// MOVE: it brings the white nearer to a typical viewer of the population: `sight`, `people`.
    nearer,
    /// MOVE: likewise to whoever of named viewers is worst off: `sight`, `viewers_nearer`, `viewers_further`, `viewer_count`.
    nearer_to_worst_off,
    /// ASK THE EYES: two targets pull the white opposite ways: `opposed`.
    opposed,
    /// LEAVE: the instrument can't tell what there is to move: `to_move_xy`.
    below_instrument,
    /// ASK THE EYES or LEAVE: a typical viewer would see the gain, but on average people would not: `people.any_nearer`.
    helps_too_few,
    /// LEAVE: what a typical viewer gains is too little to see: `sight`.
    too_little,
    /// LEAVE: what whoever of named viewers is worst off gains is too little to see, or none: `sight`.
    too_little_for_worst_off,
    /// ASK THE EYES: it is visibly off, but which way isn't sure enough: `sight`; of named viewers for whoever is worst off (`viewer_count`).
    direction_unsure,
    /// LEAVE, to be put right first: the white as it stands is of another type of display than the one named.
    now_of_another_type,
    /// Likewise: it is of another display than the spectra.
    now_of_another_display,
    /// Likewise: the display is of another type than the one named.
    display_of_another_type,
    /// Likewise: the white as it stands is no white.
    now_is_no_white,
    /// Likewise: what was read as white is no white.
    read_no_white,
    /// Likewise: how sure the target is can't be worked out.
    uncertainty_unknown,
    /// Likewise: a spectrum was cut off at the top.
    clipped,
    /// Likewise: a primary's column was misread: `misread_primary`.
    column_misread,
    /// Likewise: a match by eye is such as no normal eye would set.
    eye_far_from_normal
};

/// "nearer", "nearer_to_worst_off", "opposed", ...: the enumerator's name.
SAMELIGHT_API const char* code_of(AdviceReason reason);

/// The verdict, its reason, and the figures and names behind it.
struct Advice {
    Verdict verdict;
    AdviceReason reason;
    /// Share of the people judged for whom the target looks nearer to the reference than the white left as it is, 0-1.
    double helped;
    /// What was judged: the white that might be dialled in.
    Chromaticity<Cie1931_2deg> white;
    /// What is expected of it, all uncertainty included.
    ExpectedSight sight = {};
    /// What it does to the people judged.
    PeopleShares people = {};
    /// Distance from the white as it is to the one that might be dialled in, in x, y.
    double to_move_xy = 0.0;
    /// Expanded uncertainty of the target along the way there, coverage 95 %, in x, y; 0: not known. Where it is above `to_move_xy` the move goes
    /// to the likelier side, not to a sure one.
    double uncertain_along_xy = 0.0;
    /// CIEDE2000 between display and reference, as it is and after the move: of a population the mean over its people; of named viewers what is
    /// expected for whoever is worst off.
    double de00_before = 0.0;
    double de00_after = 0.0;
    /// How many named viewers were judged; 0: a population.
    std::size_t viewer_count = 0;
    /// Letters of those of them who see the reference nearer after the move, by however little.
    std::vector<std::string> viewers_nearer = {};
    /// And further away.
    std::vector<std::string> viewers_further = {};
    /// Names of the two targets that pull the white opposite ways, "viewer A" or an observer's title; empty where none do.
    std::array<std::string, 2> opposed = {};
    /// 0 to 2: red, green, blue; the column that was misread.
    std::optional<std::size_t> misread_primary = {};
};

/// "viewer A", "viewers A, B and C".
SAMELIGHT_API std::string viewers_text(const std::vector<std::string>& names);

/// In capitals: "MOVE", "LEAVE", "ASK THE EYES".
SAMELIGHT_API const char* code_of(Verdict verdict);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/people.ipp"
#endif
