#pragma once
// The way from spectra to a white that is set, with the instrument's own faults in it: what its readings do to the result.
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
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {

namespace detail {

/// What a reading loop starts from: which lights the instrument measured, and what the white's base is.
struct LoopSituation {
    bool
        panel_measured;  ///< by the same instrument; else its spectra come from elsewhere and are true
    bool reference_measured;            ///< the same
    const SampledLight* now = nullptr;  ///< the white as it stands; null: native or as set
    bool now_measured = false;          ///< by the same instrument
    /// The panel's white as set, worked out from its spectra, as the base; none: native or as it stands.
    std::optional<Chromaticity<Cie1931_2deg>> set_to = std::nullopt;
    double step_nm =
        0.0;  ///< at which the instrument measured, where that is known; 0: as each spectrum's own samples lie
};

/// A step at which some of the lights are sampled, and a wavelength at which a sample falls.
struct StepAt {
    double step_nm;
    double first_nm;
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
          situation_(situation),
          observer_(observer.on(sampling_)),
          instrument_(standard_observer<Cie1931_2deg>().on(sampling_)),
          lights_(lights_of(panel, reference, situation)),
          steps_nm_(steps_of(panel, reference, situation)) {
        observer_responses_ = observer_.rows() * lights_;
        instrument_responses_ = instrument_.rows() * lights_;
        const Shares shares = shares_of(observer_responses_, instrument_responses_);
        true_light_ = lights_.leftCols(5) * shares;
        said_ = xy_of(instrument_.rows() * true_light_);
    }

    /// Whether the instrument measured anything that the target is worked out from.
    [[nodiscard]] bool measured() const {
        for (Eigen::Index k = 0; k < 6; ++k) {
            if (was_read(k)) {
                return true;
            }
        }
        return false;
    }
    [[nodiscard]] double first_nm() const noexcept { return sampling_.first_nm(); }

    /// The steps, coarser than the sampling's, at which lights are read, each once.
    [[nodiscard]] std::vector<double> coarse_steps_nm() const {
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

    /// Displacement in x and y that such an instrument brings about, whose samples of a step in `sampled` lie as said there. Its noise is
    /// drawn from `seed` onwards, a seed a light. The instrument's own step is left out of account.
    [[nodiscard]] Eigen::Vector2d displacement(const ReadingInstrument& instrument,
                                               const std::vector<StepAt>& sampled = {},
                                               std::uint64_t seed = 0) const {
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
            const Responses o = observer_.rows() * read;
            const Responses m = instrument_.rows() * read;
            const Eigen::VectorXd light = read.leftCols(5) * shares_of(o, m);
            said = xy_of(instrument_.rows() * light);
        }
        return said - xy_of(instrument_.rows() *
                            as_read(true_light_, at_step(without_noise, sampled, while_set), 0));
    }

    /// Mean square displacement by independent noise of every sample of every light that was measured: `instrument.noise` of
    /// the peak that the instrument reads through its bandwidth, on each light's own samples. To first order.
    [[nodiscard]] std::array<double, 4> noise_covariance(
        const ReadingInstrument& instrument) const {
        std::array<double, 4> sum{};
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

  private:
    using Responses = Eigen::Matrix<double, 3, 6>;
    using Shares = Eigen::Matrix<double, 5, 1>;  // of red, green, blue, base and black
    /// Beside the columns of LoopLights: the reading by which the white is set.
    static constexpr Eigen::Index while_set = 6;

    static LoopLights lights_of(const Panel& panel, const Reference& reference,
                                const LoopSituation& situation) {
        require_same_sampling("ReadingLoop", panel.sampling(), reference.light.sampling);
        LoopLights lights(panel.sampling().count(), 6);
        const PanelLights& columns = panel.spread();
        lights.leftCols(3) = columns.emitters();
        lights.col(3) = situation.now != nullptr ? Eigen::VectorXd(situation.now->spread_column())
                                                 : Eigen::VectorXd(columns.white());
        lights.col(4) = columns.black();
        lights.col(5) = reference.light.spread_column();
        return lights;
    }

    /// The step of every light's own samples, and of the instrument that reads the white while it is set: as it last measured.
    static std::array<double, 7> steps_of(const Panel& panel, const Reference& reference,
                                          const LoopSituation& situation) {
        const double own = panel.grid().step_nm;
        const double now = situation.now != nullptr ? situation.now->grid.step_nm : own;
        const double last = situation.now_measured         ? now
                            : situation.panel_measured     ? own
                            : situation.reference_measured ? reference.light.grid.step_nm
                                                           : 0.0;
        return {own, own, own, now, own, reference.light.grid.step_nm, last};
    }

    /// Files of "3.3 nm" whose ends differ have steps that differ in the last places.
    static bool same_step(double a, double b) { return std::abs(a - b) < 1e-6 * a; }

    /// The step at which light `k` is read; 0 where it isn't.
    [[nodiscard]] double step_of(Eigen::Index k) const {
        if (k != while_set && !was_read(k)) {
            return 0.0;
        }
        return situation_.step_nm > 0.0 ? situation_.step_nm
                                        : steps_nm_[static_cast<std::size_t>(k)];
    }

    /// The instrument as it samples light `k`.
    [[nodiscard]] ReadingInstrument at_step(ReadingInstrument instrument,
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

    /// Whether the instrument measured light `k`. A base that is the sum of the primaries needs no measuring.
    [[nodiscard]] bool was_read(Eigen::Index k) const {
        switch (k) {
            case 3:
                return situation_.now != nullptr ? situation_.now_measured
                                                 : situation_.panel_measured && white_emitter_;
            case 4:
                return situation_.panel_measured && situation_.now == nullptr &&
                       lights_.col(4).maxCoeff() > 0.0;
            case 5:
                return situation_.reference_measured;
            default:
                return situation_.panel_measured;
        }
    }

    [[nodiscard]] Eigen::VectorXd as_read(const Eigen::VectorXd& light,
                                          const ReadingInstrument& instrument,
                                          std::uint64_t seed) const {
        const Spectrum truth(sampling_, {light.begin(), light.end()});
        const SampledLight read = enter(read_by(instrument, truth, seed), sampling_);
        return read.column();
    }

    static Eigen::Vector2d xy_of(const Eigen::Vector3d& xyz) {
        return {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
    }

    /// How much of each light a setting is made of. @param wanted  its responses, on the scale of `r`'s observer
    [[nodiscard]] Shares setting(const Responses& r, const Eigen::Vector3d& wanted,
                                 Base base) const {
        const std::optional<Composition> made =
            compose({r.leftCols<3>(), r.col(3), r.col(4), wanted}, base, white_emitter_);
        if (!made) {
            throw Error(ErrorKind::domain, "target_budget", "spectra that no longer make a white",
                        "an instrument that leaves the panel's colours apart");
        }
        const bool stands = base == Base::as_it_stands;
        Shares shares;
        shares << made->added[0], made->added[1], made->added[2],
            stands ? 1.0 : made->white_emitter, stands ? 0.0 : 1.0;
        return shares;
    }

    /// How the panel makes the match, from the observer's responses `o` and the instrument's `m`.
    [[nodiscard]] Shares shares_of(const Responses& o, const Responses& m) const {
        if (!situation_.set_to) {
            return setting(o, o.col(5),
                           situation_.now != nullptr ? Base::as_it_stands : Base::native_white);
        }
        const Shares base =
            setting(m, tristimulus(*situation_.set_to).column(), Base::native_white);
        Responses from = o;
        from.col(3) = o.leftCols<5>() * base;
        Shares shares = setting(from, o.col(5), Base::as_it_stands);
        const double kept = shares[3];
        shares[3] = 0.0;
        shares += kept * base;
        return shares;
    }

    /// How the target said moves when sample i of light k does. Only two columns of responses change.
    [[nodiscard]] Eigen::Vector2d slope_by_sample(Eigen::Index k, Eigen::Index i,
                                                  double delta) const {
        const auto said = [&](double by) {
            Responses o = observer_responses_;
            Responses m = instrument_responses_;
            o.col(k) += by * observer_.rows().col(i);
            m.col(k) += by * instrument_.rows().col(i);
            return xy_of(m.leftCols<5>() * shares_of(o, m));
        };
        return (said(delta) - said(-delta)) / (2.0 * delta);
    }

    Sampling sampling_;
    bool white_emitter_;
    LoopSituation situation_;
    Sensitivities observer_;
    Sensitivities instrument_;
    LoopLights lights_;
    std::array<double, 7> steps_nm_;
    Responses observer_responses_;
    Responses instrument_responses_;
    Eigen::VectorXd true_light_;
    Eigen::Vector2d said_;
};

}  // namespace detail
}  // namespace samelight
