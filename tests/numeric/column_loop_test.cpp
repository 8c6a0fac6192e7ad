// The loop over columns: every number, nothing outside, in place, of any length.
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"

namespace samelight {
namespace {

template <class T>
class ColumnLoop : public testing::Test {};
using LoopNumbers = testing::Types<float, double>;
TYPED_TEST_SUITE(ColumnLoop, LoopNumbers);

template <class T>
using Column = std::vector<T>;

/// c = a + 2 b, d = a b, over parts of longer columns, so that what lies around them is seen.
template <class T>
struct Around {
    explicit Around(std::size_t length, std::size_t shift) : n(length), first(shift) {
        test::Random random(83);
        for (Column<T>* column : {&a, &b, &c, &d}) {
            column->assign(length + shift + 9, T(-777));
        }
        for (std::size_t i = 0; i < length; ++i) {
            a[shift + i] = static_cast<T>(random.whole(-50, 50));
            b[shift + i] = static_cast<T>(random.whole(-50, 50));
        }
    }
    void run() {
        using V = math::Batch<T>;
        math::for_each_batch<V, T, 2, 2>(
            "Around",
            {std::span<const T>(a).subspan(first, n), std::span<const T>(b).subspan(first, n)},
            {std::span<T>(c).subspan(first, n), std::span<T>(d).subspan(first, n)},
            [](const std::array<V, 2>& v) {
                return std::array<V, 2>{V(v[0] + V(T(2)) * v[1]), V(v[0] * v[1])};
            });
    }
    std::size_t n, first;
    Column<T> a, b, c, d;
};

TYPED_TEST(ColumnLoop, ReachEveryNumberAndNothingElse) {
    using T = TypeParam;
    for (std::size_t n = 0; n < 70; ++n) {
        for (std::size_t shift = 0; shift < 5; ++shift) {
            Around<T> columns(n, shift);
            columns.run();
            for (std::size_t i = 0; i < columns.c.size(); ++i) {
                const bool inside = i >= shift && i < shift + n;
                const T a = columns.a[i];
                const T b = columns.b[i];
                ASSERT_EQ(columns.c[i], inside ? a + T(2) * b : T(-777))
                    << n << " " << shift << " " << i;
                ASSERT_EQ(columns.d[i], inside ? a * b : T(-777)) << n << " " << shift << " " << i;
            }
        }
    }
}

// Columns whose last number is the last of their memory: a read beyond would be seen by the address sanitizer.
TYPED_TEST(ColumnLoop, StayInsideAllocatedMemory) {
    using T = TypeParam;
    using V = math::Batch<T>;
    for (std::size_t n = 1; n < 40; ++n) {
        std::vector<T> in(n, T(2));
        in.shrink_to_fit();
        std::vector<T> out(n);
        math::for_each_batch<V, T, 1, 1>(
            "inside", {std::span<const T>(in)}, {std::span<T>(out)},
            [](const std::array<V, 1>& v) { return std::array<V, 1>{V(v[0] * v[0])}; });
        EXPECT_EQ(out, std::vector<T>(n, T(4)));
    }
}

TYPED_TEST(ColumnLoop, WorkInPlace) {
    using T = TypeParam;
    using V = math::Batch<T>;
    std::vector<T> a(37);
    std::vector<T> b(37);
    for (std::size_t i = 0; i < a.size(); ++i) {
        a[i] = static_cast<T>(i);
        b[i] = static_cast<T>(100 + i);
    }
    math::for_each_batch<V, T, 2, 2>("swap", {std::span<const T>(a), std::span<const T>(b)},
                                     {std::span<T>(a), std::span<T>(b)},
                                     [](const std::array<V, 2>& v) {
                                         return std::array<V, 2>{v[1], v[0]};
                                     });
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_EQ(a[i], static_cast<T>(100 + i));
        EXPECT_EQ(b[i], static_cast<T>(i));
    }
}

// Results are the same wherever a number stands, to the bit: the tail goes the way of the middle.
TYPED_TEST(ColumnLoop, GiveTheSameAtEveryPlace) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const std::vector<T> in(67, T(0.7310585));
    std::vector<T> out(in.size());
    math::for_each_batch<V, T, 1, 1>(
        "place", {std::span<const T>(in)}, {std::span<T>(out)}, [](const std::array<V, 1>& v) {
            return std::array<V, 1>{
                V(math::pow(v[0], V(T(0.42))) + math::cbrt(v[0]) + math::sin(v[0]))};
        });
    EXPECT_EQ(out, std::vector<T>(in.size(), out[0]));
}

TYPED_TEST(ColumnLoop, RefuseColumnsOfTwoLengthsByName) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const std::vector<T> four(4, T(1));
    const std::vector<T> five(5, T(1));
    std::vector<T> out(4, T(-777));
    const auto sum = [](const std::array<V, 2>& v) { return std::array<V, 1>{V(v[0] + v[1])}; };
    const auto said = [&](const std::vector<T>& a, const std::vector<T>& b) -> std::string {
        try {
            math::for_each_batch<V, T, 2, 1>("sum", {std::span<const T>(a), std::span<const T>(b)},
                                             {std::span<T>(out)}, sum);
        } catch (const Error& e) {
            EXPECT_EQ(e.kind(), ErrorKind::shape);
            return e.what();
        }
        return "";
    };
    EXPECT_EQ(said(four, four), "");
    EXPECT_EQ(out[3], T(2));
    out.assign(4, T(-777));
    EXPECT_EQ(said(four, five),
              "sum: input column 2 of length 5; wanted the first column's length, 4");
    EXPECT_EQ(said(five, five),
              "sum: output column 1 of length 4; wanted the first column's length, 5");
    EXPECT_EQ(out, std::vector<T>(4, T(-777)));  // nothing was written
}

TEST(Columns3, ThatCanBeWrittenCanBeRead) {
    std::vector<double> x(3, 1.0);
    std::vector<double> y(3, 2.0);
    std::vector<double> z(3, 3.0);
    const Columns3<double> writable(x, y, z);
    const Columns3<const double> readable = writable;
    EXPECT_EQ(readable.third[2], 3.0);
    EXPECT_EQ(readable.spans()[1].data(), y.data());
    static_assert(!std::is_convertible_v<Columns3<const double>, Columns3<double>>);
    static_assert(!std::is_convertible_v<Columns3<float>, Columns3<const double>>);
}

}  // namespace
}  // namespace samelight
