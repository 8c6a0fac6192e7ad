#include "report/meter/page/meter_fit_document.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>

#include "report/meter/meter_fit_verdict.hpp"
#include "report/meter/page/meter_fit_white.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
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

Mood mood_of(FitVerdict verdict) {
    switch (verdict) {
        case FitVerdict::use:
        case FitVerdict::use_unproven:
            return Mood::act;
        case FitVerdict::not_needed:
            return Mood::leave;
        case FitVerdict::read_again:
            return Mood::look;
        case FitVerdict::do_not_use:
            break;
    }
    return Mood::stop;
}

/// Whether more rounds are needed.
std::string advice_said(const MeterFitAnswer& answer) {
    const StopReason reason = answer.advice->reason;
    const bool says_itself = reason == StopReason::read_again || reason == StopReason::do_not_use ||
                             reason == StopReason::out_of_reach;
    const std::string first = answer.advice->stop ? "No more readings are needed. "
                              : says_itself       ? ""
                                                  : "Read on. ";
    return first + sentence(*answer.advice, answer.judgement);
}

void add_next(const MeterFitAnswer& answer, Section& section) {
    if (!answer.advice) {
        return;
    }
    // Noise that must come down is said once at first: as the reason.
    const bool said = answer.advice->reason == StopReason::out_of_reach &&
                      answer.judgement.reason == FitReason::too_noisy_to_use;
    section.add("rounds", said ? Level::reason : Level::essential, Paragraph{advice_said(answer)});
    if (!answer.advice->stop && answer.advice->reason != StopReason::out_of_reach &&
        !answer.next.empty()) {
        const NextPatch& next = answer.next.front();
        section.add(
            "next", Level::essential,
            Paragraph{"Read " + next.patch +
                      " next: one more pair of readings of it makes white surer by " +
                      to_text(100.0 * next.reduction, 0) + " %, more than any other colour."});
    }
}

/// Where else it may be used: of other displays that were read at once, else a word of warning.
void add_elsewhere(const MeterFitAnswer& answer, Section& section) {
    const Level level = answer.other_displays.empty() ? Level::reason : Level::essential;
    std::size_t number = 0;
    for (const std::string& words : fit_elsewhere(answer)) {
        section.add("elsewhere-" + std::to_string(++number), level, Paragraph{words});
    }
}

Section fit_answer_section(const MeterFitAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential,
                VerdictLine{fit_verdict_text(answer), sentence(answer.judgement),
                            mood_of(answer.judgement.verdict), " "});
    add_elsewhere(answer, section);
    if (!answer.quality.left_out.empty()) {
        const ErrorSummary all = summarise(answer.quality.left_out);
        section.add(
            "error", Level::essential,
            KeyFigures{{{"Colours left out", to_text(all.xy.root_mean_square, 4) + " in x, y,",
                         to_text(all.uv.root_mean_square, 4) +
                             " u'v' with the correction (root of the mean square)"}}});
    }
    add_meter_cautions(answer.warnings, section);
    return section;
}

/// A refusal without its place and its wish.
std::string short_refusal(const std::string& text) {
    const std::size_t colon = text.find(": ");
    const std::size_t from = colon == std::string::npos ? 0 : colon + 2;
    return text.substr(from, text.find("; wanted") - from);
}

std::string two_said(const std::optional<std::array<double, 2>>& v, std::size_t k) {
    if (!v || !std::isfinite((*v)[k])) {
        return "-";
    }
    return (*v)[k] < 5e-5 ? std::string("<.0001") : to_text((*v)[k], 4);
}

void add_other_methods(const MeterFitAnswer& answer, Section& section) {
    Table table{"",
                {{"OTHER METHODS", Align::left}, {"white x"}, {"y"}, {"within x, y"}, {"left out"}},
                {}};
    List refused;
    for (const assess::OtherMethod& other : answer.other_methods) {
        const std::string name = code_of(other.method);
        if (!other.refusal.empty()) {
            refused.items.push_back(name + " not here: " + short_refusal(other.refusal));
            continue;
        }
        table.rows.push_back(
            {name, two_said(other.white_xy, 0), two_said(other.white_xy, 1),
             two_said(other.half_widths, 0) + ", " + two_said(other.half_widths, 1),
             other.left_out_xy ? to_text(*other.left_out_xy, 4) : "-"});
    }
    if (!table.rows.empty()) {
        section.add("methods", Level::reason, std::move(table));
    }
    if (!refused.items.empty()) {
        section.add("methods-refused", Level::reason, std::move(refused));
    }
    if (answer.stored.correction.method == CorrectionMethod::four_colour) {
        section.add(
            "four-colour", Level::reason,
            Paragraph{"The four-colour method uses chromaticities alone, so a display that "
                      "flickers or dims while it is read leaves it as it is; the others feel "
                      "every error in Y."});
    }
}

void add_matrix(const MeterFitAnswer& answer, Section& section) {
    const auto m = answer.stored.correction.xyz_from_meter();
    Table table{"X, Y, Z OF THE REFERENCE FROM THOSE OF THE METER (luminance factor " +
                    to_text(answer.stored.correction.luminance_factor, 5) + " in it)",
                {{"", Align::left}, {"X"}, {"Y"}, {"Z"}},
                {}};
    for (std::size_t i = 0; i < 9; i += 3) {
        table.rows.push_back({std::string(1, "XYZ"[i / 3]), to_text(m[i], 8), to_text(m[i + 1], 8),
                              to_text(m[i + 2], 8)});
    }
    section.add("matrix", Level::reason, std::move(table));
    if (!answer.stored.correction.valid_near) {
        section.add("condition", Level::reason,
                    Paragraph{"Condition number of the colours " +
                              to_text(answer.stored.correction.condition_number, 1) +
                              " (about 2 to 5 is usual for red, green and blue; 100 is refused)."});
    }
}

/// What was done to the readings before the fit.
std::string readings_treated(const MeterFitAnswer& answer) {
    std::string text;
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
    return text;
}

}  // namespace

Document meter_fit_document(const MeterFitAnswer& answer) {
    Document document{"A correction of the meter from " + answer.name, {}};
    document.sections.push_back(fit_answer_section(answer));
    Section next{"next", "NEXT"};
    next.heading_level = Level::reason;
    add_next(answer, next);
    if (!next.blocks.empty()) {
        document.sections.push_back(std::move(next));
    }
    Section white{"white", "How good it is"};
    white.heading_level = Level::reason;
    white.add("readings", Level::reason, Paragraph{head_text(answer)});
    add_fit_white(answer, white);
    add_fit_proof(answer, white);
    add_other_methods(answer, white);
    document.sections.push_back(std::move(white));
    Section matrix{"matrix", "What it is"};
    matrix.heading_level = Level::reason;
    add_matrix(answer, matrix);
    add_meter_reading(answer.warnings, answer.understood, matrix, readings_treated(answer));
    document.sections.push_back(std::move(matrix));
    if (!answer.kept_in.empty()) {
        Section kept{"kept", ""};
        kept.heading_level = Level::reason;
        kept.add("in", Level::essential,
                 Paragraph{"Kept in " + short_name(answer.kept_in, file_room) + "."});
        document.sections.push_back(std::move(kept));
    }
    return document;
}

}  // namespace samelight::report
