#pragma once
// The bodies of assess/metamerism.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extremes.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// People of whom the spread between units is told: it takes many units, not many people.
inline constexpr std::size_t people_for_units = 128;

/// Everything that the pairs are worked out from.
struct ComparedScene {
    const assess::MetamerismRequest& request;
    const SampledLight& white;
    /// Of the viewers: the likeliest of each, and those that each may have, eyes_each() one after another.
    std::vector<Individual> eyes = {};
    std::vector<Individual> eyes_that_may_be = {};
    std::vector<TypedPanel> panels = {};
    /// Of each panel, by setting.
    std::vector<std::vector<Reproduction>> shown = {};
};

inline assess::PairBasis pair_basis_of(const assess::MetamerismPanel& a,
                                       const assess::MetamerismPanel& b) {
    if (a.generic != b.generic) {
        return assess::PairBasis::mixed;
    }
    return a.generic ? assess::PairBasis::generic : assess::PairBasis::measured;
}

/// The whites of a pair in one setting, and what viewers are adapted to who have both before them.
struct ComparedWhites {
    SampledLight first, second, mean;

    ComparedWhites(const ComparedScene& scene, const MatrixPair& pair, std::size_t setting)
        : first(white_of(scene.shown[setting][pair.first])),
          second(white_of(scene.shown[setting][pair.second])),
          mean(mean_light(first, second)) {}

  private:
    static SampledLight white_of(const Reproduction& shown) {
        const Eigen::VectorXd light = shown.lights.chosen({0}).lights().col(0);
        return {shown.lights.sampling(), {light.begin(), light.end()}, 0.0};
    }
};

inline std::vector<double> whites_seen_by(const std::vector<Individual>& eyes,
                                          const ComparedWhites& whites) {
    return differences_for(eyes, MixedLights(whites.first.sampling, whites.first.column()),
                           MixedLights(whites.second.sampling, whites.second.column()),
                           whites.mean);
}

/// What a colour of the set looks like under the reference to CIE 1931: L*, a*, b*.
inline std::array<double, 3> lab_of_colour(std::size_t colour, const SampledLight& white) {
    const SurfacePatch& patch = patch_set()[colour];
    const auto seen = lab(tristimulus<Cie1931_2deg>(patch_light(patch.reflectance, white)),
                          tristimulus<Cie1931_2deg>(white));
    return {seen.L(), seen.a(), seen.b()};
}

/// Whether whites and colours look the same to nearly everyone, as set and with white targets.
inline bool pair_looks_alike(const MatrixPair& pair) {
    return std::all_of(pair.figures.begin(), pair.figures.begin() + 2, [](const PairFigures& f) {
        return f.white_de00.p95 < 0.5 && f.colours_de00.p95 < 0.5 && f.worst_colour_de00 < 1.0;
    });
}

/// How many eyes stand for a viewer's: fewer of many viewers, so that a long list of pairs stays quick.
inline std::size_t eyes_each(std::size_t viewers) {
    return viewers <= 8 ? 128 : viewers <= 16 ? 64 : 32;
}

/// Of what all possible eyes of all viewers see, one viewer's.
inline assess::ExpectedSeen expected_seen(const std::vector<double>& seen, std::size_t viewer,
                                          std::size_t each) {
    const auto begin = seen.begin() + static_cast<std::ptrdiff_t>(viewer * each);
    const std::vector<double> own(begin, begin + static_cast<std::ptrdiff_t>(each));
    return {mean(own), percentile(own, 2.5), percentile(own, 97.5)};
}

inline assess::MetamerismPair answer_of_pair(const ComparedScene& scene,
                                             const assess::MetamerismAnswer& answer,
                                             const MatrixPair& pair) {
    assess::MetamerismPair result{};
    result.basis = pair_basis_of(answer.panels[pair.first], answer.panels[pair.second]);
    result.look_alike = pair_looks_alike(pair);
    const ComparedWhites as_set(scene, pair, 0);
    const ComparedWhites with_targets(scene, pair, 1);
    result.extremes =
        extreme_viewers(scene.request.population,
                        {MixedLights(with_targets.first.sampling, with_targets.first.column()),
                         MixedLights(with_targets.second.sampling, with_targets.second.column()),
                         with_targets.mean},
                        pair.figures[1].viewer_white_de00);
    result.worst_colour_lab = lab_of_colour(pair.figures[1].worst_colour, scene.white);
    if (!scene.eyes.empty()) {
        const auto before = whites_seen_by(scene.eyes, as_set);
        const auto after = whites_seen_by(scene.eyes, with_targets);
        const std::size_t each = eyes_each(scene.eyes.size());
        const auto all_before = whites_seen_by(scene.eyes_that_may_be, as_set);
        const auto all_after = whites_seen_by(scene.eyes_that_may_be, with_targets);
        for (std::size_t i = 0; i < before.size(); ++i) {
            result.viewers.push_back({before[i], after[i], expected_seen(all_before, i, each),
                                      expected_seen(all_after, i, each)});
        }
    }
    return result;
}

/// The CIE's index, change in observer, of the whites as set.
inline void add_deviate(const ComparedScene& scene, assess::MetamerismAnswer& answer) {
    if (scene.request.deviations.empty()) {
        return;
    }
    const Observer& base = standard_observer<Cie1931_2deg>();
    const Observer deviate = deviate_observer(base, scene.request.deviations, "deviations");
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        const ComparedWhites whites(scene, answer.matrix.pairs[i], 0);
        answer.pairs[i].deviate =
            observer_metamerism(whites.first, whites.second, {whites.mean, base, deviate});
    }
}

inline void add_units(const ComparedScene& scene, assess::MetamerismAnswer& answer) {
    if (std::none_of(answer.panels.begin(), answer.panels.end(),
                     [](const assess::MetamerismPanel& panel) { return panel.generic; })) {
        return;
    }
    PopulationParameters few = scene.request.population.parameters();
    few.count = std::min(few.count, people_for_units);
    const auto spreads =
        unit_spreads(scene.panels, {Setting::white_matched, 64, scene.request.threads}, scene.white,
                     {scene.request.observer, Population(few)});
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        answer.pairs[i].units = spreads[i];
    }
}

inline double pair_judged_by(const assess::MetamerismAnswer& answer, std::size_t pair) {
    return answer.matrix.pairs[pair].figures[1].white_de00.two_in_three;
}

inline void rank_pairs(assess::MetamerismAnswer& answer) {
    for (const assess::PairBasis basis :
         {assess::PairBasis::measured, assess::PairBasis::mixed, assess::PairBasis::generic}) {
        assess::Ranking ranking{basis, {}};
        for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
            if (answer.pairs[i].basis == basis) {
                ranking.pairs.push_back(i);
            }
        }
        std::stable_sort(ranking.pairs.begin(), ranking.pairs.end(),
                         [&](std::size_t a, std::size_t b) {
                             return pair_judged_by(answer, a) < pair_judged_by(answer, b);
                         });
        if (!ranking.pairs.empty()) {
            answer.rankings.push_back(std::move(ranking));
        }
    }
}

/// Adds what the panel shows in each setting; the reason where it can't make the white in one of them.
inline std::optional<Error> set_up_panel(const TypedPanel& panel, const Eigen::MatrixXd& colours,
                                         const std::vector<Setting>& settings,
                                         ComparedScene& scene) {
    std::vector<Reproduction> shown;
    try {
        for (const Setting setting : settings) {
            shown.push_back(
                set_panel(panel.entry, setting, {scene.white, colours}, scene.request.observer));
        }
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::domain) {
            throw;
        }
        return error;
    }
    scene.shown.resize(settings.size());
    for (std::size_t s = 0; s < settings.size(); ++s) {
        scene.shown[s].push_back(std::move(shown[s]));
    }
    return std::nullopt;
}

/// Sets the panels up. Those that can't make the white are left out, as long as two can.
inline void set_up_panels(const std::vector<Setting>& settings, ComparedScene& scene,
                          assess::MetamerismAnswer& answer) {
    const assess::MetamerismRequest& request = scene.request;
    const Eigen::MatrixXd colours = patch_lights(patch_set(), scene.white);
    std::optional<Error> first_reason;
    for (const assess::ListedPanel& given : request.panels) {
        const bool generic = given.model != nullptr;
        TypedPanel panel{
            {given.panel, generic ? PanelOrigin::generic : PanelOrigin::measured, given.set_to},
            given.model};
        if (const auto reason = set_up_panel(panel, colours, settings, scene)) {
            first_reason = first_reason ? first_reason : reason;
            answer.left_out.push_back(Warning{"panel_left_out",
                                              {{"panel", given.name},
                                               {"place", reason->place().text()},
                                               {"found", reason->found()},
                                               {"wanted", reason->wanted()}}});
            continue;
        }
        // What its white and black showed when they were compared is said here as it is where its target is worked out.
        const PanelTargets judged =
            white_targets(given.panel, request.reference, {request.observer});
        std::vector<Warning> warnings = given.warnings;
        warnings.insert(warnings.end(), judged.warnings.begin(), judged.warnings.end());
        answer.panels.push_back({given.name, generic ? std::string(given.model->title()) : "",
                                 generic, given.set_to, given.understood, std::move(warnings)});
        scene.panels.push_back(std::move(panel));
    }
    if (scene.panels.size() < 2) {
        throw Error(*first_reason);
    }
}

inline void add_viewers(ComparedScene& scene, assess::MetamerismAnswer& answer) {
    const Ages& ages = scene.request.population.parameters().ages;
    for (const Viewer& viewer :
         viewers_watching(scene.request.viewers, ages, answer.viewer_notes)) {
        if (!viewer.age_known) {
            throw Error(ErrorKind::input, "viewer " + viewer.name, "no age", "an age in years");
        }
        const Individual& eye = viewer.eye.likeliest;
        answer.viewers.push_back({viewer.name, eye.conditions.age_years, eye.conditions.field_deg});
        scene.eyes.push_back(eye);
        const auto possible = eyes_that_may_be(viewer.eye, eyes_each(scene.request.viewers.size()));
        scene.eyes_that_may_be.insert(scene.eyes_that_may_be.end(), possible.begin(),
                                      possible.end());
    }
}

inline void require_people(const Population& population) {
    if (population.size() < assess::fewest_compared_people) {
        throw Error(ErrorKind::input, "people", std::to_string(population.size()),
                    std::to_string(assess::fewest_compared_people) + " people or more");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE void require_comparable(std::size_t panels) {
    if (panels < 2 || panels > most_compared_panels) {
        throw Error(
            ErrorKind::input, "panels", std::to_string(panels),
            "two panels or more to compare, " + std::to_string(most_compared_panels) + " at most");
    }
}

SAMELIGHT_INLINE std::vector<Warning> metamerism_left_out(const MetamerismAnswer& answer) {
    std::vector<Warning> warnings = answer.left_out;
    warnings.insert(warnings.end(), answer.matrix.warnings.begin(), answer.matrix.warnings.end());
    return warnings;
}

SAMELIGHT_INLINE MetamerismAnswer answer_metamerism(const MetamerismRequest& request) {
    detail::require_people(request.population);
    const Reference& reference = request.reference;
    const Observer& observer = request.observer;
    MetamerismAnswer answer{{reference.name, reference.meaning, reference.xy(), reference.warnings},
                            observer.title(),
                            observer.id() + ": " + observer.edition(),
                            request.population,
                            {},
                            {},
                            {},
                            {},
                            {},
                            {},
                            {}};
    detail::ComparedScene scene{request, reference.light};
    detail::add_viewers(scene, answer);
    PanelMatrixOptions options;
    if (request.every_index) {
        options.index_settings = {Setting::by_instrument, Setting::white_matched};
    } else {
        options.precision = MatrixPrecision::tenths;  // which is what a page says
    }
    options.threads = request.threads;
    require_comparable(request.panels.size());
    detail::set_up_panels(options.settings, scene, answer);
    std::vector<MatrixPanel> entries;
    for (const TypedPanel& panel : scene.panels) {
        entries.push_back(panel.entry);
    }
    answer.matrix = panel_matrix(entries, scene.shown, {observer, request.population}, options);
    answer.pairs.resize(answer.matrix.pairs.size());
    parallel::work_in_blocks(answer.pairs.size(), request.threads, [&](std::size_t i, std::size_t) {
        answer.pairs[i] = detail::answer_of_pair(scene, answer, answer.matrix.pairs[i]);
    });
    detail::add_deviate(scene, answer);
    detail::add_units(scene, answer);
    detail::rank_pairs(answer);
    return answer;
}

}  // namespace samelight::assess
