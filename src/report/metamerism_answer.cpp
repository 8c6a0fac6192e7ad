#include "samelight/report/metamerism_answer.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "samelight/display/patch_set.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/io/deviation_functions.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/target.hpp"
#include "white_people.hpp"

namespace samelight::report {
namespace {

/// People of whom the spread between units is told: it takes many units, not many people.
constexpr std::size_t people_for_units = 128;

constexpr std::array<Setting, 2> shown_settings = {Setting::by_instrument, Setting::white_matched};

Population people_of(const MetamerismRequest& request, std::vector<Warning>& notes) {
    if (!(request.field_deg >= 1.0) || !(request.field_deg <= 10.0)) {
        throw Error(ErrorKind::input, "field", to_text(request.field_deg) + " degrees",
                    "a field of view of 1 to 10 degrees");
    }
    if (request.people < 20 || request.people > 100000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people) + " people",
                    "20 to 100000");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back({"ages_read", sentence});
    }
    parameters.ages = std::move(named.ages);
    parameters.field_deg = request.field_deg;
    parameters.count = request.people;
    return Population(parameters);
}

/// Everything that the pairs are worked out from.
struct Scene {
    const MetamerismRequest& request;
    const SampledLight& white;
    const Observer& observer;
    const Population& population;
    std::vector<TypedPanel> panels;
    std::array<std::vector<Reproduction>, 2> shown;  ///< as set, with white targets
};

PairBasis basis_of(const MetamerismPanel& a, const MetamerismPanel& b) {
    if (a.generic != b.generic) {
        return PairBasis::mixed;
    }
    return a.generic ? PairBasis::generic : PairBasis::measured;
}

SampledLight white_of(const Reproduction& shown, const Sampling& sampling) {
    const Eigen::VectorXd light = shown.lights.chosen({0}).lights().col(0);
    return {sampling, {light.begin(), light.end()}, 0.0};
}

MetamerismPair pair_of(const Scene& scene, const MetamerismAnswer& answer, const MatrixPair& pair) {
    std::vector<std::size_t> colours;
    for (const std::size_t colour : answer.matrix.colours) {
        colours.push_back(colour + 1);
    }
    MetamerismPair result{};
    result.basis = basis_of(answer.panels[pair.first], answer.panels[pair.second]);
    for (std::size_t s = 0; s < shown_settings.size(); ++s) {
        const MixedLights& a = scene.shown[s][pair.first].lights;
        const MixedLights& b = scene.shown[s][pair.second].lights;
        result.whites[s] =
            population_index(scene.population, a.chosen({0}), b.chosen({0}), scene.white);
        if (scene.request.every_index) {
            result.colours.push_back(population_index(scene.population, a.chosen(colours),
                                                      b.chosen(colours), scene.white));
        }
    }
    const MixedLights first = scene.shown[1][pair.first].lights.chosen({0});
    const MixedLights second = scene.shown[1][pair.second].lights.chosen({0});
    result.extremes =
        extreme_viewers(scene.population, first, second, scene.white, result.whites[1]);
    std::vector<Individual> eyes;
    for (const Viewer& viewer : answer.viewers) {
        eyes.push_back(viewer.eye.likeliest);
    }
    if (!eyes.empty()) {
        const auto as_set =
            differences_for(eyes, scene.shown[0][pair.first].lights.chosen({0}),
                            scene.shown[0][pair.second].lights.chosen({0}), scene.white);
        const auto with_targets = differences_for(eyes, first, second, scene.white);
        for (std::size_t i = 0; i < eyes.size(); ++i) {
            result.viewers.push_back({as_set[i], with_targets[i]});
        }
    }
    return result;
}

/// The CIE's index, change in observer, of the whites as set.
void add_deviate(const Scene& scene, MetamerismAnswer& answer) {
    if (scene.request.deviations.empty()) {
        return;
    }
    const io::DeviationFunctions file = io::read_deviation_functions(scene.request.deviations);
    answer.deviations = file.source + ":";
    for (const std::string& sentence : file.understood) {
        *answer.deviations += " " + sentence;
    }
    const Observer& base = standard_observer<Cie1931_2deg>();
    const Observer deviate = deviate_observer(base, file.rows, "deviations");
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        const MatrixPair& pair = answer.matrix.pairs[i];
        answer.pairs[i].deviate =
            observer_metamerism(white_of(scene.shown[0][pair.first], scene.request.sampling),
                                white_of(scene.shown[0][pair.second], scene.request.sampling),
                                scene.white, base, deviate);
    }
}

void add_units(const Scene& scene, MetamerismAnswer& answer) {
    if (std::none_of(answer.panels.begin(), answer.panels.end(),
                     [](const MetamerismPanel& panel) { return panel.generic; })) {
        return;
    }
    PopulationParameters few = scene.population.parameters();
    few.count = std::min(few.count, people_for_units);
    const auto spreads = unit_spreads(scene.panels, Setting::white_matched, scene.white,
                                      scene.observer, Population(few));
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        answer.pairs[i].units = spreads[i];
    }
}

double judged_by(const MetamerismAnswer& answer, std::size_t pair) {
    return answer.matrix.pairs[pair].figures[1].white_de00.two_in_three;
}

void rank(MetamerismAnswer& answer) {
    for (const PairBasis basis : {PairBasis::measured, PairBasis::mixed, PairBasis::generic}) {
        Ranking ranking{basis, {}};
        for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
            if (answer.pairs[i].basis == basis) {
                ranking.pairs.push_back(i);
            }
        }
        std::stable_sort(ranking.pairs.begin(), ranking.pairs.end(),
                         [&](std::size_t a, std::size_t b) {
                             return judged_by(answer, a) < judged_by(answer, b);
                         });
        if (!ranking.pairs.empty()) {
            answer.rankings.push_back(std::move(ranking));
        }
    }
}

std::vector<TypedPanel> open_panels(const MetamerismRequest& request, const Observer& observer,
                                    MetamerismAnswer& answer) {
    if (request.panels.size() < 2 || request.panels.size() > 26) {
        throw Error(ErrorKind::input, "metamerism",
                    std::to_string(request.panels.size()) +
                        (request.panels.size() == 1 ? " panel" : " panels"),
                    "two panels or more to compare, 26 at most");
    }
    std::vector<TypedPanel> panels;
    for (const std::string& text : request.panels) {
        io::NamedPanel named = io::open_panel(text, request.sampling);
        const bool generic = named.model != nullptr;
        // What its white and black showed when they were compared is said here as it is by `samelight white`.
        const PanelTargets judged = white_targets(named.panel, answer.reference, {observer});
        named.warnings.insert(named.warnings.end(), judged.warnings.begin(), judged.warnings.end());
        answer.panels.push_back({text, generic ? std::string(named.model->title()) : "", generic,
                                 named.set_to, std::move(named.understood),
                                 std::move(named.warnings)});
        panels.push_back({{std::move(named.panel),
                           generic ? PanelOrigin::generic : PanelOrigin::measured, named.set_to},
                          named.model});
    }
    return panels;
}

}  // namespace

std::string basis_word(PairBasis basis) {
    switch (basis) {
        case PairBasis::measured:
            return "measured";
        case PairBasis::mixed:
            return "mixed";
        case PairBasis::generic:
            return "generic";
    }
    throw Error(ErrorKind::domain, "basis_word", "an unknown basis", "a PairBasis");
}

std::string setting_word(Setting setting) {
    switch (setting) {
        case Setting::by_instrument:
            return "as_set";
        case Setting::white_matched:
            return "white_targets";
        case Setting::all_matched:
            return "all_matched";
    }
    throw Error(ErrorKind::domain, "setting_word", "an unknown setting", "a Setting");
}

std::string colour_name(std::size_t colour) { return patch_set()[colour].name; }

MetamerismAnswer answer_metamerism(const MetamerismRequest& request) {
    std::vector<Warning> notes;
    const Population population = people_of(request, notes);
    const Observer observer = observer_named(request.observer);
    io::NamedReference reference = io::open_reference(request.reference, request.sampling);
    MetamerismAnswer answer{std::move(reference.reference),
                            std::move(reference.understood),
                            observer.title(),
                            observer.id() + ": " + observer.edition(),
                            population.describe(),
                            {},
                            {},
                            {},
                            {},
                            {},
                            {},
                            {}};
    answer.viewer_notes = std::move(notes);
    name_viewers(request.viewers, answer.viewers, answer.viewer_notes);
    Scene scene{request,
                answer.reference.light,
                observer,
                population,
                open_panels(request, observer, answer),
                {}};
    const Eigen::MatrixXd colours = patch_lights(patch_set(), scene.white);
    std::vector<MatrixPanel> entries;
    for (const TypedPanel& panel : scene.panels) {
        entries.push_back(panel.entry);
        for (std::size_t s = 0; s < shown_settings.size(); ++s) {
            scene.shown[s].push_back(
                set_panel(panel.entry, shown_settings[s], scene.white, colours, observer));
        }
    }
    answer.matrix = panel_matrix(entries, scene.white, colours, observer, population);
    for (const MatrixPair& pair : answer.matrix.pairs) {
        answer.pairs.push_back(pair_of(scene, answer, pair));
    }
    add_deviate(scene, answer);
    add_units(scene, answer);
    rank(answer);
    return answer;
}

}  // namespace samelight::report
