#include "report/words/numbers_typed.hpp"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/assess/error_words.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/daylight_reference.hpp"

namespace samelight::report {
namespace {

/// Digits, or what stands for no number, with a comma or a semicolon between: no name of a light or of a file looks so.
bool looks_like_numbers(const std::string& text) {
    if (text.find_first_of(",;") == std::string::npos) {
        return false;
    }
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;", at), text.size());
        std::string entry = text.substr(at, end - at);
        std::transform(entry.begin(), entry.end(), entry.begin(),
                       [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
        const bool no_number = entry == "nan" || entry == "inf" || entry == "-inf";
        if (!no_number && entry.find_first_not_of("0123456789.+-e ") != std::string::npos) {
            return false;
        }
        at = end + 1;
    }
    return text.find_first_of("0123456789nNiI") != std::string::npos;
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

std::optional<ReadingTyped> reading_typed(const std::string& text, const std::string& where,
                                          ReadingOf of) {
    if (!looks_like_numbers(text)) {
        return {};
    }
    const std::vector<double> n = numbers_in(text);
    if (of == ReadingOf::black && n.size() == 3 && n[2] == 0.0) {
        return ReadingTyped{{0.0, 0.0}, 0.0};
    }
    const bool chromaticity = (n.size() == 2 || n.size() == 3) && n[0] > 0.0 && n[1] > 0.0 &&
                              n[0] + n[1] < largest_xy_sum_read;
    const bool luminance = n.size() == 2 || (n.size() == 3 && n[2] > 0.0 && n[2] < 1e6);
    if (!chromaticity || !luminance) {
        throw Error(ErrorKind::input, where, "\"" + text + "\"",
                    of == ReadingOf::colour
                        ? "x,y with a CIE 1931 chromaticity, such as 0.3127,0.3290"
                        : "x,y or x,y,Y with a CIE 1931 chromaticity and a luminance above 0, such "
                          "as 0.3127,0.3290 or 0.3127,0.3290,100");
    }
    return ReadingTyped{{n[0], n[1]}, n.size() == 3 ? std::optional(n[2]) : std::nullopt};
}

io::NamedReference reference_typed(const std::string& text, const Sampling& sampling) {
    const std::optional<ReadingTyped> typed = reading_typed(text, "--reference", ReadingOf::colour);
    if (!typed) {
        return assess::about({text}, [&] { return io::open_reference(text, sampling); });
    }
    try {
        io::NamedReference named{daylight_reference(typed->xy, sampling), {}};
        if (typed->luminance) {
            named.understood.push_back("Only the colour counts: the Y of " +
                                       to_text(*typed->luminance) + " isn't used.");
        }
        for (Warning& warning : named.reference.warnings) {
            if (warning.code == reference_as_daylight_code) {
                warning.facts.push_back(Fact{"set_as", io::name_of_set_display});
            }
        }
        return named;
    } catch (const Error& error) {
        throw Error(error.kind(), "--reference " + text, error.found(),
                    error.wanted() + ", " + io::name_of_set_display);
    }
}

}  // namespace samelight::report
