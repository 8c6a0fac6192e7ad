#pragma once
// The bodies of check/adjusting/control_reply.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include "samelight/check/adjusting/control_reply.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One channel's answer to steps at one level.
struct ReplyRow {
    double level;
    double steps;
    /// Drives of the grey that was moved from, what they moved by, variances of that, and those with what all channels have in common: it moves
    /// no x, y, so that it has no part in the doubt of them.
    std::array<double, 3> from, moved, variance, scatter;
};

[[noreturn]] inline void refuse_reply(const ControlReading& reading, const std::string& found,
                                      const std::string& wanted) {
    const std::string name = reading.control ? name_of(*reading.control) : "control";
    const ErrorPlace where{name, static_cast<int>(reading.line)};
    throw Error(
        ErrorKind::input,
        reading.line > 0 ? ErrorPlace{"line " + std::to_string(reading.line) + ", " + name} : where,
        found, wanted);
}

inline double level_of(const ControlReading& reading) {
    if (reading.level) {
        return *reading.level;
    }
    if (reading.control && reading.control->kind == ControlKind::offset) {
        refuse_reply(reading, "no level", "level_pct: the grey at which the offset was read");
    }
    return reading.control && reading.control->kind == ControlKind::point ? reading.control->level
                                                                          : 1.0;
}

/// The grey of 0 steps at a level: of the replies' own rows, else of the greys.
inline GreyLevel grey_moved_from(std::span<const ControlReading> readings,
                                 const ControlReading& moved, const ReplyGreys& greys) {
    const double level = level_of(moved);
    GreyLevel from{level, {}, 0};
    for (const ControlReading& reading : readings) {
        if (reading.steps == 0 && std::abs(level_of(reading) - level) < 1e-9) {
            ++from.readings;
            for (std::size_t k = 0; k < 3; ++k) {
                from.xyz[k] += (reading.xyz[k] - from.xyz[k]) / from.readings;
            }
        }
    }
    const auto read =
        std::find_if(greys.levels.begin(), greys.levels.end(),
                     [level](const GreyLevel& g) { return std::abs(g.level - level) < 1e-9; });
    if (from.readings > 0) {
        return from;
    }
    if (read == greys.levels.end()) {
        refuse_reply(moved, "read at " + to_text(100.0 * level) + " %, of which there is no grey",
                     "a row with 0 steps, or a grey, of that level");
    }
    return *read;
}

inline std::vector<ReplyRow> rows_of(std::span<const ControlReading> readings,
                                     const Control& control, const ReplyGreys& greys) {
    std::vector<ReplyRow> rows;
    for (const ControlReading& reading : readings) {
        if (reading.control != control || reading.steps == 0) {
            continue;
        }
        const GreyLevel from = grey_moved_from(readings, reading, greys);
        const auto before = greys.drives.drives(from.xyz);
        const auto after = greys.drives.drives(reading.xyz);
        if (!before || !after) {
            refuse_reply(reading, "a grey too dark to be told from black", "a brighter level");
        }
        ReplyRow row{from.level, static_cast<double>(reading.steps), *before, {}, {}, {}};
        const auto noise_before = greys.drives.noise(*before, greys.noise, from.readings);
        const auto noise_after = greys.drives.noise(*after, greys.noise, 1);
        for (std::size_t k = 0; k < 3; ++k) {
            row.moved[k] = (*after)[k] - (*before)[k];
            row.variance[k] = noise_before[k] * noise_before[k] + noise_after[k] * noise_after[k];
            const double common = greys.noise.luminance * (*before)[k] / GreyDrives::exponent;
            row.scatter[k] =
                row.variance[k] + common * common * (1.0 + 1.0 / std::max(1, from.readings));
        }
        rows.push_back(row);
    }
    return rows;
}

/// What is taken for granted about a channel's top and bottom: means, and standard deviations.
struct ReplyPrior {
    std::array<double, 2> mean, deviation;
};

/// An answer of the size that the rows show, as large as its largest.
inline double reply_size(const std::vector<ReplyRow>& rows, ControlKind kind, std::size_t k) {
    double sum = 0.0;
    double weight = 0.0;
    for (const ReplyRow& row : rows) {
        const double u = row.from[k];
        const double unit = row.steps * (kind == ControlKind::gain     ? u
                                         : kind == ControlKind::offset ? 1.0 - 0.5 * u
                                                                       : 1.0);
        sum += unit * row.moved[k] / row.variance[k];
        weight += unit * unit / row.variance[k];
    }
    return sum / weight;
}

inline ReplyPrior prior_of(const std::vector<ReplyRow>& rows, ControlKind kind, std::size_t k,
                           std::size_t levels) {
    constexpr double unknown = 10.0;
    // A control that moved nothing at all still has a doubt.
    double largest = 1e-9;
    for (std::size_t i = 0; i < 3; ++i) {
        largest = std::max(largest, std::abs(reply_size(rows, kind, i)));
    }
    const double own = reply_size(rows, kind, k);
    const double loosened = levels > 1 ? largest : 0.0;
    if (kind == ControlKind::gain) {
        return {{0.0, 0.0}, {unknown, std::max(0.1 * largest, loosened)}};
    }
    if (kind == ControlKind::offset) {
        return {{0.5 * own, 0.0}, {std::max(0.3 * largest, loosened), unknown}};
    }
    return {{own, own}, {1e-3 * largest + 1e-9, unknown}};
}

/// One channel's top and bottom, their covariance, and the sum of squares left.
inline double fit_channel(const std::vector<ReplyRow>& rows, const ReplyPrior& prior, std::size_t k,
                          ControlReply& reply) {
    double tt = 1.0 / (prior.deviation[0] * prior.deviation[0]);
    double bb = 1.0 / (prior.deviation[1] * prior.deviation[1]);
    double tb = 0.0;
    double t = tt * prior.mean[0];
    double b = bb * prior.mean[1];
    for (const ReplyRow& row : rows) {
        const double at_top = row.steps * row.from[k];
        const double at_bottom = row.steps * (1.0 - row.from[k]);
        tt += at_top * at_top / row.variance[k];
        tb += at_top * at_bottom / row.variance[k];
        bb += at_bottom * at_bottom / row.variance[k];
        t += at_top * row.moved[k] / row.variance[k];
        b += at_bottom * row.moved[k] / row.variance[k];
    }
    const double determinant = tt * bb - tb * tb;
    reply.top[k] = (bb * t - tb * b) / determinant;
    reply.bottom[k] = (tt * b - tb * t) / determinant;
    reply.covariance[k] = {bb / determinant, -tb / determinant, tt / determinant};
    double left = 0.0;
    for (const ReplyRow& row : rows) {
        const double u = row.from[k];
        const double off =
            row.moved[k] - row.steps * (reply.top[k] * u + reply.bottom[k] * (1.0 - u));
        left += off * off / row.scatter[k];
    }
    return left;
}

inline void take_limits(std::span<const ControlReading> readings, ControlReply& reply) {
    for (const ControlReading& reading : readings) {
        if (reading.control != reply.control) {
            continue;
        }
        for (const auto& [given, kept] :
             {std::pair{reading.least, &reply.least}, std::pair{reading.most, &reply.most}}) {
            if (given && *kept && **kept != *given) {
                refuse_reply(reading, "a second limit, " + std::to_string(*given),
                             "each limit once, or the same");
            }
            *kept = given ? given : *kept;
        }
        if ((reply.least && *reply.least > 0) || (reply.most && *reply.most < 0)) {
            refuse_reply(reading, "limits without 0",
                         "steps still possible down (0 or less) and up");
        }
    }
}

/// Where a step is told in x, y: the brightest level read of a gain, the darkest of others.
inline void tell_step(const std::vector<ReplyRow>& rows, const GreyDrives& drives,
                      ControlReply& reply) {
    const auto darker = [](const ReplyRow& a, const ReplyRow& b) { return a.level < b.level; };
    const ReplyRow& row = reply.control.kind == ControlKind::gain
                              ? *std::max_element(rows.begin(), rows.end(), darker)
                              : *std::min_element(rows.begin(), rows.end(), darker);
    const auto by_drives = drives.xy_by_drives(row.from);
    const auto change = reply.change(row.from);
    for (std::size_t i = 0; i < 2; ++i) {
        reply.step_xy[i] = 0.0;
        for (std::size_t k = 0; k < 3; ++k) {
            reply.step_xy[i] += by_drives[i][k] * change[k];
        }
    }
    reply.step_level = row.level;
}

inline ControlReply fit_reply(std::span<const ControlReading> readings, const Control& control,
                              const ReplyGreys& greys) {
    ControlReply reply{control};
    const std::vector<ReplyRow> rows = rows_of(readings, control, greys);
    for (const ReplyRow& row : rows) {
        reply.levels.push_back(row.level);
    }
    std::sort(reply.levels.begin(), reply.levels.end());
    reply.levels.erase(std::unique(reply.levels.begin(), reply.levels.end()), reply.levels.end());
    double left = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        left += fit_channel(rows, prior_of(rows, control.kind, k, reply.levels.size()), k, reply);
    }
    const double told = control.kind == ControlKind::point || reply.levels.size() < 2 ? 1.0 : 2.0;
    const double freedom = 3.0 * (static_cast<double>(rows.size()) - told);
    const double scatter = freedom > 0.0 ? std::max(1.0, left / freedom) : 1.0;
    for (auto& channel : reply.covariance) {
        for (double& c : channel) {
            c *= scatter;
        }
    }
    take_limits(readings, reply);
    tell_step(rows, greys.drives, reply);
    return reply;
}

/// What was read of a control must be more than its noise, or it wasn't that control that moved. Two standard deviations at either of two levels are
/// reached by one dead control in eleven, three by one in two hundred.
inline bool answers_above_noise(const ControlReply& reply) {
    constexpr double deviations = 3.0;
    const auto k = static_cast<std::size_t>(reply.control.channel);
    return std::any_of(reply.levels.begin(), reply.levels.end(), [&reply, k](double level) {
        const std::array<double, 3> u = {level, level, level};
        return std::abs(reply.change(u)[k]) > deviations * std::sqrt(reply.variance(u)[k]);
    });
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> ControlReply::change(
    const std::array<double, 3>& drives) const {
    std::array<double, 3> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        result[k] = top[k] * drives[k] + bottom[k] * (1.0 - drives[k]);
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> ControlReply::variance(
    const std::array<double, 3>& drives) const {
    std::array<double, 3> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double u = drives[k];
        const auto& c = covariance[k];
        result[k] =
            std::max(0.0, c[0] * u * u + 2.0 * c[1] * u * (1.0 - u) + c[2] * (1.0 - u) * (1.0 - u));
    }
    return result;
}

SAMELIGHT_INLINE std::vector<ControlReply> fit_replies(std::span<const ControlReading> readings,
                                                       const ReplyGreys& greys) {
    std::vector<ControlReply> replies;
    for (const ControlReading& reading : readings) {
        const bool known =
            !reading.control || reading.steps == 0 ||
            std::any_of(replies.begin(), replies.end(), [&reading](const ControlReply& r) {
                return r.control == *reading.control;
            });
        if (!known) {
            replies.push_back(detail::fit_reply(readings, *reading.control, greys));
            replies.back().answers = detail::answers_above_noise(replies.back());
        }
    }
    return replies;
}

SAMELIGHT_INLINE std::vector<ControlReply> default_replies(const GreyDrives& drives) {
    constexpr double gain = 0.005;
    constexpr double offset = 0.002;
    constexpr double give_or_take = 0.6;
    std::vector<ControlReply> replies;
    for (const ControlKind kind : {ControlKind::gain, ControlKind::offset}) {
        for (const ControlChannel channel :
             {ControlChannel::red, ControlChannel::green, ControlChannel::blue}) {
            const auto k = static_cast<std::size_t>(channel);
            ControlReply reply{Control{channel, kind}};
            const bool top = kind == ControlKind::gain;
            reply.top[k] = top ? gain : 0.5 * offset;
            reply.bottom[k] = top ? 0.0 : offset;
            const double t = give_or_take * reply.top[k];
            const double b = top ? 0.1 * gain : give_or_take * reply.bottom[k];
            reply.covariance[k] = {t * t, top ? 0.0 : t * b, b * b};
            reply.step_level = top ? 1.0 : 0.2;
            const double u = reply.step_level;
            const auto by_drives = drives.xy_by_drives({u, u, u});
            const double step = reply.change({u, u, u})[k];
            reply.step_xy = {by_drives[0][k] * step, by_drives[1][k] * step};
            replies.push_back(reply);
        }
    }
    return replies;
}

}  // namespace samelight
