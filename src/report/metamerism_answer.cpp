#include "samelight/report/metamerism_answer.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/lab.hpp"
#include "samelight/colour/signal.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/io/deviation_functions.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extremes.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/meter/fit_quality.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "people_words.hpp"
#include "text_layout.hpp"
#include "viewers_typed.hpp"

namespace samelight::report {
namespace {

/// People of whom the spread between units is told: it takes many units, not many people.
constexpr std::size_t people_for_units = 128;

Population people_of(const MetamerismRequest& request, std::vector<Warning>& notes) {
    if (!(request.field_deg >= 1.0) || !(request.field_deg <= 10.0)) {
        throw Error(ErrorKind::input, "field", to_text(request.field_deg) + " degrees",
                    "a field of view of 1 to 10 degrees");
    }
    if (request.people < 20 || request.people > 100000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people),
                    "20 to 100000 people");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back({"ages_read", sentence});
    }
    parameters.ages = std::move(named.ages);
    parameters.field_deg = request.field_deg;
    parameters.count = static_cast<std::size_t>(request.people);
    return Population(parameters);
}

/// Everything that the pairs are worked out from.
struct Scene {
    const MetamerismRequest& request;
    const SampledLight& white;
    const Observer& observer;
    const Population& population;
    std::vector<Individual> eyes;  ///< of the viewers
    std::vector<TypedPanel> panels;
    std::vector<std::vector<Reproduction>> shown;  ///< of each panel, by setting
};

PairBasis basis_of(const MetamerismPanel& a, const MetamerismPanel& b) {
    if (a.generic != b.generic) {
        return PairBasis::mixed;
    }
    return a.generic ? PairBasis::generic : PairBasis::measured;
}

/// The whites of a pair in one setting, and what viewers are adapted to who have both before them.
struct PairOfWhites {
    SampledLight first, second, mean;

    PairOfWhites(const Scene& scene, const MatrixPair& pair, std::size_t setting)
        : first(white_of(scene.shown[setting][pair.first])),
          second(white_of(scene.shown[setting][pair.second])),
          mean(mean_light(first, second)) {}

  private:
    static SampledLight white_of(const Reproduction& shown) {
        const Eigen::VectorXd light = shown.lights.chosen({0}).lights().col(0);
        return {shown.lights.sampling(), {light.begin(), light.end()}, 0.0};
    }
};

std::vector<double> seen_by(const std::vector<Individual>& eyes, const PairOfWhites& whites) {
    return differences_for(eyes, MixedLights(whites.first.sampling, whites.first.column()),
                           MixedLights(whites.second.sampling, whites.second.column()),
                           whites.mean);
}

/// What a colour of the set looks like under the reference to CIE 1931, in words.
std::string words_of(std::size_t colour, const SampledLight& white) {
    const SurfacePatch& patch = patch_set()[colour];
    const auto lab =
        samelight::lab(tristimulus<Cie1931_2deg>(patch_light(patch.reflectance, white)),
                       tristimulus<Cie1931_2deg>(white));
    return std::string(patch_group_name(patch.group)) + ", L* " + to_text(lab.L(), 0) + ", a* " +
           with_sign(lab.a(), 0) + ", b* " + with_sign(lab.b(), 0);
}

MetamerismPair pair_of(const Scene& scene, const MetamerismAnswer& answer, const MatrixPair& pair) {
    MetamerismPair result{};
    result.basis = basis_of(answer.panels[pair.first], answer.panels[pair.second]);
    const PairOfWhites as_set(scene, pair, 0);
    const PairOfWhites with_targets(scene, pair, 1);
    result.extremes = extreme_viewers(
        scene.population, MixedLights(with_targets.first.sampling, with_targets.first.column()),
        MixedLights(with_targets.second.sampling, with_targets.second.column()), with_targets.mean,
        pair.figures[1].viewer_white_de00);
    result.worst_colour = words_of(pair.figures[1].worst_colour, scene.white);
    if (!scene.eyes.empty()) {
        const auto before = seen_by(scene.eyes, as_set);
        const auto after = seen_by(scene.eyes, with_targets);
        for (std::size_t i = 0; i < before.size(); ++i) {
            result.viewers.push_back({before[i], after[i]});
        }
    }
    return result;
}

/// The CIE's index, change in observer, of the whites as set.
void add_deviate(const Scene& scene, MetamerismAnswer& answer) {
    if (!scene.request.deviations) {
        return;
    }
    const io::DeviationFunctions file = io::read_deviation_functions(*scene.request.deviations);
    answer.deviations = file.source + ":";
    for (const std::string& sentence : file.understood) {
        *answer.deviations += " " + sentence;
    }
    const Observer& base = standard_observer<Cie1931_2deg>();
    const Observer deviate = deviate_observer(base, file.rows, "deviations");
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        const PairOfWhites whites(scene, answer.matrix.pairs[i], 0);
        answer.pairs[i].deviate =
            observer_metamerism(whites.first, whites.second, whites.mean, base, deviate);
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

/// Adds what the panel shows in each setting; the reason where it can't make the white in one of them.
std::optional<Error> set_up(const TypedPanel& panel, const Eigen::MatrixXd& colours,
                            const std::vector<Setting>& settings, Scene& scene) {
    std::vector<Reproduction> shown;
    try {
        for (const Setting setting : settings) {
            shown.push_back(set_panel(panel.entry, setting, scene.white, colours, scene.observer));
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

/// Opens the panels and sets them up. Those that can't make the white are left out, as long as two can.
void open_panels(const Reference& reference, const std::vector<Setting>& settings, Scene& scene,
                 MetamerismAnswer& answer) {
    const std::vector<std::string>& names = scene.request.panels;
    if (names.size() < 2 || names.size() > 26) {
        throw Error(ErrorKind::input, "metamerism",
                    std::to_string(names.size()) + (names.size() == 1 ? " panel" : " panels"),
                    "two panels or more to compare, 26 at most");
    }
    const Eigen::MatrixXd colours = patch_lights(patch_set(), scene.white);
    std::optional<Error> first_reason;
    for (const std::string& text : names) {
        io::NamedPanel named = io::open_panel(text, scene.request.sampling);
        const bool generic = named.model != nullptr;
        TypedPanel panel{{std::move(named.panel),
                          generic ? PanelOrigin::generic : PanelOrigin::measured, named.set_to},
                         named.model};
        if (const auto reason = set_up(panel, colours, settings, scene)) {
            first_reason = first_reason ? first_reason : reason;
            answer.left_out.push_back({"panel_left_out", text + " is left out: " + reason->what()});
            continue;
        }
        // What its white and black showed when they were compared is said here as it is by `samelight white`.
        const PanelTargets judged = white_targets(panel.entry.panel, reference, {scene.observer});
        named.warnings.insert(named.warnings.end(), judged.warnings.begin(), judged.warnings.end());
        answer.panels.push_back({text, generic ? std::string(named.model->title()) : "", generic,
                                 named.set_to, std::move(named.understood),
                                 std::move(named.warnings)});
        scene.panels.push_back(std::move(panel));
    }
    if (scene.panels.size() < 2) {
        throw Error(*first_reason);
    }
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

std::vector<Warning> metamerism_left_out(const MetamerismAnswer& answer) {
    std::vector<Warning> warnings = answer.left_out;
    warnings.insert(warnings.end(), answer.matrix.warnings.begin(), answer.matrix.warnings.end());
    return warnings;
}

std::string colour_name(std::size_t colour) { return patch_set()[colour].name; }

MetamerismAnswer answer_metamerism(const MetamerismRequest& request) {
    std::vector<Warning> notes;
    const Population population = people_of(request, notes);
    const Observer observer = observer_named(request.observer);
    const io::NamedReference named = io::open_reference(request.reference, request.sampling);
    const Reference& reference = named.reference;
    MetamerismAnswer answer{
        {reference.name, reference.meaning, reference.xy(), named.understood, reference.warnings},
        observer.title(),
        observer.id() + ": " + observer.edition(),
        population.describe(),
        population_text(population),
        {},
        {},
        {},
        {},
        {},
        {},
        std::move(notes),
        {}};
    Scene scene{request, reference.light, observer, population, {}, {}, {}};
    const std::vector<Viewer> viewers =
        samelight::detail::viewers_watching(eyes_typed(request.viewers), answer.viewer_notes);
    for (const Viewer& viewer : viewers) {
        const Individual& eye = viewer.eye.likeliest;
        answer.viewers.push_back({viewer.name, eye.conditions.age_years, eye.conditions.field_deg});
        scene.eyes.push_back(eye);
    }
    PanelMatrixOptions options;
    if (request.every_index) {
        options.index_settings = {Setting::by_instrument, Setting::white_matched};
    } else {
        options.precision = MatrixPrecision::tenths;  // which is what the page says
    }
    open_panels(reference, options.settings, scene, answer);
    std::vector<MatrixPanel> entries;
    for (const TypedPanel& panel : scene.panels) {
        entries.push_back(panel.entry);
    }
    answer.matrix = panel_matrix(entries, scene.shown, observer, population, options);
    for (const MatrixPair& pair : answer.matrix.pairs) {
        answer.pairs.push_back(pair_of(scene, answer, pair));
    }
    add_deviate(scene, answer);
    add_units(scene, answer);
    rank(answer);
    return answer;
}

}  // namespace samelight::report
