// Any greys of a PQ ladder and any whites in windows: refused in one line or named as too few, or finite figures within what PQ and a screen can be.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "doors/calculators.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/check/hdr/window_whites.hpp"

namespace {

using namespace samelight;
using fuzz::demand;
using fuzz::Drawn;

void ask_tracking(const std::vector<PatchReading>& readings) {
    const auto ladder = fuzz::or_refused([&] { return pq_ladder(readings); });
    const auto [tracking, again] = fuzz::twice_or_refused([&] { return pq_tracking(readings); });
    demand(tracking.has_value() == (ladder && !ladder->obstacle),
           "a tracking unless the ladder names an obstacle");
    if (!tracking) return;
    demand(tracking->end == again->end && tracking->fit().knee_cd_m2 == again->fit().knee_cd_m2,
           "the same end twice");
    for (const PqFit& fit : {tracking->clip, tracking->roll_off}) {
        fuzz::demand_numbers(
            std::array{fit.peak_cd_m2, fit.knee_signal, fit.knee_cd_m2, fit.residual_itp}, "a fit");
        demand(fit.peak_cd_m2 >= 0.0 && fit.residual_itp >= 0.0,
               "a peak and a residual that are such");
    }
    for (const PqGrey& grey : tracking->greys) {
        fuzz::demand_numbers(
            std::array{grey.signal, grey.read, grey.pq, grey.off_itp, grey.residual_itp}, "a grey");
    }
    fuzz::demand_numbers(
        std::array{tracking->tracking_itp, tracking->worst_tracking_itp, tracking->black_cd_m2},
        "the tracking");
    demand(tracking->worst_tracking_itp >= tracking->tracking_itp * (1.0 - 1e-12),
           "the worst is no less than the mean");
}

void ask_windows(const std::vector<PatchReading>& readings) {
    const auto whites = fuzz::or_refused([&] { return whites_by_window(readings); });
    if (!whites) return;
    for (const WindowWhite& white : *whites) {
        fuzz::demand_numbers(white.xyz, "a white");
        fuzz::demand_numbers(
            std::array{white.spread, white.drift_uv, white.fade.value_or(0.0),
                       white.fade_s.value_or(0.0), white.sum_over_white.value_or(0.0)},
            "a window");
    }
    const auto onset = fuzz::or_refused([&] { return limiter_onset(*whites); });
    if (!onset) return;
    fuzz::demand_numbers(std::array{onset->peak_cd_m2, onset->peak_window_pct,
                                    onset->largest_over_peak, onset->noise, onset->fall},
                         "an onset");
    if (onset->falls_at_pct)
        demand(!onset->holds_to_pct || *onset->holds_to_pct < *onset->falls_at_pct,
               "it holds before it falls");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    const bool windows = drawn.one_in(2);
    const auto display = fuzz::drawn_display(drawn);
    if (!display) return 0;
    std::vector<PatchReading> readings = fuzz::drawn_readings(drawn, *display, windows);
    if (windows) {
        for (PatchReading& reading : readings) {
            if (drawn.one_in(2)) reading.signal = std::array{1.0, 1.0, 1.0};
        }
        ask_windows(readings);
    } else {
        ask_tracking(readings);
    }
    return 0;
}
