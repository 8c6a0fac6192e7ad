#pragma once
// The model brought to the readings: how well a state explains them, and its numbers by least squares that outliers don't bend.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/check/faults/display_model.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Readings that a model is brought to.
class SAMELIGHT_API ModelFit {
  public:
    /// The points, and the display that they are meant to be.
    ModelFit(const std::vector<ProofPoint>& points, const ProofNoise& noise,
             const IntendedDisplay& intended);

    /// How badly a state explains the readings: the sum of ln(1 + z^2 / 36) times 36 over the patches, z the CIELAB distance over its standard
    /// deviation (of the noise, and 0.3 for what no model explains; own choice). No unit; infinite where the state is none. Source: Cauchy's weight
    /// function (Holland & Welsch 1977, Commun. Stat. A6:813, from memory).
    [[nodiscard]] double misfit(const ModelState& state) const;

    /// Brings those numbers of the state to the readings, at most `rounds` rounds of damped least squares. Returns the misfit, no unit.
    double refine(ModelState& state, const std::vector<ModelNumber>& numbers, int rounds) const;

    /// How far a reading lies from a state's light: CIELAB distance, and the same over its standard deviation.
    struct Distance {
        double delta_e, z;
    };
    /// Of each reading, no unit.
    [[nodiscard]] std::vector<Distance> distances(const ModelState& state) const;

    /// Of BT.1886 alone: how far the signal that its curve begins at may lie from where the intended black has it, from low to high, no unit: by four
    /// standard deviations of what was read of black, and far up where it wasn't read. Own rule.
    [[nodiscard]] const std::array<double, 2>& lift() const noexcept { return lift_; }

    /// The model of the display that they are meant to be.
    [[nodiscard]] const DisplayModel& model() const noexcept { return model_; }

  private:
    DisplayModel model_;
    std::array<double, 3> white_;
    std::array<double, 2> lift_{};
    std::vector<std::array<double, 3>> measured_lab_, per_sd_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/model_fit.ipp"
#endif
