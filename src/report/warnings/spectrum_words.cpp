// What is doubtful about a measured spectrum, in words.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "report/warnings/facts_said.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {
namespace {

/// "panel.csv, red: ", or "red: " where it isn't said whose column it is.
std::string column_said(const FactsSaid& f) {
    return f.prefix("source", ", ") + f.text("column") + ": ";
}

std::string noisy_said(const FactsSaid& f) {
    return column_said(f) + "noise of up to " + f.number("noise_percent", 1) +
           " % of the peak in each sample. Measure longer, or more often.";
}

/// "at 447-455 nm (9 samples) and at 628-631 nm (4 samples)".
std::string flat_tops_said(const FactsSaid& f) {
    constexpr std::size_t most = 6;
    const std::vector<double> from = f.numbers("from_nm");
    const std::vector<double> to = f.numbers("to_nm");
    const std::vector<double> samples = f.numbers("samples");
    if (from.empty() || to.size() != from.size() || samples.size() != from.size()) {
        f.lack();
        return "";
    }
    std::string text;
    for (std::size_t k = 0; k < from.size() && k < most; ++k) {
        const bool last = k + 1 == from.size();
        text += (k == 0 ? "at "
                 : last ? " and at "
                        : ", at ") +
                to_text(from[k]) + "-" + to_text(to[k]) + " nm (" + to_text(samples[k], 0) +
                " samples)";
    }
    return text + (from.size() > most ? " and elsewhere" : "");
}

std::string clipped_said(const FactsSaid& f) {
    return column_said(f) + "cut off at the top " + flat_tops_said(f) +
           ", as by a saturated instrument, so its colour and its amount aren't those of the light. "
           "Measure it again with a shorter exposure or less light.";
}

/// "Sampled too coarsely for the line at 612 nm (12 % of the light): ..."
std::string too_coarse(const FactsSaid& f) {
    const std::vector<double> nm = f.numbers("lines_nm");
    const std::vector<double> percent = f.numbers("light_percent");
    if (nm.empty() || percent.size() != nm.size()) {
        f.lack();
        return "";
    }
    std::string lines;
    for (std::size_t k = 0; k < nm.size(); ++k) {
        lines += (lines.empty() ? "" : ", ") + to_text(nm[k], 0) + " nm (" +
                 to_text(percent[k], 0) + " % of the light)";
    }
    const bool one = nm.size() == 1;
    return "Sampled too coarsely for the " + std::string(one ? "line" : "lines") + " at " + lines +
           ": " + (one ? "it is" : "they are") + " narrower than 1.5 steps of " +
           to_text(std::round(1000.0 * f.value("step_nm")) / 1000.0) +
           " nm, so the light read there depends on where the line falls between two samples. Measure at a step of " +
           f.number("wanted_step_nm") +
           " nm or less; only if the instrument's bandwidth is at least its step are these figures right.";
}

/// What those lines may do, where that was asked.
std::string coarse_effect(const FactsSaid& f) {
    if (f.warning().find<std::vector<double>>("uncertain_nm") == nullptr) {
        return "";
    }
    const std::vector<double> nm = f.numbers("uncertain_nm");
    const std::vector<double> x = f.numbers("delta_x");
    const std::vector<double> y = f.numbers("delta_y");
    if (nm.empty()) {
        return " The place of the line and its strength are uncertain, and with them drive and the cost in light.";
    }
    if (x.size() != nm.size() || y.size() != nm.size()) {
        f.lack();
        return "";
    }
    std::string effect;
    for (std::size_t k = 0; k < nm.size(); ++k) {
        effect += (effect.empty() ? "" : ", ") + to_text(nm[k], 0) + " nm: x " + to_text(x[k], 4) +
                  ", y " + to_text(y[k], 4);
    }
    return " With a bandwidth of half the step this column's chromaticity may be off by as much as (" +
           effect + ").";
}

std::string coarse_said(const FactsSaid& f) {
    return column_said(f) + too_coarse(f) + coarse_effect(f);
}

constexpr std::array<WarningWords, 3> spectrum_catalogue{
    {{"noisy", noisy_said}, {"clipped", clipped_said}, {"sampling_coarse", coarse_said}}};

}  // namespace

std::span<const WarningWords> words_of_spectrum() { return spectrum_catalogue; }

std::string sentence(const SamplingVerdict& verdict) {
    if (verdict.peaks.empty()) {
        return "No peaks by which to judge the sampling.";
    }
    if (verdict.sound()) {
        return "Sampled finely enough: the narrowest peak is " + to_text(verdict.narrowest_nm, 1) +
               " nm wide as the instrument saw it, which needs a step of " +
               to_text(verdict.wanted_step_nm) + " nm or less.";
    }
    const Warning coarse = coarse_sampling("", verdict);
    return too_coarse(FactsSaid(coarse));
}

}  // namespace samelight::report
