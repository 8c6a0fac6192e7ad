#include "white_people.hpp"

#include <cmath>
#include <string_view>
#include <utility>

#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/pair_share.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/generic_type.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/cloud.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/household.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/type_range.hpp"

namespace samelight::report {
namespace {

constexpr double pair_threshold_uv = 0.004;

/// The field of view, degrees, of an observer by its id.
double field_of(const std::string& observer) {
    const auto conditions = cone_conditions_named(observer);
    if (conditions) {
        return conditions->field_deg;
    }
    return observer.find("10deg") != std::string::npos ? 10.0 : 2.0;
}

PopulationPart people_of(const Population& population, const Panel& panel,
                         const Reference& reference, const CloudOptions& options) {
    const TargetCloud cloud =
        target_clouds(std::span<const Panel>(&panel, 1), reference, population, options).front();
    std::vector<double> u;
    std::vector<double> v;
    for (std::size_t i = 0; i < cloud.x.size(); ++i) {
        if (std::isfinite(cloud.x[i])) {
            const auto uv = uv1976(cloud.at(i));
            u.push_back(uv.u());
            v.push_back(uv.v());
        }
    }
    return {population.describe(), target_region(cloud),
            pair_threshold_uv,     u.size() < 2 ? 0.0 : pair_share(u, v, pair_threshold_uv),
            cloud.outside,         cloud.impossible};
}

/// Half-widths 19 times in 20 of what two independent covariances make.
TypeRange within_of(const std::array<double, 4>& a, const std::array<double, 4>& b) {
    return {2.0 * std::sqrt(a[0] + b[0]), 2.0 * std::sqrt(a[3] + b[3])};
}

/// How far the reading moves if a white emitter makes none of the viewers' whites, on average over them.
std::optional<ChromaticityOffset<Cie1931_2deg>> without_emitter(const Panel& panel,
                                                                const WhiteAnswer& answer,
                                                                const TargetOptions& options) {
    double x = 0.0;
    double y = 0.0;
    for (const Viewer& viewer : answer.viewers) {
        const Target own =
            white_target(panel, answer.reference, cone_observer(viewer.eye.likeliest), options);
        if (!own.without_white_emitter) {
            return {};
        }
        x += own.without_white_emitter->first() / static_cast<double>(answer.viewers.size());
        y += own.without_white_emitter->second() / static_cast<double>(answer.viewers.size());
    }
    return ChromaticityOffset<Cie1931_2deg>(x, y);
}

HouseholdPart household_of(const WhiteRequest& request, const Panel& panel,
                           const GenericModel* model, const WhiteAnswer& answer,
                           const WhiteBase& base, const Chromaticity<Cie1931_2deg>& present) {
    HouseholdOptions options;
    options.base.now = base.now;
    options.threshold_uv = pair_threshold_uv;
    TargetOptions from;
    from.now = base.now;
    from.instrument_noise_xy = request.instrument_noise_xy;
    Household people = judge_household(panel, answer.reference, answer.viewers, present, options);
    std::vector<std::string> names;
    for (const Viewer& viewer : answer.viewers) {
        names.push_back(viewer.name);
    }
    Target white =
        dialled_white(panel, answer.reference, people.compromise().xy, viewers_text(names), from);
    white.without_white_emitter = without_emitter(panel, answer, from);
    const auto spread = [&](const Observer& observer) {
        TypeOptions of_type{from, base.set_to};
        if (base.set_to) {
            of_type.target.now = std::nullopt;
        }
        return model != nullptr ? type_spread(*model, answer.reference, observer, of_type)
                                : std::array<double, 4>{};
    };
    HouseholdPart part{std::move(people), std::move(white), {}, {}};
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        part.within.push_back(within_of(part.people.targets[i].covariance,
                                        spread(cone_observer(answer.viewers[i].eye.likeliest))));
    }
    part.white_within = within_of(spread(eye_of_household(answer.viewers)), {});
    return part;
}

}  // namespace

/// The white that would be replaced: as it stands where that was measured, else the reference's own x, y dialled in by instrument.
Chromaticity<Cie1931_2deg> as_it_is(const Reference& reference,
                                    const std::optional<SampledLight>& now) {
    return now ? chromaticity(tristimulus<Cie1931_2deg>(*now)) : reference.xy();
}

Population population_of(const WhiteRequest& request, std::vector<Warning>& notes) {
    if (request.people < 1 || request.people > 100000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people) + " people",
                    "1 to 100000");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back({"ages_read", sentence});
    }
    parameters.ages = std::move(named.ages);
    parameters.count = static_cast<std::size_t>(request.people);
    parameters.field_deg = request.observers.empty() ? 2.0 : field_of(request.observers.front());
    if (request.spread == "literature") {
        parameters.spread = literature_spread;
    } else if (request.spread != "matches") {
        throw Error(ErrorKind::input, "spread \"" + request.spread + "\"", "no spread of that name",
                    "matches (as matches of real people spread) or literature (wider)");
    }
    return Population(parameters);
}

void name_viewers(const std::vector<std::string>& typed, std::vector<Viewer>& viewers,
                  std::vector<Warning>& notes) {
    if (typed.size() > 26) {
        throw Error(ErrorKind::input, "viewers", std::to_string(typed.size()) + " viewers",
                    "26 or fewer");
    }
    for (const std::string& text : typed) {
        const std::size_t colon = text.find(':');
        double age = samelight::detail::number_or_nan(std::string_view(text).substr(0, colon));
        const double field =
            colon == std::string::npos
                ? 2.0
                : samelight::detail::number_or_nan(std::string_view(text).substr(colon + 1));
        const std::string where = "viewer \"" + text + "\"";
        if (!std::isfinite(age) || !std::isfinite(field)) {
            throw Error(ErrorKind::input, where, "not an age and a field",
                        "AGE or AGE:FIELD, years and degrees, such as 45 or 45:4");
        }
        if (!(age >= 1.0 && age <= 120.0)) {
            throw Error(ErrorKind::input, where, to_text(age) + " years",
                        "an age from 1 to 120 years, worked out from 20 to 80");
        }
        if (!(field >= 1.0 && field <= 10.0)) {
            throw Error(ErrorKind::input, where,
                        "a field of view of " + to_text(field) + " degrees", "1 to 10 degrees");
        }
        const std::string name(1, static_cast<char>('A' + static_cast<int>(viewers.size())));
        const double nearest = std::clamp(age, 20.0, 80.0);
        if (nearest != age) {
            notes.push_back({"viewer_age_moved", "Viewer " + name + ": worked out for " +
                                                     to_text(nearest) +
                                                     " years; the formula holds from 20 to 80."});
            age = nearest;
        }
        viewers.push_back(
            {name, eye_of_age({age, field, Pupil::small, PeakDensities::three_decimals})});
    }
}

void learn_from_eyes(const WhiteRequest& request, const Panel& panel, const WhiteBase& base,
                     WhiteAnswer& answer) {
    for (const std::string& text : request.eyes) {
        const std::size_t equals = text.find('=');
        const std::size_t comma = text.find(',');
        const bool whole = equals == 1 && comma != std::string::npos && comma > equals;
        const double x =
            whole ? samelight::detail::number_or_nan(std::string_view(text).substr(2, comma - 2))
                  : std::nan("");
        const double y =
            whole ? samelight::detail::number_or_nan(std::string_view(text).substr(comma + 1))
                  : std::nan("");
        const auto who = static_cast<std::size_t>(whole ? text[0] - 'A' : 26);
        if (!(x > 0.0 && y > 0.0 && x + y < 1.0) || who >= answer.viewers.size()) {
            throw Error(ErrorKind::input, "eye \"" + text + "\"", "not a viewer's white",
                        "A=x,y with a viewer's letter and the CIE 1931 x, y that they set by eye");
        }
        EyeMatch match{{x, y}};
        match.sd_xy = std::hypot(match.sd_xy, request.instrument_noise_xy);
        EyeLesson lesson = learn(answer.viewers[who].eye, panel, answer.reference, match,
                                 {base.now, BatchPrecision::double_precision});
        answer.viewers[who].eye = lesson.eye;
        answer.viewers[who].matched = true;
        for (const Warning& warning : lesson.warnings) {
            answer.viewer_notes.push_back(
                {warning.code, "Viewer " + answer.viewers[who].name + ": " + warning.message});
        }
    }
}

Observer eye_of_household(const std::vector<Viewer>& viewers) {
    return cone_observer(viewers.size() == 1 ? viewers.front().eye.likeliest
                                             : Individual{average_viewer(viewers), {}});
}

void judge_people(const WhiteRequest& request, const Panel& panel, const GenericModel* model,
                  const WhiteAnswer& answer, const WhiteBase& base, PanelPart& part) {
    const CloudOptions options{base.now, BatchPrecision::double_precision};
    if (!part.targets.targets.front().in_gamut()) {
        part.targets.warnings.push_back(
            {"not_judged", "This panel can't show such a white, so how people differ, " +
                               std::string(answer.viewers.empty() ? "" : "what the viewers see, ") +
                               "how sure the target is and whether to move it are left out."});
        return;
    }
    part.population = people_of(*answer.population, panel, answer.reference, options);
    const Chromaticity<Cie1931_2deg> present = as_it_is(answer.reference, base.now);
    if (!set_white(panel, present).in_gamut()) {
        part.targets.warnings.push_back(
            {"not_judged",
             "The white to be replaced, " + detail::xy_text(present) +
                 ", can't be shown by this panel, so moving from it can't be judged."});
        return;
    }
    if (answer.viewers.empty()) {
        return;
    }
    part.household = household_of(request, panel, model, answer, base, present);
    // Age and field are known now: what two other observers want is no longer the question.
    std::erase_if(part.targets.warnings,
                  [](const Warning& warning) { return warning.code == "observers_opposed"; });
}

}  // namespace samelight::report
