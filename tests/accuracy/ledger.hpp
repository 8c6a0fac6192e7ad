#pragma once
// The largest errors of the batch functions: each test draws inputs of a stated range, compares with a reference of more digits, fails where
// the stated bound is exceeded, and leaves a line in the ledger.
//
// SAMELIGHT_ACCURACY_DRAWS=N: draws a figure, 10,000 where unset. SAMELIGHT_ACCURACY_OUT=FILE: the ledger as JSON, once all tests have run;
// tools/accuracy does both, and src/docs/making/accuracy.py makes the page's table of it.
#include <algorithm>
#include <array>
#include <cfloat>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

#include "numeric/test_random.hpp"

namespace samelight::test {

/// Wider than double, and wide enough that its own rounding is nothing beside double's.
using Exact = long double;
inline constexpr bool exact_is_wider = LDBL_MANT_DIG >= DBL_MANT_DIG + 11;

/// How many inputs each figure is drawn of.
std::size_t draws();

/// What a line of the ledger says, but for the figures.
struct Stated {
    /// As the page names it: `lab_from_xyz()`, or a part of what it gives, `jch_from_xyz()`, "C".
    std::string operation;
    std::string part;
    /// Of include/samelight/, where the bound stands.
    std::string header;
    /// In words.
    std::string range;
    /// As the header has it, `5e-13`.
    std::string bound;
    /// What bound and error are numbers of.
    std::string unit;
    std::string reference;
};

/// The largest of a figure's errors.
class Figure {
  public:
    /// type: `double` or `float`.
    Figure(Stated stated, std::string type);
    Figure(const Figure&) = delete;
    Figure& operator=(const Figure&) = delete;
    /// Compares with the bound, and writes the line.
    ~Figure();

    /// An error in the figure's unit; one that is no number counts as infinite. `of`: where it is that of a mean, of how many draws.
    void see(Exact error, std::size_t of = 1) {
        error = std::abs(error);
        largest_ =
            std::isnan(error) ? std::numeric_limits<Exact>::infinity() : std::max(largest_, error);
        seen_ += of;
    }

  private:
    Stated stated_;
    std::string type_;
    Exact largest_ = 0.0L;
    std::size_t seen_ = 0;
};

/// The name of a number type on the page.
template <class T>
std::string type_name() {
    return std::is_same_v<T, double> ? "double" : "float";
}
/// Of two bounds that of T.
template <class T>
std::string bound_of(const char* of_double, const char* of_float) {
    return std::is_same_v<T, double> ? of_double : of_float;
}

/// `got` less `want` in units in the last place that `want` has in T.
template <class T>
Exact in_last_places(T got, Exact want) {
    const int exponent = std::max(std::ilogb(want), std::numeric_limits<T>::min_exponent - 1);
    return (static_cast<Exact>(got) - want) /
           std::scalbn(static_cast<Exact>(std::numeric_limits<T>::epsilon()), exponent);
}

/// ... and in epsilons of T relative to `want`.
template <class T>
Exact in_epsilons(T got, Exact want) {
    return (static_cast<Exact>(got) - want) /
           (std::abs(want) * static_cast<Exact>(std::numeric_limits<T>::epsilon()));
}

/// Draws rows of In numbers, block by block; `batch` makes columns of Out numbers of their columns, `look` gets each row in and out.
template <class T, std::size_t In, std::size_t Out, class Draw, class Batch, class Look>
void over_draws(std::uint64_t seed, const Draw& draw, const Batch& batch, const Look& look) {
    Random random(seed);
    constexpr std::size_t block = 4099;  // no multiple of a batch
    std::array<std::vector<T>, In> in;
    std::array<std::vector<T>, Out> out;
    for (std::size_t first = 0; first < draws(); first += block) {
        const std::size_t count = std::min(block, draws() - first);
        for (auto& column : in) {
            column.assign(count, T(0));
        }
        for (auto& column : out) {
            column.assign(count, std::numeric_limits<T>::quiet_NaN());
        }
        for (std::size_t i = 0; i < count; ++i) {
            const std::array<double, In> row = draw(random);
            for (std::size_t k = 0; k < In; ++k) {
                in[k][i] = static_cast<T>(row[k]);
            }
        }
        batch(in, out);
        for (std::size_t i = 0; i < count; ++i) {
            std::array<T, In> from;
            std::array<T, Out> to;
            for (std::size_t k = 0; k < In; ++k) {
                from[k] = in[k][i];
            }
            for (std::size_t k = 0; k < Out; ++k) {
                to[k] = out[k][i];
            }
            look(from, to);
        }
    }
}

}  // namespace samelight::test

/// A test that needs a number type with more digits than double.
#define SAMELIGHT_NEEDS_EXACT()                                             \
    if constexpr (!::samelight::test::exact_is_wider) {                     \
        GTEST_SKIP() << "no number type here with more digits than double"; \
    }
