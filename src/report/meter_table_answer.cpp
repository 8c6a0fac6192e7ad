#include "samelight/report/meter_table_answer.hpp"
#include "samelight/display/generic_model.hpp"
#include "samelight/display/generic_type.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/choose.hpp"
#include "samelight/meter/known_corrections.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

#include <string>
#include <utility>

#include "meter_panels.hpp"

namespace samelight::report {
namespace {

std::vector<std::string> built_in_panels() {
    std::vector<std::string> names;
    for (const GenericModel& model : generic_models()) {
        names.emplace_back(model.name());
    }
    return names;
}

}  // namespace

MeterTableAnswer answer_meter_table(const MeterTableRequest& request) {
    if (request.meter.empty()) {
        throw Error(ErrorKind::input, "--table", "no --meter",
                    "the meter whose corrections are to be compared");
    }
    MeterTableAnswer answer;
    answer.meter = request.meter;
    answer.limit_uv = request.limit_uv;
    answer.panels = request.panels.empty() ? built_in_panels() : request.panels;
    io::NamedMeter meter = io::open_meter(request.meter, request.scale_on_a, request.sampling);
    say_how_read(request.meter, meter.understood, answer.understood);
    answer.warnings = meter.warnings;
    std::vector<Panel> panels;
    std::vector<KnownCorrection> known;
    for (const std::string& text : answer.panels) {
        const io::NamedPanel named = io::open_panel(text, request.sampling);
        say_how_read(text, named.understood, answer.understood);
        answer.warnings.insert(answer.warnings.end(), named.warnings.begin(), named.warnings.end());
        panels.push_back(panel_as_shown(named));
        known.push_back({text, correction_from_spectra(meter.rows, panels.back(),
                                                       standard_observer<Cie1931_2deg>())});
    }
    ChooseOptions options;
    options.meter = std::move(meter.rows);
    options.safe_uv = request.limit_uv;
    Choices choices = choose_corrections(panels, known, options);
    answer.believable = choices.believable;
    answer.warnings.insert(answer.warnings.begin(), choices.warnings.begin(),
                           choices.warnings.end());
    for (std::size_t i = 0; i < panels.size(); ++i) {
        answer.none.push_back(choices.panels[i].none);
        std::vector<std::optional<ExpectedError>>& row = answer.with.emplace_back();
        for (std::size_t j = 0; j < panels.size(); ++j) {
            const CorrectionProspect& with = choices.panels[i].with[j];
            row.push_back(with.error);
            answer.worse_than_none += i != j && (!with.error || with.worse_than_none) ? 1 : 0;
        }
    }
    return answer;
}

}  // namespace samelight::report
