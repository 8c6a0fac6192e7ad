#pragma once
// Meters that don't exist: the CIE 1931 rows, shifted and stretched, as a filter that misses its target would be.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::test {

/// Row k of the meter at wavelength l is row k of CIE 1931 at c_k + (l - shift_k - c_k) / stretch_k, with c = 599, 555, 445 nm, the rows' main peaks;
/// each row is then scaled so that the meter reads illuminant A (2856 K) right, as meters are calibrated.
struct InventedMeter {
    std::string name;
    std::array<double, 3> shift_nm;
    std::array<double, 3> stretch;

    [[nodiscard]] Sensitivities on(const Sampling& sampling) const {
        constexpr std::array<double, 3> centre = {599.0, 555.0, 445.0};
        const Observer& target = standard_observer<Cie1931_2deg>();
        const SampledLight lamp = rebin(illuminant_a(), sampling);
        Sensitivities rows{name, sampling, {}};
        for (std::size_t k = 0; k < 3; ++k) {
            double wanted = 0.0;
            double got = 0.0;
            std::vector<double> row;
            for (int i = 0; i < sampling.count(); ++i) {
                const double nm = sampling.wavelength_nm(i);
                row.push_back(
                    target.at(k, centre[k] + (nm - shift_nm[k] - centre[k]) / stretch[k]));
                wanted += lamp.values[static_cast<std::size_t>(i)] * target.at(k, nm);
                got += lamp.values[static_cast<std::size_t>(i)] * row.back();
            }
            for (const double value : row) {
                rows.values.push_back(value * wanted / got);
            }
        }
        return rows;
    }
};

/// f1' of the luminance row: the sum of |s - V| over that of V, s already scaled to read illuminant A right.
/// Source: ISO/CIE 19476:2014, general V(lambda) mismatch index.
inline double f1_prime(const InventedMeter& meter, const Sampling& sampling = {}) {
    const Sensitivities s = meter.on(sampling);
    const Sensitivities v = standard_observer<Cie1931_2deg>().on(sampling);
    const auto n = static_cast<std::size_t>(sampling.count());
    double apart = 0.0;
    double whole = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        apart += std::abs(s.values[n + i] - v.values[n + i]);
        whole += v.values[n + i];
    }
    return apart / whole;
}

/// Four that miss in different directions, f1' from 4.5 to 5.5 % each (a test says so).
inline std::vector<InventedMeter> invented_meters() {
    return {{"long", {2.0, 2.0, 2.0}, {1.03, 1.03, 1.03}},
            {"short", {-2.5, -2.5, -2.5}, {1.03, 1.03, 1.03}},
            {"broad", {1.0, 0.0, -1.0}, {1.06, 1.05, 1.06}},
            {"narrow", {-1.0, 1.5, 2.0}, {0.95, 0.955, 0.95}}};
}

}  // namespace samelight::test
