#pragma once
// The columns of a panel on one sampling.
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

namespace samelight {

/// A panel's light, n values a column: what its drive adds, and what is there at drive 0.
class PanelLights {
  public:
    using Columns = Eigen::Matrix<double, Eigen::Dynamic, 3>;
    using Column = Eigen::Map<const Eigen::VectorXd>;

    PanelLights() = default;
    /// @param colours  red, green and blue as measured, one after the other, 3 n values  @param white  n values, or none
    /// @param black    n values; it is taken from the others
    PanelLights(std::vector<double> colours, std::vector<double> white, std::vector<double> black)
        : emitters_(std::move(colours)),
          measured_white_(std::move(white)),
          black_(std::move(black)) {
        for (std::size_t i = 0; i < emitters_.size(); ++i) {
            emitters_[i] -= black_[i % black_.size()];
        }
        for (std::size_t i = 0; i < measured_white_.size(); ++i) {
            measured_white_[i] -= black_[i];
        }
        take_sum_for_white();
    }

    /// Light of red, green and blue at full drive, without black: n x 3. All maps are valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Columns> emitters() const {
        return {emitters_.data(), static_cast<Eigen::Index>(black_.size()), 3};
    }
    /// The white that a match starts from, without black.
    [[nodiscard]] Column white() const { return map(white_); }
    /// The white at full drive as it was measured, or red + green + blue where it wasn't; without black.
    [[nodiscard]] Column native_white() const {
        return map(measured_white_.empty() ? white_ : measured_white_);
    }
    /// Light that is there at drive 0.
    [[nodiscard]] Column black() const { return map(black_); }

    /// Red, green and blue `by` times as strong.
    void scale(const Eigen::Vector3d& by) {
        for (std::size_t k = 0; k < emitters_.size(); ++k) {
            emitters_[k] *= by[static_cast<Eigen::Index>(k / black_.size())];
        }
    }
    void take_sum_for_white() {
        white_.assign(black_.size(), 0.0);
        for (std::size_t k = 0; k < emitters_.size(); ++k) {
            white_[k % black_.size()] += emitters_[k];
        }
    }
    /// Only where a white was measured.
    void take_measured_for_white() { white_ = measured_white_; }

  private:
    static Column map(const std::vector<double>& values) {
        return {values.data(), static_cast<Eigen::Index>(values.size())};
    }

    std::vector<double> emitters_;
    std::vector<double> white_;
    std::vector<double> measured_white_;  ///< empty where white wasn't measured
    std::vector<double> black_;
};

}  // namespace samelight
