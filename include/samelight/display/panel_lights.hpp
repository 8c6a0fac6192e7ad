#pragma once
// The columns of a panel on one sampling.
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A panel's light, n values a column: what its drive adds, and what is there at drive 0.
class SAMELIGHT_API PanelLights {
  public:
    using Columns = Eigen::Matrix<double, Eigen::Dynamic, 3>;
    using Column = Eigen::Map<const Eigen::VectorXd>;

    PanelLights() = default;
    /// @param colours  red, green and blue as measured, one after the other, 3 n values  @param white  n values, or none
    /// @param black    n values; it is taken from the others
    PanelLights(std::vector<double> colours, std::vector<double> white, std::vector<double> black);

    /// Light of red, green and blue at full drive, without black: n x 3. All maps are valid as long as this object is; of a temporary they are
    /// copies.
    [[nodiscard]] Columns emitters() const&& {
        return static_cast<const PanelLights&>(*this).emitters();
    }
    [[nodiscard]] Eigen::Map<const Columns> emitters() const&;
    /// The white that a match starts from, without black.
    [[nodiscard]] Eigen::VectorXd white() const&& {
        return static_cast<const PanelLights&>(*this).white();
    }
    [[nodiscard]] Column white() const& { return map(white_); }
    /// The white at full drive as it was measured, or red + green + blue where it wasn't; without black.
    [[nodiscard]] Eigen::VectorXd native_white() const&& {
        return static_cast<const PanelLights&>(*this).native_white();
    }
    [[nodiscard]] Column native_white() const& {
        return map(measured_white_.empty() ? white_ : measured_white_);
    }
    /// Light that is there at drive 0.
    [[nodiscard]] Eigen::VectorXd black() const&& {
        return static_cast<const PanelLights&>(*this).black();
    }
    [[nodiscard]] Column black() const& { return map(black_); }

    /// Red, green and blue `by` times as strong.
    void scale(const Eigen::Vector3d& by);
    void take_sum_for_white();
    /// Only where a white was measured.
    void take_measured_for_white() { white_ = measured_white_; }

  private:
    static Column map(const std::vector<double>& values);

    std::vector<double> emitters_;
    std::vector<double> white_;
    /// Empty where white wasn't measured.
    std::vector<double> measured_white_;
    std::vector<double> black_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/panel_lights.ipp"
#endif
