#pragma once
// The two visits of ageing_between() as figures that follow from numbers which may be off: what its derivatives are taken of.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

// Of check/visits/ageing.hpp, whose bodies call what is declared here.
struct AgeingRequest;

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

using LightXyz = std::array<double, 3>;
using LightXy = std::array<double, 2>;

/// Where what moves stands among the inputs: x, y, ln Y of each light of each visit, aims, corrections, spectra.
struct AgeingInputs {
    static constexpr std::size_t aims = 24, corrections = 26, spectra = 46, count = 70;
    static constexpr std::size_t light(std::size_t visit, std::size_t k) {
        return 3 * (4 * visit + k);
    }
};

/// Where what follows stands among the outputs.
struct AgeingOutputs {
    static constexpr std::size_t lights = 0, against = 12, common = 15, channels = 16, parts = 18,
                                 sum = 24, corrections = 25, spectra = 31, whites = 37, count = 41;
};

using AgeingVector = std::array<double, AgeingInputs::count>;
using AgeingFigures = std::array<double, AgeingOutputs::count>;

/// Symmetric 2 x 2: xx, xy, yy.
using XyWeight = std::array<double, 3>;

/// The two visits as numbers that follow from numbers.
class AgeingModel {
  public:
    AgeingModel(const AgeingRequest& request, const LightScatter& scatter);

    [[nodiscard]] AgeingFigures figures(const AgeingVector& off) const;
    /// Chi squared of the primaries' moves, as they are and as the channels leave them.
    [[nodiscard]] std::array<double, 2> misfits(const AgeingFigures& f) const;
    /// Covariance of all inputs, in blocks; added to `to` through the derivatives.
    void carry(const std::vector<double>& derivatives, std::vector<double>& to) const;
    /// The same of the repeats' scatter alone, which is the part that is known by its degrees of freedom.
    void carry_repeats(const std::vector<double>& derivatives, std::vector<double>& to) const;

    std::size_t best = 0;

  private:
    [[nodiscard]] std::array<std::array<LightXyz, 4>, 2> lights(const AgeingVector& off) const;
    [[nodiscard]] const Correction* correction(std::size_t visit) const;
    [[nodiscard]] LightXy channel_drift(const std::array<std::array<LightXyz, 4>, 2>& lights) const;
    void add_parts(const std::array<std::array<LightXyz, 4>, 2>& lights, AgeingFigures& f) const;
    void add_apart(const AgeingVector& off, const std::array<std::array<LightXyz, 4>, 2>& lights,
                   AgeingFigures& f) const;
    void add_block(const std::vector<double>& derivatives, std::size_t at,
                   const std::vector<double>& block, std::vector<double>& to) const;

    const AgeingRequest& request_;
    const LightScatter& scatter_;
    std::array<std::array<LightXyz, 4>, 2> means_{};
    std::array<std::array<double, 4>, 2> counts_{};
    /// Of the primaries' changes of x, y.
    std::array<XyWeight, 3> weights_{};
};

/// Derivatives of all outputs by all inputs, row after row.
std::vector<double> ageing_derivatives(const AgeingModel& model);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/ageing_model.ipp"
#endif
