#pragma once
// Tristimulus values of many spectra at once: the product T L, where it is worth more than Eigen's general one.
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {
namespace detail::inline SAMELIGHT_KERNELS {

/// The sum of a batch's numbers, from the first to the last.
template <class T>
T sum_of_lanes(const math::Batch<T>& batch) {
    std::array<T, math::Lanes<math::Batch<T>>::width> lanes;
    math::Lanes<math::Batch<T>>::store(lanes.data(), batch);
    T sum = lanes[0];
    for (std::size_t i = 1; i < lanes.size(); ++i) {
        sum += lanes[i];
    }
    return sum;
}

/// The three sums of `Rows` spectra that lie one after the other, `n` samples each. Every wavelength's sensitivities are loaded
/// once for all rows; `Chains` independent partial sums a row keep the multiply-add units busy where rows are few.
template <class T, std::size_t Rows, std::size_t Chains>
void tristimulus_rows(const T* sensitivities, std::size_t n, const T* spectra, T step, T* out) {
    using V = math::Batch<T>;
    constexpr std::size_t width = math::Lanes<V>::width;
    std::array<V, Rows * 3 * Chains> sums;
    sums.fill(V(T(0)));
    std::size_t i = 0;
    for (; i + Chains * width <= n; i += Chains * width) {
        for (std::size_t c = 0; c < Chains; ++c) {
            const std::size_t at = i + c * width;
            const V x = math::Lanes<V>::load(sensitivities + at);
            const V y = math::Lanes<V>::load(sensitivities + n + at);
            const V z = math::Lanes<V>::load(sensitivities + 2 * n + at);
            for (std::size_t r = 0; r < Rows; ++r) {
                const V light = math::Lanes<V>::load(spectra + r * n + at);
                V* sum = sums.data() + (r * Chains + c) * 3;
                sum[0] = math::multiply_add(light, x, sum[0]);
                sum[1] = math::multiply_add(light, y, sum[1]);
                sum[2] = math::multiply_add(light, z, sum[2]);
            }
        }
    }
    for (std::size_t r = 0; r < Rows; ++r) {
        for (std::size_t k = 0; k < 3; ++k) {
            V together = sums[r * Chains * 3 + k];
            for (std::size_t c = 1; c < Chains; ++c) {
                together = together + sums[(r * Chains + c) * 3 + k];
            }
            T total = sum_of_lanes<T>(together);
            for (std::size_t j = i; j < n; ++j) {
                total += sensitivities[k * n + j] * spectra[r * n + j];
            }
            out[3 * r + k] = total * step;
        }
    }
}

/// Spectra of this many bytes in all come from memory, not from a cache: one stream then beats four.
inline constexpr std::size_t memory_bound_bytes = std::size_t{8} << 20;

}  // namespace detail::inline SAMELIGHT_KERNELS

inline namespace SAMELIGHT_KERNELS {

/// Tristimulus values of `count` spectra on the sampling of `sensitivities`, for its observer.
///
/// @param spectra count x n, one spectrum after the other; densities as SampledLight holds them
/// @param out     count x 3: X, Y, Z of the first spectrum, then of the next
/// T is double or float. Agrees with tristimulus() within 1e-13 (double) or 1e-5 (float) of the sum of the products' sizes. NaN in
/// gives NaN out, for its own spectrum only. Throws Error (shape) where the lengths don't fit; nothing is written then.
/// Source: CIE 15:2018, eq. 7.1, without its normalising constant.
template <class T>
void tristimulus_batch(const Sensitivities& sensitivities, std::span<const T> spectra,
                       std::span<T> out) {
    const auto n = static_cast<std::size_t>(sensitivities.sampling.count());
    const std::size_t count = spectra.size() / n;
    if (spectra.size() != count * n || out.size() != 3 * count) {
        throw Error(ErrorKind::shape, "tristimulus_batch",
                    std::to_string(spectra.size()) + " samples in, " + std::to_string(out.size()) +
                        " values out",
                    "spectra of " + std::to_string(n) + " samples and 3 values for each");
    }
    std::vector<T> converted;
    const T* rows = nullptr;
    if constexpr (std::is_same_v<T, double>) {
        rows = sensitivities.values.data();
    } else {
        converted.assign(sensitivities.values.begin(), sensitivities.values.end());
        rows = converted.data();
    }
    const T step = static_cast<T>(sensitivities.sampling.step_nm());
    std::size_t i = 0;
    if (spectra.size_bytes() < detail::memory_bound_bytes) {
        for (; i + 4 <= count; i += 4) {
            detail::tristimulus_rows<T, 4, 1>(rows, n, spectra.data() + i * n, step,
                                              out.data() + 3 * i);
        }
    }
    for (; i < count; ++i) {
        detail::tristimulus_rows<T, 1, 2>(rows, n, spectra.data() + i * n, step,
                                          out.data() + 3 * i);
    }
}

/// The same with X, Y and Z as columns of their own, as the batch functions of colour/ take them; out.first, second and third of `count` values.
/// Throws as above, and Error (shape) for columns of another length.
template <class T>
void tristimulus_batch(const Sensitivities& sensitivities, std::span<const T> spectra,
                       Columns3<T> out) {
    const std::size_t count = out.first.size();
    if (out.second.size() != count || out.third.size() != count) {
        throw Error(ErrorKind::shape, "tristimulus_batch", "columns of different lengths",
                    "X, Y and Z as long as there are spectra");
    }
    std::vector<T> rows(3 * count);
    tristimulus_batch(sensitivities, spectra, std::span<T>(rows));
    for (std::size_t i = 0; i < count; ++i) {
        out.first[i] = rows[3 * i];
        out.second[i] = rows[3 * i + 1];
        out.third[i] = rows[3 * i + 2];
    }
}

/// A matrix of spectra: each row one spectrum, count x n, kept row after row. A matrix kept column after column, Eigen's default, would be read
/// as other spectra, so it doesn't compile: make it row-major, or hand over the transpose of an n x count one. Source: as above.
template <class Matrix, class Out>
requires(std::is_class_v<Matrix>&& requires(const Matrix& m) {
    m.outerStride();
    m.data();
}) void tristimulus_batch(const Sensitivities& sensitivities, const Matrix& spectra, Out&& out) {
    static_assert(
        Matrix::IsRowMajor || Matrix::ColsAtCompileTime == 1,
        "samelight: spectra that are columns of memory apart; wanted a row-major matrix, a spectrum a row");
    using T = typename Matrix::Scalar;
    tristimulus_batch(sensitivities,
                      std::span<const T>(spectra.data(), static_cast<std::size_t>(spectra.size())),
                      std::forward<Out>(out));
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
