#pragma once
// The bodies of check/visits/ageing.hpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/ageing_model.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Of all figures: altogether, and by the repeats' scatter alone.
struct AgeingCovariances {
    std::vector<double> all = std::vector<double>(AgeingOutputs::count * AgeingOutputs::count);
    std::vector<double> repeats = all;
};

/// Figures with their doubts.
class AgeingChanges {
  public:
    /// @param freedom  behind `repeats`, the part of the covariance that is from repeats; the rest is taken as known
    AgeingChanges(const AgeingFigures& figures, const AgeingCovariances& covariances,
                  double freedom)
        : figures_(figures),
          covariance_(covariances.all),
          repeats_(covariances.repeats),
          freedom_(freedom) {}

    /// @param share  probability outside, both sides together
    [[nodiscard]] Change at(std::size_t i, double share = 0.05) const {
        return {figures_[i], quantile(i, share) * std::sqrt(std::max(0.0, variance(i, i)))};
    }
    /// Effective degrees of freedom: JCGM 100:2008, G.4.1 (Welch and Satterthwaite).
    [[nodiscard]] double freedom_of(std::size_t i) const {
        const double repeats = repeats_[AgeingOutputs::count * i + i];
        const double whole = variance(i, i);
        return repeats > 0.0 ? freedom_ * (whole / repeats) * (whole / repeats)
                             : std::numeric_limits<double>::infinity();
    }
    [[nodiscard]] XyChange xy_at(std::size_t i) const { return {at(i), at(i + 1)}; }
    [[nodiscard]] CovarianceMatrix<2> plane(std::size_t i) const {
        return {variance(i, i), variance(i, i + 1), variance(i + 1, i), variance(i + 1, i + 1)};
    }

  private:
    [[nodiscard]] double quantile(std::size_t i, double share) const {
        // From there on Student's t is the normal distribution to a thousandth.
        constexpr double as_good_as_known = 3000.0;
        const double freedom = freedom_of(i);
        return freedom < as_good_as_known ? student_quantile(1.0 - 0.5 * share, freedom)
                                          : normal_quantile(1.0 - 0.5 * share);
    }
    [[nodiscard]] double variance(std::size_t i, std::size_t j) const {
        return covariance_[AgeingOutputs::count * i + j];
    }

    const AgeingFigures& figures_;
    const std::vector<double>& covariance_;
    const std::vector<double>& repeats_;
    double freedom_;
};

/// Limit of chi squared over its degrees of freedom, with a scatter from so many.
inline double misfit_limit(double degrees, double freedom) {
    return std::isinf(freedom) ? chi_squared_quantile(0.95, degrees) / degrees
                               : fisher_quantile(0.95, degrees, freedom);
}

inline MeterApart meter_apart(const AgeingChanges& all, std::size_t at) {
    return {all.xy_at(at), all.at(at + 2), all.xy_at(at + 3), all.at(at + 5)};
}

inline void add_changes(const AgeingRequest& request, const AgeingChanges& all, Ageing& ageing) {
    // Three comparisons with the best: each gets a third of what may be wrong.
    constexpr double share_of_three = 0.05 / 3.0;
    for (std::size_t k = 0; k < 4; ++k) {
        LightChange& light = k < 3 ? ageing.emitters[k] : ageing.white;
        light.xy = all.xy_at(AgeingOutputs::lights + 3 * k);
        light.log_luminance = all.at(AgeingOutputs::lights + 3 * k + 2);
        if (k < 3) {
            light.against_best = all.at(AgeingOutputs::against + k, share_of_three);
            if (light.against_best.value < 0.0 && light.against_best.told()) {
                ageing.aged.push_back(k);
            }
        }
    }
    ageing.common = all.at(AgeingOutputs::common);
    ageing.channels = {all.at(AgeingOutputs::channels), all.at(AgeingOutputs::channels + 1)};
    ageing.parts = {true, all.xy_at(AgeingOutputs::parts), all.xy_at(AgeingOutputs::parts + 2),
                    all.xy_at(AgeingOutputs::parts + 4)};
    ageing.additivity = all.at(AgeingOutputs::sum);
    ageing.white_then = all.plane(AgeingOutputs::whites);
    ageing.white_now = all.plane(AgeingOutputs::whites + 2);
    ageing.white_freedom = all.freedom_of(AgeingOutputs::whites);
    for (std::size_t i = 1; i < 4; ++i) {
        ageing.white_freedom =
            std::min(ageing.white_freedom, all.freedom_of(AgeingOutputs::whites + i));
    }
    if (request.then_correction && request.now_correction && !request.one_correction) {
        ageing.by_corrections = meter_apart(all, AgeingOutputs::corrections);
    }
    if (request.spectra) {
        ageing.by_spectra = meter_apart(all, AgeingOutputs::spectra);
    }
}

inline void add_findings(Ageing& ageing) {
    const auto found = [&ageing](bool holds, AgeingFinding finding) {
        if (holds) {
            ageing.findings.push_back(finding);
        }
    };
    const bool moved = ageing.moved > ageing.moved_limit;
    const bool unexplained = ageing.left > ageing.left_limit;
    const bool channels = ageing.channels[0].told() || ageing.channels[1].told();
    found(!ageing.aged.empty(), AgeingFinding::emitters);
    found(ageing.common.told(), AgeingFinding::common);
    found(moved && channels && !unexplained, AgeingFinding::channels);
    found(unexplained, AgeingFinding::spectra);
    // Limiters and white emitters change the sum by a per cent without anything being wrong with a display.
    constexpr double least_sum = 0.01;
    found(ageing.additivity.told() && std::abs(ageing.additivity.value) > least_sum,
          AgeingFinding::sum);
}

inline double sum_over_white(const VisitLights& lights) {
    const double black = lights.mean(VisitLight::black)[1];
    double sum = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        sum += lights.mean(static_cast<VisitLight>(k))[1] - black;
    }
    return sum / (lights.mean(VisitLight::white)[1] - black);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Ageing ageing_between(const AgeingRequest& request) {
    for (const double sd : {request.again_xy, request.again_luminance}) {
        if (!(sd >= 0.0 && sd < 1.0)) {
            throw Error(ErrorKind::domain, "ageing_between",
                        "a standard deviation of " + to_text(sd), "0 to 1");
        }
    }
    Ageing ageing;
    ageing.scatter = light_scatter(request.then, request.now);
    detail::AgeingModel model(request, ageing.scatter);
    detail::AgeingFigures figures = model.figures({});
    for (std::size_t k = 1; k < 3; ++k) {
        if (figures[3 * k + 2] > figures[3 * model.best + 2]) {
            model.best = k;
        }
    }
    figures = model.figures({});
    detail::AgeingCovariances covariances;
    const std::vector<double> derivatives = detail::ageing_derivatives(model);
    model.carry(derivatives, covariances.all);
    model.carry_repeats(derivatives, covariances.repeats);
    const double freedom = ageing.scatter.degrees_of_freedom;
    ageing.best = model.best;
    detail::add_changes(request, {figures, covariances, freedom}, ageing);
    constexpr double coordinates = 6.0;
    constexpr double left_over = 4.0;
    const auto chi = model.misfits(figures);
    ageing.moved = chi[0] / coordinates;
    ageing.left = chi[1] / left_over;
    ageing.moved_limit = detail::misfit_limit(coordinates, freedom);
    ageing.left_limit = detail::misfit_limit(left_over, freedom);
    ageing.additivity_then = detail::sum_over_white(request.then);
    constexpr double nearly_all = 0.05;
    ageing.parts.known = std::abs(ageing.additivity_then - 1.0) <= nearly_all;
    detail::add_findings(ageing);
    return ageing;
}

}  // namespace samelight
