#pragma once
// The bodies of check/visits/visit_plan.hpp.

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What of one mode is done.
struct ModeScope {
    bool here = true, windows = true, proof = true;
    StepExtent primaries = StepExtent::full, greys = StepExtent::full,
               windows_extent = StepExtent::full, proof_extent = StepExtent::full;
};

/// Of each display, of each mode.
using VisitScope = std::vector<std::vector<ModeScope>>;

inline void require_visit(bool holds, const std::string& found, const char* wanted) {
    if (!holds) {
        throw Error(ErrorKind::domain, "plan_visit", found, wanted);
    }
}

inline void require_visit_times(const VisitTimes& t) {
    for (const double time :
         {t.meter.bright_s, t.meter.dim_s, t.meter.dark_s, t.reference.bright_s, t.reference.dim_s,
          t.reference.dark_s, t.pattern_s, t.rest_s, t.exchange_s, t.set_up_min, t.mode_min,
          t.adjust_min, t.warm_up_min}) {
        require_visit(time >= 0.0 && time <= 1e4, "a time of " + to_text(time), "0 to 10,000");
    }
}

inline void require_visit_request(const VisitRequest& request) {
    require_visit(!request.displays.empty(), "no display", "one or more");
    require_visit(request.minutes > 0.0 && request.minutes <= 1e4,
                  to_text(request.minutes) + " minutes", "above 0, up to 10,000");
    require_visit(request.on_for_min >= 0.0 && std::isfinite(request.on_for_min),
                  "displays on for " + to_text(request.on_for_min) + " minutes", "0 or more");
    for (const VisitDisplay& display : request.displays) {
        require_visit(!display.modes.empty(), display.name + " without a mode", "one or more");
        require_visit(std::isfinite(display.steady_in_min.value_or(0.0)),
                      display.name + " never steady", "finite minutes");
    }
    require_visit_times(request.times);
}

inline double visit_ready_min(const VisitRequest& request, std::size_t display) {
    return std::max(0.0, request.displays[display].steady_in_min.value_or(
                             request.times.warm_up_min - request.on_for_min));
}

/// The steps of one mode; the first mode of a display is read by both instruments throughout.
inline std::vector<std::pair<VisitStep, StepExtent>> visit_steps_of(const ModeScope& scope,
                                                                    bool has_windows) {
    using enum VisitStep;
    std::vector<std::pair<VisitStep, StepExtent>> steps{
        {white_first, StepExtent::full}, {set_white, StepExtent::full},
        {white_again, StepExtent::full}, {primaries, scope.primaries},
        {black, StepExtent::full},       {greys, scope.greys}};
    if (has_windows && scope.windows) {
        steps.emplace_back(VisitStep::windows, scope.windows_extent);
    }
    if (scope.proof) {
        steps.emplace_back(proof, scope.proof_extent);
    }
    return steps;
}

/// Readings and minutes, worked out once for each kind of step.
class StepBook {
  public:
    explicit StepBook(const VisitRequest& request) : request_(&request) {}

    const std::pair<StepReadings, double>& of(VisitStep step, StepExtent extent,
                                              VisitInstruments instruments) {
        auto& known = known_[static_cast<std::size_t>(step)][static_cast<std::size_t>(extent)]
                            [static_cast<std::size_t>(instruments)];
        if (!known) {
            StepReadings readings =
                step_readings(step, extent, instruments, request_->quantisation);
            const double minutes = step_minutes(step, readings, request_->times);
            known = {std::move(readings), minutes};
        }
        return *known;
    }

  private:
    const VisitRequest* request_;
    std::array<std::array<std::array<std::optional<std::pair<StepReadings, double>>, 2>, 2>, 9>
        known_{};
};

/// Displays in the order in which they are steady.
inline std::vector<std::size_t> visit_order(const VisitRequest& request, const VisitScope& scope) {
    std::vector<std::size_t> order;
    for (std::size_t d = 0; d < scope.size(); ++d) {
        if (std::any_of(scope[d].begin(), scope[d].end(),
                        [](const ModeScope& m) { return m.here; })) {
            order.push_back(d);
        }
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return visit_ready_min(request, a) < visit_ready_min(request, b);
    });
    return order;
}

inline VisitPlan visit_planned(const VisitRequest& request, const VisitScope& scope,
                               StepBook& book) {
    VisitPlan plan;
    double now = 0.0;
    for (const std::size_t d : visit_order(request, scope)) {
        now += request.times.set_up_min;
        const double wait = std::max(0.0, visit_ready_min(request, d) - now);
        plan.waiting_min += wait;
        plan.steps.push_back({VisitStep::warm_up, d, 0, {{}, 0}, now, wait});
        now += wait;
        bool first = true;
        for (std::size_t m = 0; m < scope[d].size(); ++m) {
            if (!scope[d][m].here) {
                continue;
            }
            now += first ? 0.0 : request.times.mode_min;
            for (const auto& [step, extent] :
                 visit_steps_of(scope[d][m], request.displays[d].modes[m].windows)) {
                const bool again = step == VisitStep::primaries && !first;
                const auto& known =
                    book.of(step, extent, again ? VisitInstruments::meter : request.instruments);
                plan.steps.push_back({step, d, m, known.first, now, known.second});
                now += known.second;
            }
            first = false;
        }
    }
    plan.total_min = now;
    return plan;
}

/// Takes one thing out; false where there is nothing to take.
inline bool leave_out(VisitScope& scope, const VisitLeftOut& what, const VisitRequest& request) {
    ModeScope& mode = scope[what.display][what.mode];
    const auto lessen = [&](StepExtent& extent, bool holds = true) {
        const bool can = holds && mode.here && extent == StepExtent::full;
        extent = can ? StepExtent::part : extent;
        return can;
    };
    const auto drop = [&](bool& part, bool holds = true) {
        const bool can = holds && mode.here && part;
        part = can ? false : part;
        return can;
    };
    const bool windows = request.displays[what.display].modes[what.mode].windows;
    switch (what.what) {
        case VisitOmission::windows_few:
            return lessen(mode.windows_extent, windows);
        case VisitOmission::proof_few:
            return lessen(mode.proof_extent);
        case VisitOmission::greys_few:
            return lessen(mode.greys);
        case VisitOmission::mixtures:
            return lessen(mode.primaries);
        case VisitOmission::windows:
            return drop(mode.windows, windows);
        case VisitOmission::proof:
            return drop(mode.proof);
        case VisitOmission::mode:
            return drop(mode.here, what.mode > 0);
        case VisitOmission::display:
            return drop(mode.here, what.mode == 0 && what.display > 0);
    }
    return false;
}

/// Everything that can go, in the order in which it goes.
inline std::vector<VisitLeftOut> visit_ways_out(const VisitRequest& request) {
    std::vector<VisitLeftOut> ways;
    for (std::size_t what = 0; what < 8; ++what) {
        for (std::size_t d = request.displays.size(); d-- > 0;) {
            for (std::size_t m = request.displays[d].modes.size(); m-- > 0;) {
                ways.push_back({static_cast<VisitOmission>(what), d, m, 0.0});
            }
        }
    }
    return ways;
}

inline VisitScope whole_visit(const VisitRequest& request) {
    VisitScope scope;
    for (const VisitDisplay& display : request.displays) {
        scope.emplace_back(display.modes.size());
    }
    return scope;
}

/// The visit without these.
inline VisitScope visit_without(const VisitRequest& request, const std::vector<VisitLeftOut>& out) {
    VisitScope scope = whole_visit(request);
    for (const VisitLeftOut& what : out) {
        static_cast<void>(leave_out(scope, what, request));
    }
    // A further mode is worth nothing without the first, which its correction comes from.
    for (std::vector<ModeScope>& modes : scope) {
        for (ModeScope& mode : modes) {
            mode.here = mode.here && modes.front().here;
        }
    }
    return scope;
}

/// Of what went, that which needn't have: the last out is the first in again.
inline void visit_brought_back(const VisitRequest& request, StepBook& book,
                               std::vector<VisitLeftOut>& out) {
    for (std::size_t i = out.size(); i-- > 0;) {
        std::vector<VisitLeftOut> fewer = out;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        if (visit_planned(request, visit_without(request, fewer), book).total_min <=
            request.minutes) {
            out = std::move(fewer);
        }
    }
}

/// Parts of a mode or display that is out as a whole needn't be told.
inline void keep_tellable(const VisitScope& scope, std::vector<VisitLeftOut>& out) {
    std::erase_if(out, [&](const VisitLeftOut& what) {
        return what.what != VisitOmission::mode && what.what != VisitOmission::display &&
               !scope[what.display][what.mode].here;
    });
    std::erase_if(out, [&](const VisitLeftOut& what) {
        return what.what == VisitOmission::mode && !scope[what.display][0].here;
    });
    std::erase_if(out, [&](const VisitLeftOut& what) {
        const auto whole = [&](VisitOmission all) {
            return std::any_of(out.begin(), out.end(), [&](const VisitLeftOut& o) {
                return o.what == all && o.display == what.display && o.mode == what.mode;
            });
        };
        return (what.what == VisitOmission::windows_few && whole(VisitOmission::windows)) ||
               (what.what == VisitOmission::proof_few && whole(VisitOmission::proof));
    });
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE VisitPlan plan_visit(const VisitRequest& request) {
    detail::require_visit_request(request);
    detail::StepBook book(request);
    detail::VisitScope scope = detail::whole_visit(request);
    VisitPlan plan = detail::visit_planned(request, scope, book);
    std::vector<VisitLeftOut> out;
    for (VisitLeftOut way : detail::visit_ways_out(request)) {
        if (plan.total_min <= request.minutes) {
            break;
        }
        if (detail::leave_out(scope, way, request)) {
            out.push_back(way);
            plan = detail::visit_planned(request, scope, book);
        }
    }
    plan.missing_min = std::max(0.0, plan.total_min - request.minutes);
    if (plan.missing_min == 0.0) {
        detail::visit_brought_back(request, book, out);
        scope = detail::visit_without(request, out);
        plan = detail::visit_planned(request, scope, book);
    }
    detail::keep_tellable(scope, out);
    for (VisitLeftOut& what : out) {
        std::vector<VisitLeftOut> fewer = out;
        std::erase_if(fewer, [&](const VisitLeftOut& o) {
            return o.what == what.what && o.display == what.display && o.mode == what.mode;
        });
        what.minutes =
            detail::visit_planned(request, detail::visit_without(request, fewer), book).total_min -
            plan.total_min;
    }
    plan.left_out = std::move(out);
    return plan;
}

}  // namespace samelight
