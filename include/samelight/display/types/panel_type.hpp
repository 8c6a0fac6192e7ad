#pragma once
// Which type of panel a measured spectrum belongs to, if any.
#include <array>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Which limits say what a type is.
struct TypeLimits {
    /// Up to here a light is of the type: units leave their model's ranges by a few nm in a peak (modelling choice).
    double known_within_nm = 3.0;
    /// Types that come this near to the nearest can't be told from it: what a recording's step and bandwidth may do.
    double alike_within_nm = 0.5;
};

namespace detail {

/// What a model is compared with: shapes of red, green, blue (and white), or of one light that the model's emitters mix.
struct ShapesAsked {
    std::vector<Eigen::VectorXd> shapes;
    /// One light, a mixture.
    bool mixed;
};

/// A generic model's side of a comparison: its parameters, and behind them the amounts of its emitters in a mixture: the one light asked
/// about, or a panel's white where the model has an emitter for it.
class SAMELIGHT_API ModelShapes {
  public:
    ModelShapes(const GenericModel& model, const ShapesAsked& asked);

    [[nodiscard]] const std::vector<double>& start() const { return start_; }
    [[nodiscard]] std::size_t parameters() const { return parameters_; }
    [[nodiscard]] const BoundedValues& bounds() const { return bounds_; }

    /// Model minus asked, shape after shape, at `values`.
    [[nodiscard]] Eigen::VectorXd difference(const std::vector<double>& values) const;

  private:
    /// The amounts, none below 0, by which the usual unit comes nearest in the squares: by turns, each the best while the others stand
    /// still, which goes downhill only.
    void start_with_amounts();

    /// Shapes of the model's emitters at `values`.
    [[nodiscard]] std::vector<Eigen::VectorXd> shapes_at(const std::vector<double>& values) const;

    [[nodiscard]] Eigen::VectorXd mixture(const std::vector<Eigen::VectorXd>& shapes,
                                          const std::vector<double>& values) const;

    const GenericModel& model_;
    const ShapesAsked& asked_;
    std::size_t parameters_;
    bool mixed_white_ = false;
    BoundedValues bounds_;
    std::vector<double> start_;
};

/// Mean and largest shape distance, nm.
SAMELIGHT_API std::array<double, 2> distances(const Eigen::VectorXd& difference);

enum class Looking { blurred, sharp };

}  // namespace detail

/// Which generic type a measured panel belongs to: the shapes of its red, green and blue (and of its white, where white has an emitter of its
/// own) against each model's, at whatever parameters within the model's plausible ranges come nearest. One candidate, several that
/// can't be told apart, or none: "unlike anything known" is an answer.
/// Takes about a tenth of a second. Throws as light_shape. Source: this library's own definition.
SAMELIGHT_API PanelType identify_panel(const Panel& panel, const TypeLimits& limits = {});

/// The same from one light, a white as a rule: it must be a mixture of a model's emitters in whatever amounts. Less telling than three
/// primaries. Throws as light_shape.
SAMELIGHT_API PanelType identify_light(const SampledLight& light, const TypeLimits& limits = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/panel_type.ipp"
#endif
