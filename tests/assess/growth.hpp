#pragma once
// How the time of an answer grows with what is asked: no faster than n log n, over three sizes each four times the one before. Times are compared where SAMELIGHT_GROWTH is set, as
// `tools/test --full` does on a machine that does nothing else: what else a machine does changes the caches' share, and ratios by a factor. Elsewhere the smallest size is answered, once.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <ctime>

#include <gtest/gtest.h>

namespace samelight::test {

/// Processor time, which a busy machine disturbs least; the least of three.
template <class F>
double seconds_of(F&& answer) {
    double least = 1e9;
    for (int i = 0; i < 3; ++i) {
        const std::clock_t start = std::clock();
        answer();
        least = std::min(least, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return least;
}

/// From n to 4 n, n log n grows 5.2 times at n = 100 and less above, n squared 16 times. Between the two a machine's noise has its say.
inline constexpr double most_growth = 10.0;

/// From n to 16 n, n log n grows 32 times at n = 16 and less above, n to the power of 1.5 64 times, n squared 256 times.
inline constexpr double most_growth_overall = 45.0;

/// What is less than this isn't measured well enough to be compared with.
inline constexpr double least_seconds = 1e-3;

/// @param answer_of  works out what is asked of a size; what it is asked from is best made before
template <class F>
void expect_near_linear(const std::array<std::size_t, 3>& sizes, F&& answer_of) {
    if (std::getenv("SAMELIGHT_GROWTH") == nullptr) {
        answer_of(sizes[0]);
        return;
    }
    std::array<double, 3> seconds{};
    for (std::size_t k = 0; k < 3; ++k) {
        seconds[k] = std::max(seconds_of([&] { answer_of(sizes[k]); }), least_seconds);
    }
    for (std::size_t k = 1; k < 3; ++k) {
        EXPECT_LT(seconds[k], most_growth * seconds[k - 1])
            << sizes[k - 1] << " to " << sizes[k] << ": " << seconds[k - 1] << " s to "
            << seconds[k] << " s";
    }
    EXPECT_LT(seconds[2], most_growth_overall * seconds[0])
        << sizes[0] << " to " << sizes[2] << ": " << seconds[0] << " s to " << seconds[2] << " s";
}

}  // namespace samelight::test
