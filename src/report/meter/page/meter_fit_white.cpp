#include "report/meter/page/meter_fit_white.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/meter/meter_fit_verdict.hpp"
#include "report/meter/page/meter_charts.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {
namespace {

std::vector<std::string> white_row(const std::string& name, const std::array<double, 3>& xyz) {
    const auto v = xyY_from_xyz(xyz);
    return {name, to_text(v[0], 4), to_text(v[1], 4), to_text(v[2], 2)};
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

std::vector<std::string> proof_row(const std::string& name, const ColourError& before,
                                   const ColourError& after) {
    const auto de00 = [](const ColourError& e) {
        return e.de00 ? to_text(*e.de00, 2) : std::string("-");
    };
    const auto per_cent = [](const ColourError& e) {
        return with_sign(100.0 * e.luminance, 1) + " %";
    };
    return {name,
            to_text(before.xy(), 4),
            to_text(after.xy(), 4),
            to_text(before.uv(), 4),
            to_text(after.uv(), 4),
            de00(before),
            de00(after),
            per_cent(before),
            per_cent(after)};
}

/// Many colours are told by their figures of the lot and the worst few.
Table proof_table(const MeterFitAnswer& answer) {
    constexpr std::size_t most = 12;
    std::vector<const ProvenError*> shown;
    for (const ProvenError& e : answer.quality.left_out) {
        shown.push_back(&e);
    }
    const bool cut = shown.size() > most;
    if (cut) {
        std::stable_sort(shown.begin(), shown.end(), [](const auto* a, const auto* b) {
            return a->error.xy() > b->error.xy();
        });
        shown.resize(most);
    }
    Table table{"",
                {{cut ? "COLOURS LEFT OUT, worst" : "COLOURS LEFT OUT", Align::left},
                 {"x, y"},
                 {"after"},
                 {"u'v'"},
                 {"after"},
                 {"DE00"},
                 {"after"},
                 {"Y"},
                 {"after"}},
                {}};
    for (const ProvenError* e : shown) {
        const auto& residuals = answer.stored.correction.residuals;
        const auto before = std::find_if(residuals.begin(), residuals.end(),
                                         [&](const auto& r) { return r.patch == e->patch; });
        if (before != residuals.end()) {
            table.rows.push_back(proof_row(short_name(e->patch, 23), before->before, e->error));
        }
    }
    return table;
}

std::string proof_summed_up(const MeterFitAnswer& answer) {
    const ErrorSummary all = summarise(answer.quality.left_out);
    return "In all (root of the mean square) " + to_text(all.xy.root_mean_square, 4) +
           " in x, y, " + to_text(all.uv.root_mean_square, 4) + " u'v'" +
           (all.de00 ? ", DE00 " + to_text(all.de00->mean, 2) + " on average, " +
                           to_text(all.de00->largest, 2) + " at most"
                     : "") +
           ", Y " + to_text(100.0 * all.luminance.root_mean_square, 1) + " %.";
}

std::string repeated_text(const MeterFitAnswer& answer) {
    if (answer.quality.repeated.empty()) {
        return "";
    }
    const ErrorSummary s = summarise(answer.quality.repeated);
    return "Each round read with the correction of the others: " +
           to_text(s.xy.root_mean_square, 4) + " in x, y, " + to_text(s.uv.root_mean_square, 4) +
           " u'v'" + (s.de00 ? ", DE00 " + to_text(s.de00->mean, 2) : "") + ", Y " +
           to_text(100.0 * s.luminance.root_mean_square, 1) +
           " %, the noise of a single reading with it.";
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
        return "White moved within a round by " + at_most(100.0 * luminance, 1) + " % in Y and " +
               at_most(xy, 4) +
               " in x, y from first to last, no more than these readings "
               "scatter anyway.";
    }
    return "White held still: within a round " + at_most(100.0 * luminance, 1) + " % in Y and " +
           at_most(xy, 4) + " in x, y from first to last.";
}

}  // namespace

void add_fit_white(const MeterFitAnswer& answer, Section& section) {
    if (!answer.white) {
        return;
    }
    Table table{"", {{"WHITE", Align::left}, {"x"}, {"y"}, {"Y cd/m2"}}, {}};
    table.rows.push_back(white_row("the meter says", answer.white->meter));
    table.rows.push_back(
        white_row("corrected", answer.stored.correction.corrected_xyz(answer.white->meter)));
    table.rows.push_back(white_row("the reference says", answer.white->reference));
    section.add("white", Level::reason, std::move(table));
    section.add("sure", Level::reason, Paragraph{sure_text(answer)});
}

void add_fit_proof(const MeterFitAnswer& answer, Section& section) {
    if (!answer.quality.left_out.empty()) {
        section.add("left-out", Level::reason, proof_table(answer));
        section.add("left-out-all", Level::reason, Paragraph{proof_summed_up(answer)});
        if (std::optional<Chart> chart = left_out_chart(answer)) {
            section.add("left-out-chart", Level::reason, std::move(*chart));
        }
    }
    for (const auto& [name, words] :
         {std::pair("rounds", repeated_text(answer)), std::pair("drift", drift_text(answer))}) {
        if (!words.empty()) {
            section.add(name, Level::reason, Paragraph{words});
        }
    }
}

}  // namespace samelight::report
