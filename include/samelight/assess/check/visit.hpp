#pragma once
// A visit as it is planned, or as it goes on: whether its displays are warm, and what is done in which order.
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Readings of one display's white over time.
struct DisplayWarmingUp {
    /// Which of the displays.
    std::size_t display;
    std::vector<WarmUpReading> readings;
};

/// What is asked for.
struct VisitAsked {
    /// Without `steady_in_min` where readings tell it.
    VisitRequest visit;
    std::vector<DisplayWarmingUp> warming_up = {};
};

/// The whole answer.
struct VisitAnswer {
    /// As asked, with what the readings say of when a display is steady.
    VisitRequest visit;
    VisitPlan plan;
    /// One a display; absent where there are no readings.
    std::vector<std::optional<WarmUp>> warm_ups;
};

/// Judges the displays' warming up and plans the visit: a display that is steady needn't be waited for, one that isn't is waited for as long as its
/// readings say; where they say nothing, ten minutes more of reading.
/// Throws as judge_warm_up() and plan_visit().
SAMELIGHT_API VisitAnswer answer_visit(const VisitAsked& asked);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/visit.ipp"
#endif
