#include "io/text/numbers.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "io/text/words.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::size_t longest_number = 100;  // characters; the shortest exact form needs 24

/// Takes a sign away from the front of `text`. True for minus.
bool take_sign(std::string_view& text) {
    constexpr std::string_view true_minus = "\u2212";
    if (text.starts_with(true_minus)) {
        text.remove_prefix(true_minus.size());
        return true;
    }
    const bool minus = text.starts_with('-');
    if (minus || text.starts_with('+')) text.remove_prefix(1);
    return minus;
}

std::size_t digits_at(std::string_view text, std::size_t i) {
    const std::size_t begin = i;
    while (i < text.size() && is_digit(text[i])) {
        ++i;
    }
    return i - begin;
}

/// The length of "e-05" at `i`, 0 where there is no exponent.
std::size_t exponent_at(std::string_view text, std::size_t i) {
    if (i >= text.size() || (text[i] != 'e' && text[i] != 'E')) return 0;
    std::size_t length = 1;
    if (i + 1 < text.size() && (text[i + 1] == '+' || text[i + 1] == '-')) ++length;
    const std::size_t digits = digits_at(text, i + length);
    return digits == 0 ? 0 : length + digits;
}

/// The length of digits with at most one of these marks and an exponent at the front; 0 where there are no digits.
std::size_t plain_number(std::string_view text, std::string_view marks) {
    std::size_t i = digits_at(text, 0);
    std::size_t digits = i;
    if (i < text.size() && marks.find(text[i]) != std::string_view::npos) {
        const std::size_t behind = digits_at(text, i + 1);
        digits += behind;
        i += 1 + behind;
    }
    return digits == 0 ? 0 : i + exponent_at(text, i);
}

bool is_not_finite(std::string_view text) {
    constexpr std::array<std::string_view, 14> words = {
        "nan",  "inf",    "infinity", "n/a",     "na",      "#n/a",  "1.#inf",
        "null", "1.#ind", "1.#qnan",  "#div/0!", "#value!", "#num!", "overflow"};
    take_sign(text);
    if (text.size() > 10) return false;
    const std::string word = lowered(text);
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// Takes one of the marks between groups of digits from the front: , . ' or a blank of any width.
bool take_group_mark(std::string_view& text) {
    constexpr std::array<std::string_view, 8> marks = {",",      ".",      "'",      " ",
                                                       "\u00a0", "\u2007", "\u2009", "\u202f"};
    for (const std::string_view mark : marks) {
        if (text.starts_with(mark)) {
            text.remove_prefix(mark.size());
            return true;
        }
    }
    return false;
}

/// The value where `mark` is the decimal one and `text` is a plain number, without its sign.
Number read_digits(std::string_view text, char mark) {
    std::string pointed;
    const std::size_t comma = mark == ',' ? text.find(',') : std::string_view::npos;
    if (comma != std::string_view::npos) {
        pointed = text;
        pointed[comma] = '.';
        text = pointed;
    }
    Number number;
    const std::optional<double> value = samelight::detail::decimal_number(text);
    if (!value) number.fault = Fault::out_of_range;
    number.value = value.value_or(0.0);
    return number;
}

}  // namespace

Number number_of(std::string_view cell, char mark) {
    std::string_view text = cell;
    const bool minus = take_sign(text);
    const std::size_t length = plain_number(text, std::string_view(&mark, 1));
    if (length > 0 && length == text.size() && length <= longest_number) {
        Number number = read_digits(text, mark);
        if (minus) number.value = -number.value;
        return number;
    }
    Number none;
    none.fault = cell.empty()          ? Fault::empty
                 : is_not_finite(cell) ? Fault::not_finite
                 : looks_numeric(cell) ? Fault::grouped
                                       : Fault::text;
    return none;
}

bool looks_numeric(std::string_view cell) {
    take_sign(cell);
    bool digits = false;
    bool last_was_mark = false;
    while (!cell.empty()) {
        const std::size_t run = digits_at(cell, 0);
        cell.remove_prefix(run);
        if (run > 0) {
            digits = true;
            last_was_mark = false;
        }
        if (cell.empty()) break;
        const std::size_t exponent = exponent_at(cell, 0);
        if (exponent > 0) return digits && exponent == cell.size();
        if (last_was_mark || !take_group_mark(cell)) return false;
        last_was_mark = true;
    }
    return digits;
}

Marks marks_of(std::string_view number) {
    take_sign(number);
    Marks marks;
    std::size_t first_mark = number.size();
    std::size_t group = 0;
    bool groups_of_three = true;
    for (std::size_t i = 0; i < number.size(); ++i) {
        if (number[i] == '.' || number[i] == ',') {
            if (first_mark == number.size()) {
                first_mark = i;
            } else if (group != 3) {
                groups_of_three = false;
            }
            ++(number[i] == '.' ? marks.points : marks.commas);
            group = 0;
        } else if (is_digit(number[i])) {
            ++group;
        } else {
            groups_of_three = false;  // an exponent: nobody groups thousands in front of one
        }
    }
    const bool one_kind = (marks.points == 0) != (marks.commas == 0);
    const bool head = first_mark >= 1 && first_mark <= 3 && number.front() != '0';
    marks.thousands = one_kind && head && groups_of_three && group == 3;
    return marks;
}

std::optional<WavelengthText> wavelength_text(std::string_view cell) {
    constexpr std::array<std::string_view, 8> words = {"wavelength", "lambda", "spec", "spd",
                                                       "nm",         "wl",     "λ",    "Λ"};
    constexpr std::array<std::string_view, 14> units = {
        "",  "nm",     "um", "\u00b5m",   "\u03bcm",    "m",         "å",
        "Å", "\u212b", "a",  "nanometre", "nanometres", "nanometer", "nanometers"};
    if (cell.size() > longest_number) return std::nullopt;
    WavelengthText result;
    if (!cell.empty() && is_letter(cell.front())) {
        const std::string small = lowered(cell);
        const auto* const word = std::find_if(
            words.begin(), words.end(), [&](std::string_view w) { return small.starts_with(w); });
        if (word == words.end()) return std::nullopt;
        cell.remove_prefix(word->size());
        cell.remove_prefix(std::min(cell.find_first_not_of(" =:_"), cell.size()));
        // "SPD1" is a light's name, "SPD380" a wavelength.
        if (digits_at(cell, 0) < 3) return std::nullopt;
        result.worded = true;
    }
    std::string_view unsigned_text = cell;
    take_sign(unsigned_text);
    const std::size_t length = plain_number(unsigned_text, ".,");
    if (length == 0) return std::nullopt;
    result.number = cell.substr(0, cell.size() - unsigned_text.size() + length);
    std::string_view unit = trimmed(cell.substr(result.number.size()));
    if (!unit.empty()) {
        result.worded = true;
        if (unit.front() == '_') unit.remove_prefix(1);
        const bool round = unit.starts_with('(') && unit.ends_with(')');
        const bool square = unit.starts_with('[') && unit.ends_with(']');
        if ((round || square) && unit.size() > 2) unit = trimmed(unit.substr(1, unit.size() - 2));
    }
    if (std::find(units.begin(), units.end(), lowered(unit)) == units.end()) return std::nullopt;
    result.unit = unit;
    return result;
}

std::optional<double> loose_wavelength(std::string_view cell) {
    const std::optional<WavelengthText> text = wavelength_text(cell);
    if (!text) return std::nullopt;
    const bool comma = text->number.find(',') != std::string_view::npos;
    const Number number = number_of(text->number, comma ? ',' : '.');
    if (number.fault != Fault::none) return std::nullopt;
    return number.value;
}

double times_power_of_ten(double value, int power) {
    // Its shortest digits, perhaps with an exponent behind them.
    const std::string text = fmt::format("{}", value);
    const std::size_t mark = std::min(text.find('e'), text.size());
    const int old_power = mark == text.size() ? 0 : std::stoi(text.substr(mark + 1));
    const std::optional<double> result = samelight::detail::decimal_number(
        text.substr(0, mark) + "e" + std::to_string(old_power + power));
    // Out of the range of a double: the nearest end of it, which the checks that follow judge.
    return result.value_or(power < 0 ? 0.0 : std::numeric_limits<double>::infinity());
}

bool looks_damaged(std::string_view cell) {
    constexpr std::string_view slips = "+-.,;'#!?*_";
    if (cell.empty() || cell.size() > longest_number) return false;
    if (is_digit(cell.front())) return true;
    std::string text(cell);
    text.erase(std::remove(text.begin(), text.end(), '"'), text.end());
    if (text.empty()) return false;
    const bool slip = slips.find(text.front()) != std::string_view::npos;
    std::size_t first = 1;
    while (first < text.size() && continues_character(text[first])) {
        ++first;
    }
    const std::string_view rest = trimmed(std::string_view(text).substr(first));
    const std::size_t digits = digits_at(rest, 0);
    if (is_digit(text.front()) || (slip && digits > 0)) return true;
    return digits >= 2 && rest != "10" && wavelength_text(rest).has_value();
}

bool begins_with_wavelength(std::string_view text) {
    return text.front() >= '1' && digits_at(text.substr(0, 4), 0) == 3;
}

LengthUnit likely_unit(double low, double high) {
    if (low >= least_wavelength_nm && high <= most_wavelength_nm) return LengthUnit::nanometre;
    if (low >= 1000.0 && high <= 50000.0) return LengthUnit::angstrom;
    if (low >= 0.1 && high <= 5.0) return LengthUnit::micrometre;
    if (low >= 1e-7 && high <= 5e-6) return LengthUnit::metre;
    return LengthUnit::none;
}

bool wavelength_like(std::span<const double> numbers) {
    if (numbers.size() < 2) return false;
    const auto [low, high] = std::minmax_element(numbers.begin(), numbers.end());
    const LengthUnit unit = likely_unit(*low, *high);
    if (unit == LengthUnit::none) return false;
    const bool covers = unit == LengthUnit::nanometre && *low <= 400.0 && *high >= 700.0;
    // Numbers around 1 are wavelengths in micrometres far less often than something else.
    if (!covers && numbers.size() < (unit == LengthUnit::nanometre ? 5U : 10U)) return false;
    std::size_t up = 0;
    std::size_t down = 0;
    for (std::size_t i = 1; i < numbers.size(); ++i) {
        if (numbers[i] > numbers[i - 1]) ++up;
        if (numbers[i] < numbers[i - 1]) ++down;
    }
    return 3 * std::max(up, down) >= 2 * (numbers.size() - 1);
}

}  // namespace samelight::io::detail
