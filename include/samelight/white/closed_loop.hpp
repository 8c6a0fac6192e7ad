#pragma once
// The way from spectra to a white that is set, with the instrument's own faults in it: what its readings do to the result.
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// What a closed loop starts from: which lights the instrument measured, and what the white's base is.
struct ClosedLoopSituation {
    /// By the same instrument; else its spectra come from elsewhere and are true.
    bool panel_measured;
    /// The same.
    bool reference_measured;
    WhiteBase base = NativeWhite{};
    /// A white as it stands, by the same instrument.
    bool base_measured = false;
    /// At which the instrument measured, where that is known; 0: as each spectrum's own samples lie.
    double step_nm = 0.0;
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
class SAMELIGHT_API ClosedLoop {
  public:
    ClosedLoop(const Panel& panel, const Reference& reference, const Observer& observer,
               const ClosedLoopSituation& situation);

    /// Whether the instrument measured anything that the target is worked out from.
    [[nodiscard]] bool measured() const;
    [[nodiscard]] double first_nm() const noexcept { return sampling_.first_nm(); }

    /// The steps, coarser than the sampling's, at which lights are read, each once.
    [[nodiscard]] std::vector<double> coarse_steps_nm() const;

    /// Displacement in x and y that such an instrument brings about, whose samples of a step in `sampled` lie as said there. Its noise is
    /// drawn from `seed` onwards, a seed a light. The instrument's own step is left out of account.
    [[nodiscard]] Eigen::Vector2d displacement(const ReadingInstrument& instrument,
                                               const std::vector<StepAt>& sampled = {},
                                               std::uint64_t seed = 0) const;

    /// Mean square displacement by independent noise of every sample of every light that was measured: `instrument.noise` of
    /// the peak that the instrument reads through its bandwidth, on each light's own samples. To first order.
    [[nodiscard]] CovarianceMatrix<2> noise_covariance(const ReadingInstrument& instrument) const;

  private:
    using Responses = Eigen::Matrix<double, 3, 6>;
    using Shares = Eigen::Matrix<double, 5, 1>;  // of red, green, blue, base and black
    /// Beside the columns of LoopLights: the reading by which the white is set.
    static constexpr Eigen::Index while_set = 6;

    static LoopLights lights_of(const Panel& panel, const Reference& reference,
                                const ClosedLoopSituation& situation);

    /// The step of every light's own samples, and of the instrument that reads the white while it is set: as it last measured.
    static std::array<double, 7> steps_of(const Panel& panel, const Reference& reference,
                                          const ClosedLoopSituation& situation);

    /// Files of "3.3 nm" whose ends differ have steps that differ in the last places.
    static bool same_step(double a, double b) { return std::abs(a - b) < 1e-6 * a; }

    /// The step at which light `k` is read; 0 where it isn't.
    [[nodiscard]] double step_of(Eigen::Index k) const;

    /// The instrument as it samples light `k`.
    [[nodiscard]] ReadingInstrument at_step(ReadingInstrument instrument,
                                            const std::vector<StepAt>& sampled,
                                            Eigen::Index k) const;

    /// Whether the instrument measured light `k`. A base that is the sum of the primaries needs no measuring.
    [[nodiscard]] bool was_read(Eigen::Index k) const;

    [[nodiscard]] Eigen::VectorXd as_read(const Eigen::VectorXd& light,
                                          const ReadingInstrument& instrument,
                                          std::uint64_t seed) const;

    static Eigen::Vector2d xy_of(const Eigen::Vector3d& xyz);

    /// How much of each light a setting is made of. @param wanted  its responses, on the scale of `r`'s observer
    [[nodiscard]] Shares setting(const Responses& r, const Eigen::Vector3d& wanted,
                                 Base base) const;

    /// How the panel makes the match, from the observer's responses `o` and the instrument's `m`.
    [[nodiscard]] Shares shares_of(const Responses& o, const Responses& m) const;

    /// How the target said moves when sample i of light k does. Only two columns of responses change.
    [[nodiscard]] Eigen::Vector2d slope_by_sample(Eigen::Index k, Eigen::Index i,
                                                  double delta) const;

    Sampling sampling_;
    bool white_emitter_;
    ClosedLoopSituation situation_;
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

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/closed_loop.ipp"
#endif
