#include "report/warnings/facts_said.hpp"

#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {

std::string with_digits(double value, int digits) { return fmt::format("{:.{}g}", value, digits); }

bool FactsSaid::has(std::string_view fact) const {
    return warning_->find<double>(fact) != nullptr || warning_->find<std::string>(fact) != nullptr;
}

template <class T>
T FactsSaid::value_of(std::string_view fact) const {
    const T* found = warning_->find<T>(fact);
    if (found == nullptr) {
        lack();
        return {};
    }
    return *found;
}

double FactsSaid::value(std::string_view fact) const { return value_of<double>(fact); }

std::string FactsSaid::number(std::string_view fact, int decimals) const {
    return to_text(value(fact), decimals);
}

std::string FactsSaid::number(std::string_view fact) const { return with_digits(value(fact), 9); }

std::string FactsSaid::rough(std::string_view fact) const { return with_digits(value(fact), 3); }

std::string FactsSaid::text(std::string_view fact) const { return value_of<std::string>(fact); }

std::string FactsSaid::chosen(
    std::string_view fact,
    std::initializer_list<std::pair<std::string_view, std::string_view>> said) const {
    const std::string word = text(fact);
    for (const auto& [own, words] : said) {
        if (own == word) {
            return std::string(words);
        }
    }
    lack();
    return {};
}

std::vector<double> FactsSaid::numbers(std::string_view fact) const {
    return value_of<std::vector<double>>(fact);
}

std::vector<std::string> FactsSaid::texts(std::string_view fact) const {
    return value_of<std::vector<std::string>>(fact);
}

std::string FactsSaid::xy(const std::string& before, int decimals) const {
    return "x " + number(before + "x", decimals) + ", y " + number(before + "y", decimals);
}

std::string FactsSaid::prefix(std::string_view fact, std::string_view behind) const {
    return has(fact) ? text(fact) + std::string(behind) : "";
}

std::string in_quotes(std::string_view name) {
    constexpr int most_characters = 40;
    std::string result = "\"";
    int characters = 0;
    for (const char c : name) {
        const bool begins = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        if (begins && ++characters > most_characters) {
            result += "...";
            break;
        }
        result += static_cast<unsigned char>(c) < 0x20U || c == '\x7f' ? '?' : c;
    }
    return result + '"';
}

}  // namespace samelight::report
