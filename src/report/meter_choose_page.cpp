#include <algorithm>
#include <string>

#include "samelight/numeric/text.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "short_name.hpp"
#include "text_layout.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t name_room = 40;

/// "about 0.0012 off", or that it can't be seen in four places.
std::string off_text(const ExpectedError& error) {
    return error.white_xy < 5e-5 ? "white less than 0.0001 off in x, y"
                                 : "white about " + to_text(error.white_xy, 4) + " off in x, y";
}

std::string verdict_text(const MeterChooseAnswer& answer, const ChosenPanel& panel) {
    const PanelChoice& c = panel.choice;
    const std::string name = short_name(c.panel, name_room);
    const std::string best =
        c.best ? short_name(answer.corrections[*c.best], name_room) : std::string();
    const std::string off = off_text(c.chosen());
    switch (c.verdict) {
        case Choice::safe:
            return name + ": safe. Use " + best + " here: " + off + ", " +
                   to_text(c.none.white_xy, 4) + " without.";
        case Choice::use_none:
            if (answer.corrections.empty()) {
                return name + ": no correction is at hand; the meter as it is leaves " + off +
                       (c.good_enough ? "." : ": measure this panel.");
            }
            return name +
                   ": use none. No stored correction does better here than the meter as it "
                   "is, white about " +
                   off + (c.good_enough ? "." : ": measure this panel.");
        case Choice::measure_panel:
            break;
    }
    return name + ": measure this panel. Until then use " + best + ": " + off + ", " +
           to_text(c.none.white_xy, 4) + " without.";
}

/// "not on the other set": where a correction that is used on one panel must not go.
std::string not_there_text(const MeterChooseAnswer& answer) {
    std::string page;
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        std::string where;
        for (const ChosenPanel& panel : answer.panels) {
            if (panel.choice.with[j].worse_than_none) {
                where += (where.empty() ? "" : ", ") + short_name(panel.choice.panel, name_room);
            }
        }
        if (!where.empty()) {
            page += paragraph("", "Don't use " + short_name(answer.corrections[j], name_room) +
                                      " on " + where + ": worse than none there.");
        }
    }
    return page;
}

std::string keep_text(const KeepPart& part) {
    const KeepVerdict& v = part.verdict;
    const std::string name = short_name(part.under, name_room);
    const std::string figures = "the white is x " + with_sign(v.dx, 4) + ", y " +
                                with_sign(v.dy, 4) + " off the reference (" + to_text(v.uv, 4) +
                                " u'v', give or take " + to_text(2.0 * v.uv_sd, 4) +
                                ", 19 times in 20).";
    std::string text;
    switch (v.verdict) {
        case Keep::keep:
            text = "Keep " + name + ": " + figures + " One white says nothing of strong colours.";
            break;
        case Keep::read_again:
            text = "Can't tell yet whether " + name + " still holds: " + figures + " Read white " +
                   std::to_string(v.readings_wanted) +
                   " times with both instruments and ask again with the means.";
            break;
        case Keep::refit:
            text = "Make a new correction, " + name + " no longer holds: " + figures;
            break;
    }
    std::string page = paragraph("", text);
    for (const WhiteWith& other : part.others) {
        page += "    that white with " + padded(short_name(other.name, name_room), 40) + " x " +
                to_text(other.xy[0], 4) + " y " + to_text(other.xy[1], 4) + ", off " +
                to_text(other.off_xy, 4) + "\n";
    }
    return page;
}

std::string row(const std::string& name, const ExpectedError& e, const std::string& remark) {
    return "    " + padded(name, 40) + padded_left(to_text(e.white_xy, 4), 10) +
           padded_left(to_text(e.white_uv, 4), 9) + padded_left(to_text(e.white_de00, 1), 7) +
           padded_left(to_text(e.primaries_xy, 4), 11) + remark + "\n";
}

std::string table(const MeterChooseAnswer& answer) {
    std::string page = "  " + padded("READ WITH", 42) + padded_left("WHITE xy", 10) +
                       padded_left("u'v'", 9) + padded_left("DE00", 7) +
                       padded_left("COLOURS xy", 11) + "\n";
    for (const ChosenPanel& panel : answer.panels) {
        page += "  " + short_name(panel.choice.panel, 90) + "\n";
        page += row("none", panel.choice.none, "");
        for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
            const CorrectionProspect& with = panel.choice.with[j];
            const std::string name = short_name(answer.corrections[j], 40);
            if (with.error) {
                page += row(name, *with.error,
                            panel.choice.best == j ? "   best"
                            : with.worse_than_none ? "   worse than none"
                                                   : "");
            } else {
                page += paragraph("    ", name + ": " + with.why_not + ".");
            }
        }
    }
    return page;
}

std::string type_text(const MeterChooseAnswer& answer, const ChosenPanel& panel) {
    const TypeDistance& nearest = panel.type.types.front();
    const std::string name = nearest.model != nullptr ? std::string(nearest.model->name()) : "";
    std::string text =
        short_name(panel.choice.panel, name_room) + " is " +
        (panel.type.unlike_anything_known() ? "unlike anything known (nearest: " + name + ", "
                                            : "of the type " + panel.type.describe() + " (");
    text += to_text(nearest.distance_nm, 1) + " nm away).";
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (panel.choice.with[j].panel_distance_nm) {
            text += " The display of " + short_name(answer.corrections[j], name_room) + " is " +
                    to_text(*panel.choice.with[j].panel_distance_nm, 1) + " nm away.";
        }
    }
    return paragraph("  ", text);
}

std::string foundation(const MeterChooseAnswer& answer) {
    return answer.meter_known
               ? "Rests on the meter's own rows (" + short_name(answer.meter, name_room) +
                     ") and the panels' spectra: the errors are those of the spectra, without "
                     "noise and drift."
               : "Rests on what the stored corrections show of the meter, and beyond that on a "
                 "filter meter of f1' " +
                     to_text(answer.supposed_mismatch_percent, 1) +
                     " % supposed: errors are what is to be expected of such meters (two in three "
                     "stay within), not of yours. Its sensitivities (--meter) would say more.";
}

}  // namespace

std::string meter_choose_page(const MeterChooseAnswer& answer) {
    std::string page;
    if (answer.keep) {
        page += keep_text(*answer.keep) + "\n";
    }
    for (const ChosenPanel& panel : answer.panels) {
        page += paragraph("", verdict_text(answer, panel));
    }
    page += not_there_text(answer);
    page += "\n" + table(answer) + "\n";
    for (const ChosenPanel& panel : answer.panels) {
        page += type_text(answer, panel);
    }
    page += "\n";
    for (const Warning& warning : answer.warnings) {
        page += paragraph("! ", warning.message);
    }
    page += paragraph("", "Good enough: white within " + to_text(answer.limit_uv, 4) +
                              " u'v', which is about what can just be seen side by side.");
    page += paragraph("", foundation(answer));
    return page + read_so(answer.understood);
}

}  // namespace samelight::report
