#include "report/meter/meter_fit_verdict.hpp"

#include <cmath>
#include <string>
#include <vector>

#include "report/words/short_name.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {
namespace {

/// Decimal places, four or more, that hold all of the half-width asked for and tell the one reached from it.
int places_of(const MeterFitAnswer& answer, double half_width) {
    constexpr int most = 8;
    const double wanted = answer.wanted_half_width;
    for (int places = 4; places < most; ++places) {
        const double steps = std::pow(10.0, places) * wanted;
        if (std::abs(steps - std::round(steps)) < 1e-6 &&
            to_text(half_width, places) != to_text(wanted, places)) {
            return places;
        }
    }
    return most;
}

/// What a verdict to use must add where white is not known well enough yet.
std::string but_read_on(const MeterFitAnswer& answer) {
    if (!answer.read_on) {
        return "";
    }
    const int places = places_of(answer, answer.advice->half_width);
    return std::isfinite(answer.advice->half_width)
               ? ", but read on: white is known to ±" + to_text(answer.advice->half_width, places) +
                     ", not yet to the ±" + to_text(answer.wanted_half_width, places) + " asked for"
               : ", but read on: how well white is known can't be said yet";
}

bool is_used(const MeterFitAnswer& answer) {
    return answer.judgement.verdict == FitVerdict::use ||
           answer.judgement.verdict == FitVerdict::use_unproven;
}

}  // namespace

std::string fit_verdict_text(const MeterFitAnswer& answer) {
    const Correction& c = answer.stored.correction;
    const std::string only_near = c.valid_near
                                      ? " for whites within " + to_text(c.valid_near->radius, 2) +
                                            " of x " + to_text(c.valid_near->x, 3) + ", y " +
                                            to_text(c.valid_near->y, 3) + ", and for nothing else"
                                      : "";
    switch (answer.judgement.verdict) {
        case FitVerdict::use:
            return "Use this correction on this display" + only_near + but_read_on(answer) + ".";
        case FitVerdict::use_unproven:
            return "Use this correction on this display" + only_near +
                   ", as long as nothing better is there: nothing proves it yet" +
                   but_read_on(answer) + ".";
        case FitVerdict::not_needed:
            return "Leave the meter as it is: a correction changes nothing that these readings "
                   "can tell.";
        case FitVerdict::read_again:
            if (answer.judgement.not_sure_to > 0.0) {
                const int places = places_of(answer, answer.judgement.not_sure_to);
                return "Not good enough yet: white is known to ±" +
                       to_text(answer.judgement.not_sure_to, places) + " in x or y, not to the ±" +
                       to_text(answer.wanted_half_width, places) +
                       " asked for; the readings scatter too much.";
            }
            return "Don't use this correction yet: read again first.";
        case FitVerdict::do_not_use:
            break;
    }
    if (c.raw_channels) {
        return "Don't use this correction: what it leaves is worse than a usual meter without one.";
    }
    return std::string("Don't use this correction: the meter is ") +
           (readably_less(answer.judgement.proof_before, answer.judgement.proof_after)
                ? "better without it."
                : "as good without it.");
}

std::string noise_text(const MeterFitAnswer& answer) {
    using assess::NoiseTaken;
    switch (answer.noise_taken) {
        case NoiseTaken::unknown:
            return "unknown: there are no repeats";
        case NoiseTaken::stated:
            return "as stated";
        case NoiseTaken::stated_luminance_repeats:
            return "as stated, of Y the repeats of all patches";
        case NoiseTaken::stated_luminance_unknown:
            return "as stated, of Y unknown";
        case NoiseTaken::residuals:
            return "what the fit leaves over";
        case NoiseTaken::each_patch:
            return "each patch's own repeats";
        case NoiseTaken::pooled:
            break;
    }
    return "the repeats of all patches";
}

std::vector<std::string> fit_elsewhere(const MeterFitAnswer& answer) {
    std::vector<std::string> said;
    for (const assess::OtherDisplay& other : answer.other_displays) {
        const std::string name = short_name(other.name, file_room);
        const std::string figures = ": there it leaves " +
                                    to_text(other.found.after.xy.root_mean_square, 4) +
                                    " in x, y; without it the meter is off by " +
                                    to_text(other.found.before.xy.root_mean_square, 4) + ".";
        switch (other.found.verdict) {
            case OtherVerdict::use:
                said.push_back("On " + name + " as well" + figures);
                break;
            case OtherVerdict::better_own:
                said.push_back("On " + name + " only until one is made there" + figures);
                break;
            case OtherVerdict::do_not_use:
                said.push_back("Not on " + name + figures);
                break;
        }
    }
    if (said.empty() && is_used(answer)) {
        said.push_back(
            "Not on a display of another type: there it can be worse than none. Nor "
            "in another picture mode of this one, without trying it.");
    }
    return said;
}

}  // namespace samelight::report
