#include "white_people.hpp"

#include <cmath>
#include <limits>
#include <string_view>
#include <utility>

#include "samelight/colour/pair_share.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/household.hpp"

namespace samelight::report {
namespace {

constexpr double pair_threshold_uv = 0.004;

/// The number that `text` is, or NaN.
double number(std::string_view text) {
    return samelight::detail::decimal_number(text).value_or(
        std::numeric_limits<double>::quiet_NaN());
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
    return {population.describe(), target_region(cloud), pair_threshold_uv,
            u.size() < 2 ? 0.0 : pair_share(u, v, pair_threshold_uv)};
}

/// The white that would be replaced: as it stands where that was measured, else the reference's own x, y dialled in by instrument.
Chromaticity<Cie1931_2deg> as_it_is(const Reference& reference,
                                    const std::optional<SampledLight>& now) {
    return now ? chromaticity(tristimulus<Cie1931_2deg>(*now)) : reference.xy();
}

Advice advise_viewers(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                      const CloudOptions& options, const PanelPart& part) {
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        people.push_back(viewer.eye.likeliest);
    }
    AdviceRequest weighed{part.household->candidates.back().xy,
                          part.household->candidates.front().xy,
                          request.instrument_noise_xy,
                          {},
                          "one of the viewers"};
    for (const PredictedTarget& target : part.household->targets) {
        weighed.other_targets.push_back(target.xy);
    }
    return advise(WhiteJudge(panel, answer.reference, people, options), weighed);
}

Advice advise_everyone(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                       const std::optional<SampledLight>& now, const CloudOptions& options,
                       const PanelPart& part) {
    const std::vector<Individual> people = answer.population->individuals();
    AdviceRequest weighed{part.targets.targets.front().xy,
                          as_it_is(answer.reference, now),
                          request.instrument_noise_xy,
                          {},
                          ""};
    for (std::size_t i = 1; i < part.targets.targets.size(); ++i) {
        weighed.other_targets.push_back(part.targets.targets[i].xy);
        weighed.others = "the observer " + part.targets.targets[i].observer_title;
    }
    return advise(WhiteJudge(panel, answer.reference, people, options), weighed);
}

}  // namespace

Population population_of(const WhiteRequest& request, std::vector<Warning>& notes) {
    if (request.people < 2 || request.people > 1000000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people) + " people",
                    "2 to 1000000");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back({"ages_read", sentence});
    }
    parameters.ages = std::move(named.ages);
    parameters.count = request.people;
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
        double age = number(std::string_view(text).substr(0, colon));
        const double field =
            colon == std::string::npos ? 2.0 : number(std::string_view(text).substr(colon + 1));
        if (!(age >= 1.0 && age <= 120.0) || !(field >= 1.0 && field <= 10.0)) {
            throw Error(ErrorKind::input, "viewer \"" + text + "\"", "not an age and a field",
                        "AGE or AGE:FIELD, years and 1 to 10 degrees, such as 45 or 45:4");
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

void learn_from_eyes(const std::vector<std::string>& typed, const Panel& panel,
                     WhiteAnswer& answer) {
    for (const std::string& text : typed) {
        const std::size_t equals = text.find('=');
        const std::size_t comma = text.find(',');
        const bool whole = equals == 1 && comma != std::string::npos && comma > equals;
        const double x = whole ? number(std::string_view(text).substr(2, comma - 2)) : std::nan("");
        const double y = whole ? number(std::string_view(text).substr(comma + 1)) : std::nan("");
        const auto who = static_cast<std::size_t>(whole ? text[0] - 'A' : 26);
        if (!(x > 0.0 && y > 0.0 && x + y < 1.0) || who >= answer.viewers.size()) {
            throw Error(ErrorKind::input, "eye \"" + text + "\"", "not a viewer's white",
                        "A=x,y with a viewer's letter and the CIE 1931 x, y that they set by eye");
        }
        answer.viewers[who].eye = learn(answer.viewers[who].eye, panel, answer.reference, {{x, y}});
    }
}

void judge_people(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                  const std::optional<SampledLight>& now, PanelPart& part) {
    if (!part.targets.targets.front().in_gamut()) {
        return;  // there is no such white to judge
    }
    const CloudOptions options{now, BatchPrecision::double_precision};
    part.population = people_of(*answer.population, panel, answer.reference, options);
    const Chromaticity<Cie1931_2deg> present = as_it_is(answer.reference, now);
    if (!set_white(panel, present).in_gamut()) {
        part.targets.warnings.push_back(
            {"not_judged",
             "The white to be replaced, " + detail::xy_text(present) +
                 ", can't be shown by this panel, so moving from it can't be judged."});
        return;
    }
    if (answer.viewers.empty()) {
        part.advice = advise_everyone(request, panel, answer, now, options, part);
        return;
    }
    part.household = judge_household(panel, answer.reference, answer.viewers, present);
    part.advice = advise_viewers(request, panel, answer, options, part);
}

}  // namespace samelight::report
