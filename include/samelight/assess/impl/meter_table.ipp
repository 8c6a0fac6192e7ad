#pragma once
// The bodies of assess/meter_table.hpp.

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE void require_table_displays(std::size_t count) {
    if (count > most_table_displays) {
        throw Error(ErrorKind::input, "table", std::to_string(count) + " displays",
                    std::to_string(most_table_displays) +
                        " at most: it has a figure for each pair of them");
    }
}

SAMELIGHT_INLINE std::vector<ListedPanel> generic_panel_list(const Sampling& sampling) {
    std::vector<ListedPanel> list;
    for (const GenericModel& model : generic_models()) {
        list.push_back({std::string(model.name()), generic_panel(model, sampling), &model});
    }
    return list;
}

SAMELIGHT_INLINE MeterTableAnswer answer_meter_table(const MeterTableRequest& request) {
    require_table_displays(request.panels.size());
    MeterTableAnswer answer;
    answer.meter = request.meter.rows.observer;
    answer.limit_uv = request.limit_uv;
    answer.warnings = request.meter.warnings;
    std::vector<Panel> panels;
    std::vector<CandidateCorrection> known;
    for (const ListedPanel& given : request.panels) {
        answer.panels.push_back(given.name);
        answer.warnings.insert(answer.warnings.end(), given.warnings.begin(), given.warnings.end());
        panels.push_back(panel_as_shown(given.panel, given.set_to));
        known.push_back({given.name, correction_from_spectra(request.meter.rows, panels.back(),
                                                             standard_observer<Cie1931_2deg>())});
    }
    ChooseOptions options;
    options.meter = request.meter.rows;
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

}  // namespace samelight::assess
