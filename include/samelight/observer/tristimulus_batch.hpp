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

/// Where the spectra and values of a few rows lie that are summed side by side: `apart` spectra lie between one and the next.
template <class T>
struct SpectrumRows {
    const T* spectra;
    T* values;
    std::size_t apart;
};

/// The three sums of as many spectra as I counts, `n` samples each. Every wavelength's sensitivities are loaded once for all of them, and
/// their twelve sums keep the multiply-add units busy. `stride` lies between the rows of the sensitivities.
template <class T, std::size_t... I>
inline void tristimulus_rows(const T* sensitivities, std::size_t stride, std::size_t n,
                             const SpectrumRows<T>& rows, T step, std::index_sequence<I...>) {
    using V = math::Batch<T>;
    using Lanes = math::Lanes<V>;
    const auto spectrum = [&](std::size_t r) { return rows.spectra + r * rows.apart * n; };
    std::array<std::array<V, 3>, sizeof...(I)> sums = {
        ((void)I, std::array<V, 3>{V(T(0)), V(T(0)), V(T(0))})...};
    std::size_t i = 0;
    for (; i + Lanes::width <= n; i += Lanes::width) {
        const V x = Lanes::load_kept(sensitivities + i);
        const V y = Lanes::load_kept(sensitivities + stride + i);
        const V z = Lanes::load_kept(sensitivities + 2 * stride + i);
        const auto add = [&](const V& light, std::array<V, 3>& sum) {
            sum[0] = math::multiply_add(light, x, sum[0]);
            sum[1] = math::multiply_add(light, y, sum[1]);
            sum[2] = math::multiply_add(light, z, sum[2]);
        };
        (add(Lanes::load_kept(spectrum(I) + i), sums[I]), ...);
    }
    const auto finish = [&](std::size_t r, const std::array<V, 3>& sum) {
        const T* light = spectrum(r);
        std::array<T, 3> total = {Lanes::sum(sum[0]), Lanes::sum(sum[1]), Lanes::sum(sum[2])};
        for (std::size_t j = i; j < n; ++j) {
            total[0] += sensitivities[j] * light[j];
            total[1] += sensitivities[stride + j] * light[j];
            total[2] += sensitivities[2 * stride + j] * light[j];
        }
        T* value = rows.values + 3 * r * rows.apart;
        value[0] = total[0] * step;
        value[1] = total[1] * step;
        value[2] = total[2] * step;
    };
    (finish(I, sums[I]), ...);
}

/// All spectra, four at a time that lie a quarter of all of them apart: a memory gives four streams faster than one, and than four
/// that are neighbours.
template <class T>
void tristimulus_all(const T* sensitivities, std::size_t stride, std::size_t n, T step,
                     std::span<const T> spectra, std::span<T> out) {
    const std::size_t count = out.size() / 3;
    const std::size_t quarter = count / 4;
    for (std::size_t i = 0; i < quarter; ++i) {
        tristimulus_rows<T>(sensitivities, stride, n,
                            {spectra.data() + i * n, out.data() + 3 * i, quarter}, step,
                            std::make_index_sequence<4>{});
    }
    for (std::size_t i = 4 * quarter; i < count; ++i) {
        tristimulus_rows<T>(sensitivities, stride, n,
                            {spectra.data() + i * n, out.data() + 3 * i, 0}, step,
                            std::make_index_sequence<1>{});
    }
}

template <class T>
void require_spectra(const Sampling& sampling, std::span<const T> spectra, std::span<T> out) {
    const auto n = static_cast<std::size_t>(sampling.count());
    const std::size_t count = spectra.size() / n;
    if (spectra.size() != count * n || out.size() != 3 * count) {
        throw Error(ErrorKind::shape, "tristimulus_batch",
                    std::to_string(spectra.size()) + " samples in, " + std::to_string(out.size()) +
                        " values out",
                    "spectra of " + std::to_string(n) + " samples and 3 values for each");
    }
}

}  // namespace detail::inline SAMELIGHT_KERNELS

inline namespace SAMELIGHT_KERNELS {

/// Sensitivities as the products take them, in T and each row from a cache line's beginning: for calls with one spectrum, or a few, again and
/// again. T is double or float. No unit of its own: the sensitivities'.
template <class T>
class ReadySensitivities {
  public:
    explicit ReadySensitivities(const Sensitivities& sensitivities)
        : sampling_(sensitivities.sampling) {
        const auto n = static_cast<std::size_t>(sampling_.count());
        const std::size_t a_row = (n + line - 1) / line;
        lines_.resize(3 * a_row);
        const double* from = sensitivities.values.data();
        for (std::size_t row = 0; row < 3; ++row, from += n) {
            std::size_t i = 0;
            Line* to = lines_.data() + row * a_row;
            for (; i + line <= n; i += line, ++to) {
                Line filled;
                for (std::size_t k = 0; k < line; ++k) {
                    filled.values[k] = static_cast<T>(from[i + k]);
                }
                *to = filled;
            }
            for (std::size_t k = 0; i + k < n; ++k) {
                to->values[k] = static_cast<T>(from[i + k]);
            }
        }
    }

    /// Wavelengths of the spectra, nm.
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }
    /// The first row; the next begins `stride()` numbers behind it.
    [[nodiscard]] const T* data() const noexcept { return lines_.front().values.data(); }
    [[nodiscard]] std::size_t stride() const noexcept { return lines_.size() / 3 * line; }

  private:
    static constexpr std::size_t line = 64 / sizeof(T);
    struct alignas(64) Line {
        std::array<T, line> values;
    };
    Sampling sampling_;
    std::vector<Line> lines_;
};

/// Tristimulus values of `count` spectra on the sampling of `sensitivities`, for its observer.
///
/// @param spectra count x n, one spectrum after the other; densities as SampledLight holds them
/// @param out     count x 3: X, Y, Z of the first spectrum, then of the next
/// T is double or float. Agrees with tristimulus() within 1e-13 (double) or 1e-5 (float) of the sum of the products' sizes. NaN in
/// gives NaN out, for its own spectrum only. Throws Error (shape) where the lengths don't fit; nothing is written then.
/// Source: CIE 15:2018, eq. 7.1, without its normalising constant.
template <class T>
void tristimulus_batch(const ReadySensitivities<T>& sensitivities,
                       std::type_identity_t<std::span<const T>> spectra,
                       std::type_identity_t<std::span<T>> out) {
    const Sampling& sampling = sensitivities.sampling();
    detail::require_spectra<T>(sampling, spectra, out);
    detail::tristimulus_all<T>(sensitivities.data(), sensitivities.stride(),
                               static_cast<std::size_t>(sampling.count()),
                               static_cast<T>(sampling.step_nm()), spectra, out);
}

/// The same from sensitivities as they are, which are made ready on the way where that pays.
template <class T>
void tristimulus_batch(const Sensitivities& sensitivities, std::span<const T> spectra,
                       std::span<T> out) {
    constexpr std::size_t few = 8;
    if constexpr (std::is_same_v<T, double>) {
        if (out.size() < 3 * few) {
            const Sampling& sampling = sensitivities.sampling;
            detail::require_spectra<T>(sampling, spectra, out);
            const auto n = static_cast<std::size_t>(sampling.count());
            detail::tristimulus_all<T>(sensitivities.values.data(), n, n, sampling.step_nm(),
                                       spectra, out);
            return;
        }
    }
    tristimulus_batch(ReadySensitivities<T>(sensitivities), spectra, out);
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
