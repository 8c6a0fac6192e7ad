#pragma once
// Numbers side by side: the functions of math.hpp for a batch, and the loop that drives a formula over columns of numbers.
#include <algorithm>
#include <array>
#include <concepts>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

#if SAMELIGHT_USES_XSIMD
#include "samelight/numeric/kernels_batch.hpp"
#endif

#if defined(__GNUC__) && !defined(__clang__)
// As in kernels_batch.hpp: what g++ 12 says of its own AVX-512 header, once formulas are inlined into the loop below.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wuninitialized"
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

namespace samelight::inline SAMELIGHT_FORM::math {

#if SAMELIGHT_USES_XSIMD
/// As many T as the processor that is compiled for takes at once.
template <class T>
using Batch = xsimd::batch<T, kernel::Processor>;
#else
/// Without xsimd a batch is one number.
template <class T>
using Batch = T;
#endif

/// How a V is filled from memory of no particular alignment and written back. For one number:
template <class V>
struct Lanes {
    static constexpr std::size_t width = 1;
    /// As many numbers as `width`, from memory and into it. No unit.
    static V load(const V* from) { return *from; }
    static void store(V* to, V value) { *to = value; }
    /// As load, for numbers that are used several times: g++ would rather fetch them from memory at each use. No unit.
    static V load_kept(const V* from) { return *from; }
    /// The sum of all. No unit but the numbers'.
    static V sum(V value) { return value; }
    /// The largest of all. No unit but the numbers'.
    static V largest(V value) { return value; }
};

#if SAMELIGHT_USES_XSIMD
/// ... and for a batch.
template <class T, class A>
struct Lanes<xsimd::batch<T, A>> {
    static constexpr std::size_t width = xsimd::batch<T, A>::size;
    static xsimd::batch<T, A> load(const T* from) {
        return xsimd::batch<T, A>::load_unaligned(from);
    }
    static void store(T* to, const xsimd::batch<T, A>& value) { value.store_unaligned(to); }
    static xsimd::batch<T, A> load_kept(const T* from) { return kernel::kept(load(from)); }
    static T sum(const xsimd::batch<T, A>& value) { return kernel::sum(value); }
    static T largest(const xsimd::batch<T, A>& value) { return kernel::largest(value); }
};
#endif

namespace detail {

template <class T>
void require_length(const char* where, const char* kind, std::size_t which, std::span<T> column,
                    std::size_t length) {
    if (column.size() != length) {
        throw Error(ErrorKind::shape, where,
                    std::string(kind) + " column " + std::to_string(which + 1) + " of length " +
                        std::to_string(column.size()),
                    "the first column's length, " + std::to_string(length));
    }
}

/// The end of the columns: fewer numbers than a batch holds. They are copied aside and the last is repeated, so that nothing
/// outside is touched and the numbers come out as they would in the middle.
template <class V, class T, std::size_t In, std::size_t Out, class F>
void do_tail(const std::array<std::span<const T>, In>& in, const std::array<std::span<T>, Out>& out,
             std::size_t first, F& formula) {
    constexpr std::size_t width = Lanes<V>::width;
    const std::size_t rest = in[0].size() - first;
    std::array<V, In> values;
    for (std::size_t k = 0; k < In; ++k) {
        const T* from = in[k].data() + first;
        if (rest == 1) {
            values[k] = V(*from);
            continue;
        }
        std::array<T, width> aside;
        aside.fill(from[rest - 1]);
        std::copy_n(from, rest - 1, aside.begin());
        values[k] = Lanes<V>::load(aside.data());
    }
    const std::array<V, Out> results = formula(values);
    for (std::size_t k = 0; k < Out; ++k) {
        std::array<T, width> aside;
        Lanes<V>::store(aside.data(), results[k]);
        T* to = out[k].data() + first;
        *to = aside[0];
        if (rest > 1) {
            std::copy_n(aside.begin() + 1, rest - 1, to + 1);
        }
    }
}

}  // namespace detail

/// Runs `formula` over columns: std::array<V, Out> formula(const std::array<V, In>&), V a batch of T or T itself.
///
/// in, out: columns of one length n, any n, of no particular alignment. An output may be the very same memory as an input;
/// other overlaps are the caller's mistake and are not seen. A number's result depends neither on its place nor on n.
/// Throws Error (shape), naming `where`, for a column of another length than the first input's; nothing is written then. Own.
template <class V, class T, std::size_t In, std::size_t Out, class F>
void for_each_batch(const char* where, const std::array<std::span<const T>, In>& in,
                    const std::array<std::span<T>, Out>& out, F formula) {
    static_assert(In > 0 && Out > 0);
    constexpr std::size_t width = Lanes<V>::width;
    const std::size_t n = in[0].size();
    for (std::size_t k = 1; k < In; ++k) {
        detail::require_length(where, "input", k, in[k], n);
    }
    for (std::size_t k = 0; k < Out; ++k) {
        detail::require_length(where, "output", k, out[k], n);
    }
    std::array<const T*, In> from;
    std::array<T*, Out> to;
    for (std::size_t k = 0; k < In; ++k) {
        from[k] = in[k].data();
    }
    for (std::size_t k = 0; k < Out; ++k) {
        to[k] = out[k].data();
    }
    std::size_t i = 0;
    for (; i + width <= n; i += width) {
        std::array<V, In> values;
        for (std::size_t k = 0; k < In; ++k) {
            values[k] = Lanes<V>::load(from[k] + i);
        }
        const std::array<V, Out> results = formula(values);
        for (std::size_t k = 0; k < Out; ++k) {
            Lanes<V>::store(to[k] + i, results[k]);
        }
    }
    // Of batches of one there is no rest.
    if constexpr (width > 1) {
        if (i < n) {
            detail::do_tail<V>(in, out, i, formula);
        }
    }
}

}  // namespace samelight::math

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic pop
#endif

namespace samelight::inline SAMELIGHT_FORM {

/// Three columns of one length, a colour to a row: X, Y, Z or L*, a*, b*. T is const for input. They lend, and own nothing.
template <class T>
struct Columns3 {
    std::span<T> first;
    std::span<T> second;
    std::span<T> third;

    /// Columns of one length, which isn't checked here.
    Columns3(std::span<T> a, std::span<T> b, std::span<T> c) : first(a), second(b), third(c) {}
    /// Columns that can be written can be read.
    template <class U>
    requires(std::is_const_v<T>&& std::same_as<U, std::remove_const_t<T>>)
        Columns3(const Columns3<U>& other)  // NOLINT(google-explicit-constructor)
        : first(other.first), second(other.second), third(other.third) {}

    /// The columns in their order.
    [[nodiscard]] std::array<std::span<T>, 3> spans() const { return {first, second, third}; }
};

}  // namespace samelight
