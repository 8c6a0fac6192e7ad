#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <pybind11/pybind11.h>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/record.hpp"
#include "python/base/takes.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target_distribution.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

/// How far people differ about a display.
struct Spread {
    TargetRegion region;
    std::size_t outside = 0;
    std::size_t without = 0;
};

Population population(std::int64_t count, double youngest, double oldest, double field,
                      std::uint64_t seed) {
    constexpr std::int64_t most = 1'000'000;
    if (count < 1 || count > most) {
        throw Error(ErrorKind::domain, ErrorPlace{"population"}, std::to_string(count) + " people",
                    "1 to " + std::to_string(most));
    }
    PopulationParameters parameters;
    parameters.ages = Ages::range(youngest, oldest);
    parameters.field_deg = field;
    parameters.count = static_cast<std::size_t>(count);
    parameters.seed = seed;
    return Population(parameters);
}

TargetDistribution cloud_of(const Population& people, const py::object& panel,
                            const py::object& reference, std::size_t threads) {
    const assess::WhitePanel display = panel_of(panel);
    const Reference light = reference_of(reference).reference;
    const py::gil_scoped_release free;
    return assess::about({display.panel.name(), "reference " + light.name}, [&] {
        DistributionOptions options;
        options.base = display.white.base;
        options.threads = threads;
        return target_distributions({&display.panel, 1}, light, people, options).front();
    });
}

py::array targets(const Population& people, const py::object& panel, const py::object& reference,
                  std::size_t threads) {
    const TargetDistribution cloud = cloud_of(people, panel, reference, threads);
    std::vector<double> rows;
    for (std::size_t i = 0; i < cloud.x.size(); ++i) {
        rows.push_back(cloud.x[i]);
        rows.push_back(cloud.y[i]);
    }
    return array_of(std::move(rows), {static_cast<py::ssize_t>(cloud.x.size()), 2});
}

Spread spread(const Population& people, const py::object& panel, const py::object& reference,
              std::size_t threads) {
    const TargetDistribution cloud = cloud_of(people, panel, reference, threads);
    return {target_region(cloud), cloud.outside, cloud.impossible};
}

}  // namespace

std::optional<Population> population_of(const py::object& given) {
    if (given.is_none()) {
        return {};
    }
    if (!py::isinstance<Population>(given)) {
        throw Error(ErrorKind::input, ErrorPlace{"population"},
                    std::string(py::str(py::type::of(given).attr("__name__"))), "a Population");
    }
    return given.cast<Population>();
}

void bind_people(py::module_& module) {
    Record<Spread>(module, "Spread", "How far people differ about a display: Population.spread().")
        .part(
            "people", [](const Spread& own) { return own.region.people; }, "With a target.")
        .member("outside_gamut", &Spread::outside,
                "Whose target the display can't show; they count.")
        .member("without_target", &Spread::without, "Who have none; they don't.")
        .part(
            "mean",
            [](const Spread& own) {
                return array_of({own.region.mean.x(), own.region.mean.y()}, {2});
            },
            "x, y, (2,).")
        .part(
            "median",
            [](const Spread& own) {
                return array_of({own.region.median.x(), own.region.median.y()}, {2});
            },
            "Of x and of y apart, (2,).")
        .part(
            "covariance",
            [](const Spread& own) {
                const auto& c = own.region.covariance_xy;
                return array_of({c.begin(), c.end()}, {2, 2});
            },
            "Of x, y, (2, 2).")
        .part(
            "semi_axes",
            [](const Spread& own) {
                return array_of(
                    {own.region.ellipse_xy.semi_major, own.region.ellipse_xy.semi_minor}, {2});
            },
            "In x, y, the longer first, (2,), of the ellipse that holds 95 % of a normal distribution.")
        .part(
            "angle", [](const Spread& own) { return own.region.ellipse_xy.angle_deg; },
            "Of the longer axis from x, degrees.")
        .finish();
    py::class_<Population>(
        module, "Population",
        "People as a distribution of ages and of what makes eyes differ; person i is the same\n"
        "everywhere.")
        .def(
            py::init(&population), py::arg("count") = 1024, py::arg("youngest") = 20.0,
            py::arg("oldest") = 70.0, py::arg("field") = 2.0, py::arg("seed") = 1,
            "count: 1 to 1,000,000, a power of 2 covers best; ages evenly from youngest to oldest, 20 to\n"
            "80 years; field: of view, 1 to 10 degrees. Raises DomainError.")
        .def("__len__", &Population::size)
        .def(
            "targets", &targets, py::arg("panel"), py::arg("reference") = "D65", py::kw_only(),
            py::arg("threads") = 1,
            "Everybody's target on a display: x, y that the instrument must read so that its white looks\n"
            "like the reference to that person, (n, 2); NaN for somebody who has none. threads: that\n"
            "the work is divided over, 0: as many as the machine has; no digit depends on it.")
        .def(
            "spread", &spread, py::arg("panel"), py::arg("reference") = "D65", py::kw_only(),
            py::arg("threads") = 1,
            "What targets() gives, summed up: a Spread. Raises ShapeError where nobody has a target.")
        .def("__repr__", [](const Population& own) {
            return "Population(" + std::to_string(own.size()) + " people, " +
                   own.parameters().ages.describe() + ")";
        });
}

}  // namespace samelight::python
