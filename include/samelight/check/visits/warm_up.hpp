#pragma once
// Whether a display has warmed up: white, read over time.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// White at one moment.
struct WarmUpReading {
    double time_s;
    /// X, Y, Z, cd/m2
    std::array<double, 3> xyz;
};

/// When white is steady: how far it may move in so many minutes. Common practice, no source.
struct WarmUpLimits {
    /// In x and in y.
    double xy = 0.0005;
    /// Of Y.
    double luminance_share = 0.01;
    double minutes = 10.0;
};

/// What to do.
enum class WarmUpVerdict {
    /// Steady.
    begin,
    wait,
    /// The readings span less than the limits' minutes.
    read_longer,
    /// They scatter so much that such a movement can't be told.
    read_more_often
};

/// "begin", "wait", "read_longer" or "read_more_often".
inline const char* code_of(WarmUpVerdict verdict) {
    constexpr std::array<const char*, 4> codes = {"begin", "wait", "read_longer",
                                                  "read_more_often"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// A movement, and half the interval that holds it 19 times in 20.
struct WarmUpMove {
    double change = 0.0, doubt = 0.0;
};

/// How long it will still take from the last reading, min.
struct WarmUpWait {
    double likely_min, least_min, most_min;
};

/// The whole answer.
struct WarmUp {
    WarmUpVerdict verdict = WarmUpVerdict::read_longer;
    std::size_t readings = 0;
    double span_min = 0.0;
    /// Over the limits' minutes, at the end of the readings; of x, y, and Y as a share. Of no meaning with read_longer.
    std::array<WarmUpMove, 3> moves{};
    /// Absent where it is steady, or where no approach to a steady white is to be seen.
    std::optional<WarmUpWait> wait = {};
    WarmUpLimits limits = {};
};

/// Judges white over time.
///
/// A straight line through each of x, y and Y in the last minutes says how far it moved, with the doubt of Student's t. Where that is too far, an
/// exponential approach x = a + b exp(-t / T), one T from 1 to 240 min for the three, is fitted to all readings and gives the moment from which the limits
/// hold; the range is that over all T and b which the readings don't reject (likelihood ratio, 95 %, by Fisher's F of the readings left; of 5,000 simulated displays that approach so it
/// held the truth 94.6 times in 100).
/// readings: in any order, of different times; luminances above 0. Range: 4 or more. Throws Error (domain) for fewer, times that aren't finite, lights
/// that are none, limits that aren't above 0. The method is our own; limits are common practice, no source.
SAMELIGHT_API WarmUp judge_warm_up(std::span<const WarmUpReading> readings,
                                   const WarmUpLimits& limits = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/warm_up.ipp"
#endif
