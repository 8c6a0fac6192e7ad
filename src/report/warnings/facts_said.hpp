#pragma once
// The facts of a warning as its sentence needs them.
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// Looks facts up, and remembers where one that was asked for isn't there: such a sentence isn't said.
class FactsSaid {
  public:
    /// Lends `warning`.
    explicit FactsSaid(const Warning& warning) : warning_(&warning) {}

    /// Whether a number or text of that name is there.
    [[nodiscard]] bool has(std::string_view fact) const;
    [[nodiscard]] double value(std::string_view fact) const;
    /// A number with so many digits behind the point.
    [[nodiscard]] std::string number(std::string_view fact, int decimals) const;
    /// A number with the digits that it needs, nine at most: what was written, but for the last digits of a double that was worked out.
    [[nodiscard]] std::string number(std::string_view fact) const;
    /// A number as people compare it: three digits.
    [[nodiscard]] std::string rough(std::string_view fact) const;
    [[nodiscard]] std::string text(std::string_view fact) const;
    /// What is said for a word of a choice; one that isn't among them is as good as missing.
    [[nodiscard]] std::string chosen(
        std::string_view fact,
        std::initializer_list<std::pair<std::string_view, std::string_view>> said) const;
    [[nodiscard]] std::vector<double> numbers(std::string_view fact) const;
    [[nodiscard]] std::vector<std::string> texts(std::string_view fact) const;
    /// "x 0.3127, y 0.3290" of the facts `before`x and `before`y.
    [[nodiscard]] std::string xy(const std::string& before = "", int decimals = 4) const;
    /// "name: ", or nothing where that fact isn't there.
    [[nodiscard]] std::string prefix(std::string_view fact, std::string_view behind = ": ") const;

    /// Notes that the facts don't go together.
    void lack() const { lacking_ = true; }
    [[nodiscard]] bool lacking() const { return lacking_; }
    [[nodiscard]] const Warning& warning() const { return *warning_; }

  private:
    template <class T>
    [[nodiscard]] T value_of(std::string_view fact) const;

    const Warning* warning_;
    mutable bool lacking_ = false;
};

/// A name from a file: in quotation marks, on one line, shortened to 40 characters.
std::string in_quotes(std::string_view name);

/// `value` with at most so many digits that count.
std::string with_digits(double value, int digits);

/// A code and what makes its sentence.
struct WarningWords {
    std::string_view code;
    std::string (*say)(const FactsSaid&);
};

// The catalogue, by the rooms that give the warnings.
std::span<const WarningWords> words_of_spectrum();
std::span<const WarningWords> words_of_white();
std::span<const WarningWords> words_of_metamerism();
std::span<const WarningWords> words_of_readings();
std::span<const WarningWords> words_of_corrections();
std::span<const WarningWords> words_of_assess();
std::span<const WarningWords> words_of_files();
std::span<const WarningWords> words_of_proof();

}  // namespace samelight::report
