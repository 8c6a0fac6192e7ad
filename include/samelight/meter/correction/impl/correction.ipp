#pragma once
// The bodies of meter/correction/correction.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(CorrectionMethod method) {
    constexpr std::array<const char*, 7> names = {"four-colour",
                                                  "three-colour",
                                                  "least squares",
                                                  "weighted least squares",
                                                  "least squares, white exact",
                                                  "white only",
                                                  "from spectra"};
    return names.at(static_cast<std::size_t>(method));
}

SAMELIGHT_INLINE const char* code_of(FitVerdict verdict) {
    constexpr std::array<const char*, 5> codes = {"use", "use_unproven", "not_needed", "read_again",
                                                  "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

SAMELIGHT_INLINE Eigen::Map<const NoiseTerm::Matrix> NoiseTerm::matrix() const& {
    return Eigen::Map<const Matrix>(parameters_from_reading.data());
}

SAMELIGHT_INLINE Eigen::Map<const Correction::Matrix> Correction::matrix() const& {
    return Eigen::Map<const Matrix>(reference_from_meter.data());
}

SAMELIGHT_INLINE std::array<double, 9> Correction::xyz_from_meter() const {
    std::array<double, 9> result{};
    for (std::size_t k = 0; k < 9; ++k) {
        result[k] = luminance_factor * reference_from_meter[k];
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> Correction::corrected_xyz(
    const std::array<double, 3>& meter) const {
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t row = 3 * i;
        result[i] = luminance_factor * (reference_from_meter[row] * meter[0] +
                                        reference_from_meter[row + 1] * meter[1] +
                                        reference_from_meter[row + 2] * meter[2]);
    }
    return result;
}

SAMELIGHT_INLINE Corrected corrected_reading(const Correction& correction,
                                             const std::array<double, 3>& meter) {
    if (!std::isfinite(meter[0]) || !std::isfinite(meter[1]) || !std::isfinite(meter[2])) {
        throw Error(
            ErrorKind::domain, "corrected_reading",
            "X, Y, Z = " + to_text(meter[0]) + ", " + to_text(meter[1]) + ", " + to_text(meter[2]),
            "finite values");
    }
    Corrected result{{OfObserver<Any>(correction.observer), correction.corrected_xyz(meter)}, {}};
    if (correction.valid_near) {
        const auto xyY = xyY_from_xyz(meter);
        const ChromaticityDisc& disc = *correction.valid_near;
        if (!disc.contains(xyY[0], xyY[1])) {
            result.warnings.push_back(
                Warning{"outside_validity",
                        {{"radius_xy", disc.radius},
                         {"near_x", disc.x},
                         {"near_y", disc.y},
                         {"distance_xy", std::hypot(xyY[0] - disc.x, xyY[1] - disc.y)}}});
        }
    }
    return result;
}

}  // namespace samelight
