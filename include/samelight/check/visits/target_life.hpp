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
    /// Between the visits; absent: not known, then there is no rate and no life.
    std::optional<double> months = {};
    /// Distance in u', v' beyond which white is to be set again. Own choice.
    double limit_uv = 0.003;
};

/// A range that holds the value 19 times in 20.
struct LikelyRange {
    double likely = 0.0, least = 0.0, most = 0.0;
};

/// Where white stands about its target, and how long it will.
struct TargetLife {
    /// u', v' from the target.
    LikelyRange distance_then, distance_now;
    /// u', v' a year along white's way.
    std::optional<LikelyRange> rate_per_year = {};
    /// Months from now until white is beyond the limit if it goes on so; ends that are absent: never, or so far off (over 1,200 months) that nobody
    /// can say.
    struct Months {
        std::optional<double> likely, least, most;
    };
    std::optional<Months> months = {};
    /// The same for a white that is set to its target now.
    std::optional<Months> months_if_set = {};
    double limit_uv = 0.0;
};

/// Draws both whites 4,096 times from what is known of them, as normal numbers widened to Student's t, the same draws at every call, and goes on from
/// each pair in a straight line at the same speed. Ageing slows down with a display's age (common practice, no source), so that the range rather ends
/// too soon.
/// No unit but months. Throws Error (domain) for chromaticities that are none, months or a limit that aren't above 0. Own method.
SAMELIGHT_API TargetLife target_life(const TargetLifeRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/target_life.ipp"
#endif
