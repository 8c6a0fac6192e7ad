#pragma once
// The way from spectra to a white that is set, with the instrument's own faults in it: what its readings do to the result.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {

namespace detail {

/// What a reading loop starts from.
struct LoopSituation {
    bool
        panel_measured;  ///< by the same instrument; else its spectra come from elsewhere and are true
    bool reference_measured;  ///< the same
    const SampledLight* now;  ///< the white as it stands; null: the native white
};

/// Columns of lights: red, green, blue, base, black, reference (n x 6).
using LoopLights = Eigen::MatrixXd;

/// Spectra are measured, a target is worked out from them, the white is set until the instrument reads the target. The result
/// is displaced by target said - reading of the light that really matches, both with the instrument's faults.
class ReadingLoop {
  public:
    ReadingLoop(const Panel& panel, const Reference& reference, const Observer& observer,
                const LoopSituation& situation)
        : sampling_(panel.sampling()),
          white_emitter_(panel.white_is_base()),
          base_(situation.now != nullptr ? Base::as_it_stands : Base::native_white),
          situation_(situation),
          observer_(observer.on(sampling_)),
          instrument_(standard_observer<Cie1931_2deg>().on(sampling_)),
          lights_(lights_of(panel, reference, situation.now)) {
        const Solution solved = solve(lights_);
        true_light_ = solved.light;
        said_ = solved.xy;
    }

    [[nodiscard]] bool measured() const noexcept { return situation_.panel_measured; }
    [[nodiscard]] double step_nm() const noexcept { return sampling_.step_nm(); }
    [[nodiscard]] double first_nm() const noexcept { return sampling_.first_nm(); }

    /// Displacement in x and y that such an instrument brings about. Its noise is drawn from `seed` onwards, a seed a light.
    [[nodiscard]] Eigen::Vector2d displacement(const ReadingInstrument& instrument,
                                               std::uint64_t seed = 0) const {
        ReadingInstrument without_noise = instrument;
        without_noise.noise = 0.0;  // that of the final reading has a figure of its own
        Eigen::Vector2d said = said_;
        if (situation_.panel_measured || situation_.reference_measured) {
            LoopLights read = lights_;
            for (Eigen::Index k = 0; k < read.cols(); ++k) {
                const bool by_it =
                    k == 5 ? situation_.reference_measured : situation_.panel_measured;
                if (by_it && read.col(k).maxCoeff() > 0.0) {
                    read.col(k) =
                        as_read(lights_.col(k), instrument, seed + static_cast<std::uint64_t>(k));
                }
            }
            if (!white_emitter_ && base_ == Base::native_white) {
                read.col(3) = read.leftCols(3).rowwise().sum();
            }
            said = solve(read).xy;
        }
        return said - xy_of(as_read(true_light_, without_noise, 0));
    }

    /// Mean square displacement by independent noise of every sample of the panel's spectra: `noise` of each light's peak, for
    /// samples `step` apart (0: as they are). To first order.
    [[nodiscard]] std::array<double, 4> noise_covariance(double noise, double step) const {
        const Eigen::Index lights = white_emitter_ && base_ == Base::native_white ? 4 : 3;
        const double wider = step > sampling_.step_nm() ? step / sampling_.step_nm() : 1.0;
        std::array<double, 4> sum{};
        if (!(noise > 0.0)) {
            return sum;
        }
        for (Eigen::Index k = 0; k < lights; ++k) {
            const double sd = noise * lights_.col(k).maxCoeff();
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

  private:
    struct Solution {
        Eigen::Vector2d xy;
        Eigen::VectorXd light;
    };
    using Responses = Eigen::Matrix<double, 3, 6>;

    static LoopLights lights_of(const Panel& panel, const Reference& reference,
                                const SampledLight* now) {
        require_same_sampling("ReadingLoop", panel.sampling(), reference.light.sampling);
        LoopLights lights(panel.sampling().count(), 6);
        lights.leftCols(3) = panel.emitters();
        lights.col(3) =
            now != nullptr ? Eigen::VectorXd(now->column()) : Eigen::VectorXd(panel.white());
        lights.col(4) = panel.black();
        lights.col(5) = reference.light.column();
        return lights;
    }

    [[nodiscard]] Eigen::VectorXd as_read(const Eigen::VectorXd& light,
                                          const ReadingInstrument& instrument,
                                          std::uint64_t seed) const {
        const Spectrum truth(sampling_, {light.begin(), light.end()});
        const SampledLight read = enter(read_by(instrument, truth, seed), sampling_);
        return read.column();
    }

    static Eigen::Vector2d xy_of_xyz(const Eigen::Vector3d& xyz) {
        return {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
    }
    [[nodiscard]] Eigen::Vector2d xy_of(const Eigen::VectorXd& light) const {
        return xy_of_xyz(instrument_.rows() * light);
    }

    [[nodiscard]] PanelResponses seen(const Responses& r) const {
        return {r.leftCols<3>(), r.col(3), r.col(4), r.col(5)};
    }

    /// How the panel makes the match, from the observer's responses.
    [[nodiscard]] std::array<double, 4> amounts(const Responses& observer) const {
        const std::optional<Composition> made = compose(seen(observer), base_, white_emitter_);
        if (!made) {
            throw Error(ErrorKind::domain, "target_budget", "spectra that no longer make a white",
                        "an instrument that leaves the panel's colours apart");
        }
        const double kept = base_ == Base::as_it_stands ? 1.0 : made->white_emitter;
        return {made->added[0], made->added[1], made->added[2], kept};
    }

    [[nodiscard]] double black_shown() const { return base_ == Base::as_it_stands ? 0.0 : 1.0; }

    [[nodiscard]] Solution solve(const LoopLights& lights) const {
        const std::array<double, 4> a = amounts(observer_.rows() * lights);
        const Eigen::VectorXd light = a[0] * lights.col(0) + a[1] * lights.col(1) +
                                      a[2] * lights.col(2) + a[3] * lights.col(3) +
                                      black_shown() * lights.col(4);
        return {xy_of(light), light};
    }

    /// How the target said moves when sample i of light k does. Only two columns of responses change.
    [[nodiscard]] Eigen::Vector2d slope_by_sample(Eigen::Index k, Eigen::Index i,
                                                  double delta) const {
        const auto said = [&](double by) {
            Responses o = observer_responses_;
            Responses m = instrument_responses_;
            o.col(k) += by * observer_.rows().col(i);
            m.col(k) += by * instrument_.rows().col(i);
            const std::array<double, 4> a = amounts(o);
            return xy_of_xyz(a[0] * m.col(0) + a[1] * m.col(1) + a[2] * m.col(2) + a[3] * m.col(3) +
                             black_shown() * m.col(4));
        };
        return (said(delta) - said(-delta)) / (2.0 * delta);
    }

    Sampling sampling_;
    bool white_emitter_;
    Base base_;
    LoopSituation situation_;
    Sensitivities observer_;
    Sensitivities instrument_;
    LoopLights lights_;
    Responses observer_responses_ = observer_.rows() * lights_;
    Responses instrument_responses_ = instrument_.rows() * lights_;
    Eigen::VectorXd true_light_;
    Eigen::Vector2d said_;
};

}  // namespace detail
}  // namespace samelight
