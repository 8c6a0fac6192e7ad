#pragma once
// The bodies of display/panel_lights.hpp.

#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel_lights.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PanelLights::PanelLights(std::vector<double> colours, std::vector<double> white,
                                          std::vector<double> black)
    : emitters_(std::move(colours)), measured_white_(std::move(white)), black_(std::move(black)) {
    for (std::size_t i = 0; i < emitters_.size(); ++i) {
        emitters_[i] -= black_[i % black_.size()];
    }
    for (std::size_t i = 0; i < measured_white_.size(); ++i) {
        measured_white_[i] -= black_[i];
    }
    take_sum_for_white();
}

SAMELIGHT_INLINE Eigen::Map<const PanelLights::Columns> PanelLights::emitters() const& {
    return {emitters_.data(), static_cast<Eigen::Index>(black_.size()), 3};
}

SAMELIGHT_INLINE void PanelLights::scale(const Eigen::Vector3d& by) {
    for (std::size_t k = 0; k < emitters_.size(); ++k) {
        emitters_[k] *= by[static_cast<Eigen::Index>(k / black_.size())];
    }
}

SAMELIGHT_INLINE void PanelLights::take_sum_for_white() {
    white_.assign(black_.size(), 0.0);
    for (std::size_t k = 0; k < emitters_.size(); ++k) {
        white_[k % black_.size()] += emitters_[k];
    }
}

SAMELIGHT_INLINE PanelLights::Column PanelLights::map(const std::vector<double>& values) {
    return {values.data(), static_cast<Eigen::Index>(values.size())};
}

}  // namespace samelight
