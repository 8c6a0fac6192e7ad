#pragma once
// The bodies of check/visits/visit_steps.hpp.

#include <algorithm>
#include <cmath>
#include <utility>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/colour/signals/rgb.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Luminance of a signal on a display of 100 cd/m2, by the weights of BT.709; only the order of size counts.
inline double visit_luminance(const std::array<double, 3>& signal) {
    constexpr std::array<double, 3> weights{0.2126, 0.7152, 0.0722};
    double sum = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        sum += weights[i] * std::pow(std::clamp(signal[i], 0.0, 1.0), 2.4);
    }
    return 100.0 * sum;
}

inline double visit_reading_s(const ReadingTimes& times, double luminance) {
    constexpr double bright = 1.0;
    constexpr double dim = 0.05;
    if (luminance >= bright) {
        return times.bright_s;
    }
    return luminance >= dim ? times.dim_s : times.dark_s;
}

inline std::vector<SignalPatch> visit_proof(const Quantisation& quantisation) {
    return proof_patches(IntendedDisplay(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{})),
                         quantisation);
}

inline std::vector<VisitPatch> visit_greys(StepExtent extent, const Quantisation& quantisation) {
    std::vector<VisitPatch> result;
    for (const SignalPatch& patch : visit_proof(quantisation)) {
        const int percent = static_cast<int>(std::lround(100.0 * patch.signal[0]));
        const bool few = percent == 5 || percent == 10 || (percent > 0 && percent % 20 == 0);
        if (patch.group == SignalGroup::grey && (few || extent == StepExtent::full)) {
            result.push_back({patch.name, patch.signal});
        }
    }
    return result;
}

/// Skin, and hues at half and at full saturation and level.
inline bool visit_tells_most(const SignalPatch& patch) {
    return patch.group == SignalGroup::skin || patch.name.ends_with("-50-100") ||
           patch.name.ends_with("-100-100");
}

inline std::vector<VisitPatch> visit_colours(StepExtent extent, const Quantisation& quantisation) {
    std::vector<VisitPatch> result;
    for (const SignalPatch& patch : visit_proof(quantisation)) {
        if (patch.group != SignalGroup::grey &&
            (extent == StepExtent::full || visit_tells_most(patch))) {
            result.push_back({patch.name, patch.signal});
        }
    }
    return result;
}

inline std::vector<VisitPatch> visit_windows(StepExtent extent) {
    const std::vector<double> shares = extent == StepExtent::full
                                           ? std::vector<double>{1, 2, 5, 10, 25, 50, 75, 100}
                                           : std::vector<double>{2, 10, 50, 100};
    std::vector<VisitPatch> result;
    for (const double share : shares) {
        result.push_back(
            {"window-" + std::to_string(static_cast<int>(share)), {1.0, 1.0, 1.0}, share});
    }
    return result;
}

inline std::vector<VisitPatch> visit_primaries(StepExtent extent) {
    std::vector<VisitPatch> result{{"red", {1.0, 0.0, 0.0}},
                                   {"green", {0.0, 1.0, 0.0}},
                                   {"blue", {0.0, 0.0, 1.0}},
                                   {"white", {1.0, 1.0, 1.0}}};
    if (extent == StepExtent::full) {
        result.push_back({"cyan", {0.0, 1.0, 1.0}});
        result.push_back({"magenta", {1.0, 0.0, 1.0}});
        result.push_back({"yellow", {1.0, 1.0, 0.0}});
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE StepReadings step_readings(VisitStep step, StepExtent extent,
                                            VisitInstruments instruments,
                                            const Quantisation& quantisation) {
    const VisitPatch white{"white", {1.0, 1.0, 1.0}};
    const bool both = instruments == VisitInstruments::both;
    const std::size_t one = both ? 1 : 0;
    switch (step) {
        case VisitStep::white_first:
            return {{white}, 3, one};
        case VisitStep::white_again:
            return {{white}, 2, one};
        case VisitStep::primaries:
            return {detail::visit_primaries(extent), 2, both ? std::size_t{4} : 0};
        case VisitStep::black:
            return {{{"black", {0.0, 0.0, 0.0}}}, 3, one};
        case VisitStep::greys:
            return {detail::visit_greys(extent, quantisation)};
        case VisitStep::windows:
            return {detail::visit_windows(extent), 1, 0, true};
        case VisitStep::proof:
            return {detail::visit_colours(extent, quantisation)};
        default:
            return {{}, 0};
    }
}

SAMELIGHT_INLINE double step_minutes(VisitStep step, const StepReadings& readings,
                                     const VisitTimes& times) {
    constexpr double minute_s = 60.0;
    if (step == VisitStep::set_white) {
        return times.adjust_min;
    }
    double round_s = readings.with_reference > 0 ? times.exchange_s : 0.0;
    for (std::size_t i = 0; i < readings.patches.size(); ++i) {
        const double luminance = detail::visit_luminance(readings.patches[i].signal);
        round_s += times.pattern_s + detail::visit_reading_s(times.meter, luminance) +
                   (readings.rests ? times.rest_s : 0.0);
        if (i < readings.with_reference) {
            round_s += times.pattern_s + detail::visit_reading_s(times.reference, luminance);
        }
    }
    return round_s * readings.rounds / minute_s;
}

}  // namespace samelight
