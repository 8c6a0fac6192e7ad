#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/record.hpp"
#include "python/base/takes.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using report::MetamerismAnswer;

/// What people see between two displays of an answer.
struct Pair {
    std::string first, second;
    std::vector<PairFigures> figures;
    bool look_alike = false;
};

MetamerismAnswer metamerism(const py::object& panels, const py::object& reference,
                            const py::object& observer, const py::object& people, bool every_index,
                            std::size_t threads) {
    const assess::WhiteReference light = reference_of(reference);
    assess::MetamerismRequest asked{light.reference, {}};
    asked.reference.warnings.insert(asked.reference.warnings.end(), light.notes.warnings.begin(),
                                    light.notes.warnings.end());
    asked.observer = observer_of(observer);
    asked.every_index = every_index;
    asked.threads = threads;
    if (const std::optional<Population> own = population_of(people)) {
        asked.population = *own;
    }
    const std::vector<py::object> all = several(panels);
    assess::require_comparable(all.size());
    std::vector<Panel> displays;
    std::vector<std::string> subjects;
    for (const py::object& one : all) {
        const assess::WhitePanel panel = panel_of(one);
        asked.panels.push_back(listed(panel));
        displays.push_back(panel.panel);
        subjects.push_back(panel.panel.name());
    }
    subjects.push_back("reference " + light.reference.name);
    const py::gil_scoped_release free;
    return {assess::about(subjects, [&] { return assess::answer_metamerism(asked); }),
            light.notes.understood,
            {},
            {},
            std::move(displays)};
}

std::vector<Pair> pairs_of(const MetamerismAnswer& answer) {
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < answer.matrix.pairs.size(); ++i) {
        const MatrixPair& pair = answer.matrix.pairs[i];
        pairs.push_back({answer.panels.at(pair.first).name, answer.panels.at(pair.second).name,
                         pair.figures, answer.pairs.at(i).look_alike});
    }
    return pairs;
}

/// A figure in each of the settings.
auto in_settings(ViewerSpread PairFigures::*of, double ViewerSpread::*figure) {
    return [of, figure](const Pair& pair) {
        std::vector<double> values;
        for (const PairFigures& setting : pair.figures) {
            values.push_back(setting.*of.*figure);
        }
        const auto count = static_cast<py::ssize_t>(values.size());
        return array_of(std::move(values), {count});
    };
}

}  // namespace

void bind_metamerism(py::module_& module) {
    Record<Pair>(
        module, "MetamerismPair",
        "What people see between two displays, CIEDE2000 without unit; each figure in three settings,\n"
        "(3,): whites set by instrument, by white targets, and every colour matched.")
        .member("first", &Pair::first, "Name of a display.")
        .member("second", &Pair::second, "Name of the other.")
        .part("white_mean", in_settings(&PairFigures::white_de00, &ViewerSpread::mean),
              "Between the whites: mean over viewers.")
        .part("white_two_in_three",
              in_settings(&PairFigures::white_de00, &ViewerSpread::two_in_three),
              "Two viewers in three see less.")
        .part("white_p95", in_settings(&PairFigures::white_de00, &ViewerSpread::p95),
              "95 % of viewers see less.")
        .part("white_largest", in_settings(&PairFigures::white_de00, &ViewerSpread::largest),
              "Of any viewer.")
        .part("colours_mean", in_settings(&PairFigures::colours_de00, &ViewerSpread::mean),
              "Of each viewer's mean over measured surface colours: mean.")
        .part("colours_two_in_three",
              in_settings(&PairFigures::colours_de00, &ViewerSpread::two_in_three),
              "Two viewers in three have less.")
        .member("look_alike", &Pair::look_alike,
                "With white targets the two look alike to nearly everyone.")
        .finish();
    auto answer =
        Record<MetamerismAnswer>(module, "MetamerismAnswer",
                                 "How far people will disagree about displays.")
            .part(
                "reference", [](const MetamerismAnswer& own) { return own.reference.name; },
                "Its name.")
            .part(
                "observer", [](const MetamerismAnswer& own) { return own.observer_title; },
                "For whom whites are matched, in words for people.")
            .part("pairs", &pairs_of, "A MetamerismPair for every two displays.")
            .finish();
    say(
        answer, [](const MetamerismAnswer& own) { return report::metamerism_report(own); },
        [](const MetamerismAnswer& own) { return report::metamerism_json(own); });
    module.def(
        "metamerism", &metamerism, py::arg("panels"), py::arg("reference") = "D65", py::kw_only(),
        py::arg("observer") = "cie2015-2deg", py::arg("population") = py::none(),
        py::arg("every_index") = false, py::arg("threads") = 1,
        "How far people will disagree about 2 to 26 displays that are set alike: a MetamerismAnswer.\n"
        "panels: Panels, or what panel() takes; observer: for whom whites are matched; population: 20\n"
        "people or more, None: 1,024 of 20 to 70 years; every_index: with the colours' other indices, and\n"
        "their figures to the last digit, as in the command's JSON, else to 1e-6; threads: that the work\n"
        "is divided over, 0: as many as the machine has; no digit depends on it. Raises DomainError\n"
        "for a display that can't make the white, InputError, ShapeError.");
}

}  // namespace samelight::python
