#pragma once
// How long a white will stay near its target, from two visits.
#include <array>
#include <optional>

#include "samelight/check/visits/ageing.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is asked.
struct TargetLifeRequest {
    /// CIE x, y of the target; absent: where white truly was then.
    std::optional<std::array<double, 2>> target = {};
    /// Of white at both visits, as read.
    std::array<double, 2> then{}, now{};
    /// Of x, y of both.
    CovarianceMatrix<2> then_covariance{}, now_covariance{};
    /// Behind both; may be infinite.
    double degrees_of_freedom = 0.0;
    /// Between the visits; absent: not known, then there is no rate, and what is left is told in spans between visits alone.
    std::optional<double> months = {};
    /// Distance in u', v' beyond which white is to be set again. Own choice.
    double limit_uv = 0.003;
};

/// A range that holds the value 19 times in 20.
struct LikelyRange {
    double likely = 0.0, least = 0.0, most = 0.0;
};

/// How long something goes on, with the range that holds it 19 times in 20. Ends that are absent: never, or so far off that nobody can say (over 1,200
/// months, or 100 spans between visits).
struct Horizon {
    std::optional<double> likely, least, most;
};

/// Spans between visits as a horizon: ends beyond 100 spans are left open. Throws nothing. Own choice.
SAMELIGHT_API Horizon spans_told(const LikelyRange& spans);
/// The same in months, of which a span has `months_a_span`; ends beyond 1,200 months are left open. Unit: months. Throws nothing. Own choice.
SAMELIGHT_API Horizon months_told(const LikelyRange& spans, double months_a_span);

/// Where white stands about its target, and how long it will.
struct TargetLife {
    /// u', v' from the target.
    LikelyRange distance_then, distance_now;
    /// u', v' a year along white's way.
    std::optional<LikelyRange> rate_per_year = {};
    /// From now until white is beyond the limit if it goes on so, months; and for a white that is set to its target now. Where months are known.
    std::optional<Horizon> months = {}, months_if_set = {};
    /// The same in spans as long as that between the visits: 1 is as far off as the earlier visit.
    Horizon spans = {}, spans_if_set = {};
    double limit_uv = 0.0;
};

/// Draws both whites 4,096 times from what is known of them, as normal numbers widened to Student's t, the same draws at every call, and goes on from each pair in a straight
/// line at the same speed. Ageing slows down with a display's age (common practice, no source), so that the range rather ends too soon.
/// Months, or spans without unit. Throws Error (domain) for chromaticities that are none, months or a limit that aren't above 0. Own method.
SAMELIGHT_API TargetLife target_life(const TargetLifeRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/target_life.ipp"
#endif
