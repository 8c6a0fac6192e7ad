#include <cmath>
#include <string>

#include "samelight/numeric/text.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "short_name.hpp"
#include "text_layout.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t name_room = 60;

std::string verdict_text(const MeterModelAnswer& answer) {
    const std::string panel = short_name(answer.panel, name_room);
    std::string page =
        answer.generic
            ? paragraph("", "Use this correction on a set of this type, " + panel + " (" +
                                answer.panel_title +
                                "), until its own spectra are measured; not on another type.")
            : paragraph("", "Use this correction on " + panel + "; not on another set.");
    page += paragraph("", "With it the meter reads " + answer.observer_title +
                              (answer.cones ? ": L, M, S, whose shares stand for x, y below."
                                            : " values of that set."));
    if (answer.aim) {
        page += paragraph("", "To look like " + short_name(answer.aim->reference, name_room) +
                                  ", every set must then read x " + to_text(answer.aim->xy[0], 4) +
                                  ", y " + to_text(answer.aim->xy[1], 4) +
                                  ", each through its own correction to this observer.");
    }
    return page;
}

std::string doubt_text(const MeterModelAnswer& answer) {
    const ModelDoubt& d = answer.doubt;
    std::string text = "How sure: it is exact for these spectra. If the set's light lies " +
                       to_text(d.panel_shift_nm) +
                       " nm from where it was measured, white is off by up to " +
                       to_text(d.panel_xy, 4) + " in x, y";
    text += answer.meter.observer
                ? "."
                : "; if the meter's rows lie " + to_text(d.meter_shift_nm) +
                      " nm from where they are said to, by up to " + to_text(d.meter_xy, 4) + ".";
    if (answer.generic) {
        text += " Units of a type differ by about 2 nm: measure this one.";
    }
    return paragraph("", text);
}

std::string matrix_text(const Correction& correction) {
    std::string page = "Reference X, Y, Z from the meter's (reference_from_meter):\n";
    for (std::size_t row = 0; row < 3; ++row) {
        page += "   ";
        for (std::size_t column = 0; column < 3; ++column) {
            page += padded_left(to_text(correction.reference_from_meter[3 * row + column], 6), 12);
        }
        page += "\n";
    }
    return page + "    times " + to_text(correction.luminance_factor, 5) + " for luminance\n";
}

std::string residual_table(const MeterModelAnswer& answer) {
    std::string page = "  " + padded("COLOUR", 12) + padded_left("OFF WITHOUT, x", 18) +
                       padded_left("y", 10) + padded_left("OFF WITH, x", 15) +
                       padded_left("y", 10) + "\n";
    for (const PatchResidual& r : answer.stored.correction.residuals) {
        page += "  " + padded(r.patch, 12) + padded_left(with_sign(r.before.x, 4), 18) +
                padded_left(with_sign(r.before.y, 4), 10) +
                padded_left(with_sign(r.after.x, 4), 15) +
                padded_left(with_sign(r.after.y, 4), 10) + "\n";
    }
    return page;
}

std::string ways_text(const std::vector<FourEmitterWay>& ways) {
    std::string page = "  " + padded("FOUR EMITTERS", 28) + padded_left("WHITE OFF", 12) +
                       padded_left("WORST PRIMARY", 16) + "\n";
    for (const FourEmitterWay& way : ways) {
        page += "  " + padded(name_of(way.method), 28) + padded_left(to_text(way.white_xy, 4), 12) +
                padded_left(to_text(way.worst_primary_xy, 4), 16) + "\n";
    }
    return page;
}

std::string mismatch_table(const MeterModelAnswer& answer) {
    std::string page = "  " + padded("CHANNEL", 10) + padded_left("MISMATCH", 10) +
                       padded_left("LOBE, nm", 12) + padded_left("STRENGTH", 10) +
                       padded_left("SHIFT, nm", 11) + padded_left("FACTOR ON THIS WHITE", 23) +
                       "\n";
    for (std::size_t k = 0; k < 3; ++k) {
        const ChannelMismatch& channel = answer.mismatch->channels[k];
        bool first = true;
        for (const LobeMismatch& lobe : channel.lobes) {
            page += "  " + padded(first ? channel.name : "", 10) +
                    padded_left(first ? to_text(100.0 * channel.index, 1) + " %" : "", 10) +
                    padded_left(to_text(lobe.from_nm) + "-" + to_text(lobe.to_nm), 12) +
                    padded_left(to_text(lobe.area_ratio, 3), 10) +
                    padded_left(with_sign(lobe.centroid_shift_nm, 1), 11) +
                    (first ? padded_left(to_text(answer.white_factors[k], 4), 23) : "") + "\n";
            first = false;
        }
    }
    return page +
           paragraph("  ",
                     "Against CIE 1931, calibrated with illuminant A; for y the mismatch is f1'.");
}

}  // namespace

std::string meter_model_page(const MeterModelAnswer& answer) {
    std::string page = verdict_text(answer);
    page += "\n" + doubt_text(answer);
    page += "\n" + matrix_text(answer.stored.correction);
    if (!answer.cones) {
        page += "\n" + residual_table(answer);
    }
    if (!answer.ways.empty()) {
        page += "\n" + ways_text(answer.ways);
    }
    if (!answer.meter.observer) {
        page += "\n" + mismatch_table(answer);
    }
    page += "\n";
    for (const Warning& warning : answer.warnings) {
        page += paragraph("! ", warning.message);
    }
    const std::string spectra =
        answer.generic ? "a generic model of this type, not this unit" : "this unit's own spectra";
    std::string meter = "the meter's rows as given";
    if (answer.meter.observer) {
        meter = "a meter taken to be the observer " + answer.meter.rows.observer;
    } else if (answer.meter.scale == io::RowScale::illuminant_a) {
        meter = "the meter's rows, scaled on illuminant A";
    }
    page += paragraph("", "Rests on " + spectra + " and " + meter + ".");
    return page + read_so(answer.understood);
}

}  // namespace samelight::report
