#include "report/meter/page/meter_model_document.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/meter/page/meter_charts.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model_uncertainty.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t model_name_room = 60;

VerdictLine model_verdict(const MeterModelAnswer& answer) {
    const std::string panel = short_name(answer.panel, model_name_room);
    switch (answer.verdict) {
        case assess::ModelVerdict::do_not_use:
            return {"Don't use this correction.", command_sentence(answer.warnings.front()),
                    Mood::stop, " "};
        case assess::ModelVerdict::use_on_type:
            return {"Use this correction",
                    "on a set of this type, " + panel + " (" + answer.panel_title +
                        "), until its own spectra are measured; not on another type.",
                    Mood::act, " "};
        case assess::ModelVerdict::use:
            break;
    }
    return {"Use this correction", "on " + panel + "; not on another set.", Mood::act, " "};
}

std::string aim_text(const MeterModelAnswer& answer) {
    const assess::MeterAim& aim = *answer.aim;
    const std::string what =
        answer.cones ? "L, M and S as " + to_text(aim.shares[0], 4) + " to " +
                           to_text(aim.shares[1], 4) + " to " + to_text(aim.shares[2], 4)
                     : "x " + to_text(aim.xy[0], 4) + ", y " + to_text(aim.xy[1], 4);
    return "To look like " + short_name(aim.reference, model_name_room) +
           ", every set must then read " + what +
           ", each through its own correction to this observer.";
}

/// What is measured of a colour: distances in x, y, or of cones in their shares.
std::string measured_in(const MeterModelAnswer& answer) {
    return answer.cones ? " in the shares of L and M" : " in x, y";
}

/// What the matrix is exact for, and what it leaves.
std::string exact_text(const MeterModelAnswer& answer) {
    if (answer.ways.empty()) {
        return "it is exact for these spectra.";
    }
    constexpr double exact = 1e-9;
    std::string names;
    const PatchResidual* worst = nullptr;
    for (const PatchResidual& r : answer.residuals) {
        if (r.after.xy() < exact) {
            names += (names.empty() ? "" : ", ") + r.patch;
        } else if (worst == nullptr || r.after.xy() > worst->after.xy()) {
            worst = &r;
        }
    }
    std::string text = names.empty() ? "it is exact for none of the four emitters"
                                     : "for these spectra it is exact for " + names + " only";
    if (worst != nullptr) {
        text += "; the worst that is left, on " + worst->patch + ", is " +
                to_text(worst->after.xy(), 4) + measured_in(answer);
    }
    return text + ".";
}

std::string how_sure(const MeterModelAnswer& answer) {
    const ModelUncertainty& d = answer.uncertainty;
    std::string text = "How sure: " + exact_text(answer) + " If the set's light lies " +
                       to_text(d.panel_shift_nm) +
                       " nm from where it was measured, white is off by up to " +
                       to_text(d.panel_xy, 4) + measured_in(answer);
    text += answer.meter.observer
                ? "."
                : "; if the meter's rows lie " + to_text(d.meter_shift_nm) +
                      " nm from where they are said to, by up to " + to_text(d.meter_xy, 4) + ".";
    if (answer.generic) {
        text += " Units of a type differ by about 2 nm: measure this one.";
    }
    return text;
}

Table model_matrix(const MeterModelAnswer& answer) {
    const Correction& correction = answer.stored.correction;
    Table table{std::string(answer.cones ? "L, M, S" : "Reference X, Y, Z") +
                    " from the meter's X, Y, Z (reference_from_meter), times " +
                    to_text(correction.luminance_factor, 5) + " for luminance",
                {{"", Align::left}, {"X"}, {"Y"}, {"Z"}},
                {}};
    for (std::size_t row = 0; row < 3; ++row) {
        std::vector<std::string> cells = {std::string(1, (answer.cones ? "LMS" : "XYZ")[row])};
        for (std::size_t column = 0; column < 3; ++column) {
            cells.push_back(to_text(correction.reference_from_meter[3 * row + column], 6));
        }
        table.rows.push_back(std::move(cells));
    }
    return table;
}

Table residual_table(const MeterModelAnswer& answer) {
    Table table{
        "", {{"COLOUR", Align::left}, {"OFF WITHOUT, x"}, {"y"}, {"OFF WITH, x"}, {"y"}}, {}};
    for (const PatchResidual& r : answer.residuals) {
        table.rows.push_back({r.patch, with_sign(r.before.x, 4), with_sign(r.before.y, 4),
                              with_sign(r.after.x, 4), with_sign(r.after.y, 4)});
    }
    return table;
}

Table ways_table(const MeterModelAnswer& answer) {
    Table table{answer.cones ? "Off in the shares of L and M." : "",
                {{"FOUR EMITTERS", Align::left}, {"WHITE OFF"}, {"WORST PRIMARY"}},
                {}};
    for (const assess::FourEmitterWay& way : answer.ways) {
        table.rows.push_back(
            {code_of(way.method), to_text(way.white_xy, 4), to_text(way.worst_primary_xy, 4)});
    }
    return table;
}

Table mismatch_table(const MeterModelAnswer& answer) {
    Table table{"Against CIE 1931, calibrated with illuminant A; for y the mismatch is f1'.",
                {{"CHANNEL", Align::left},
                 {"MISMATCH"},
                 {"LOBE, nm"},
                 {"STRENGTH"},
                 {"SHIFT, nm"},
                 {"FACTOR ON THIS WHITE"}},
                {}};
    for (std::size_t k = 0; k < 3; ++k) {
        const ChannelMismatch& channel = answer.mismatch->channels[k];
        bool first = true;
        for (const LobeMismatch& lobe : channel.lobes) {
            table.rows.push_back(
                {first ? channel.name : "", first ? to_text(100.0 * channel.index, 1) + " %" : "",
                 to_text(lobe.from_nm) + "-" + to_text(lobe.to_nm), to_text(lobe.area_ratio, 3),
                 lobe.centroid_shift_nm ? with_sign(*lobe.centroid_shift_nm, 1) : "none",
                 first ? to_text(answer.white_factors[k], 4) : ""});
            first = false;
        }
    }
    return table;
}

/// White without the correction and with it, in one line.
void add_white(const MeterModelAnswer& answer, Section& section) {
    const auto white = std::find_if(answer.residuals.begin(), answer.residuals.end(),
                                    [](const PatchResidual& r) { return r.patch == "white"; });
    if (!answer.cones && white != answer.residuals.end()) {
        section.add("white", Level::essential,
                    KeyFigures{{{"White off",
                                 "x " + with_sign(white->before.x, 4) + ", y " +
                                     with_sign(white->before.y, 4) + " without,",
                                 "x " + with_sign(white->after.x, 4) + ", y " +
                                     with_sign(white->after.y, 4) + " with it"}}});
    }
}

Section model_answer_section(const MeterModelAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, model_verdict(answer));
    const bool used = answer.verdict != assess::ModelVerdict::do_not_use;
    if (used) {
        section.add("reads", Level::essential,
                    Paragraph{"With it the meter reads " + answer.observer_title +
                              (answer.cones ? ": L, M, S." : " values of that set.")});
        if (answer.aim) {
            section.add("aim", Level::essential, Paragraph{aim_text(answer)});
        }
    }
    add_white(answer, section);
    section.add("how-sure", Level::essential, Paragraph{how_sure(answer)});
    add_meter_cautions(
        {answer.warnings.data() + (used ? 0 : 1), answer.warnings.size() - (used ? 0 : 1)},
        section);
    return section;
}

Section model_figures(const MeterModelAnswer& answer) {
    Section section{"figures", "What it is, and what it leaves"};
    section.heading_level = Level::reason;
    section.add("matrix", Level::reason, model_matrix(answer));
    if (!answer.cones) {
        section.add("residuals", Level::reason, residual_table(answer));
        section.add("residuals-chart", Level::reason, residuals_chart(answer.residuals));
    }
    if (!answer.ways.empty()) {
        section.add("ways", Level::reason, ways_table(answer));
    }
    if (!answer.meter.observer) {
        section.add("mismatch", Level::reason, mismatch_table(answer));
    }
    return section;
}

std::string model_rests_on(const MeterModelAnswer& answer) {
    const std::string spectra =
        answer.generic ? "a generic model of this type, not this unit," : "this unit's own spectra";
    std::string meter = "the meter's rows as given";
    if (answer.meter.observer) {
        meter = "a meter taken to be the observer " + answer.meter.rows.observer;
    } else if (answer.meter.scale == RowScale::illuminant_a) {
        meter = "the meter's rows, scaled on illuminant A";
    }
    return "Rests on " + spectra + " and " + meter + ".";
}

}  // namespace

Document meter_model_document(const MeterModelAnswer& answer) {
    Document document{"A correction of the meter for " + answer.panel, {}};
    document.sections.push_back(model_answer_section(answer));
    document.sections.push_back(model_figures(answer));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("rests-on", Level::reason, Paragraph{model_rests_on(answer)});
    add_meter_reading(answer.warnings, answer.understood, foundation);
    document.sections.push_back(std::move(foundation));
    return document;
}

}  // namespace samelight::report
