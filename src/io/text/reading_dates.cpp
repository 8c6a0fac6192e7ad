#include "io/text/reading_dates.hpp"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>

#include "io/text/words.hpp"
#include "samelight/io/text_for_people.hpp"

namespace samelight::io::detail {
namespace {

/// What is left to be read of a text.
class DateText {
  public:
    explicit DateText(std::string_view text) : left_(text) {}

    /// So many digits; nothing, and none taken, where there are fewer.
    std::optional<int> digits(std::size_t count) {
        if (left_.size() < count) {
            return {};
        }
        int value = 0;
        for (const char c : left_.substr(0, count)) {
            if (!is_digit(c)) {
                return {};
            }
            value = 10 * value + (c - '0');
        }
        left_.remove_prefix(count);
        return value;
    }
    bool skip(char c) {
        if (!left_.starts_with(c)) {
            return false;
        }
        left_.remove_prefix(1);
        return true;
    }
    [[nodiscard]] bool at_end() const { return left_.empty(); }
    [[nodiscard]] bool has_at(std::size_t place, char c) const {
        return left_.size() > place && left_[place] == c;
    }

  private:
    std::string_view left_;
};

std::optional<int> date_in(DateText& text) {
    const auto year = text.digits(4);
    const bool first = text.skip('-');
    const auto month = text.digits(2);
    const bool second = text.skip('-');
    const auto day = text.digits(2);
    if (!year || !first || !month || !second || !day) {
        return {};
    }
    const std::chrono::year_month_day date{std::chrono::year{*year},
                                           std::chrono::month{static_cast<unsigned>(*month)},
                                           std::chrono::day{static_cast<unsigned>(*day)}};
    if (!date.ok()) {
        return {};
    }
    return static_cast<int>(std::chrono::sys_days{date}.time_since_epoch().count());
}

std::optional<double> clock_in(DateText& text) {
    const auto hours = text.digits(2);
    const bool colon = text.skip(':');
    const auto minutes = text.digits(2);
    if (!hours || !colon || !minutes || *hours > 24 || *minutes > 59) {
        return {};
    }
    double seconds = 3600.0 * *hours + 60.0 * *minutes;
    if (!text.skip(':')) {
        return seconds;
    }
    const auto whole = text.digits(2);
    if (!whole || *whole > 60) {
        return {};
    }
    seconds += *whole;
    if (text.skip('.') || text.skip(',')) {
        double place = 0.1;
        auto digit = text.digits(1);
        if (!digit) {
            return {};
        }
        for (; digit; digit = text.digits(1), place *= 0.1) {
            seconds += place * *digit;
        }
    }
    return seconds;
}

bool ends_with_offset(DateText& text) {
    if (text.skip('Z') || text.at_end()) {
        return text.at_end();
    }
    if (!text.skip('+') && !text.skip('-')) {
        return false;
    }
    const bool hours = text.digits(2).has_value();
    text.skip(':');
    static_cast<void>(text.digits(2));
    return hours && text.at_end();
}

}  // namespace

}  // namespace samelight::io::detail

namespace samelight::io {

std::string date_text(int day) {
    const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
    const auto padded = [](unsigned value, std::size_t digits) {
        const std::string text = std::to_string(value);
        return std::string(digits - std::min(digits, text.size()), '0') + text;
    };
    return padded(static_cast<unsigned>(std::max(0, static_cast<int>(date.year()))), 4) + "-" +
           padded(static_cast<unsigned>(date.month()), 2) + "-" +
           padded(static_cast<unsigned>(date.day()), 2);
}

}  // namespace samelight::io

namespace samelight::io::detail {

std::optional<WrittenTime> written_time(std::string_view written) {
    DateText text(trimmed(written));
    WrittenTime time;
    if (text.has_at(4, '-')) {
        time.day = date_in(text);
        if (!time.day) {
            return {};
        }
        if (text.at_end()) {
            return time;
        }
        if (!text.skip('T') && !text.skip(' ')) {
            return {};
        }
    }
    time.seconds_of_day = clock_in(text);
    if (!time.seconds_of_day || !ends_with_offset(text)) {
        return {};
    }
    return time;
}

}  // namespace samelight::io::detail
