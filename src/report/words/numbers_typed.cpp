#include "report/words/numbers_typed.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/assess/error_words.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/daylight_reference.hpp"

namespace samelight::report {
namespace {

/// Digits and what stands between them, with a comma: no name of a light or of a file looks so.
bool looks_like_numbers(const std::string& text) {
    return text.find(',') != std::string::npos &&
           text.find_first_not_of("0123456789.,+-eE ") == std::string::npos &&
           text.find_first_of("0123456789") != std::string::npos;
}

std::vector<double> numbers_in(const std::string& text) {
    std::vector<double> numbers;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        std::string_view entry = std::string_view(text).substr(at, end - at);
        while (entry.starts_with(' '))
            entry.remove_prefix(1);
        while (entry.ends_with(' '))
            entry.remove_suffix(1);
        numbers.push_back(samelight::detail::number_or_nan(entry));
        at = end + 1;
    }
    return numbers;
}

}  // namespace

std::optional<ReadingTyped> reading_typed(const std::string& text, const std::string& where) {
    if (!looks_like_numbers(text)) {
        return {};
    }
    const std::vector<double> n = numbers_in(text);
    const bool chromaticity =
        (n.size() == 2 || n.size() == 3) && n[0] > 0.0 && n[1] > 0.0 && n[0] + n[1] < 1.0;
    const bool luminance = n.size() == 2 || (n.size() == 3 && n[2] > 0.0 && n[2] < 1e6);
    if (!chromaticity || !luminance) {
        throw Error(ErrorKind::input, where, "\"" + text + "\"",
                    "x,y or x,y,Y with a CIE 1931 chromaticity and a luminance above 0, such as "
                    "0.3127,0.3290 or 0.3127,0.3290,100");
    }
    return ReadingTyped{{n[0], n[1]}, n.size() == 3 ? std::optional(n[2]) : std::nullopt};
}

io::NamedReference reference_typed(const std::string& text, const Sampling& sampling) {
    const std::optional<ReadingTyped> typed = reading_typed(text, "--reference");
    if (!typed) {
        return assess::about({text}, [&] { return io::open_reference(text, sampling); });
    }
    try {
        io::NamedReference named{daylight_reference(typed->xy, sampling), {}};
        for (Warning& warning : named.reference.warnings) {
            if (warning.code == reference_as_daylight_code) {
                warning.facts.push_back(Fact{"set_as", "NAME@x,y"});
            }
        }
        return named;
    } catch (const Error& error) {
        throw Error(error.kind(), "--reference " + text, error.found(),
                    error.wanted() + ", NAME@x,y");
    }
}

}  // namespace samelight::report
