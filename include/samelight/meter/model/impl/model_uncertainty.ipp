#pragma once
// The bodies of meter/model/model_uncertainty.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model_uncertainty.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The light moved along the wavelengths.
inline Eigen::VectorXd moved_light(const Sampling& sampling,
                                   const Eigen::Ref<const Eigen::VectorXd>& light, double by_nm) {
    std::vector<double> nm;
    for (int i = 0; i < sampling.count(); ++i) {
        nm.push_back(sampling.wavelength_nm(i) + by_nm);
    }
    return rebin(Spectrum(std::move(nm), {light.begin(), light.end()}), sampling).column();
}

/// The rows moved along the wavelengths; linear between samples, 0 beyond their ends.
inline Sensitivities moved_rows(const Sensitivities& meter, double by_nm) {
    const Sampling& sampling = meter.sampling;
    const auto n = static_cast<std::size_t>(sampling.count());
    Sensitivities result{meter.observer, sampling, {}};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto first = meter.values.begin() + static_cast<std::ptrdiff_t>(k * n);
        const Spectrum row(sampling, {first, first + static_cast<std::ptrdiff_t>(n)});
        for (int i = 0; i < sampling.count(); ++i) {
            result.values.push_back(row.at(sampling.wavelength_nm(i) - by_nm));
        }
    }
    return result;
}

inline double white_off_by(const Sensitivities& meter, const Sensitivities& observer,
                           const Correction& correction,
                           const Eigen::Ref<const Eigen::VectorXd>& white) {
    const Eigen::Vector3d read =
        dense::times_3x3(correction.matrix(), dense::response(meter.rows(), white));
    const Eigen::Vector3d truth = dense::response(observer.rows(), white);
    return (read.head<2>() / read.sum() - truth.head<2>() / truth.sum()).norm();
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ModelUncertainty model_uncertainty(const MeterBefore& asked,
                                                    const Correction& correction,
                                                    const ModelShifts& shifts) {
    const Sensitivities& meter = asked.meter;
    const Panel& panel = asked.panel;
    const Observer& observer = asked.observer;
    const double panel_nm = shifts.panel_nm;
    const double meter_nm = shifts.meter_nm;
    require_same_sampling("model_uncertainty", meter.sampling, panel.sampling());
    const Sensitivities target = observer.on(panel.sampling());
    ModelUncertainty uncertainty{panel_nm, 0.0, meter_nm, 0.0};
    for (const double side : {-1.0, 1.0}) {
        const Eigen::VectorXd white =
            detail::moved_light(panel.sampling(), panel.white(), side * panel_nm);
        uncertainty.panel_xy =
            std::max(uncertainty.panel_xy, detail::white_off_by(meter, target, correction, white));
        uncertainty.meter_xy = std::max(
            uncertainty.meter_xy, detail::white_off_by(detail::moved_rows(meter, side * meter_nm),
                                                       target, correction, panel.white()));
    }
    return uncertainty;
}

}  // namespace samelight
