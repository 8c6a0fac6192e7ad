#include "report/white/white_texts.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/words/numbers_typed.hpp"
#include "samelight/assess/watching_eyes.hpp"
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

namespace {

/// One white by eye as typed; a letter beyond Z is none.
assess::WhiteByEye white_by_eye(const std::string& text) {
    const bool lettered = text.size() > 2 && text[1] == '=' && text[0] >= 'A' && text[0] <= 'Z';
    const std::size_t who = lettered ? static_cast<std::size_t>(text[0] - 'A') : 0;
    const std::string where = "--eye " + text;
    if (const auto read = reading_typed(lettered ? text.substr(2) : text, where)) {
        return {who, read->xy};
    }
    throw Error(ErrorKind::input, where, "not a viewer's white",
                "A=x,y with a viewer's letter and the CIE 1931 x, y that they set by eye");
}

}  // namespace

std::vector<assess::WhiteByEye> whites_by_eye(const WhiteRequest& request,
                                              std::vector<assess::WatchingEye>& viewers) {
    std::vector<assess::WhiteByEye> whites;
    std::size_t named = viewers.size();
    for (const std::string& text : request.eyes) {
        whites.push_back(white_by_eye(text));
        named = std::max(named, request.viewers.empty() ? whites.back().viewer + 1 : 0);
    }
    for (std::size_t who = 0; who < named; ++who) {
        const bool set_one = std::any_of(whites.begin(), whites.end(),
                                         [&](const auto& white) { return white.viewer == who; });
        if (who >= viewers.size() && !set_one) {
            throw Error(ErrorKind::input, "--eye " + request.eyes.front(),
                        "no white by viewer " + std::string(1, static_cast<char>('A' + who)),
                        "letters from A on without a gap (A=x,y), or a --viewer for each");
        }
    }
    for (std::size_t i = 0; i < whites.size(); ++i) {
        if (whites[i].viewer >= named) {
            throw Error(ErrorKind::input, "--eye " + request.eyes[i],
                        "viewer " + std::string(1, static_cast<char>('A' + whites[i].viewer)) +
                            ", with " + std::to_string(viewers.size()) + " named by --viewer",
                        "A=x,y with the letter of one of them, or one more --viewer AGE");
        }
    }
    viewers.resize(named);
    return whites;
}

}  // namespace samelight::report
