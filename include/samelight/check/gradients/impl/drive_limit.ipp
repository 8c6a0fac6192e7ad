#pragma once
// The bodies of check/gradients/drive_limit.hpp.

#include <algorithm>
#include <array>
#include <cmath>

#include "samelight/check/gradients/drive_limit.hpp"
#include "samelight/check/gradients/ramp_trials.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A control on its way to its end, in `coarse` times `fine` amounts.
struct Drive {
    static constexpr int coarse = 64;
    static constexpr int fine = 16;
    static constexpr int halvings = 3;
    /// Steps come and go with rounding, the more so the larger a code is: between amounts of less than this no step of more than 1 was found to hide.
    [[nodiscard]] double near_excess() const { return 1.0 - 0.8 * std::exp2(0.5 * (8 - bits)); }

    int bits;
    const Adjustment* adjustment;
    std::size_t part;
    double end;
    RampTrials trials;

    [[nodiscard]] double amount(double k) const { return end * k / (coarse * fine); }
    [[nodiscard]] WorstStep at(double k) { return trials.worst(adjustment->only(part, amount(k))); }

    /// Looks at all amounts up to coarse amount `k` from the one before; true where one shows.
    [[nodiscard]] bool within(int k, DriveLimit& result) {
        for (int i = fine * (k - 1) + 1; i <= fine * k; ++i) {
            WorstStep found = at(i);
            if (!found.step.made) {
                continue;
            }
            double free = i - 1;
            double made = i;
            for (int half = 0; half < halvings; ++half) {
                const double middle = 0.5 * (free + made);
                const WorstStep there = at(middle);
                (there.step.made ? made : free) = middle;
                found = there.step.made ? there : found;
            }
            result.limit = amount(free);
            result.first = found;
            return true;
        }
        return false;
    }
};

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double drive_end(MoveKind kind) {
    constexpr std::array<double, 6> ends = {50.0, 20.0, 20.0, 100.0, 60.0, 50.0};
    return ends.at(static_cast<std::size_t>(kind));
}

SAMELIGHT_INLINE DriveLimit drive_limit(const RampSet& ramps, const Adjustment& adjustment,
                                        std::size_t part) {
    const bool table = part >= adjustment.controls().size();
    DriveLimit result{part, 1.0, 1.0, 1.0, {}};
    if (!table) {
        const AdjustmentMove& control = adjustment.controls()[part];
        const double end = std::max(drive_end(control.kind), std::abs(control.amount));
        result.set = control.amount;
        result.end = control.amount < 0.0 ? -end : end;
        result.limit = result.end;
    }
    detail::Drive drive{ramps.display().bits(), &adjustment, part, result.end,
                        RampTrials(ramps, adjustment.only(part, result.end))};
    double last = 0.0;
    for (int k = 1; k <= detail::Drive::coarse; ++k) {
        const WorstStep found = drive.at(k * detail::Drive::fine);
        const bool near = std::max(last, found.step.excess) > drive.near_excess();
        last = found.step.excess;
        if ((k == 1 || near || found.step.made) && drive.within(k, result)) {
            return result;
        }
    }
    return result;
}

}  // namespace samelight
