#pragma once
// Dates and times of day as files of readings write them.
#include <optional>
#include <string_view>

namespace samelight::io::detail {

/// A date, a time of day, or both.
struct WrittenTime {
    /// Days from 1970-01-01.
    std::optional<int> day = {};
    std::optional<double> seconds_of_day = {};
};

/// ISO 8601 in its extended form: 2026-03-14, 14:05, 14:05:22.5, or both with T or a space between; an offset from UTC may follow (Z, +01:00) and is left
/// alone, as readings of one file share it. Nothing for any other text, nor for a day that no calendar has.
std::optional<WrittenTime> written_time(std::string_view text);

}  // namespace samelight::io::detail
