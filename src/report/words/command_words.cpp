#include "report/words/command_words.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::report {
namespace {

/// What lower rooms say, and what the command says instead, in the warning of one code.
struct Hint {
    const char* code;
    std::string_view said, instead;
};
constexpr std::array<Hint, 3> hints{
    {{"no_such_meter", "(to be scaled on illuminant A)", "(--scale-on-a)"},
     {"row_scale_odd", "otherwise scale them on illuminant A", "otherwise say --scale-on-a"},
     {"no_panel_spectra", "make it with those spectra, or give the meter's sensitivities",
      "make it with meter fit --panel, or give --meter"}}};

}  // namespace

void name_options(std::vector<Warning>& warnings) {
    for (Warning& warning : warnings) {
        for (const Hint& hint : hints) {
            const std::size_t at = warning.message.find(hint.said);
            if (warning.code == hint.code && at != std::string::npos) {
                warning.message.replace(at, hint.said.size(), hint.instead);
            }
        }
    }
}

void throw_in_command_words(const Error& error, const std::string& option) {
    const bool of_observer = error.wanted() == "the id of a known observer";
    throw Error(error.kind(), option.empty() ? error.place() : ErrorPlace{option}, error.found(),
                of_observer ? "one that samelight observer lists" : error.wanted());
}

}  // namespace samelight::report
