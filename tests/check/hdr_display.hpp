#pragma once
// A display of the tests' own in HDR: PQ rolled off or cut, a limiter, a white emitter, a white that drifts with load. Its formulas are written here
// once more, as a second route: PQ as SMPTE ST 2084 prints it, the roll-off as ITU-R BT.2390-8, 5.4.1 (from memory). Invented else, no source.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <optional>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {

struct HdrDisplay {
    double peak = 1000.0;
    /// Absent: cut at the peak.
    std::optional<double> programme = {};
    /// The largest window at full peak, per cent; beyond, light goes as its inverse to this power.
    double holds_to = 10.0, slope = 0.6;
    /// Red, green and blue together over white.
    double sum_over_white = 1.0;
    /// u' per tenfold window.
    double drift = 0.0;
    /// One standard deviation of a reading, relative.
    double noise = 0.0;
    double tracking_gain = 1.0;
    PseudoRandom random{17};

    static double eotf(double signal) {
        const double p = std::pow(signal, 32.0 / 2523.0);
        const double top = std::max(p - 3424.0 / 4096.0, 0.0);
        return 10000.0 * std::pow(top / (2413.0 / 128.0 - 2392.0 / 128.0 * p), 16384.0 / 2610.0);
    }
    static double inverse_eotf(double cd_m2) {
        const double y = std::pow(cd_m2 / 10000.0, 2610.0 / 16384.0);
        return std::pow((3424.0 / 4096.0 + 2413.0 / 128.0 * y) / (1.0 + 2392.0 / 128.0 * y),
                        2523.0 / 32.0);
    }

    [[nodiscard]] double grey(double signal) const {
        if (!programme) {
            return std::min(peak, tracking_gain * eotf(signal));
        }
        const double range = inverse_eotf(*programme);
        const double most = inverse_eotf(peak) / range;
        double e = std::min(1.0, signal / range);
        const double knee = 1.5 * most - 0.5;
        if (e > knee) {
            const double t = (e - knee) / (1.0 - knee);
            e = (2.0 * t * t * t - 3.0 * t * t + 1.0) * knee +
                (t * t * t - 2.0 * t * t + t) * (1.0 - knee) +
                (3.0 * t * t - 2.0 * t * t * t) * most;
        }
        return tracking_gain * eotf(e * range);
    }
    [[nodiscard]] double limited(double window) const {
        return window <= holds_to ? 1.0 : std::pow(holds_to / window, slope);
    }
    double noisy(double value) {
        const double a = random.next_unit();
        const double b = random.next_unit();
        return value *
               (1.0 + noise * std::sqrt(-2.0 * std::log(a)) * std::cos(2.0 * std::numbers::pi * b));
    }

    PatchReading reading(const std::array<double, 3>& signal, double window, double luminance) {
        const double u = 0.1978 + drift * std::log10(window / 10.0);
        const double v = 0.4683;
        const double Y = noisy(luminance);
        PatchReading r;
        r.signal = signal;
        r.window_pct = window;
        r.xyz = {Y * 9.0 * u / (4.0 * v), Y, Y * (12.0 - 3.0 * u - 20.0 * v) / (4.0 * v)};
        return r;
    }

    /// Full white, and red, green and blue, in every window so many times.
    std::vector<PatchReading> windows(int repeats) {
        std::vector<PatchReading> all;
        for (const double window : {1.0, 2.0, 5.0, 10.0, 25.0, 50.0, 75.0, 100.0}) {
            const double white = grey(1.0) * limited(window);
            for (int i = 0; i < repeats; ++i) {
                all.push_back(reading({1.0, 1.0, 1.0}, window, white));
                all.back().time_s = 10.0 * i;
                const std::array<double, 3> shares = {0.22, 0.70, 0.08};
                for (std::size_t k = 0; k < 3; ++k) {
                    std::array<double, 3> signal{};
                    signal.at(k) = 1.0;
                    all.push_back(reading(signal, window, sum_over_white * shares.at(k) * white));
                }
            }
        }
        return all;
    }

    std::vector<PatchReading> ladder() {
        std::vector<PatchReading> all;
        for (int i = 0; i <= 40; ++i) {
            const double s = i / 40.0;
            all.push_back(reading({s, s, s}, 10.0, grey(s)));
        }
        return all;
    }
};

}  // namespace samelight::test
