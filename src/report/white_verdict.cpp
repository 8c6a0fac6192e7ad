#include "white_verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/io/column_doubts.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/cloud.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {
namespace {

constexpr const char* no_white_code = "now_is_no_white";

bool warned(const std::vector<Warning>& warnings, std::string_view code) {
    return std::any_of(warnings.begin(), warnings.end(),
                       [&](const Warning& warning) { return warning.code == code; });
}

std::array<double, 4> doubt_of_light(const PanelPart& part) {
    return part.budget ? part.budget->covariance_of_light() : std::array<double, 4>{};
}

/// The verdict on the household's own white, for its viewers.
Advice advise_viewers(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                      const CloudOptions& options, const PanelPart& part) {
    const Household& household = part.household->people;
    std::vector<Individual> people;
    AdviceRequest weighed{household.compromise().xy, household.candidates.front().xy,
                          request.instrument_noise_xy};
    weighed.right.named = true;
    weighed.right.shared = doubt_of_light(part);
    weighed.eyes_known = true;
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const Viewer& viewer = answer.viewers[i];
        people.push_back(viewer.eye.likeliest);
        weighed.people.push_back(viewer.name);
        weighed.right.pulls.push_back({"viewer " + viewer.name, household.targets[i].xy});
        weighed.right.own.push_back(household.targets[i].covariance);
        weighed.eyes_known = weighed.eyes_known && viewer.matched;
    }
    return advise(WhiteJudge(panel, answer.reference, people, options), weighed);
}

Advice advise_everyone(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                       const CloudOptions& options, const PanelPart& part) {
    const std::vector<Individual> people = answer.population->individuals();
    AdviceRequest weighed{part.targets.targets.front().xy, as_it_is(answer.reference, options.now),
                          request.instrument_noise_xy};
    weighed.right.shared = doubt_of_light(part);
    for (const Target& target : part.targets.targets) {
        weighed.right.pulls.push_back({target.observer_title, target.xy});
    }
    return advise(WhiteJudge(panel, answer.reference, people, options), weighed);
}

/// What is to be put right before anything is moved by these numbers; empty where nothing is.
std::string put_right_first(const io::NamedPanel& named, const WhiteAnswer& answer,
                            const std::optional<WhiteOriginJudgement>& origin,
                            const PanelPart& part) {
    if (origin && origin->origin == WhiteOrigin::another_panel) {
        return named.model != nullptr
                   ? "the white as it stands is of another type of display than the one named, it seems; see below."
                   : "the white as it stands is of another display than the spectra, it seems; see below.";
    }
    if (warned(part.targets.warnings, no_white_code)) {
        return "the white as it stands is no white; see below, and measure white.";
    }
    if (!part.budget && part.dialled().in_gamut()) {
        return "how sure it is can't be worked out; see below.";
    }
    if (warned(part.targets.warnings, io::clipped_code) ||
        warned(answer.reference.warnings, io::clipped_code)) {
        return "the instrument seems to have been saturated; see below, and measure again.";
    }
    if (part.targets.additivity && !part.as_it_stands) {
        if (const auto misread = misread_column(*part.targets.additivity)) {
            return std::string(samelight::detail::primary_names.at(misread->primary)) +
                   " was misread, it seems; see below, and measure it again.";
        }
    }
    if (warned(answer.viewer_notes, "eye_far_from_normal")) {
        return "a match by eye that no normal eye would set is no ground to move it; see below, and match again.";
    }
    return "";
}

}  // namespace

void warn_of_origin(const io::NamedPanel& named, const WhiteOriginJudgement& judged,
                    std::vector<Warning>& warnings) {
    if (judged.origin == WhiteOrigin::this_panel) {
        return;
    }
    if (named.model == nullptr) {
        warnings.push_back(
            {"now_of_another_display",
             "The white as it stands isn't made of this panel's red, green and blue" +
                 std::string(named.panel.white_is_base() ? " and white" : "") + ": " +
                 to_text(100.0 * judged.left_over, 0) +
                 " % of its spectrum is left over. Check that both were read on the same display, by the same instrument."});
        return;
    }
    const std::string nearest(judged.nearest->name());
    const std::string compared =
        "its light would have to be moved by " + to_text(judged.own_type_nm, 1) +
        " nm on average to be that of the nearest " + std::string(named.model->name()) +
        (judged.nearest == named.model
             ? ", and no other type comes nearer"
             : ", by " + to_text(judged.nearest_nm, 1) + " nm for a " + nearest);
    if (judged.origin == WhiteOrigin::another_panel) {
        warnings.push_back({"now_of_another_display",
                            "The white as it stands is no such panel's: " + compared +
                                ". Check which type the display is: `samelight panel`."});
        return;
    }
    warnings.push_back({"now_perhaps_of_another_type",
                        "The white as it stands may be of another type of panel: " + compared +
                            ". Check which type the display is: `samelight panel`."});
}

void warn_of_no_white(const io::NamedLight& now, std::vector<Warning>& warnings) {
    // Beyond .05 from Planck's locus a light has no colour temperature (CIE 15:2018, 9.5, from memory): nobody calls it white.
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(now.light));
    const auto temperature = colour_temperature(xy);
    if (!temperature || !(std::abs(temperature->duv) <= 0.05)) {
        warnings.push_back({no_white_code, "The white as it stands reads " +
                                               samelight::detail::xy_text(xy) +
                                               ", which is no white. Was a colour measured?"});
    }
}

void judge_verdict(const WhiteRequest& request, const io::NamedPanel& named,
                   const WhiteAnswer& answer, const WhiteBase& base,
                   const std::optional<WhiteOriginJudgement>& origin, PanelPart& part) {
    if (warned(part.targets.warnings, "not_judged")) {
        return;
    }
    const CloudOptions options{base.now, BatchPrecision::double_precision};
    part.advice = part.household ? advise_viewers(request, named.panel, answer, options, part)
                                 : advise_everyone(request, named.panel, answer, options, part);
    const std::string first = put_right_first(named, answer, origin, part);
    if (!first.empty()) {
        part.advice->verdict = Verdict::leave;
        part.advice->reason = first;
    }
}

}  // namespace samelight::report
