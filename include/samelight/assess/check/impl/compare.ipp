#pragma once
// The bodies of assess/check/compare.hpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <Eigen/Core>

#include "samelight/assess/check/compare.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::array<double, 3> xyz_of_column(const Sampling& sampling, const Eigen::VectorXd& light) {
    return tristimulus<Cie1931_2deg>(SampledLight{sampling, {light.begin(), light.end()}}).values();
}

inline std::array<std::array<double, 3>, 4> spectra_lights(const Panel& panel) {
    std::array<std::array<double, 3>, 4> lights{};
    for (Eigen::Index k = 0; k < 3; ++k) {
        lights[static_cast<std::size_t>(k)] =
            xyz_of_column(panel.sampling(), panel.emitters().col(k));
    }
    lights[3] = xyz_of_column(panel.sampling(), panel.native_white());
    return lights;
}

/// The middle of an emitter's light: the mean of its wavelengths, weighted by the light.
inline double middle_nm(const Panel& panel, Eigen::Index k) {
    const Eigen::VectorXd light = panel.emitters().col(k);
    double sum = 0.0;
    for (Eigen::Index i = 0; i < light.size(); ++i) {
        sum += light(i) * panel.sampling().wavelength_nm(static_cast<int>(i));
    }
    return sum / light.sum();
}

inline AgeingRequest ageing_request(const assess::CompareRequest& request) {
    AgeingRequest ageing{request.then, request.now};
    ageing.then_correction = request.then_correction;
    ageing.now_correction = request.now_correction;
    ageing.one_correction = request.one_correction;
    if (request.spectra) {
        const Panel& then = request.spectra->then;
        const Panel& now = request.spectra->now;
        if (!(then.sampling() == now.sampling())) {
            throw Error(ErrorKind::shape, "answer_compare", "spectra on two samplings", "one");
        }
        if (!then.scale_known() || !now.scale_known()) {
            throw Error(ErrorKind::domain, "answer_compare", "spectra each scaled for itself",
                        "red, green and blue of each visit on one scale");
        }
        ageing.spectra = SpectraLights{spectra_lights(then), spectra_lights(now)};
    }
    return ageing;
}

inline bool has_finding(const Ageing& ageing, AgeingFinding finding) {
    return std::find(ageing.findings.begin(), ageing.findings.end(), finding) !=
           ageing.findings.end();
}

/// A move that is told, and large enough to matter.
inline bool matters(const XyChange& change) {
    constexpr double least_xy = assess::CorrectionLife::limit_xy;
    return (change.x.told() && std::abs(change.x.value) > least_xy) ||
           (change.y.told() && std::abs(change.y.value) > least_xy);
}

/// White's part that is the meter's, by what tells it best.
inline const XyChange& part_of_meter(const Ageing& ageing) {
    return ageing.by_corrections ? ageing.by_corrections->meter
           : ageing.by_spectra   ? ageing.by_spectra->meter
                                 : ageing.parts.channels;
}

inline assess::WhiteLight white_light(const Ageing& ageing) {
    assess::WhiteLight light;
    const std::optional<MeterApart>& apart =
        ageing.by_spectra ? ageing.by_spectra : ageing.by_corrections;
    light.owner = apart ? assess::LightOwner::display : assess::LightOwner::either;
    light.log_luminance = apart ? apart->display_log_luminance : ageing.white.log_luminance;
    light.changed = light.log_luminance.told() &&
                    std::abs(std::expm1(light.log_luminance.value)) > assess::WhiteLight::limit;
    return light;
}

/// Spans until a move of x or y, gone on with as it went, reaches the limit.
inline LikelyRange spans_to_limit(const Change& move) {
    const auto spans = [](double by) {
        return by > 0.0 ? assess::CorrectionLife::limit_xy / by
                        : std::numeric_limits<double>::infinity();
    };
    const double moved = std::abs(move.value);
    return {spans(moved), spans(moved + move.doubt), spans(std::max(0.0, moved - move.doubt))};
}

inline std::optional<assess::CorrectionLife> correction_life(const assess::CompareRequest& request,
                                                             const Ageing& ageing,
                                                             assess::CorrectionState state) {
    using assess::CorrectionState;
    if (state == CorrectionState::none || state == CorrectionState::make_again) {
        return {};
    }
    assess::CorrectionLife life;
    life.of_now = state == CorrectionState::first_expired || state == CorrectionState::both_hold;
    const XyChange& meter = part_of_meter(ageing);
    const LikelyRange x = spans_to_limit(meter.x);
    const LikelyRange y = spans_to_limit(meter.y);
    // The one that was made then has used up a span.
    const double used = life.of_now ? 0.0 : 1.0;
    const auto left = [used](double a, double b) { return std::max(0.0, std::min(a, b) - used); };
    const LikelyRange spans{left(x.likely, y.likely), left(x.least, y.least), left(x.most, y.most)};
    life.spans = spans_told(spans);
    if (request.months) {
        life.months = months_told(spans, *request.months);
    }
    return life;
}

inline assess::CorrectionState correction_state(const assess::CompareRequest& request,
                                                const Ageing& ageing) {
    using assess::CorrectionState;
    if (ageing.by_corrections) {
        return matters(ageing.by_corrections->meter) ? CorrectionState::first_expired
                                                     : CorrectionState::both_hold;
    }
    if (!request.then_correction || !request.one_correction) {
        return CorrectionState::none;
    }
    if (ageing.by_spectra) {
        return matters(ageing.by_spectra->meter) ? CorrectionState::make_again
                                                 : CorrectionState::holds;
    }
    const bool moved =
        has_finding(ageing, AgeingFinding::spectra) ||
        (has_finding(ageing, AgeingFinding::channels) && matters(ageing.parts.channels));
    return moved ? CorrectionState::make_again : CorrectionState::holds;
}

inline assess::CompareVerdict compare_verdict(const assess::CompareAnswer& answer) {
    using assess::CompareVerdict;
    if (answer.correction == assess::CorrectionState::make_again) {
        return CompareVerdict::correct_first;
    }
    if (answer.life.distance_now.least > answer.life.limit_uv) {
        return CompareVerdict::set_white;
    }
    if (answer.light.changed) {
        return CompareVerdict::see_to_light;
    }
    return answer.life.distance_now.most < answer.life.limit_uv ? CompareVerdict::leave
                                                                : CompareVerdict::read_again;
}

inline void add_today(const assess::CompareRequest& request, assess::CompareAnswer& answer) {
    using enum VisitStep;
    std::vector<VisitStep> steps;
    switch (answer.verdict) {
        case assess::CompareVerdict::leave:
            break;
        case assess::CompareVerdict::read_again:
            steps = {white_first};
            break;
        case assess::CompareVerdict::see_to_light:
            steps = {white_first, white_again, greys};
            break;
        case assess::CompareVerdict::set_white:
            steps = {white_first, set_white, white_again, greys};
            break;
        case assess::CompareVerdict::correct_first:
            steps = {primaries, set_white, white_again, greys};
            break;
    }
    for (const VisitStep step : steps) {
        StepReadings readings =
            step_readings(step, StepExtent::part, VisitInstruments::both, {10, SignalRange::full});
        const double minutes = step_minutes(step, readings, request.times);
        answer.today.push_back({step, std::move(readings), minutes});
        answer.today_min += minutes;
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE CompareAnswer answer_compare(const CompareRequest& request) {
    CompareAnswer answer;
    answer.ageing = ageing_between(samelight::detail::ageing_request(request));
    require_display_white(request.then.mean(VisitLight::white)[1], "then");
    require_display_white(request.now.mean(VisitLight::white)[1], "now");
    const auto xy = [](const VisitLights& lights) {
        const auto white = lights.mean(VisitLight::white);
        const auto black = lights.mean(VisitLight::black);
        const double sum = white[0] + white[1] + white[2] - black[0] - black[1] - black[2];
        return std::array<double, 2>{(white[0] - black[0]) / sum, (white[1] - black[1]) / sum};
    };
    answer.white_then = xy(request.then);
    answer.white_now = xy(request.now);
    answer.target_named = request.target.has_value();
    answer.target = request.target.value_or(answer.white_then);
    answer.life = target_life({request.target, answer.white_then, answer.white_now,
                               answer.ageing.white_then, answer.ageing.white_now,
                               answer.ageing.white_freedom, request.months, request.limit_uv});
    if (request.spectra) {
        answer.moved_nm.emplace();
        for (std::size_t k = 0; k < 3; ++k) {
            const auto column = static_cast<Eigen::Index>(k);
            (*answer.moved_nm)[k] = samelight::detail::middle_nm(request.spectra->now, column) -
                                    samelight::detail::middle_nm(request.spectra->then, column);
        }
    }
    answer.correction = samelight::detail::correction_state(request, answer.ageing);
    answer.correction_life =
        samelight::detail::correction_life(request, answer.ageing, answer.correction);
    answer.light = samelight::detail::white_light(answer.ageing);
    answer.verdict = samelight::detail::compare_verdict(answer);
    samelight::detail::add_today(request, answer);
    return answer;
}

}  // namespace samelight::assess
