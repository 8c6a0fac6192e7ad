#pragma once
// The bodies of check/hdr/pq_tracking.hpp.

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Intensity of a grey in units of DE ITP: I of a neutral is its own PQ signal.
inline double itp_intensity(double luminance) {
    constexpr double itp_of_one = 720.0;
    const double within = std::clamp(luminance, 0.0, 10000.0);
    return itp_of_one * Pq::signal(Luminance(within)).value();
}

/// The window that most greys between black and white were read in.
inline double window_of_ladder(std::span<const PatchReading> readings) {
    std::map<double, int> counts;
    for (const PatchReading& reading : readings) {
        const auto level = grey_level_of(reading);
        if (level && *level > 0.0 && *level < 1.0) {
            ++counts[reading.window_pct.value_or(10.0)];
        }
    }
    const auto most =
        std::max_element(counts.begin(), counts.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == counts.end() ? 10.0 : most->first;
}

/// What a curve leaves of the greys, root mean square.
inline double left_by(const SignalCurve& curve, const std::vector<PqGrey>& greys) {
    double squares = 0.0;
    for (const PqGrey& grey : greys) {
        const double off = itp_intensity(grey.read) - itp_intensity(curve.grey(grey.signal));
        squares += off * off;
    }
    return std::sqrt(squares / static_cast<double>(greys.size()));
}

/// The least of f between two ends by golden sections; f has one valley there. Source: Kiefer 1953 (from memory).
template <class F>
double golden_least(double low, double high, const F& f) {
    constexpr double golden = 0.6180339887498949;
    double a = high - golden * (high - low);
    double b = low + golden * (high - low);
    double at_a = f(a);
    double at_b = f(b);
    for (int i = 0; i < 32; ++i) {
        if (at_a < at_b) {
            high = b;
            b = a;
            at_b = at_a;
            a = high - golden * (high - low);
            at_a = f(a);
        } else {
            low = a;
            a = b;
            at_a = at_b;
            b = low + golden * (high - low);
            at_b = f(b);
        }
    }
    return 0.5 * (low + high);
}

inline CurveOptions pq_options(double peak, double black, std::optional<double> programme) {
    CurveOptions options;
    options.kind = CurveKind::pq;
    options.white_cd_m2 = peak;
    options.black_cd_m2 = black;
    options.programme_peak_cd_m2 = programme;
    return options;
}

/// The best peak for a programme's peak, near the brightest grey read.
inline PqFit fit_of_peak(const std::vector<PqGrey>& greys, double black,
                         std::optional<double> programme) {
    double brightest = 0.0;
    for (const PqGrey& grey : greys) {
        brightest = std::max(brightest, grey.read);
    }
    const double most = std::log(std::min(10000.0, 1.25 * brightest));
    const auto left = [&](double peak) {
        return left_by(SignalCurve(pq_options(std::exp(peak), black, programme)), greys);
    };
    PqFit fit;
    const double peak = golden_least(std::min(most, std::log(0.9 * brightest)), most, left);
    fit.peak_cd_m2 = std::exp(peak);
    fit.programme_cd_m2 = programme;
    fit.residual_itp = left(peak);
    return fit;
}

inline void tell_knee(double black, PqFit& fit) {
    const SignalCurve curve(pq_options(fit.peak_cd_m2, black, fit.programme_cd_m2));
    fit.knee_signal = curve.knee().value_or(Pq::signal(Luminance(fit.peak_cd_m2)).value());
    fit.knee_cd_m2 = Pq::luminance(Signal(fit.knee_signal)).cd_m2();
}

inline PqFit fit_of_roll_off(const std::vector<PqGrey>& greys, double black) {
    double brightest = 1.0;
    for (const PqGrey& grey : greys) {
        brightest = std::max(brightest, grey.read);
    }
    // A valley to each side of a ridge is possible: a coarse search first.
    constexpr int coarse = 24;
    const double low = std::log(std::min(9999.0, 1.02 * brightest));
    const double step = (std::log(10000.0) - low) / coarse;
    const auto left = [&](double programme) {
        return fit_of_peak(greys, black, std::min(10000.0, std::exp(programme))).residual_itp;
    };
    int best = 0;
    double least = left(low);
    for (int i = 1; i <= coarse; ++i) {
        const double own = left(low + i * step);
        if (own < least) {
            best = i;
            least = own;
        }
    }
    const double programme = golden_least(low + std::max(0, best - 1) * step,
                                          low + std::min(coarse, best + 1) * step, left);
    return fit_of_peak(greys, black, std::min(10000.0, std::exp(programme)));
}

inline PqEnd end_of(const PqFit& clip, const PqFit& roll_off) {
    constexpr double fits_itp = 3.0;
    constexpr double alike = 0.9;
    constexpr double one_knee = 0.03;
    const double better = std::min(clip.residual_itp, roll_off.residual_itp);
    const double worse = std::max(clip.residual_itp, roll_off.residual_itp);
    if (better > fits_itp) {
        return PqEnd::neither;
    }
    // A roll-off that begins where the cut is, is one.
    if (better > alike * worse) {
        return std::abs(clip.knee_signal - roll_off.knee_signal) < one_knee ? PqEnd::clip
                                                                            : PqEnd::either;
    }
    return roll_off.residual_itp < clip.residual_itp ? PqEnd::roll_off : PqEnd::clip;
}

/// Both ends, with the dark greys lifted to the black that was read, or not lifted: whichever leaves less.
inline void fit_ends(double black, PqTracking& tracking) {
    const std::size_t tries = black > 0.0 ? 2 : 1;
    for (std::size_t i = 0; i < tries; ++i) {
        const double lift = i == 0 ? 0.0 : black;
        PqFit clip = fit_of_peak(tracking.greys, lift, {});
        PqFit roll_off = fit_of_roll_off(tracking.greys, lift);
        const double before = tracking.fit().residual_itp;
        if (lift > 0.0 && !(std::min(clip.residual_itp, roll_off.residual_itp) < before)) {
            continue;
        }
        tell_knee(lift, clip);
        tell_knee(lift, roll_off);
        tracking.clip = clip;
        tracking.roll_off = roll_off;
        tracking.lifted_to_cd_m2 = lift;
    }
    tracking.end = end_of(tracking.clip, tracking.roll_off);
}

inline void tell_tracking(PqTracking& tracking) {
    constexpr double seen_itp = 1.0;
    const PqFit& fit = tracking.fit();
    const SignalCurve curve(
        pq_options(fit.peak_cd_m2, tracking.lifted_to_cd_m2, fit.programme_cd_m2));
    double squares = 0.0;
    double count = 0.0;
    for (PqGrey& grey : tracking.greys) {
        grey.off_itp = itp_intensity(grey.read) - itp_intensity(grey.pq);
        grey.residual_itp = itp_intensity(grey.read) - itp_intensity(curve.grey(grey.signal));
        if (grey.signal < fit.knee_signal) {
            squares += grey.off_itp * grey.off_itp;
            count += 1.0;
            tracking.worst_tracking_itp =
                std::max(tracking.worst_tracking_itp, std::abs(grey.off_itp));
        }
    }
    tracking.tracking_itp = count > 0.0 ? std::sqrt(squares / count) : 0.0;
    for (auto grey = tracking.greys.rbegin();
         grey != tracking.greys.rend() && grey->off_itp < -seen_itp; ++grey) {
        tracking.leaves_at_signal = grey->signal;
    }
}

inline double brightest_of(const PqLadder& ladder) {
    double brightest = 0.0;
    for (const PqGrey& grey : ladder.greys) {
        brightest = std::max(brightest, grey.read);
    }
    return brightest;
}

inline double black_lifted_to(const PqLadder& ladder) {
    return std::min(ladder.black_cd_m2, 0.05 * brightest_of(ladder));
}

inline std::optional<NoPqTracking> obstacle_of(const PqLadder& ladder) {
    if (ladder.greys.size() < fewest_pq_greys) {
        return NoPqTracking::few_greys;
    }
    const double brightest = brightest_of(ladder);
    if (!(brightest <= 10000.0)) {
        return NoPqTracking::beyond_pq;
    }
    // BT.2390 lifts a black of up to a quarter of the range; the shortest range tried is the brightest grey's.
    constexpr double most_lift = 0.25;
    const double lift = Pq::signal(Luminance(black_lifted_to(ladder))).value();
    const double range = Pq::signal(Luminance(brightest)).value();
    const bool bright = ladder.black_cd_m2 > 0.1 * brightest || lift > most_lift * range;
    return bright ? std::optional(NoPqTracking::bright_black) : std::nullopt;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PqLadder pq_ladder(std::span<const PatchReading> readings) {
    constexpr double dark_cd_m2 = 0.05;
    require_readings("pq_ladder", readings);
    PqLadder ladder;
    ladder.window_pct = detail::window_of_ladder(readings);
    std::vector<PatchReading> own;
    for (const PatchReading& reading : readings) {
        if (reading.window_pct.value_or(10.0) == ladder.window_pct) {
            own.push_back(reading);
        }
    }
    for (const GreyLevel& grey : grey_levels(own)) {
        if (grey.level <= 0.0) {
            ladder.black_cd_m2 = std::max(0.0, grey.xyz[1]);
        } else if (grey.level <= 1.0 && grey.xyz[1] >= dark_cd_m2) {
            ladder.greys.push_back(
                {grey.level, grey.xyz[1], Pq::luminance(Signal(grey.level)).cd_m2()});
        } else {
            ladder.too_dark += grey.level <= 1.0 ? 1 : 0;
        }
    }
    ladder.obstacle = detail::obstacle_of(ladder);
    return ladder;
}

SAMELIGHT_INLINE PqTracking pq_tracking(std::span<const PatchReading> readings) {
    PqLadder ladder = pq_ladder(readings);
    if (ladder.obstacle) {
        throw Error(ErrorKind::domain, "pq_tracking",
                    std::to_string(ladder.greys.size()) + " greys of 0.05 cd/m2 or more",
                    "6 at least, up to 10,000 cd/m2, and a black below a tenth of the brightest");
    }
    PqTracking tracking;
    tracking.window_pct = ladder.window_pct;
    tracking.black_cd_m2 = ladder.black_cd_m2;
    const double black = detail::black_lifted_to(ladder);
    tracking.greys = std::move(ladder.greys);
    detail::fit_ends(black, tracking);
    detail::tell_tracking(tracking);
    return tracking;
}

}  // namespace samelight
