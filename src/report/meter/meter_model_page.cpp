#include <cmath>
#include <string>

#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model_uncertainty.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t name_room = 60;

std::string use_text(const MeterModelAnswer& answer) {
    const std::string panel = short_name(answer.panel, name_room);
    switch (answer.verdict) {
        case assess::ModelVerdict::do_not_use:
            return "Don't use this correction. " + command_sentence(answer.warnings.front());
        case assess::ModelVerdict::use_on_type:
            return "Use this correction on a set of this type, " + panel + " (" +
                   answer.panel_title +
                   "), until its own spectra are measured; not on another type.";
        case assess::ModelVerdict::use:
            break;
    }
    return "Use this correction on " + panel + "; not on another set.";
}

std::string aim_text(const MeterModelAnswer& answer) {
    const assess::MeterAim& aim = *answer.aim;
    const std::string what =
        answer.cones ? "L, M and S as " + to_text(aim.shares[0], 4) + " to " +
                           to_text(aim.shares[1], 4) + " to " + to_text(aim.shares[2], 4)
                     : "x " + to_text(aim.xy[0], 4) + ", y " + to_text(aim.xy[1], 4);
    return "To look like " + short_name(aim.reference, name_room) + ", every set must then read " +
           what + ", each through its own correction to this observer.";
}

std::string verdict_text(const MeterModelAnswer& answer) {
    std::string page = paragraph("", use_text(answer));
    if (answer.verdict == assess::ModelVerdict::do_not_use) {
        return page;
    }
    page += paragraph("", "With it the meter reads " + answer.observer_title +
                              (answer.cones ? ": L, M, S." : " values of that set."));
    return answer.aim ? page + paragraph("", aim_text(answer)) : page;
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

std::string uncertainty_text(const MeterModelAnswer& answer) {
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
    return paragraph("", text);
}

std::string matrix_text(const MeterModelAnswer& answer) {
    const Correction& correction = answer.stored.correction;
    std::string page = std::string(answer.cones ? "L, M, S" : "Reference X, Y, Z") +
                       " from the meter's X, Y, Z (reference_from_meter):\n";
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
    for (const PatchResidual& r : answer.residuals) {
        page += "  " + padded(r.patch, 12) + padded_left(with_sign(r.before.x, 4), 18) +
                padded_left(with_sign(r.before.y, 4), 10) +
                padded_left(with_sign(r.after.x, 4), 15) +
                padded_left(with_sign(r.after.y, 4), 10) + "\n";
    }
    return page;
}

std::string ways_text(const MeterModelAnswer& answer) {
    std::string page = "  " + padded("FOUR EMITTERS", 28) + padded_left("WHITE OFF", 12) +
                       padded_left("WORST PRIMARY", 16) + "\n";
    for (const assess::FourEmitterWay& way : answer.ways) {
        page += "  " + padded(code_of(way.method), 28) + padded_left(to_text(way.white_xy, 4), 12) +
                padded_left(to_text(way.worst_primary_xy, 4), 16) + "\n";
    }
    return answer.cones ? page + paragraph("  ", "Off in the shares of L and M.") : page;
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
            page +=
                "  " + padded(first ? channel.name : "", 10) +
                padded_left(first ? to_text(100.0 * channel.index, 1) + " %" : "", 10) +
                padded_left(to_text(lobe.from_nm) + "-" + to_text(lobe.to_nm), 12) +
                padded_left(to_text(lobe.area_ratio, 3), 10) +
                padded_left(lobe.centroid_shift_nm ? with_sign(*lobe.centroid_shift_nm, 1) : "none",
                            11) +
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
    page += "\n" + uncertainty_text(answer);
    page += "\n" + matrix_text(answer);
    if (!answer.cones) {
        page += "\n" + residual_table(answer);
    }
    if (!answer.ways.empty()) {
        page += "\n" + ways_text(answer);
    }
    if (!answer.meter.observer) {
        page += "\n" + mismatch_table(answer);
    }
    page += "\n";
    const std::size_t said = answer.verdict == assess::ModelVerdict::do_not_use ? 1 : 0;
    for (std::size_t i = said; i < answer.warnings.size(); ++i) {
        page += paragraph("! ", command_sentence(answer.warnings[i]));
    }
    const std::string spectra =
        answer.generic ? "a generic model of this type, not this unit," : "this unit's own spectra";
    std::string meter = "the meter's rows as given";
    if (answer.meter.observer) {
        meter = "a meter taken to be the observer " + answer.meter.rows.observer;
    } else if (answer.meter.scale == RowScale::illuminant_a) {
        meter = "the meter's rows, scaled on illuminant A";
    }
    page += paragraph("", "Rests on " + spectra + " and " + meter + ".");
    return page + read_so(answer.understood);
}

}  // namespace samelight::report
