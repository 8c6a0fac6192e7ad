#pragma once
// The bodies of assess/check/visit.hpp.

#include <algorithm>

#include "samelight/assess/check/visit.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Minutes from now.
inline double visit_steady_in(const WarmUp& warm_up) {
    switch (warm_up.verdict) {
        case WarmUpVerdict::begin:
            return 0.0;
        case WarmUpVerdict::read_longer:
            return std::max(1.0, warm_up.limits.minutes - warm_up.span_min);
        case WarmUpVerdict::wait:
        case WarmUpVerdict::read_more_often:
            break;
    }
    return warm_up.wait ? std::max(1.0, warm_up.wait->likely_min) : warm_up.limits.minutes;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE VisitAnswer answer_visit(const VisitAsked& asked) {
    VisitAnswer answer{asked.visit, {}, {}};
    answer.warm_ups.resize(asked.visit.displays.size());
    for (const DisplayWarmingUp& warming : asked.warming_up) {
        WarmUp& judged =
            answer.warm_ups.at(warming.display).emplace(judge_warm_up(warming.readings));
        answer.visit.displays.at(warming.display).steady_in_min =
            samelight::detail::visit_steady_in(judged);
    }
    answer.plan = plan_visit(answer.visit);
    return answer;
}

}  // namespace samelight::assess
