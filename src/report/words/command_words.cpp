#include "report/words/command_words.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "samelight/numeric/error.hpp"
#include "samelight/report/warning_words.hpp"

namespace samelight::report {
namespace {

/// What a warning of one code says, and what the command says instead.
struct Hint {
    const char* code;
    std::string_view said, instead;
};
constexpr std::string_view asks_for_type = "Check which type the display is.";
constexpr std::string_view lists_types = "Check which type the display is: `samelight panel`.";
constexpr std::array<Hint, 6> hints{
    {{"now_of_another_display", asks_for_type, lists_types},
     {"now_perhaps_of_another_type", asks_for_type, lists_types},
     {"bandwidth_unknown", "Give the instrument's bandwidth.",
      "Give the instrument's bandwidth (--bandwidth)."},
     {"no_such_meter", "(to be scaled on illuminant A)", "(--scale-on-a)"},
     {"row_scale_odd", "otherwise scale them on illuminant A", "otherwise say --scale-on-a"},
     {"no_panel_spectra", "make it with those spectra, or give the meter's sensitivities",
      "make it with meter fit --panel, or give --meter"}}};

/// Values that the options call by other names.
constexpr std::array<std::array<std::string_view, 2>, 2> options_of_values{
    {{"wanted half-width", "--want"}, {"uncertainty of the reference", "--reference-off"}}};

}  // namespace

std::string option_of(const std::string& name) {
    for (const auto& [value, option] : options_of_values) {
        if (name == value) return std::string(option);
    }
    return name.find(' ') == std::string::npos ? "--" + name : "";
}

std::string command_sentence(const Warning& warning) {
    std::string said = sentence(warning);
    for (const Hint& hint : hints) {
        const std::size_t at = said.find(hint.said);
        if (warning.code == hint.code && at != std::string::npos) {
            said.replace(at, hint.said.size(), hint.instead);
        }
    }
    return said;
}

void throw_in_command_words(const Error& error, const std::string& option) {
    const bool of_observer = error.wanted() == "the id of a known observer";
    throw Error(error.kind(), option.empty() ? error.place() : ErrorPlace{option}, error.found(),
                of_observer ? "one that samelight observer lists" : error.wanted());
}

}  // namespace samelight::report
