// The patches of a visit as a list to be filled in.
#include <algorithm>
#include <cstddef>
#include <string>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/visit_answer.hpp"

#include "report/document/csv_cell.hpp"

namespace samelight::report {
namespace {

std::size_t display_listed(const VisitPage& answer, const std::string& display) {
    const auto& displays = answer.visit.displays;
    std::size_t at = 0;
    if (display.empty() && displays.size() > 1) {
        throw Error(ErrorKind::input, ErrorPlace{"--write-for"}, "a list for several displays",
                    "the name of one of them");
    }
    while (!display.empty() && at < displays.size() && displays[at].name != display) {
        ++at;
    }
    const bool planned = std::any_of(answer.plan.steps.begin(), answer.plan.steps.end(),
                                     [&](const VisitPlanStep& s) { return s.display == at; });
    if (at == displays.size() || !planned) {
        throw Error(ErrorKind::input, ErrorPlace{"--write-for"}, "\"" + display + "\"",
                    "a display of the plan");
    }
    return at;
}

/// One row: a reading by one instrument.
std::string row_to_fill(const VisitPatch& patch, const std::string& instrument,
                        const std::string& mode, int repeat, const Quantisation& quantisation) {
    const auto codes = codes_of(patch.signal, quantisation);
    std::string row =
        csv_cell(patch.name) + "," + instrument + csv_cell(mode) + "," + std::to_string(repeat);
    for (const int code : codes) {
        row += "," + std::to_string(code);
    }
    return row + "," + std::to_string(quantisation.bits()) + "," +
           (quantisation.range() == SignalRange::full ? "full" : "limited") + "," +
           to_text(patch.window_pct) + ",,,\n";
}

void add_step_rows(const VisitPage& answer, const VisitPlanStep& step, PatchList list,
                   std::string& text) {
    const std::string& mode = answer.visit.displays[step.display].modes[step.mode].name;
    const Quantisation& quantisation = answer.visit.quantisation;
    for (int round = 1; round <= step.readings.rounds; ++round) {
        for (std::size_t i = 0; i < step.readings.patches.size(); ++i) {
            const VisitPatch& patch = step.readings.patches[i];
            if (list == PatchList::meter) {
                text += row_to_fill(patch, "", mode, round, quantisation);
            } else if (i < step.readings.with_reference) {
                text += row_to_fill(patch, "reference,", mode, round, quantisation);
                text += row_to_fill(patch, "meter,", mode, round, quantisation);
            }
        }
    }
}

}  // namespace

std::string visit_patches_csv(const VisitPage& answer, const std::string& display, PatchList list) {
    const std::size_t at = display_listed(answer, display);
    std::string text = std::string("patch,") + (list == PatchList::pairs ? "instrument," : "") +
                       "mode,repeat,r,g,b,bits,range,window_pct,X,Y,Z\n";
    for (const VisitPlanStep& step : answer.plan.steps) {
        // White before it is set is read for the setting alone.
        const bool before = list == PatchList::meter && step.step == VisitStep::white_first;
        if (step.display == at && !before) {
            add_step_rows(answer, step, list, text);
        }
    }
    return text;
}

}  // namespace samelight::report
