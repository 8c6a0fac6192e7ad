#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/pybind11.h>
#include <Eigen/Core>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/record.hpp"
#include "python/base/takes.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/uncertainty.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

/// Targets of many units, and how sure each is.
struct SureTargets {
    std::size_t count = 0;
    std::vector<double> xy = {}, half_widths = {};
};

/// Spectra of unit after unit, and the lights of each.
struct Units {
    SpectraRows spectra;
    std::size_t count = 0;
    std::size_t per_unit = 0;
};

Units units_of(const py::object& spectra, const py::object& wavelengths) {
    const Numbers all = numbers_of(spectra, "spectra");
    const auto size = [&](py::ssize_t axis) { return static_cast<std::size_t>(all.shape(axis)); };
    if (all.ndim() != 3 || size(1) < 3 || size(1) > 5 || size(0) == 0 || size(2) == 0) {
        std::string shape;
        for (py::ssize_t i = 0; i < all.ndim(); ++i) {
            shape += (i > 0 ? ", " : "") + std::to_string(all.shape(i));
        }
        throw Error(ErrorKind::shape, ErrorPlace{"spectra"}, "an array of shape (" + shape + ")",
                    "(n, 3, m), (n, 4, m) or (n, 5, m): red, green, blue, white, black");
    }
    // The same numbers as one table of spectra: no copy, since they lie close together.
    const py::object table =
        all.attr("reshape")(py::make_tuple(all.shape(0) * all.shape(1), all.shape(2)));
    return {spectra_of(table, wavelengths, "spectra"), size(0), size(1)};
}

PanelSpectra lights_of(const Units& units, std::size_t unit) {
    const std::size_t at = unit * units.per_unit;
    const auto light = [&](std::size_t k, const char* role) {
        return spectrum_at(units.spectra, at + k, "unit " + std::to_string(unit) + ", " + role);
    };
    PanelSpectra lights{light(0, "red"), light(1, "green"), light(2, "blue")};
    if (units.per_unit > 3) {
        lights.white = light(3, "white");
    }
    if (units.per_unit > 4) {
        lights.black = light(4, "black");
    }
    return lights;
}

/// What white_target() gives for native whites, x and y alone: what all units have in common is worked out once.
class Targets {
  public:
    Targets(const Reference& reference, const Observer& observer)
        : eye_(observer.on(reference.light.sampling)),
          instrument_(standard_observer<Cie1931_2deg>().on(reference.light.sampling)),
          wanted_(tristimulus(eye_, reference.light).column()) {}

    [[nodiscard]] std::array<double, 2> of(const Panel& panel) const {
        const Match found = match(panel, eye_, wanted_);
        const auto read = tristimulus(instrument_, SampledLight{panel.sampling(), found.light});
        const auto xy = chromaticity(Xyz1931(read.X(), read.Y(), read.Z()));
        return {xy.x(), xy.y()};
    }

  private:
    using Xyz1931 = Tristimulus<Cie1931_2deg>;
    Sensitivities eye_, instrument_;
    Eigen::Vector3d wanted_;
};

std::vector<double> targets_alone(const Units& units, const Reference& reference,
                                  const Observer& observer) {
    const Targets targets(reference, observer);
    std::vector<double> xy;
    xy.reserve(2 * units.count);
    for (std::size_t i = 0; i < units.count; ++i) {
        const std::string name = "unit " + std::to_string(i);
        const auto target =
            assess::about({name}, [&] { return targets.of(Panel(name, lights_of(units, i))); });
        xy.insert(xy.end(), target.begin(), target.end());
    }
    return xy;
}

py::array white_targets(const py::object& spectra, const py::object& wavelengths,
                        const py::object& reference, const py::object& observer) {
    const Units units = units_of(spectra, wavelengths);
    const Reference light = reference_of(reference).reference;
    const Observer eye = observer_of(observer);
    std::vector<double> xy;
    {
        const py::gil_scoped_release free;
        xy = targets_alone(units, light, eye);
    }
    return array_of(std::move(xy), {static_cast<py::ssize_t>(units.count), 2});
}

void add(const assess::PanelPart& part, SureTargets& targets) {
    constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
    const auto& xy = part.targets.targets.front().xy;
    targets.xy.push_back(xy.x());
    targets.xy.push_back(xy.y());
    targets.half_widths.push_back(part.budget ? part.budget->half_width_x() : not_known);
    targets.half_widths.push_back(part.budget ? part.budget->half_width_y() : not_known);
}

/// So many together take less, and are all that is in memory.
SureTargets sure_targets(const Units& units, assess::WhiteRequest asked) {
    // Of people nothing is told, so there is one.
    PopulationParameters one;
    one.count = 1;
    asked.population = Population(one);
    assess::WhiteSeries series(std::move(asked));
    constexpr std::size_t at_once = 32;
    SureTargets targets{units.count};
    for (std::size_t at = 0; at < units.count; at += at_once) {
        std::vector<assess::WhitePanel> displays;
        for (std::size_t i = at; i < std::min(at + at_once, units.count); ++i) {
            const std::string name = "unit " + std::to_string(i);
            displays.push_back(assess::about(
                {name}, [&] { return assess::measured_panel(name, lights_of(units, i)); }));
        }
        std::vector<assess::PanelPart> parts;
        try {
            parts = series.next(displays);
        } catch (const Error&) {
            // Which of them it was.
            for (const assess::WhitePanel& display : displays) {
                assess::about({display.panel.name()}, [&] {
                    return series.next({&display, 1}).size();
                });
            }
            throw;
        }
        for (const assess::PanelPart& part : parts) {
            add(part, targets);
        }
    }
    return targets;
}

SureTargets white_targets_with_doubt(const py::object& spectra, const py::object& wavelengths,
                                     const py::object& reference, const py::object& observer,
                                     const InstrumentLimits& instrument) {
    const Units units = units_of(spectra, wavelengths);
    assess::WhiteRequest asked{reference_of(reference)};
    asked.observers = {observer_of(observer)};
    asked.instrument = instrument;
    const py::gil_scoped_release free;
    return sure_targets(units, std::move(asked));
}

}  // namespace

void bind_white_targets(py::module_& module) {
    const auto rows = [](std::vector<double> SureTargets::*at) {
        return [at](const SureTargets& own) {
            return array_of(own.*at, {static_cast<py::ssize_t>(own.count), 2});
        };
    };
    Record<SureTargets>(module, "WhiteTargets", "What white_targets_with_doubt() gives.")
        .part("xy", rows(&SureTargets::xy), "x, y that the instrument must read, (n, 2).")
        .part(
            "half_widths", rows(&SureTargets::half_widths),
            "Expanded uncertainties of x and y, coverage 95 %, (n, 2); NaN where they aren't known.")
        .finish();
    module.def(
        "white_targets", &white_targets, py::arg("spectra"), py::arg("wavelengths") = py::none(),
        py::arg("reference") = "D65", py::arg("observer") = "cie2015-2deg",
        "Targets of many units: x, y that the instrument must read, (n, 2), of spectra (n, 3, m),\n"
        "(n, 4, m) or (n, 5, m): red, green, blue, white, black of unit after unit at m wavelengths,\n"
        "nm. Error below 1e-12. Raises what panel_from_spectra() and white() raise, \"unit 17\" first.");
    module.def("white_targets_with_doubt", &white_targets_with_doubt, py::arg("spectra"),
               py::arg("wavelengths") = py::none(), py::arg("reference") = "D65",
               py::arg("observer") = "cie2015-2deg", py::kw_only(),
               py::arg("instrument") = InstrumentLimits{},
               "The same targets and how sure each is: WhiteTargets. Takes many times as long.");
}

}  // namespace samelight::python
