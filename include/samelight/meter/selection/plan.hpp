#pragma once
// How many more readings, which next, and when to stop. Own rules.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where the standard deviation of a reading comes from when readings are planned.
enum class ScatterKnown {
    /// Known: the normal distribution.
    beforehand,
    /// It will be estimated from the very readings that are planned: Student's t.
    from_readings
};

/// How many readings bring the mean within `half_width` of the truth with probability `coverage`.
/// @param sd  standard deviation of one reading, in the unit of half_width, above 0
/// Range: up to a million readings. Throws Error (domain) outside it. Source: JCGM 100:2008, 4.2.3 and G.3.
SAMELIGHT_API int readings_needed(double sd, double half_width, double coverage = 0.95,
                                  ScatterKnown known = ScatterKnown::beforehand);

namespace detail {

/// One more pair of readings in term `index`.
SAMELIGHT_API void read_again(Correction& correction, std::size_t index, double times = 1.0);

}  // namespace detail

/// How sure the corrected reading will be after `more` rounds of all patches, if they scatter as those so far. Range: more >= 0.
/// more: rounds; meter: X, Y, Z, cd/m2. Throws Error (domain) for a correction that does not hold its readings' noise.
SAMELIGHT_API Certainty after_more_rounds(const Correction& correction,
                                          const std::array<double, 3>& meter, int more);

/// How many more rounds of all patches bring the larger of the half-widths of the corrected x and y down to `half_width`; 0 where it is reached, nothing where
/// a thousand rounds would not do. Throws Error (domain) as after_more_rounds, or for a half-width that is not above 0.
SAMELIGHT_API std::optional<int> more_rounds_needed(const Correction& correction,
                                                    const std::array<double, 3>& meter,
                                                    double half_width, double coverage = 0.95);

/// What one more pair of readings of a patch would do.
struct NextPatch {
    std::string patch;
    /// Of x and y together after it: the root of the sum of their variances.
    double standard_uncertainty = 0.0;
    /// Share of the present standard uncertainty that it takes away.
    double reduction = 0.0;
};

/// The patches by what one more pair of readings of each would do for the corrected readings `colours` (X, Y, Z as the meter reads them; white, as a rule),
/// the most useful first; over several colours the root mean square counts. For the four-colour method white's uncertainty comes from white alone.
/// Throws Error (domain) as after_more_rounds, Error (shape) for no colours.
SAMELIGHT_API std::vector<NextPatch> next_patches(
    const Correction& correction, const std::vector<std::array<double, 3>>& colours);

/// More rounds than this are no advice: the noise must come down first (common practice, no source).
inline constexpr int most_sensible_rounds = 20;

/// Why to stop, or to go on. Each says which members of StopAdvice hold its facts; report/fit_words.hpp has it in English.
enum class StopReason {
    /// The wanted half-width is reached: `half_width`.
    reached,
    /// The half-width is less than a third of what no reading improves: `half_width`, `floor_xy`.
    below_floor,
    /// Not every patch was read fewest_rounds times.
    too_few,
    /// So many more rounds will do: `half_width`, `more_rounds`, `wanted`.
    go_on,
    /// Over most_sensible_rounds more would be needed, so the noise must come down first: `half_width`, `wanted`.
    out_of_reach,
    /// The verdict on the correction wants something read again first, or mended: FitJudgement says what.
    read_again,
    /// The verdict is not to use the correction, whatever is read more often.
    do_not_use
};

/// "reached", "below_floor", "too_few", "go_on", "out_of_reach", "read_again" or "do_not_use".
SAMELIGHT_API const char* code_of(StopReason reason);

/// Whether to go on reading.
struct StopAdvice {
    bool stop = false;
    StopReason reason = StopReason::too_few;
    /// Now: the larger of those of x and y.
    double half_width = 0.0;
    /// Until the wanted half-width; absent where over most_sensible_rounds.
    std::optional<int> more_rounds = {};
    /// The half-width that was wanted.
    double wanted = 0.0;
    /// What readings can't improve; 0: not known.
    double floor_xy = 0.0;
};

/// No advice to stop before every patch was read this often: fewer repeats can agree by chance.
inline constexpr int fewest_rounds = 3;

/// How sure a white is wanted.
struct WantedWhite {
    /// Of x and y, expanded.
    double half_width;
    /// What readings can't improve: the reference's own uncertainty, or the error on colours left out; 0: not known.
    double floor_xy = 0.0;
    /// Of the half-width, 0 to 1, exclusive.
    double coverage = 0.95;
};

/// When to stop: once the larger half-width of the corrected x and y is the wanted one or less, or once it is less than a third of the floor. Below a third, going on would change the
/// whole by less than 5 %. Never before three rounds. Where more than most_sensible_rounds would be needed, it is out of reach.
/// To stop as soon as the half-width is reached favours chance agreement: the region then holds the truth a little less often than it says, which a
/// test measures. Throws Error (domain) as more_rounds_needed, or for a floor below 0.
SAMELIGHT_API StopAdvice advise_stop(const Correction& correction,
                                     const std::array<double, 3>& meter, const WantedWhite& white);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/plan.ipp"
#endif
