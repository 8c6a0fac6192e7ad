#pragma once
// Calibrations whose truth is known: a panel, an invented meter, and noise of a stated size.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "meter/invented_meter.hpp"
#include "numeric/test_random.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::test {

/// Noise of one reading of either instrument, independent in x, y and Y.
struct SimulatedNoise {
    double xy_sd = 0.0005;
    double luminance_sd = 0.0;  ///< relative
};

struct Shown {
    std::string name;
    std::array<double, 3> drive;
    double noise_factor = 1.0;  ///< times the noise, for patches that scatter differently
};

inline std::vector<Shown> rgbw() {
    return {{"red", {1, 0, 0}}, {"green", {0, 1, 0}}, {"blue", {0, 0, 1}}, {"white", {1, 1, 1}}};
}

class SimulatedCalibration {
  public:
    /// White at full drive reads 100 cd/m2.
    SimulatedCalibration(const Panel& panel, const InventedMeter& meter)
        : reference_(100.0 * standard_observer<Cie1931_2deg>().on(panel.sampling()).rows() *
                     panel.emitters()),
          meter_(100.0 * meter.on(panel.sampling()).rows() * panel.emitters()) {}

    [[nodiscard]] std::array<double, 3> reference(const std::array<double, 3>& drive) const {
        return times(reference_, drive);
    }
    [[nodiscard]] std::array<double, 3> meter(const std::array<double, 3>& drive) const {
        return times(meter_, drive);
    }
    [[nodiscard]] const Eigen::Matrix3d& reference_from_drive() const { return reference_; }
    [[nodiscard]] const Eigen::Matrix3d& meter_from_drive() const { return meter_; }

    /// `rounds` rounds of all patches.
    [[nodiscard]] std::vector<PairedReading> read(
        Random& random, int rounds, const SimulatedNoise& noise,
        const std::vector<Shown>& patches = rgbw()) const {
        std::vector<PairedReading> pairs;
        for (int round = 1; round <= rounds; ++round) {
            for (const Shown& patch : patches) {
                const SimulatedNoise n{noise.xy_sd * patch.noise_factor,
                                       noise.luminance_sd * patch.noise_factor};
                pairs.push_back({patch.name,
                                 noisy(reference(patch.drive), random, n),
                                 noisy(meter(patch.drive), random, n),
                                 round,
                                 {}});
            }
        }
        return pairs;
    }

    static std::array<double, 3> noisy(const std::array<double, 3>& xyz, Random& random,
                                       const SimulatedNoise& noise) {
        const auto v = xyY_from_xyz(xyz);
        return xyz_from_xyY(v[0] + noise.xy_sd * random.normal(),
                            v[1] + noise.xy_sd * random.normal(),
                            v[2] * (1.0 + noise.luminance_sd * random.normal()));
    }

  private:
    static std::array<double, 3> times(const Eigen::Matrix3d& m, const std::array<double, 3>& d) {
        const Eigen::Vector3d v = m * Eigen::Vector3d(d[0], d[1], d[2]);
        return {v[0], v[1], v[2]};
    }

    Eigen::Matrix3d reference_;
    Eigen::Matrix3d meter_;
};

inline double xy_distance_to(const std::array<double, 3>& xyz, const std::array<double, 3>& truth) {
    const auto a = xyY_from_xyz(xyz);
    const auto b = xyY_from_xyz(truth);
    return std::hypot(a[0] - b[0], a[1] - b[1]);
}

/// rgbw() with two of their mixtures.
inline std::vector<Shown> with_yellow_and_grey() {
    std::vector<Shown> patches = rgbw();
    patches.push_back({"yellow", {1, 1, 0}});
    patches.push_back({"grey", {0.5, 0.5, 0.5}});
    return patches;
}

}  // namespace samelight::test
