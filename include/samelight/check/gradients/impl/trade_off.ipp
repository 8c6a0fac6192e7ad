#pragma once
// The bodies of check/gradients/trade_off.hpp.

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "samelight/check/gradients/ramp_trials.hpp"
#include "samelight/check/gradients/trade_off.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What doesn't change from one strength to the next.
class TradeRoom {
  public:
    TradeRoom(const RampSet& ramps, const Adjustment& whole, const TradeQuestion& question)
        : ramps_(&ramps), whole_(&whole), question_(&question), trials_(ramps, whole) {}

    [[nodiscard]] std::size_t parts() const { return whole_->parts(); }
    [[nodiscard]] const TradeQuestion& question() const { return *question_; }

    /// The worst colour alone.
    [[nodiscard]] TradePoint accuracy(std::vector<double> shares) const {
        TradePoint point{std::move(shares), {}, 0, {}};
        if (question_->colours.empty()) {
            return point;
        }
        const Adjustment now = whole_->scaled(std::span<const double>(point.shares));
        const auto colours = predicted_colours(ramps_->display(), *whole_, now, *question_);
        const auto lab_of = [this](const std::array<double, 3>& v) {
            using Xyz = Tristimulus<Cie1931_2deg>;
            const auto& w = question_->white;
            return lab(Xyz(v[0], v[1], v[2]), Xyz(w[0], w[1], w[2]));
        };
        for (std::size_t i = 0; i < colours.size(); ++i) {
            const double de =
                delta_e_2000(lab_of(question_->colours[i].wanted), lab_of(colours[i]));
            if (!point.worst_de00 || de > *point.worst_de00) {
                point.worst_de00 = de;
                point.worst_colour = i;
            }
        }
        return point;
    }

    [[nodiscard]] bool keeps_gate(const TradePoint& point) const {
        return point.worst_de00 && *point.worst_de00 <= question_->gate;
    }

    void look(TradePoint& point) {
        point.step = trials_.worst(whole_->scaled(std::span<const double>(point.shares)));
    }

    [[nodiscard]] TradePoint equal(int share, int of) const {
        return accuracy(std::vector<double>(parts(), static_cast<double>(share) / of));
    }

    /// Parts by the step that each makes alone, the largest first.
    [[nodiscard]] std::vector<std::size_t> by_step() const {
        std::vector<double> excess;
        for (std::size_t k = 0; k < parts(); ++k) {
            const bool table = k == whole_->controls().size();
            const Adjustment alone = whole_->only(k, table ? 1.0 : whole_->controls()[k].amount);
            excess.push_back(RampTrials(*ramps_, alone).worst(alone).step.excess);
        }
        std::vector<std::size_t> order(parts());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(),
                         [&excess](std::size_t a, std::size_t b) { return excess[a] > excess[b]; });
        return order;
    }

  private:
    const RampSet* ramps_;
    const Adjustment* whole_;
    const TradeQuestion* question_;
    RampTrials trials_;
};

inline std::optional<TradePoint> mildest_share(TradeRoom& room) {
    for (int share = 0; share <= 100; ++share) {
        TradePoint point = room.equal(share, 100);
        if (room.keeps_gate(point)) {
            room.look(point);
            return point;
        }
    }
    return {};
}

/// Each part in turn to the twentieth with which the worst colour is least, twice around.
inline TradePoint most_accurate(const TradeRoom& room) {
    TradePoint point = room.equal(1, 1);
    for (int round = 0; round < 2; ++round) {
        for (std::size_t part = 0; part < room.parts(); ++part) {
            for (int twentieth = 0; twentieth <= 20; ++twentieth) {
                std::vector<double> shares = point.shares;
                shares[part] = twentieth / 20.0;
                TradePoint other = room.accuracy(std::move(shares));
                if (*other.worst_de00 < *point.worst_de00) {
                    point = std::move(other);
                }
            }
        }
    }
    return point;
}

/// From the whole adjustment where it keeps the gate, else from the mildest that does, else from the most accurate.
inline std::optional<TradePoint> shares_part_by_part(TradeRoom& room,
                                                     const std::optional<TradePoint>& mildest) {
    if (room.question().colours.empty() || room.parts() == 0) {
        return {};
    }
    TradePoint point = room.equal(1, 1);
    if (!room.keeps_gate(point)) {
        point = mildest ? *mildest : most_accurate(room);
    }
    if (!room.keeps_gate(point)) {
        return {};
    }
    room.look(point);
    for (const std::size_t part : room.by_step()) {
        if (!point.step.step.made) {
            break;
        }
        const double had = point.shares[part];
        for (int twentieth = 0; twentieth < 20 && twentieth / 20.0 < had; ++twentieth) {
            std::vector<double> shares = point.shares;
            shares[part] = twentieth / 20.0;
            TradePoint milder = room.accuracy(std::move(shares));
            if (room.keeps_gate(milder)) {
                room.look(milder);
                point = std::move(milder);
                break;
            }
        }
    }
    return point;
}

/// By twentieths up to the first that shows, then by hundredths.
inline TradePoint free_share(TradeRoom& room, const std::vector<TradePoint>& curve) {
    std::size_t first = 0;
    while (first < curve.size() && !curve[first].step.step.made) {
        ++first;
    }
    if (first == curve.size()) {
        return curve.back();
    }
    TradePoint free = curve[first > 0 ? first - 1 : 0];
    for (int share = static_cast<int>(first) * 5 - 4; share > 0 && share % 5 != 0; ++share) {
        TradePoint point = room.equal(share, 100);
        room.look(point);
        if (point.step.step.made) {
            break;
        }
        free = std::move(point);
    }
    return free;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const TradePoint* TradeOff::best() const {
    if (!mildest || !part_by_part) {
        return mildest ? &*mildest : part_by_part ? &*part_by_part : nullptr;
    }
    const RampStep& a = mildest->step.step;
    const RampStep& b = part_by_part->step.step;
    const bool second = a.made != b.made ? a.made : b.excess < a.excess;
    return second ? &*part_by_part : &*mildest;
}

SAMELIGHT_INLINE std::vector<std::array<double, 3>> predicted_colours(
    const CodedDisplay& display, const Adjustment& whole, const Adjustment& now,
    const TradeQuestion& question) {
    std::vector<std::array<double, 3>> result;
    const Quantisation codes(display.bits(), SignalRange::full);
    for (const ProvedColour& colour : question.colours) {
        std::array<int, 3> in{};
        for (std::size_t i = 0; i < 3; ++i) {
            if (!(colour.signal[i] >= 0.0 && colour.signal[i] <= 1.0)) {
                throw Error(ErrorKind::domain, "predicted_colours", to_text(colour.signal[i]),
                            "a signal of 0 to 1");
            }
            in[i] = codes.code(Signal(colour.signal[i])).code;
        }
        const auto then = question.when == ReadWhen::with ? display.adjusted(in, whole) : in;
        const auto light_then = display.xyz(then);
        const auto light_now = display.xyz(display.adjusted(in, now));
        std::array<double, 3> xyz = colour.read;
        for (std::size_t i = 0; i < 3; ++i) {
            xyz[i] = std::max(0.0, xyz[i] + light_now[i] - light_then[i]);
        }
        result.push_back(xyz);
    }
    return result;
}

SAMELIGHT_INLINE TradeOff trade_off(const RampSet& ramps, const Adjustment& adjustment,
                                    const TradeQuestion& question) {
    if (!(question.gate > 0.0)) {
        throw Error(ErrorKind::domain, "trade_off", "a gate of " + to_text(question.gate),
                    "a CIEDE2000 above 0");
    }
    detail::TradeRoom room(ramps, adjustment, question);
    TradeOff result;
    for (int twentieth = 0; twentieth <= 20; ++twentieth) {
        TradePoint point = room.equal(twentieth, 20);
        room.look(point);
        result.curve.push_back(std::move(point));
    }
    result.mildest = detail::mildest_share(room);
    result.part_by_part = detail::shares_part_by_part(room, result.mildest);
    result.free = detail::free_share(room, result.curve);
    return result;
}

}  // namespace samelight
