#include "samelight/report/meter_table_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/error_list.hpp"

#include <string>
#include <utility>
#include <vector>

#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

/// The displays that were asked for and can be opened.
void open_displays(const MeterTableRequest& request, assess::MeterTableRequest& asked,
                   MeterTableAnswer& answer) {
    ListedPanels listed = listed_panels(request.panels, request.lights, request.sampling);
    require_enough(listed.panels.size(), 2, listed.errors);
    for (const assess::ListedPanel& panel : listed.panels) {
        say_how_read(panel.name, panel.understood, answer.understood);
    }
    asked.panels = std::move(listed.panels);
    answer.errors = std::move(listed.errors);
}

}  // namespace

MeterTableAnswer answer_meter_table(const MeterTableRequest& request) {
    if (request.meter.empty()) {
        throw Error(ErrorKind::input, "--table", "no --meter",
                    "the meter whose corrections are to be compared");
    }
    assess::require_table_displays(request.panels.size());
    io::NamedMeter meter = assess::about({request.meter}, [&] {
        return io::open_meter(request.meter,
                              request.scale_on_a ? RowScale::illuminant_a : RowScale::as_given,
                              request.sampling);
    });
    MeterTableAnswer answer;
    say_how_read(request.meter, meter.understood, answer.understood);
    assess::MeterTableRequest asked{std::move(meter), {}, request.limit_uv};
    if (request.panels.empty() && io::places_in_options(request.lights).empty()) {
        io::require_columns_used({}, request.lights);
        asked.panels = assess::generic_panel_list(request.sampling);
    } else {
        open_displays(request, asked, answer);
    }
    static_cast<assess::MeterTableAnswer&>(answer) =
        assess::about({request.meter}, [&] { return assess::answer_meter_table(asked); });
    return answer;
}

}  // namespace samelight::report
