#include "io/layout/units.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

struct Word {
    std::string_view text;
    int number;
};

/// True where `text` at `i` goes on with the word (of small letters), in capitals or not.
bool goes_on(std::string_view text, std::size_t i, std::string_view word) {
    if (text.size() - i < word.size()) return false;
    for (std::size_t k = 0; k < word.size(); ++k) {
        const char c = text[i + k];
        const bool capital = c >= 'A' && c <= 'Z';
        if ((capital ? static_cast<char>(c - 'A' + 'a') : c) != word[k]) return false;
    }
    return true;
}

/// Takes one of the words from the front at `i`; its index, or the number of words.
template <std::size_t n>
std::size_t take(const std::array<Word, n>& words, std::string_view text, std::size_t& i) {
    for (std::size_t k = 0; k < n; ++k) {
        if (goes_on(text, i, words[k].text)) {
            i += words[k].text.size();
            return k;
        }
    }
    return n;
}

bool letter_at(std::string_view text, std::size_t i) {
    if (i >= text.size() || !is_letter(text[i])) return false;
    constexpr std::array<std::string_view, 9> marks = {"·", "⋅", "×", "²",     "³",
                                                       "¹", "⁻", "−", "\u00a0"};
    return std::none_of(marks.begin(), marks.end(),
                        [&](std::string_view mark) { return text.substr(i).starts_with(mark); });
}

/// The exponent at `i`, which is moved behind it: 2, ^2, ^-2, **2, -2, ², ⁻². 1 where there is none.
int take_exponent(std::string_view text, std::size_t& i) {
    constexpr std::array<Word, 2> powers = {{{"^", 0}, {"**", 0}}};
    constexpr std::array<Word, 3> minuses = {{{"-", 0}, {"−", 0}, {"⁻", 0}}};
    constexpr std::array<Word, 6> digits = {
        {{"1", 1}, {"2", 2}, {"3", 3}, {"¹", 1}, {"²", 2}, {"³", 3}}};
    std::size_t j = i;
    take(powers, text, j);
    const bool minus = take(minuses, text, j) < minuses.size();
    const std::size_t digit = take(digits, text, j);
    if (digit == digits.size()) return 1;
    i = j;
    return minus ? -digits[digit].number : digits[digit].number;
}

enum Factor : std::size_t { steradian, spectral, area, factors };

/// With the power of ten that each brings in the denominator, where areas are squares.
constexpr std::array<Word, 9> unit_words = {{{"steradian", 0},
                                             {"sr", 0},
                                             {"nm", 0},
                                             {"um", -3},
                                             {"\u00b5m", -3},
                                             {"\u03bcm", -3},
                                             {"cm", 4},
                                             {"mm", 6},
                                             {"m", 0}}};

Factor factor_of(std::size_t unit_word) {
    return unit_word < 2 ? steradian : unit_word < 6 ? spectral : area;
}

/// Reads the factors behind the W.
class FactorReader {
  public:
    FactorReader(std::string_view text, std::size_t i) : text_(text), i_(i), end_(i) {}

    void read() {
        while (readable_) {
            std::size_t j = i_;
            skip_marks(j);
            const std::size_t word = take(unit_words, text_, j);
            if (word == unit_words.size()) return;
            const std::size_t behind = j;
            int exponent = take_exponent(text_, j);
            if (j == behind && letter_at(text_, j)) return;
            const Factor factor = factor_of(word);
            if (exponents_[factor] != 0) return;
            // A negative exponent behind a slash: no telling what is meant.
            if (slash_ && exponent < 0) readable_ = false;
            if (slash_) exponent = -exponent;
            exponents_[factor] = exponent;
            if (exponent < 0) power_of_ten_ += unit_words[word].number;
            i_ = j;
            end_ = j;
            close_brackets();
        }
    }

    [[nodiscard]] std::optional<PowerUnit> unit() const {
        if (!readable_) return std::nullopt;
        const bool any =
            std::any_of(exponents_.begin(), exponents_.end(), [](int e) { return e < 0; });
        if (!any) return std::nullopt;
        const bool usual = (exponents_[steradian] == -1 || exponents_[steradian] == 0) &&
                           (exponents_[area] == -2 || exponents_[area] == 0) &&
                           (exponents_[spectral] == -1 || exponents_[spectral] == 0);
        PowerUnit unit;
        unit.power_of_ten = power_of_ten_;
        unit.end = end_;
        if (usual && exponents_[spectral] == -1) {
            const bool all = exponents_[steradian] == -1 && exponents_[area] == -2;
            unit.quantity = all ? Quantity::spectral_radiance : Quantity::other_spectral;
        }
        return unit;
    }

  private:
    /// Spaces, products, slashes and opening brackets in front of a factor.
    void skip_marks(std::size_t& i) {
        constexpr std::array<Word, 8> marks = {
            {{" ", 0}, {"\u00a0", 0}, {"·", 0}, {"⋅", 0}, {"×", 0}, {"*", 0}, {".", 0}, {"_", 0}}};
        for (;;) {
            if (take(marks, text_, i) < marks.size()) continue;
            const std::string_view rest = text_.substr(i);
            if (rest.starts_with('/')) {
                slash_ = true;
                ++i;
            } else if (rest.starts_with('(') || rest.starts_with('[')) {
                ++depth_;
                ++i;
            } else if (rest.starts_with("per ")) {
                slash_ = true;
                i += 4;
            } else if (slash_ && rest.starts_with('-') && letter_at(text_, i + 1)) {
                ++i;  // "W/m2-sr-nm"
            } else {
                return;
            }
        }
    }

    void close_brackets() {
        while (depth_ > 0 && i_ < text_.size() && (text_[i_] == ')' || text_[i_] == ']')) {
            --depth_;
            end_ = ++i_;
        }
    }

    std::string_view text_;
    std::size_t i_;
    std::size_t end_;
    std::array<int, factors> exponents_{};
    int power_of_ten_ = 0;
    int depth_ = 0;
    bool slash_ = false;
    bool readable_ = true;
};

/// "W", "mW", "watt" at `i`, which is moved behind it.
std::optional<PowerUnit> take_power(std::string_view text, std::size_t& i) {
    constexpr std::array<Word, 6> prefixes = {
        {{"m", -3}, {"u", -6}, {"\u00b5", -6}, {"\u03bc", -6}, {"n", -9}, {"k", 3}}};
    constexpr std::array<Word, 3> watts = {{{"watts", 0}, {"watt", 0}, {"w", 0}}};
    for (const bool prefixed : {false, true}) {
        std::size_t j = i;
        PowerUnit unit;
        unit.begin = i;
        if (prefixed) {
            unit.mega = text[i] == 'M';
            const std::size_t prefix = take(prefixes, text, j);
            if (prefix == prefixes.size()) return std::nullopt;
            unit.power_of_ten = prefixes[prefix].number;
        }
        if (take(watts, text, j) < watts.size() && !letter_at(text, j)) {
            i = j;
            return unit;
        }
    }
    return std::nullopt;
}

bool word_ends_before(std::string_view text, std::size_t i) {
    if (i == 0) return true;
    const std::string_view before = text.substr(0, i);
    if (before.ends_with("\u00a0") || before.ends_with("·")) return true;
    return !is_letter(before.back()) && !is_digit(before.back());
}

}  // namespace

std::optional<PowerUnit> find_unit(std::string_view text, std::size_t from) {
    // A view of what may be looked at from one place keeps the time linear, whatever the text.
    constexpr std::size_t longest_unit = 100;
    for (std::size_t i = from; i < text.size(); ++i) {
        constexpr std::string_view beginnings = "wWmMuUnNkK\xc2\xce";
        if (beginnings.find(text[i]) == std::string_view::npos || !word_ends_before(text, i))
            continue;
        const std::string_view part = text.substr(0, std::min(text.size(), i + longest_unit));
        std::size_t j = i;
        const std::optional<PowerUnit> power = take_power(part, j);
        if (!power) continue;
        FactorReader reader(part, j);
        reader.read();
        if (std::optional<PowerUnit> unit = reader.unit()) {
            unit->begin = i;
            unit->power_of_ten += power->power_of_ten;
            unit->mega = power->mega;
            return unit;
        }
    }
    return std::nullopt;
}

std::string without_units(std::string name) {
    while (const std::optional<PowerUnit> unit = find_unit(name)) {
        std::string_view before = std::string_view(name).substr(0, unit->begin);
        std::string_view behind = std::string_view(name).substr(unit->end);
        constexpr std::string_view marks = " ([{,;:-_/|=.";
        before = before.substr(0, before.find_last_not_of(marks) + 1);
        if (before.ends_with(" in")) before = trimmed(before.substr(0, before.size() - 3));
        constexpr std::string_view closing = " )]},;:-_/|=.";
        behind = behind.substr(std::min(behind.find_first_not_of(closing), behind.size()));
        name = std::string(trimmed(before.empty() ? behind : before));
    }
    return name;
}

}  // namespace samelight::io::detail
