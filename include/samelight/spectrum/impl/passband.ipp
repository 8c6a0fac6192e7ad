#pragma once
// The bodies of spectrum/passband.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/spectrum/passband.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The light between samples: the cubic through the four nearest samples (fewer where there are fewer), as weights of those.
class CubicBetween {
  public:
    explicit CubicBetween(std::span<const double> nm)
        : nm_(nm), points_(std::min<std::size_t>(4, nm.size())) {}

    /// Calls add(index, weight) for the samples that make `light` times the value at `at`, between samples `below` and `below` + 1.
    template <class Add>
    void add_weights(std::size_t below, double at, double light, const Add& add) const {
        const std::size_t first = std::min(below == 0 ? 0 : below - 1, nm_.size() - points_);
        for (std::size_t j = first; j < first + points_; ++j) {
            double weight = light;
            for (std::size_t k = first; k < first + points_; ++k) {
                if (k != j) {
                    weight *= (at - nm_[k]) / (nm_[j] - nm_[k]);
                }
            }
            add(j, weight);
        }
    }

  private:
    std::span<const double> nm_;
    std::size_t points_;
};

/// One row of passband_weights(): the triangular passband about `centre` as weights of the samples, which are added to `entries`.
inline void passband_row(std::span<const double> nm, std::size_t centre_index, double bandwidth_nm,
                         std::vector<PassbandWeight>& entries) {
    // Gauss-Legendre with three points is exact to degree 5; a cubic times a line has degree 4.
    static constexpr std::array<double, 3> node = {-0.7745966692414834, 0.0, 0.7745966692414834};
    static constexpr std::array<double, 3> share = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double centre = nm[centre_index];
    const auto add = [&](std::size_t j, double weight) {
        entries.push_back({static_cast<int>(centre_index), static_cast<int>(j), weight});
    };
    const CubicBetween between(nm);
    const auto piece = [&](std::size_t below, double from, double to) {
        for (std::size_t g = 0; to > from && g < node.size(); ++g) {
            const double at = 0.5 * (from + to) + 0.5 * (to - from) * node[g];
            const double passed = (1.0 - std::abs(at - centre) / bandwidth_nm) / bandwidth_nm;
            between.add_weights(below, at, share[g] * (to - from) * passed, add);
        }
    };
    const std::size_t last = nm.size() - 1;
    for (std::size_t k = centre_index; k > 0 && nm[k] > centre - bandwidth_nm; --k) {
        piece(k - 1, std::max(nm[k - 1], centre - bandwidth_nm), nm[k]);
    }
    for (std::size_t k = centre_index; k < last && nm[k] < centre + bandwidth_nm; ++k) {
        piece(k, nm[k], std::min(nm[k + 1], centre + bandwidth_nm));
    }
    // What of the passband lies past an end of the spectrum, `reach` from its top: there the light goes on as it ends.
    const auto past = [&](double reach) {
        const double t = std::max(0.0, 1.0 - reach / bandwidth_nm);
        return 0.5 * t * t;
    };
    add(0, past(centre - nm[0]));
    add(last, past(nm[last] - centre));
}

SAMELIGHT_INLINE std::vector<PassbandWeight> passband_weights(std::span<const double> nm,
                                                              double bandwidth_nm) {
    std::vector<PassbandWeight> entries;
    for (std::size_t i = 0; i < nm.size(); ++i) {
        passband_row(nm, i, bandwidth_nm, entries);
    }
    return entries;
}

}  // namespace samelight::detail
