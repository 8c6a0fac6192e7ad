#pragma once
// The bodies of check/gradients/adjustment.hpp.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void check_control(const AdjustmentMove& control) {
    const bool turns = control.kind == MoveKind::hue;
    if (!(std::abs(control.amount) <= (turns ? 180.0 : 1000.0))) {
        throw Error(ErrorKind::domain, "Adjustment", "an amount of " + to_text(control.amount),
                    turns ? "-180 to 180 degrees" : "-1000 to 1000 per cent");
    }
    if (!(control.level_pct >= 0.0 && control.level_pct <= 100.0)) {
        throw Error(ErrorKind::domain, "Adjustment", "a level of " + to_text(control.level_pct),
                    "0 to 100 per cent");
    }
    if (!(control.half_width_deg > 0.0 && control.half_width_deg <= 180.0)) {
        throw Error(ErrorKind::domain, "Adjustment",
                    "a half width of " + to_text(control.half_width_deg),
                    "above 0, up to 180 degrees");
    }
    if (!(control.hue_deg >= -360.0 && control.hue_deg <= 360.0)) {
        throw Error(ErrorKind::domain, "Adjustment", "a hue of " + to_text(control.hue_deg),
                    "-360 to 360 degrees");
    }
}

inline HexHue hex_hue(const std::array<double, 3>& s) {
    const double most = std::max({s[0], s[1], s[2]});
    const double least = std::min({s[0], s[1], s[2]});
    const double range = most - least;
    double sixth = 0.0;
    if (range > 0.0) {
        if (most == s[0]) {
            sixth = (s[1] - s[2]) / range;
        } else if (most == s[1]) {
            sixth = 2.0 + (s[2] - s[0]) / range;
        } else {
            sixth = 4.0 + (s[0] - s[1]) / range;
        }
    }
    return {sixth < 0.0 ? sixth + 6.0 : sixth, most, least};
}

inline std::array<double, 3> of_hex_hue(const HexHue& h) {
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        // Distance from this primary, in sixths of a turn: whole up to 1, none from 2.
        double away = std::abs(std::fmod(h.sixth - 2.0 * static_cast<double>(i) + 15.0, 6.0) - 3.0);
        away = std::clamp(2.0 - away, 0.0, 1.0);
        result[i] = h.least + away * (h.most - h.least);
    }
    return result;
}

inline double hue_weight(const AdjustmentMove& control, double hue_deg) {
    const double away = std::abs(std::remainder(hue_deg - control.hue_deg, 360.0));
    return std::max(0.0, 1.0 - away / control.half_width_deg);
}

/// What all controls of a hue do to one colour, together.
struct HueMoves {
    /// Shares of what is there; sixths of a turn.
    double saturation = 0.0, turned = 0.0, lightness = 0.0;

    void add(const AdjustmentMove& control, double weight) {
        const double moved = weight * control.amount;
        if (control.kind == MoveKind::saturation) {
            saturation += moved / 100.0;
        } else if (control.kind == MoveKind::hue) {
            turned += moved / 60.0;
        } else {
            lightness += moved / 100.0;
        }
    }
    [[nodiscard]] bool none() const {
        return saturation == 0.0 && turned == 0.0 && lightness == 0.0;
    }
    /// For a hue, not for greys.
    [[nodiscard]] std::array<double, 3> applied(HexHue hue) const {
        const double had = 1.0 - hue.least / hue.most;
        const double share = std::clamp(had * (1.0 + saturation), 0.0, 1.0);
        // Greys stay, and what is nearly grey stays nearly.
        hue.most *= std::max(0.0, 1.0 + had * lightness);
        hue.least = hue.most * (1.0 - share);
        hue.sixth = std::fmod(std::fmod(hue.sixth + turned, 6.0) + 6.0, 6.0);
        return of_hex_hue(hue);
    }
};

/// The corner of the cube that lies from `cell` by 0 or 1 in each direction.
inline const std::array<double, 3>& table_corner(const SignalTable& table,
                                                 const std::array<std::size_t, 3>& cell,
                                                 const std::array<std::size_t, 3>& step) {
    return table.out[((cell[0] + step[0]) * table.nodes + cell[1] + step[1]) * table.nodes +
                     cell[2] + step[2]];
}

inline std::array<double, 3> trilinear(const SignalTable& table,
                                       const std::array<std::size_t, 3>& cell,
                                       const std::array<double, 3>& part) {
    std::array<double, 3> result{};
    for (std::size_t corner = 0; corner < 8; ++corner) {
        const std::array<std::size_t, 3> step = {corner >> 2U, (corner >> 1U) & 1U, corner & 1U};
        double weight = 1.0;
        for (std::size_t i = 0; i < 3; ++i) {
            weight *= step[i] == 1 ? part[i] : 1.0 - part[i];
        }
        for (std::size_t i = 0; i < 3; ++i) {
            result[i] += weight * table_corner(table, cell, step)[i];
        }
    }
    return result;
}

/// Along the edges, the longest way first.
inline std::array<double, 3> tetrahedral(const SignalTable& table,
                                         const std::array<std::size_t, 3>& cell,
                                         const std::array<double, 3>& part) {
    std::array<std::size_t, 3> order = {0, 1, 2};
    std::stable_sort(order.begin(), order.end(),
                     [&part](std::size_t a, std::size_t b) { return part[a] > part[b]; });
    std::array<std::size_t, 3> step = {0, 0, 0};
    std::array<double, 3> result = table_corner(table, cell, step);
    for (const std::size_t along : order) {
        const std::array<double, 3>& from = table_corner(table, cell, step);
        step[along] = 1;
        const std::array<double, 3>& to = table_corner(table, cell, step);
        for (std::size_t i = 0; i < 3; ++i) {
            result[i] += part[along] * (to[i] - from[i]);
        }
    }
    return result;
}

inline void check_table(const SignalTable& table) {
    if (table.nodes < 2 || table.nodes > 65 ||
        table.out.size() != table.nodes * table.nodes * table.nodes) {
        throw Error(ErrorKind::shape, "SignalTable",
                    std::to_string(table.out.size()) + " rows for " + std::to_string(table.nodes) +
                        " nodes on a side",
                    "2 to 65 nodes, and their third power of rows");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> read_table(const SignalTable& table,
                                                  const std::array<double, 3>& signal) {
    detail::check_table(table);
    std::array<std::size_t, 3> cell{};
    std::array<double, 3> part{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double at = std::clamp(signal[i], 0.0, 1.0) * static_cast<double>(table.nodes - 1);
        cell[i] = std::min(static_cast<std::size_t>(at), table.nodes - 2);
        part[i] = at - static_cast<double>(cell[i]);
    }
    return table.reading == TableReading::trilinear ? detail::trilinear(table, cell, part)
                                                    : detail::tetrahedral(table, cell, part);
}

SAMELIGHT_INLINE Adjustment::Adjustment(std::vector<AdjustmentMove> controls,
                                        std::optional<SignalTable> table)
    : controls_(std::move(controls)), table_(std::move(table)) {
    if (table_) {
        detail::check_table(*table_);
    }
    for (const AdjustmentMove& control : controls_) {
        detail::check_control(control);
        of_hues_ = of_hues_ || is_of_hue(control.kind);
        for (std::size_t i = 0; i < 3 && !is_of_hue(control.kind); ++i) {
            if (control.channel != MoveChannel::all &&
                static_cast<std::size_t>(control.channel) != i) {
                continue;
            }
            if (control.kind == MoveKind::gain) {
                gain_[i] += control.amount / 100.0;
            } else if (control.kind == MoveKind::offset) {
                offset_[i] += control.amount / 100.0;
            } else {
                points_[i].push_back({control.level_pct / 100.0, control.amount / 100.0});
            }
        }
    }
    for (std::vector<LevelAmount>& list : points_) {
        std::stable_sort(list.begin(), list.end(), [](const LevelAmount& a, const LevelAmount& b) {
            return a.level < b.level;
        });
        for (std::size_t k = 1; k < list.size(); ++k) {
            if (!(list[k].level > list[k - 1].level)) {
                throw Error(ErrorKind::domain, "Adjustment",
                            "two points at " + to_text(100.0 * list[k].level) + " %",
                            "each level of a channel once");
            }
        }
        if (!list.empty() && list.front().level > 0.0) {
            list.insert(list.begin(), {0.0, 0.0});
        }
        if (!list.empty() && list.back().level < 1.0) {
            list.push_back({1.0, 0.0});
        }
    }
}

SAMELIGHT_INLINE bool Adjustment::is_none() const {
    return !table_ && std::all_of(controls_.begin(), controls_.end(),
                                  [](const AdjustmentMove& c) { return c.amount == 0.0; });
}

SAMELIGHT_INLINE std::array<double, 3> Adjustment::hues_moved(
    const std::array<double, 3>& signal) const {
    const detail::HexHue hue = detail::hex_hue(signal);
    if (!(hue.most > hue.least)) {
        return signal;
    }
    const double hue_deg = 60.0 * hue.sixth;
    detail::HueMoves moves;
    for (const AdjustmentMove& control : controls_) {
        if (is_of_hue(control.kind)) {
            moves.add(control, detail::hue_weight(control, hue_deg));
        }
    }
    return moves.none() ? signal : moves.applied(hue);
}

SAMELIGHT_INLINE double Adjustment::levels_moved(std::size_t channel, double signal) const {
    const std::vector<LevelAmount>& list = points_[channel];
    if (list.empty()) {
        return signal;
    }
    const double at = std::clamp(signal, 0.0, 1.0);
    // The first point at or above, or the last; never the first of the list.
    const auto above = std::lower_bound(
        list.begin() + 1, list.end() - 1, at,
        [](const LevelAmount& point, double level) { return point.level < level; });
    const auto k = static_cast<std::size_t>(above - list.begin());
    const LevelAmount& a = list[k - 1];
    const LevelAmount& b = list[k];
    return signal + a.amount + (b.amount - a.amount) * (at - a.level) / (b.level - a.level);
}

SAMELIGHT_INLINE std::array<double, 3> Adjustment::apply(
    const std::array<double, 3>& signal) const {
    std::array<double, 3> s = signal;
    for (double& value : s) {
        value = std::clamp(value, 0.0, 1.0);
    }
    if (of_hues_) {
        s = hues_moved(s);
    }
    return behind_hues(s);
}

SAMELIGHT_INLINE std::array<double, 3> Adjustment::behind_hues(
    const std::array<double, 3>& signal) const {
    std::array<double, 3> s = signal;
    if (table_) {
        const std::array<double, 3> out = read_table(*table_, s);
        for (std::size_t i = 0; i < 3; ++i) {
            s[i] += table_share_ * (out[i] - s[i]);
        }
    }
    for (std::size_t i = 0; i < 3; ++i) {
        s[i] = levels_moved(i, s[i] + gain_[i] * s[i] + offset_[i] * (1.0 - s[i]));
        s[i] = std::clamp(s[i], 0.0, 1.0);
    }
    return s;
}

SAMELIGHT_INLINE Adjustment Adjustment::scaled(std::span<const double> shares) const {
    if (shares.size() != parts()) {
        throw Error(ErrorKind::shape, "Adjustment", std::to_string(shares.size()) + " shares",
                    "one for each of " + std::to_string(parts()) + " parts");
    }
    std::vector<AdjustmentMove> controls = controls_;
    for (std::size_t k = 0; k < controls.size(); ++k) {
        controls[k].amount *= shares[k];
    }
    Adjustment result(std::move(controls), table_);
    result.table_share_ = table_ ? table_share_ * shares.back() : 1.0;
    return result;
}

SAMELIGHT_INLINE Adjustment Adjustment::scaled(double share) const {
    const std::vector<double> shares(parts(), share);
    return scaled(std::span<const double>(shares));
}

SAMELIGHT_INLINE Adjustment Adjustment::only(std::size_t part, double amount) const {
    if (part >= parts()) {
        throw Error(ErrorKind::domain, "Adjustment", "part " + std::to_string(part),
                    "one of " + std::to_string(parts()));
    }
    if (part == controls_.size()) {
        Adjustment result({}, table_);
        result.table_share_ = amount;
        return result;
    }
    AdjustmentMove control = controls_[part];
    control.amount = amount;
    return Adjustment({control});
}

}  // namespace samelight
