#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

#include "report/words/command_words.hpp"
#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t meter_name_room = 22;
constexpr std::size_t column_room = 7;
constexpr std::size_t most_columns = 9;  // as many as a page is wide

std::string verdict_text(const MeterTableAnswer& answer) {
    if (!answer.believable) {
        return "Believe none of this. " + command_sentence(answer.warnings.front());
    }
    const std::size_t n = answer.panels.size();
    if (n < 2) {
        return "One display has no other to be read on: name two or more.";
    }
    const std::string pairs = std::to_string(n * (n - 1));
    return answer.worse_than_none == 0
               ? "On none of the other displays is a correction worse than none: " + pairs +
                     " pairs were tried."
               : "Use each correction on the display that it was made on. On another it is worse than "
                 "none in " +
                     std::to_string(answer.worse_than_none) + " of " + pairs + " cases.";
}

/// Columns `first` to `end` - 1 of the matrix, with none before them.
std::string block(const MeterTableAnswer& answer, std::size_t first, std::size_t end) {
    std::string page = "  " + padded("READ ON", meter_name_room) + padded_left("none", column_room);
    for (std::size_t j = first; j < end; ++j) {
        page += padded_left("by " + std::to_string(j + 1), column_room);
    }
    page += "\n";
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        const std::string number = std::to_string(i + 1) + " ";
        page += "  " +
                padded(number + short_name(answer.panels[i], meter_name_room - number.size() - 1),
                       meter_name_room);
        page += padded_left(to_text(answer.none[i].white_xy, 4), column_room);
        for (std::size_t j = first; j < end; ++j) {
            const auto& error = answer.with[i][j];
            page += padded_left(error ? to_text(error->white_xy, 4) : "-", column_room);
        }
        page += "\n";
    }
    return page;
}

}  // namespace

std::string meter_table_page(const MeterTableAnswer& answer) {
    std::string page = paragraph("", verdict_text(answer)) + "\n";
    for (std::size_t first = 0; first < answer.panels.size(); first += most_columns) {
        page += block(answer, first, std::min(answer.panels.size(), first + most_columns)) + "\n";
    }
    page += paragraph("  ",
                      "White off in x, y: each row a display, read without correction and with "
                      "the correction made on display 1, 2, ... of the same list.");
    for (std::size_t i = answer.believable ? 0 : 1; i < answer.warnings.size(); ++i) {
        page += paragraph("! ", command_sentence(answer.warnings[i]));
    }
    page += paragraph("", "Rests on the meter's rows (" + short_name(answer.meter, 60) +
                              ") and the displays' spectra, without noise and drift.");
    return page + read_so(answer.understood);
}

std::string meter_table_json(const MeterTableAnswer& answer) {
    Json json = {{"schema", "samelight/meter-table/1"},
                 {"version", version},
                 {"meter", answer.meter},
                 {"believable", answer.believable},
                 {"limit_uv", answer.limit_uv},
                 {"corrections_made_on", answer.panels},
                 {"pairs_worse_than_none", answer.worse_than_none}};
    json["panels"] = Json::array();
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        Json with = Json::array();
        for (const auto& error : answer.with[i]) {
            with.push_back(error ? expected_error_json(*error) : Json(nullptr));
        }
        json["panels"].push_back({{"name", answer.panels[i]},
                                  {"without_correction", expected_error_json(answer.none[i])},
                                  {"with", with}});
    }
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
