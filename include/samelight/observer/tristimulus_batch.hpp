#pragma once
// Tristimulus values of many spectra at once: the product T L, where it is worth more than Eigen's general one.
#include <algorithm>
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

/// Numbers as others of another precision, sixteen at a time: that many compilers convert side by side at -O2, too.
template <class From, class To>
inline void convert(const From* from, std::size_t n, To* to) {
    std::size_t i = 0;
    for (; i + 16 <= n; i += 16) {
        std::array<To, 16> converted;
        for (std::size_t k = 0; k < converted.size(); ++k) {
            converted[k] = static_cast<To>(from[i + k]);
        }
        std::copy(converted.begin(), converted.end(), to + i);
    }
    for (; i < n; ++i) {
        to[i] = static_cast<To>(from[i]);
    }
}

/// Three rows of sensitivities, `stride` from one to the next, and what their sums are multiplied by.
template <class T>
struct SensitivityRows {
    const T* first;
    std::size_t stride, count;
    T step;
};

/// Inlined always, as the function below it: else sums go through memory, at -O2 for the sake of a shorter program.
template <class V, class T>
[[gnu::always_inline]] inline void add_products(const std::array<V, 3>& sensitivities,
                                                const T* light, std::array<V, 3>& sum) {
    const V value = math::Lanes<V>::load_kept(light);
    sum[0] = math::multiply_add(value, sensitivities[0], sum[0]);
    sum[1] = math::multiply_add(value, sensitivities[1], sum[1]);
    sum[2] = math::multiply_add(value, sensitivities[2], sum[2]);
}
/// From the sums of whole batches, up to sample `from`, to the values.
template <class V, class T>
[[gnu::always_inline]] inline void finish_products(const SensitivityRows<T>& rows, std::size_t from,
                                                   const T* light, const std::array<V, 3>& sum,
                                                   T* values) {
    using Lanes = math::Lanes<V>;
    T x = Lanes::sum(sum[0]);
    T y = Lanes::sum(sum[1]);
    T z = Lanes::sum(sum[2]);
    for (std::size_t i = from; i < rows.count; ++i) {
        x += rows.first[i] * light[i];
        y += rows.first[rows.stride + i] * light[i];
        z += rows.first[2 * rows.stride + i] * light[i];
    }
    values[0] = x * rows.step;
    values[1] = y * rows.step;
    values[2] = z * rows.step;
}

/// The three sums of as many spectra as I counts, `apart` spectra from one to the next; so their values. Every wavelength's sensitivities
/// are loaded once for all of them, and their twelve sums keep the multiply-add units busy.
template <class T, std::size_t... I>
inline void tristimulus_rows(const SensitivityRows<T>& rows, const T* spectra, std::size_t apart,
                             T* values, std::index_sequence<I...>) {
    using V = math::Batch<T>;
    using Lanes = math::Lanes<V>;
    const std::size_t n = rows.count;
    std::array<std::array<V, 3>, sizeof...(I)> sums = {
        ((void)I, std::array<V, 3>{V(T(0)), V(T(0)), V(T(0))})...};
    std::size_t i = 0;
    for (; i + Lanes::width <= n; i += Lanes::width) {
        const std::array<V, 3> sensitivities = {Lanes::load_kept(rows.first + i),
                                                Lanes::load_kept(rows.first + rows.stride + i),
                                                Lanes::load_kept(rows.first + 2 * rows.stride + i)};
        (add_products(sensitivities, spectra + I * apart * n + i, sums[I]), ...);
    }
    (finish_products(rows, i, spectra + I * apart * n, sums[I], values + 3 * I * apart), ...);
}

/// All spectra, four at a time that lie a quarter of all of them apart: a memory gives four streams faster than one, and than four
/// that are neighbours.
template <class T>
void tristimulus_all(const SensitivityRows<T>& rows, std::span<const T> spectra, std::span<T> out) {
    const std::size_t n = rows.count;
    const std::size_t count = out.size() / 3;
    const std::size_t quarter = count / 4;
    for (std::size_t i = 0; i < quarter; ++i) {
        tristimulus_rows<T>(rows, spectra.data() + i * n, quarter, out.data() + 3 * i,
                            std::make_index_sequence<4>{});
    }
    for (std::size_t i = 4 * quarter; i < count; ++i) {
        tristimulus_rows<T>(rows, spectra.data() + i * n, 0, out.data() + 3 * i,
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
    /// From rows on the wavelengths of the spectra that are to come.
    explicit ReadySensitivities(const Sensitivities& sensitivities)
        : sampling_(sensitivities.sampling) {
        const auto n = static_cast<std::size_t>(sampling_.count());
        const std::size_t a_row = (n + line - 1) / line;
        lines_.resize(3 * a_row);
        for (std::size_t row = 0; row < 3; ++row) {
            detail::convert(sensitivities.values.data() + row * n, n,
                            lines_[row * a_row].values.data());
        }
    }

    /// Wavelengths of the spectra, nm.
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }
    /// Not for users: where the rows lie.
    [[nodiscard]] detail::SensitivityRows<T> rows() const noexcept {
        return {lines_.front().values.data(), lines_.size() / 3 * line,
                static_cast<std::size_t>(sampling_.count()), static_cast<T>(sampling_.step_nm())};
    }

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
    detail::require_spectra<T>(sensitivities.sampling(), spectra, out);
    detail::tristimulus_all<T>(sensitivities.rows(), spectra, out);
}

/// The same from sensitivities as they are, which are made ready on the way where that pays.
template <class T>
void tristimulus_batch(const Sensitivities& sensitivities, std::span<const T> spectra,
                       std::span<T> out) {
    const Sampling& sampling = sensitivities.sampling;
    detail::require_spectra<T>(sampling, spectra, out);
    const auto n = static_cast<std::size_t>(sampling.count());
    const detail::SensitivityRows<double> rows{sensitivities.values.data(), n, n,
                                               sampling.step_nm()};
    if constexpr (std::is_same_v<T, double>) {
        if (constexpr std::size_t few = 8; out.size() < 3 * few) {
            detail::tristimulus_all<T>(rows, spectra, out);
            return;
        }
    } else if (std::array<double, 512> exact; out.size() == 3 && n <= exact.size()) {
        // The one spectrum is converted rather than the three rows.
        detail::convert(spectra.data(), n, exact.data());
        std::array<double, 3> values;
        detail::tristimulus_all<double>(rows, std::span(exact).first(n), values);
        detail::convert(values.data(), 3, out.data());
        return;
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
