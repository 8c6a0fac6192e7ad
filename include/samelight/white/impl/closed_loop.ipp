#pragma once
// The bodies of white/closed_loop.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/closed_loop.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE ClosedLoop::ClosedLoop(const Panel& panel, const Reference& reference,
                                        const Observer& observer,
                                        const ClosedLoopSituation& situation)
    : sampling_(panel.sampling()),
      white_emitter_(panel.white_is_base()),
      situation_(situation),
      observer_(observer.on(sampling_)),
      instrument_(standard_observer<Cie1931_2deg>().on(sampling_)),
      lights_(lights_of(panel, reference, situation)),
      steps_nm_(steps_of(panel, reference, situation)) {
    observer_responses_ = dense::responses(observer_.rows(), lights_);
    instrument_responses_ = dense::responses(instrument_.rows(), lights_);
    const Shares shares = shares_of(observer_responses_, instrument_responses_);
    true_light_ = dense::times(lights_.leftCols(5), shares);
    said_ = xy_of(dense::response(instrument_.rows(), true_light_));
}

SAMELIGHT_INLINE bool ClosedLoop::measured() const {
    for (Eigen::Index k = 0; k < 6; ++k) {
        if (was_read(k)) {
            return true;
        }
    }
    return false;
}

SAMELIGHT_INLINE std::vector<double> ClosedLoop::coarse_steps_nm() const {
    std::vector<double> steps;
    for (Eigen::Index k = 0; k < 7; ++k) {
        const double step = step_of(k);
        if (step > sampling_.step_nm() &&
            std::none_of(steps.begin(), steps.end(),
                         [&](double known) { return same_step(known, step); })) {
            steps.push_back(step);
        }
    }
    return steps;
}

SAMELIGHT_INLINE Eigen::Vector2d ClosedLoop::displacement(const ReadingInstrument& instrument,
                                                          const std::vector<StepAt>& sampled,
                                                          std::uint64_t seed) const {
    ReadingInstrument without_noise = instrument;
    without_noise.noise = 0.0;  // that of the final reading has a figure of its own
    Eigen::Vector2d said = said_;
    if (measured()) {
        LoopLights read = lights_;
        for (Eigen::Index k = 0; k < read.cols(); ++k) {
            if (was_read(k)) {
                read.col(k) = as_read(lights_.col(k), at_step(instrument, sampled, k),
                                      seed + static_cast<std::uint64_t>(k));
            }
        }
        const Responses o = dense::responses(observer_.rows(), read);
        const Responses m = dense::responses(instrument_.rows(), read);
        const Eigen::VectorXd light = dense::times(read.leftCols(5), shares_of(o, m));
        said = xy_of(dense::response(instrument_.rows(), light));
    }
    return said - xy_of(dense::response(
                      instrument_.rows(),
                      as_read(true_light_, at_step(without_noise, sampled, while_set), 0)));
}

SAMELIGHT_INLINE CovarianceMatrix<2> ClosedLoop::noise_covariance(
    const ReadingInstrument& instrument) const {
    CovarianceMatrix<2> sum{};
    if (!(instrument.noise > 0.0)) {
        return sum;
    }
    ReadingInstrument quiet = instrument;
    quiet.noise = 0.0;
    for (Eigen::Index k = 0; k < lights_.cols(); ++k) {
        if (!was_read(k)) {
            continue;
        }
        const double sd = instrument.noise * as_read(lights_.col(k), quiet, 0).maxCoeff();
        const double wider = std::max(1.0, step_of(k) / sampling_.step_nm());
        for (Eigen::Index i = 0; i < lights_.rows(); ++i) {
            const Eigen::Vector2d slope = slope_by_sample(k, i, 1e-3 * sd);
            const double variance = sd * sd * wider;
            sum[0] += variance * slope[0] * slope[0];
            sum[1] += variance * slope[0] * slope[1];
            sum[3] += variance * slope[1] * slope[1];
        }
    }
    sum[2] = sum[1];
    return sum;
}

SAMELIGHT_INLINE LoopLights ClosedLoop::lights_of(const Panel& panel, const Reference& reference,
                                                  const ClosedLoopSituation& situation) {
    require_same_sampling("ClosedLoop", panel.sampling(), reference.light.sampling);
    LoopLights lights(panel.sampling().count(), 6);
    const PanelLights& columns = panel.spread();
    const SampledLight* now = light_as_it_stands(situation.base);
    lights.leftCols(3) = columns.emitters();
    lights.col(3) =
        now != nullptr ? Eigen::VectorXd(now->spread_column()) : Eigen::VectorXd(columns.white());
    lights.col(4) = columns.black();
    lights.col(5) = reference.light.spread_column();
    return lights;
}

SAMELIGHT_INLINE std::array<double, 7> ClosedLoop::steps_of(const Panel& panel,
                                                            const Reference& reference,
                                                            const ClosedLoopSituation& situation) {
    const double own = panel.grid().step_nm;
    const SampledLight* stands = light_as_it_stands(situation.base);
    const double now = stands != nullptr ? stands->grid.step_nm : own;
    const double last = situation.base_measured        ? now
                        : situation.panel_measured     ? own
                        : situation.reference_measured ? reference.light.grid.step_nm
                                                       : 0.0;
    return {own, own, own, now, own, reference.light.grid.step_nm, last};
}

SAMELIGHT_INLINE double ClosedLoop::step_of(Eigen::Index k) const {
    if (k != while_set && !was_read(k)) {
        return 0.0;
    }
    return situation_.step_nm > 0.0 ? situation_.step_nm : steps_nm_[static_cast<std::size_t>(k)];
}

SAMELIGHT_INLINE ReadingInstrument ClosedLoop::at_step(ReadingInstrument instrument,
                                                       const std::vector<StepAt>& sampled,
                                                       Eigen::Index k) const {
    instrument.step_nm = 0.0;
    for (const StepAt& s : sampled) {
        if (same_step(s.step_nm, step_of(k))) {
            instrument.step_nm = s.step_nm;
            instrument.first_nm = s.first_nm;
        }
    }
    return instrument;
}

SAMELIGHT_INLINE bool ClosedLoop::was_read(Eigen::Index k) const {
    switch (k) {
        case 3:
            return light_as_it_stands(situation_.base) != nullptr
                       ? situation_.base_measured
                       : situation_.panel_measured && white_emitter_;
        case 4:
            return situation_.panel_measured && light_as_it_stands(situation_.base) == nullptr &&
                   lights_.col(4).maxCoeff() > 0.0;
        case 5:
            return situation_.reference_measured;
        default:
            return situation_.panel_measured;
    }
}

SAMELIGHT_INLINE Eigen::VectorXd ClosedLoop::as_read(const Eigen::VectorXd& light,
                                                     const ReadingInstrument& instrument,
                                                     std::uint64_t seed) const {
    const Spectrum truth(sampling_, {light.begin(), light.end()});
    const std::vector<double> read =
        rebin_for_sums(read_by(instrument, truth, seed), sampling_).values;
    return Eigen::Map<const Eigen::VectorXd>(read.data(), static_cast<Eigen::Index>(read.size()));
}

SAMELIGHT_INLINE Eigen::Vector2d ClosedLoop::xy_of(const Eigen::Vector3d& xyz) {
    return {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
}

SAMELIGHT_INLINE ClosedLoop::Shares ClosedLoop::setting(const Responses& r,
                                                        const Eigen::Vector3d& wanted,
                                                        Base base) const {
    const std::optional<Composition> made =
        compose({r.leftCols<3>(), r.col(3), r.col(4), wanted, white_emitter_}, base);
    if (!made) {
        throw Error(ErrorKind::domain, "target_budget", "spectra that no longer make a white",
                    "an instrument that leaves the panel's colours apart");
    }
    const bool stands = base == Base::as_it_stands;
    Shares shares;
    shares << made->added[0], made->added[1], made->added[2], stands ? 1.0 : made->white_emitter,
        stands ? 0.0 : 1.0;
    return shares;
}

SAMELIGHT_INLINE ClosedLoop::Shares ClosedLoop::shares_of(const Responses& o,
                                                          const Responses& m) const {
    const auto set_to = xy_set_to(situation_.base);
    if (!set_to) {
        return setting(o, o.col(5),
                       is_native(situation_.base) ? Base::native_white : Base::as_it_stands);
    }
    const Shares base = setting(m, tristimulus(*set_to).column(), Base::native_white);
    Responses from = o;
    from.col(3) = dense::times(o.leftCols<5>(), base);
    Shares shares = setting(from, o.col(5), Base::as_it_stands);
    const double kept = shares[3];
    shares[3] = 0.0;
    shares += kept * base;
    return shares;
}

SAMELIGHT_INLINE Eigen::Vector2d ClosedLoop::slope_by_sample(Eigen::Index k, Eigen::Index i,
                                                             double delta) const {
    const auto said = [&](double by) {
        Responses o = observer_responses_;
        Responses m = instrument_responses_;
        o.col(k) += by * observer_.rows().col(i);
        m.col(k) += by * instrument_.rows().col(i);
        return xy_of(dense::times(m.leftCols<5>(), shares_of(o, m)));
    };
    return (said(delta) - said(-delta)) / (2.0 * delta);
}

}  // namespace samelight::detail
