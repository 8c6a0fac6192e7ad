#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "report/meter/meter_fit_verdict.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/fit_words.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {
namespace {

std::string head_text(const MeterFitAnswer& answer) {
    return short_name(answer.name, file_room) + ": " + std::to_string(answer.pair_count) +
           " pairs of readings, " + std::to_string(answer.patch_count) +
           (answer.patch_count == 1 ? " colour, " : " colours, ") +
           std::to_string(answer.round_count) +
           (answer.round_count == 1 ? " round. Method: " : " rounds. Method: ") +
           code_of(answer.stored.correction.method) + ".";
}

std::string white_row(const std::string& name, const std::array<double, 3>& xyz) {
    const auto v = xyY_from_xyz(xyz);
    return "  " + padded(name, 24) + padded_left(to_text(v[0], 4), 9) +
           padded_left(to_text(v[1], 4), 9) + padded_left(to_text(v[2], 2), 12) + "\n";
}

/// "0.0012"; "0.0001 or less" for what would read as nothing.
std::string or_less(double value, int decimals, const std::string& unit = "") {
    const double least = std::pow(10.0, -decimals);
    return value < 0.5 * least ? to_text(least, decimals) + unit + " or less"
                               : to_text(value, decimals) + unit;
}

std::string within(double half_width, int decimals, const std::string& unit = "") {
    return std::isfinite(half_width) ? or_less(half_width, decimals, unit)
                                     : "(too few repeats to say)" + unit;
}

std::string sure_text(const MeterFitAnswer& answer) {
    if (!answer.quality.white) {
        return "How sure is not known: read each colour three times or more.";
    }
    const auto half = answer.quality.white->half_widths();
    const bool luminance_known = answer.stored.correction.covariance->luminance_known;
    const bool stated = noise_text(answer).rfind("as stated", 0) == 0;
    std::string text =
        "19 times in 20 the truth is within " + within(half[0], 4) + " of the corrected x" +
        (luminance_known ? ", " : " and ") + within(half[1], 4) + " of y" +
        (luminance_known ? " and " + within(100.0 * half[2], 1, " %") + " of Y" : "") +
        ", as far as the readings' scatter and their last digits go (noise " +
        (stated ? "" : "from ") + noise_text(answer) + ").";
    if (!luminance_known) {
        text += " How sure Y is is not known: there are no repeats, and no noise of Y was stated.";
    }
    if (answer.bootstrap && answer.white) {
        const Moments m = answer.bootstrap->corrected(answer.white->meter);
        text += " Readings drawn again move white by " + or_less(m.covariance.standard(0), 5) +
                " in x and " + or_less(m.covariance.standard(1), 5) + " in y, two times in three.";
    }
    text +=
        " All this is of a later reading that says the same as these whites' mean and is put through the "
        "matrix; its own scatter, drift and what the reference itself is off are not in it.";
    return text;
}

std::string white_text(const MeterFitAnswer& answer) {
    if (!answer.white) {
        return "";
    }
    const Correction& c = answer.stored.correction;
    return "\n  " + padded("WHITE", 24) + "        x        y     Y cd/m2\n" +
           white_row("the meter says", answer.white->meter) +
           white_row("corrected", c.corrected_xyz(answer.white->meter)) +
           white_row("the reference says", answer.white->reference) +
           paragraph("  ", sure_text(answer));
}

std::string error_row(const std::string& name, const ColourError& before,
                      const ColourError& after) {
    const auto de00 = [](const ColourError& e) {
        return e.de00 ? to_text(*e.de00, 2) : std::string("-");
    };
    return "  " + padded(name, 24) + padded_left(to_text(before.xy(), 4), 9) +
           padded_left(to_text(after.xy(), 4), 9) + padded_left(to_text(before.uv(), 4), 10) +
           padded_left(to_text(after.uv(), 4), 9) + padded_left(de00(before), 9) +
           padded_left(de00(after), 7) +
           padded_left(with_sign(100.0 * before.luminance, 1) + " %", 11) +
           padded_left(with_sign(100.0 * after.luminance, 1) + " %", 9) + "\n";
}

/// Many colours are told by their figures of the lot and the worst few.
std::string proof_text(const MeterFitAnswer& answer) {
    const auto& left_out = answer.quality.left_out;
    if (left_out.empty()) {
        return "";
    }
    constexpr std::size_t most = 12;
    std::vector<const ProvenError*> shown;
    for (const ProvenError& e : left_out) {
        shown.push_back(&e);
    }
    const bool cut = shown.size() > most;
    if (cut) {
        std::stable_sort(shown.begin(), shown.end(), [](const auto* a, const auto* b) {
            return a->error.xy() > b->error.xy();
        });
        shown.resize(most);
    }
    std::string page = "\n  " + padded(cut ? "COLOURS LEFT OUT, worst" : "COLOURS LEFT OUT", 24) +
                       "     x, y    after     u'v'    after     DE00  after         Y    after\n";
    for (const ProvenError* e : shown) {
        const auto& residuals = answer.stored.correction.residuals;
        const auto before = std::find_if(residuals.begin(), residuals.end(),
                                         [&](const auto& r) { return r.patch == e->patch; });
        if (before != residuals.end()) {
            page += error_row(short_name(e->patch, 23), before->before, e->error);
        }
    }
    const ErrorSummary all = summarise(left_out);
    return page +
           paragraph("  ",
                     "In all (root of the mean square) " + to_text(all.xy.root_mean_square, 4) +
                         " in x, y, " + to_text(all.uv.root_mean_square, 4) + " u'v'" +
                         (all.de00 ? ", DE00 " + to_text(all.de00->mean, 2) + " on average, " +
                                         to_text(all.de00->largest, 2) + " at most"
                                   : "") +
                         ", Y " + to_text(100.0 * all.luminance.root_mean_square, 1) + " %.");
}

std::string repeated_text(const MeterFitAnswer& answer) {
    if (answer.quality.repeated.empty()) {
        return "";
    }
    const ErrorSummary s = summarise(answer.quality.repeated);
    return paragraph("  ", "Each round read with the correction of the others: " +
                               to_text(s.xy.root_mean_square, 4) + " in x, y, " +
                               to_text(s.uv.root_mean_square, 4) + " u'v'" +
                               (s.de00 ? ", DE00 " + to_text(s.de00->mean, 2) : "") + ", Y " +
                               to_text(100.0 * s.luminance.root_mean_square, 1) +
                               " %, the noise of a single reading with it.");
}

/// A refusal without its place and its wish.
std::string short_refusal(const std::string& text) {
    const std::size_t colon = text.find(": ");
    const std::size_t from = colon == std::string::npos ? 0 : colon + 2;
    return text.substr(from, text.find("; wanted") - from);
}

std::string others_text(const MeterFitAnswer& answer) {
    std::string page =
        "\n  " + padded("OTHER METHODS", 28) + "  white x        y    within x, y       left out\n";
    for (const assess::OtherMethod& other : answer.other_methods) {
        const std::string name = padded(code_of(other.method), 28);
        if (!other.refusal.empty()) {
            page += paragraph("  " + name + "  ", "not here: " + short_refusal(other.refusal));
            continue;
        }
        const auto pair = [](const std::optional<std::array<double, 2>>& v, std::size_t k) {
            if (!v || !std::isfinite((*v)[k])) {
                return std::string("-");
            }
            return (*v)[k] < 5e-5 ? std::string("<.0001") : to_text((*v)[k], 4);
        };
        page += "  " + name + padded_left(pair(other.white_xy, 0), 9) +
                padded_left(pair(other.white_xy, 1), 9) +
                padded_left(pair(other.half_widths, 0) + ", " + pair(other.half_widths, 1), 15) +
                padded_left(other.left_out_xy ? to_text(*other.left_out_xy, 4) : "-", 15) + "\n";
    }
    if (answer.stored.correction.method == CorrectionMethod::four_colour) {
        page += paragraph("  ",
                          "The four-colour method uses chromaticities alone, so a display that "
                          "flickers or dims while it is read leaves it as it is; the others feel "
                          "every error in Y.");
    }
    return page;
}

std::string next_text(const MeterFitAnswer& answer) {
    std::string page;
    if (answer.advice) {
        const StopReason reason = answer.advice->reason;
        const bool says_itself = reason == StopReason::read_again ||
                                 reason == StopReason::do_not_use ||
                                 reason == StopReason::out_of_reach;
        const std::string first = answer.advice->stop ? "Stop reading. "
                                  : says_itself       ? ""
                                                      : "Read on. ";
        page += paragraph("  ", first + sentence(*answer.advice, answer.judgement));
    }
    if (answer.advice && !answer.advice->stop &&
        answer.advice->reason != StopReason::out_of_reach && !answer.next.empty()) {
        const NextPatch& next = answer.next.front();
        page += paragraph("  ", "Read " + next.patch +
                                    " next: one more pair of readings of it makes "
                                    "white surer by " +
                                    to_text(100.0 * next.reduction, 0) +
                                    " %, more than any other colour.");
    }
    return page.empty() ? page : "\n  NEXT\n" + page;
}

/// "at most 0.0012", "less than 0.0001".
std::string at_most(double value, int decimals) {
    const double least = std::pow(10.0, -decimals);
    return value < 0.5 * least ? "less than " + to_text(least, decimals)
                               : "at most " + to_text(value, decimals);
}

std::string drift_text(const MeterFitAnswer& answer) {
    double luminance = 0.0;
    double xy = 0.0;
    for (const WhiteDrift& d : answer.quality.drift) {
        luminance = std::max(luminance, std::abs(d.luminance));
        xy = std::max(xy, std::hypot(d.x, d.y));
    }
    const auto any = [&](bool (WhiteDrift::*is)() const) {
        return std::any_of(answer.quality.drift.begin(), answer.quality.drift.end(),
                           [&](const WhiteDrift& d) { return (d.*is)(); });
    };
    if (answer.quality.drift.empty() || !answer.quality.steady_drift.empty() ||
        any(&WhiteDrift::beyond_noise)) {
        return "";  // a warning says it
    }
    if (any(&WhiteDrift::marked)) {
        return paragraph("  ", "White moved within a round by " + at_most(100.0 * luminance, 1) +
                                   " % in Y and " + at_most(xy, 4) +
                                   " in x, y from first to last, no more than these readings "
                                   "scatter anyway.");
    }
    return paragraph("  ", "White held still: within a round " + at_most(100.0 * luminance, 1) +
                               " % in Y and " + at_most(xy, 4) + " in x, y from first to last.");
}

std::string matrix_text(const MeterFitAnswer& answer) {
    const auto m = answer.stored.correction.xyz_from_meter();
    std::string page = "\n  X, Y, Z OF THE REFERENCE FROM THOSE OF THE METER (luminance factor " +
                       to_text(answer.stored.correction.luminance_factor, 5) + " in it)\n";
    for (std::size_t i = 0; i < 9; i += 3) {
        page += "  ";
        for (std::size_t k = i; k < i + 3; ++k) {
            page += padded_left(to_text(m[k], 8), 14);
        }
        page += "\n";
    }
    if (answer.stored.correction.valid_near) {
        return page;
    }
    return page + paragraph("  ", "Condition number of the colours " +
                                      to_text(answer.stored.correction.condition_number, 1) +
                                      " (about 2 to 5 is usual for red, green and blue; 100 is "
                                      "refused).");
}

std::string reading_text(const MeterFitAnswer& answer) {
    std::string page;
    for (const Warning& warning : answer.warnings) {
        page += paragraph("  ! ", command_sentence(warning));
    }
    std::string text = "Read so:";
    for (const std::string& sentence : answer.understood) {
        text += " " + sentence;
    }
    if (answer.pair_count > answer.patch_count) {
        text += " Of repeats x, y and Y are averaged, not X, Y and Z.";
    }
    if (answer.black &&
        (answer.black->meter.above_noise() || answer.black->reference.above_noise())) {
        text += " Black was taken off: " + to_text(answer.black->reference.xyz[1], 4) +
                " cd/m2 by the reference, " + to_text(answer.black->meter.xyz[1], 4) +
                " by the meter" +
                (answer.black->meter.above_noise() && answer.black->reference.above_noise()
                     ? "."
                     : ", where above its noise.");
    }
    return page + paragraph("  - ", text);
}

}  // namespace

std::string meter_fit_page(const MeterFitAnswer& answer) {
    return paragraph("", fit_verdict_text(answer)) + paragraph("", sentence(answer.judgement)) +
           fit_elsewhere_text(answer) + paragraph("", head_text(answer)) + white_text(answer) +
           proof_text(answer) + repeated_text(answer) + drift_text(answer) + others_text(answer) +
           next_text(answer) + matrix_text(answer) + "\n" + reading_text(answer) +
           (answer.kept_in.empty()
                ? ""
                : paragraph("", "Kept in " + short_name(answer.kept_in, file_room) + "."));
}

}  // namespace samelight::report
