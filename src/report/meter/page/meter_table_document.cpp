#include "report/meter/page/meter_table_document.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/meter/page/meter_charts.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report {
namespace {

/// So many displays have their figures on the first screen.
constexpr std::size_t most_at_once = 9;

VerdictLine table_verdict(const MeterTableAnswer& answer) {
    if (!answer.believable) {
        return {"Believe none of this.", command_sentence(answer.warnings.front()), Mood::stop,
                " "};
    }
    const std::size_t n = answer.panels.size();
    if (n < 2) {
        return {"One display", "has no other to be read on: name two or more.", Mood::look, " "};
    }
    const std::string pairs = std::to_string(n * (n - 1));
    return answer.worse_than_none == 0
               ? VerdictLine{"On none of the other displays",
                             "is a correction worse than none: " + pairs + " pairs were tried.",
                             Mood::act, " "}
               : VerdictLine{"Use each correction on the display that it was made on.",
                             "On another it is worse than none in " +
                                 std::to_string(answer.worse_than_none) + " of " + pairs +
                                 " cases.",
                             Mood::stop, " "};
}

Table corrections_table(const MeterTableAnswer& answer) {
    Table table{
        "White off in x, y: each row a display, read without correction and with the "
        "correction made on display 1, 2, ... of the same list.",
        {{"READ ON", Align::left}, {"none"}},
        {}};
    constexpr std::size_t name_and_number = 21;
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        table.columns.push_back({"by " + std::to_string(i + 1)});
        const std::string number = std::to_string(i + 1) + " ";
        std::vector<std::string> row = {
            number + short_name(answer.panels[i], name_and_number - number.size()),
            to_text(answer.none[i].white_xy, 4)};
        for (const std::optional<ExpectedError>& error : answer.with[i]) {
            row.push_back(error ? to_text(error->white_xy, 4) : "-");
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace

Document meter_table_document(const MeterTableAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, table_verdict(answer));
    section.add("table", answer.panels.size() > most_at_once ? Level::reason : Level::essential,
                corrections_table(answer));
    if (std::optional<Chart> chart = corrections_chart(answer)) {
        section.add("chart", Level::reason, std::move(*chart));
    }
    const std::size_t said = answer.believable ? 0 : 1;
    add_meter_cautions({answer.warnings.data() + said, answer.warnings.size() - said}, section);
    section.add("rests-on", Level::reason,
                Paragraph{"Rests on the meter's rows (" + short_name(answer.meter, 60) +
                          ") and the displays' spectra, without noise and drift."});
    add_meter_reading(answer.warnings, answer.understood, section);
    return {"What each display's correction does on the others", {std::move(section)}};
}

}  // namespace samelight::report
