#include "samelight/report/meter_table_answer.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/numeric/error.hpp"

#include <string>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

/// The displays that were asked for. Where one can't be opened, what is wrong with those before it is said first.
void open_displays(const MeterTableRequest& request, assess::MeterTableRequest& asked,
                   std::vector<std::string>& understood) {
    try {
        for (const std::string& text : request.panels) {
            asked.panels.push_back(listed_panel(text, request.sampling));
            say_how_read(text, asked.panels.back().understood, understood);
        }
    } catch (const Error&) {
        static_cast<void>(assess::answer_meter_table(asked));
        throw;
    }
}

}  // namespace

MeterTableAnswer answer_meter_table(const MeterTableRequest& request) {
    if (request.meter.empty()) {
        throw Error(ErrorKind::input, "--table", "no --meter",
                    "the meter whose corrections are to be compared");
    }
    assess::require_table_displays(request.panels.size());
    io::NamedMeter meter = io::open_meter(
        request.meter, request.scale_on_a ? RowScale::illuminant_a : RowScale::as_given,
        request.sampling);
    std::vector<std::string> understood;
    say_how_read(request.meter, meter.understood, understood);
    assess::MeterTableRequest asked{std::move(meter), {}, request.limit_uv};
    if (request.panels.empty()) {
        asked.panels = assess::generic_panel_list(request.sampling);
    } else {
        open_displays(request, asked, understood);
    }
    MeterTableAnswer answer{assess::answer_meter_table(asked), std::move(understood)};
    name_options(answer.warnings);
    return answer;
}

}  // namespace samelight::report
