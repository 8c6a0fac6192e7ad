#pragma once
// The bodies of check/gradients/ramp_trials.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include "samelight/check/gradients/ramp_trials.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::array<int, 3> whole_codes(const std::array<double, 3>& signal, double last) {
    std::array<int, 3> codes{};
    for (std::size_t k = 0; k < 3; ++k) {
        codes[k] = static_cast<int>(signal[k] * last + 0.5);
    }
    return codes;
}

inline std::array<double, 3> signals_of_codes(const std::array<int, 3>& codes, double last) {
    return {codes[0] / last, codes[1] / last, codes[2] / last};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE RampTrials::RampTrials(const RampSet& ramps, const Adjustment& adjustment)

    : ramps_(&ramps),
      bound_(ramps.display_.display().encoding()),
      parts_(adjustment.parts()),
      controls_(adjustment.controls()) {
    hues_alone_ = !adjustment.table() && std::all_of(controls_.begin(), controls_.end(),
                                                     [](const AdjustmentMove& control) {
                                                         return is_of_hue(control.kind);
                                                     });
    for (std::size_t r = 0; r < ramps.ramps_.size(); ++r) {
        const std::vector<std::array<int, 3>>& codes = ramps.ramps_[r].codes;
        std::vector<Place> places(codes.size());
        for (std::size_t i = 0; i < codes.size(); ++i) {
            places[i].out = codes[i];
            places[i].light = bound_.light(ramps.display_.channels(codes[i]));
        }
        places_.push_back(std::move(places));
        seen_.emplace_back(codes.size() - 1);
        find_acting(r);
    }
}

SAMELIGHT_INLINE void RampTrials::find_acting(std::size_t ramp) {
    const double last = ramps_->display_.last_code();
    std::vector<std::size_t> moved;
    for (std::size_t i = 0; i < places_[ramp].size(); ++i) {
        Place& place = places_[ramp][i];
        place.hue = detail::hex_hue(detail::signals_of_codes(ramps_->ramps_[ramp].codes[i], last));
        place.first_acting = acting_.size();
        for (std::size_t k = 0; k < controls_.size() && place.hue.most > place.hue.least; ++k) {
            if (is_of_hue(controls_[k].kind)) {
                const double weight = detail::hue_weight(controls_[k], 60.0 * place.hue.sixth);
                if (weight > 0.0) {
                    acting_.push_back({k, weight});
                }
            }
        }
        place.last_acting = acting_.size();
        if (!hues_alone_ || place.last_acting > place.first_acting) {
            moved.push_back(i);
        }
    }
    moved_.push_back(std::move(moved));
}

/// Without a table, each channel's codes out.
SAMELIGHT_INLINE void RampTrials::take_channels(const Adjustment& now) {
    if (hues_alone_ || now.table()) {
        return;
    }
    const double last = ramps_->display_.last_code();
    const std::size_t codes = static_cast<std::size_t>(last) + 1;
    for (std::size_t k = 0; k < 3; ++k) {
        channels_[k].resize(codes, -1);
        otherwise_[k].resize(codes);
    }
    for (std::size_t code = 0; code < codes; ++code) {
        const double signal = static_cast<double>(code) / last;
        const auto out = detail::whole_codes(now.behind_hues({signal, signal, signal}), last);
        for (std::size_t k = 0; k < 3; ++k) {
            otherwise_[k][code] = channels_[k][code] != out[k] ? 1 : 0;
            channels_[k][code] = out[k];
        }
    }
}

SAMELIGHT_INLINE std::array<int, 3> RampTrials::codes_out(const Adjustment& now, std::size_t ramp,
                                                          std::size_t i) const {
    const std::array<int, 3>& in = ramps_->ramps_[ramp].codes[i];
    const double last = ramps_->display_.last_code();
    const Place& place = places_[ramp][i];
    detail::HueMoves moves;
    for (std::size_t k = place.first_acting; k < place.last_acting; ++k) {
        moves.add(now.controls()[acting_[k].control], acting_[k].weight);
    }
    if (!moves.none()) {
        return detail::whole_codes(now.behind_hues(moves.applied(place.hue)), last);
    }
    if (now.table()) {
        return detail::whole_codes(now.behind_hues(detail::signals_of_codes(in, last)), last);
    }
    if (hues_alone_) {
        return in;
    }
    std::array<int, 3> out{};
    for (std::size_t k = 0; k < 3; ++k) {
        out[k] = channels_[k][static_cast<std::size_t>(in[k])];
    }
    return out;
}

SAMELIGHT_INLINE void RampTrials::move_places(const Adjustment& now, std::size_t ramp) {
    const std::vector<std::array<int, 3>>& in = ramps_->ramps_[ramp].codes;
    const bool by_channel = !hues_alone_ && !now.table();
    changed_.clear();
    for (const std::size_t i : moved_[ramp]) {
        Place& place = places_[ramp][i];
        const auto otherwise = [&](std::size_t k) {
            return otherwise_[k][static_cast<std::size_t>(in[i][k])] != 0;
        };
        if (by_channel && place.last_acting == place.first_acting && !otherwise(0) &&
            !otherwise(1) && !otherwise(2)) {
            continue;
        }
        const std::array<int, 3> out = codes_out(now, ramp, i);
        if (out[0] == place.out[0] && out[1] == place.out[1] && out[2] == place.out[2]) {
            continue;
        }
        place.out = out;
        place.light = bound_.light(ramps_->display_.channels(out));
        changed_.push_back(i);
    }
}

SAMELIGHT_INLINE void RampTrials::see_step(std::size_t ramp, std::size_t i) {
    const std::vector<std::array<int, 3>>& in = ramps_->ramps_[ramp].codes;
    const Place& a = places_[ramp][i];
    const Place& b = places_[ramp][i + 1];
    Seen& seen = seen_[ramp][i];
    seen.changes = a.out != b.out && !(a.out == in[i] && b.out == in[i + 1]);
    if (seen.changes) {
        RampStep step{i, {in[i], in[i + 1]}, {a.out, b.out}, ramps_->steps_[ramp][i]};
        step.after = bound_.most(a.light, b.light, detail::kind_of_step(ramps_->ramps_[ramp].kind));
        detail::judge_step(step);
        seen = {step.excess, step.made, true};
    }
}

SAMELIGHT_INLINE RampStep RampTrials::weighed_step(std::size_t ramp, std::size_t i) const {
    const std::array<std::array<int, 3>, 2> out = {places_[ramp][i].out, places_[ramp][i + 1].out};
    return ramps_->step_at(ramp, i, out,
                           {ramps_->display_.colour(out[0]), ramps_->display_.colour(out[1])});
}

SAMELIGHT_INLINE WorstStep RampTrials::worst(const Adjustment& now) {
    if (now.parts() != parts_) {
        throw Error(ErrorKind::shape, "RampTrials", std::to_string(now.parts()) + " parts",
                    "the " + std::to_string(parts_) + " of what is tried");
    }
    take_channels(now);
    WorstStep worst{0, {}};
    for (std::size_t r = 0; r < places_.size(); ++r) {
        move_places(now, r);
        std::size_t next = 0;
        for (const std::size_t place : changed_) {
            for (std::size_t i = std::max(next, place > 0 ? place - 1 : 0);
                 i <= place && i < seen_[r].size(); ++i) {
                see_step(r, i);
            }
            next = place + 1;
        }
        if (r == 0) {
            worst.step = weighed_step(0, 0);
        }
        for (std::size_t i = 0; i < seen_[r].size(); ++i) {
            Seen& seen = seen_[r][i];
            if (!seen.changes || !seen.is_worse_than(worst.step)) {
                continue;
            }
            const RampStep step = weighed_step(r, i);
            seen.excess = step.excess;
            seen.made = step.made;
            if (step.is_worse_than(worst.step)) {
                worst = {r, step};
            }
        }
    }
    return worst;
}

}  // namespace samelight
