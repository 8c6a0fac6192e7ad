#include "report/white/white_texts.hpp"

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "samelight/assess/white_request.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

Population population_of(const WhiteRequest& request, double field_deg,
                         std::vector<Warning>& notes) {
    if (request.people < 1 || request.people > 100000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people) + " people",
                    "1 to 100000");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back(Warning{"ages_read", {{"understood", sentence}}});
    }
    parameters.ages = std::move(named.ages);
    parameters.count = static_cast<std::size_t>(request.people);
    parameters.field_deg = field_deg;
    if (request.spread == "literature") {
        parameters.spread = literature_spread;
    } else if (request.spread != "matches") {
        throw Error(ErrorKind::input, "spread \"" + request.spread + "\"", "no spread of that name",
                    "matches (as matches of real people spread) or literature (wider)");
    }
    return Population(parameters);
}

std::vector<assess::WhiteByEye> whites_by_eye(const WhiteRequest& request) {
    std::vector<assess::WhiteByEye> whites;
    for (const std::string& text : request.eyes) {
        const std::size_t equals = text.find('=');
        const std::size_t comma = text.find(',');
        const bool whole = equals == 1 && comma != std::string::npos && comma > equals;
        const double x =
            whole ? samelight::detail::number_or_nan(std::string_view(text).substr(2, comma - 2))
                  : std::nan("");
        const double y =
            whole ? samelight::detail::number_or_nan(std::string_view(text).substr(comma + 1))
                  : std::nan("");
        const auto who = static_cast<std::size_t>(whole ? text[0] - 'A' : 26);
        if (!(x > 0.0 && y > 0.0 && x + y < 1.0) || who >= request.viewers.size()) {
            throw Error(ErrorKind::input, "eye \"" + text + "\"", "not a viewer's white",
                        "A=x,y with a viewer's letter and the CIE 1931 x, y that they set by eye");
        }
        whites.push_back({who, {x, y}});
    }
    return whites;
}

}  // namespace samelight::report
