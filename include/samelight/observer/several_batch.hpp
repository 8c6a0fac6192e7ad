#pragma once
// Several batches side by side as one V: what a formula's long chain of multiplications and additions waits for in one batch, it does in the next.
#include <array>
#include <cstddef>
#include <utility>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::inline SAMELIGHT_FORM::math {

/// N batches (or numbers) V, as far as sums, products and the larger of two go. No unit of its own: the formula's.
template <class V, std::size_t N>
struct Several {
    std::array<V, N> parts;

    /// Of anything.
    Several() = default;
    /// Of one number everywhere.
    explicit Several(scalar_of_t<V> value) { parts.fill(V(value)); }
    /// Of what each batch is. No unit of its own.
    explicit Several(const std::array<V, N>& each) : parts(each) {}
};

template <class V, std::size_t N>
struct ScalarOf<Several<V, N>> {
    using type = scalar_of_t<V>;
};

namespace detail {

template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> multiply_add_each(
    const Several<V, sizeof...(I)>& a, const Several<V, sizeof...(I)>& b,
    const Several<V, sizeof...(I)>& c, std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({multiply_add(a.parts[I], b.parts[I], c.parts[I])...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> multiply_each(
    const Several<V, sizeof...(I)>& a, const Several<V, sizeof...(I)>& b,
    std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({V(a.parts[I] * b.parts[I])...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> add_each(const Several<V, sizeof...(I)>& a,
                                                                const Several<V, sizeof...(I)>& b,
                                                                std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({V(a.parts[I] + b.parts[I])...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> subtract_each(
    const Several<V, sizeof...(I)>& a, const Several<V, sizeof...(I)>& b,
    std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({V(a.parts[I] - b.parts[I])...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> max_each(const Several<V, sizeof...(I)>& a,
                                                                const Several<V, sizeof...(I)>& b,
                                                                std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({max(a.parts[I], b.parts[I])...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline Several<V, sizeof...(I)> load_each(const scalar_of_t<V>* from,
                                                                 std::index_sequence<I...>) {
    return Several<V, sizeof...(I)>({Lanes<V>::load(from + I * Lanes<V>::width)...});
}
template <class V, std::size_t... I>
[[gnu::always_inline]] inline void store_each(scalar_of_t<V>* to,
                                              const Several<V, sizeof...(I)>& value,
                                              std::index_sequence<I...>) {
    (Lanes<V>::store(to + I * Lanes<V>::width, value.parts[I]), ...);
}

template <class V, std::size_t N>
[[gnu::always_inline]] inline V largest_part(const Several<V, N>& value) {
    if constexpr (N == 1) {
        return value.parts[0];
    } else if constexpr (N == 2) {
        return max(value.parts[0], value.parts[1]);
    } else {
        static_assert(N == 4);
        return max(max(value.parts[0], value.parts[1]), max(value.parts[2], value.parts[3]));
    }
}

}  // namespace detail

/// Products, batch by batch. No unit of their own: the formula's.
template <class V, std::size_t N>
[[gnu::always_inline]] inline Several<V, N> operator*(const Several<V, N>& a,
                                                      const Several<V, N>& b) {
    return detail::multiply_each(a, b, std::make_index_sequence<N>{});
}
/// Sums, batch by batch. No unit of their own: the formula's.
template <class V, std::size_t N>
[[gnu::always_inline]] inline Several<V, N> operator+(const Several<V, N>& a,
                                                      const Several<V, N>& b) {
    return detail::add_each(a, b, std::make_index_sequence<N>{});
}
/// Differences, batch by batch. No unit of their own: the formula's.
template <class V, std::size_t N>
[[gnu::always_inline]] inline Several<V, N> operator-(const Several<V, N>& a,
                                                      const Several<V, N>& b) {
    return detail::subtract_each(a, b, std::make_index_sequence<N>{});
}

template <class V, std::size_t N>
struct Functions<Several<V, N>> {
    using S = Several<V, N>;
    [[gnu::always_inline]] static S multiply_add(const S& a, const S& b, const S& c) {
        return detail::multiply_add_each(a, b, c, std::make_index_sequence<N>{});
    }
    [[gnu::always_inline]] static S max(const S& a, const S& b) {
        return detail::max_each(a, b, std::make_index_sequence<N>{});
    }
};

template <class V, std::size_t N>
struct Lanes<Several<V, N>> {
    static constexpr std::size_t width = N * Lanes<V>::width;
    /// As those of a batch.
    static Several<V, N> load(const scalar_of_t<V>* from) {
        return detail::load_each<V>(from, std::make_index_sequence<N>{});
    }
    static void store(scalar_of_t<V>* to, const Several<V, N>& value) {
        detail::store_each(to, value, std::make_index_sequence<N>{});
    }
    static scalar_of_t<V> largest(const Several<V, N>& value) {
        return Lanes<V>::largest(detail::largest_part(value));
    }
};

}  // namespace samelight::math
