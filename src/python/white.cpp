#include <array>
#include <cmath>
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
#include "samelight/assess/white.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using assess::PanelPart;

void take_viewers(const py::object& viewers, assess::WhiteRequest& asked) {
    if (viewers.is_none()) {
        return;
    }
    const Rows rows = rows_of(viewers, 2, "viewers");
    for (std::size_t i = 0; i < rows.count; ++i) {
        const double age = rows.row(i)[0];
        asked.viewers.push_back(
            {std::isnan(age) ? std::nullopt : std::optional(age), rows.row(i)[1]});
    }
}

report::WhiteAnswer white(const py::object& panels, const py::object& reference,
                          const py::object& observers, const py::object& people,
                          const py::object& viewers, const InstrumentLimits& instrument,
                          double additivity_floor, std::size_t threads) {
    assess::WhiteRequest asked{reference_of(reference)};
    asked.instrument = instrument;
    asked.additivity_floor_xy = additivity_floor;
    asked.threads = threads;
    std::vector<std::string> subjects;
    for (const py::object& panel : several(panels)) {
        asked.panels.push_back(panel_of(panel));
        subjects.push_back(asked.panels.back().panel.name());
    }
    subjects.push_back("reference " + asked.reference.reference.name);
    if (!observers.is_none()) {
        for (const py::object& one : several(observers)) {
            asked.observers.push_back(observer_of(one));
        }
    }
    asked.population = population_of(people);
    take_viewers(viewers, asked);
    const py::gil_scoped_release free;
    report::WhiteAnswer answer{assess::about(subjects, [&] { return assess::answer_white(asked); }),
                               {}};
    for (assess::WhitePanel& panel : asked.panels) {
        answer.displays.push_back(std::move(panel.panel));
    }
    return answer;
}

py::object optional_pair(const std::optional<std::array<double, 2>>& pair) {
    return pair ? py::object(array_of({(*pair)[0], (*pair)[1]}, {2})) : py::none();
}

py::object half_widths(const PanelPart& part) {
    return optional_pair(part.budget
                             ? std::optional(std::array<double, 2>{part.budget->half_width_x(),
                                                                   part.budget->half_width_y()})
                             : std::nullopt);
}

py::array targets(const PanelPart& part) {
    std::vector<double> rows;
    for (const Target& target : part.targets.targets) {
        rows.push_back(target.xy.x());
        rows.push_back(target.xy.y());
    }
    const auto count = static_cast<py::ssize_t>(part.targets.targets.size());
    return array_of(std::move(rows), {count, 2});
}

std::vector<std::string> observers_of(const PanelPart& part) {
    std::vector<std::string> ids;
    for (const Target& target : part.targets.targets) {
        ids.push_back(target.observer);
    }
    return ids;
}

py::object drive(const PanelPart& part) {
    const auto& own = part.dialled().drive;
    return own ? py::object(array_of(*own, {static_cast<py::ssize_t>(own->size())})) : py::none();
}

std::vector<std::string> warning_codes(const PanelPart& part) {
    std::vector<std::string> codes;
    for (const Warning& warning : part.targets.warnings) {
        codes.push_back(warning.code);
    }
    return codes;
}

void bind_part(py::module_& module) {
    using Text = std::optional<std::string>;
    Record<PanelPart>(module, "WhitePart", "What white() says about one display.")
        .part(
            "panel", [](const PanelPart& part) { return part.targets.panel; }, "Its name.")
        .part(
            "x", [](const PanelPart& part) { return part.dialled().xy.x(); },
            "To dial in, CIE 1931: the viewers' white where some were named, else the first observer's.")
        .part(
            "y", [](const PanelPart& part) { return part.dialled().xy.y(); }, "The same.")
        .part(
            "half_widths", &half_widths,
            "Expanded uncertainties of x and y, coverage 95 %, (2,); None where they aren't known.")
        .part(
            "offset",
            [](const PanelPart& part) {
                const auto& from = part.dialled().from_reference;
                return array_of({from.first(), from.second()}, {2});
            },
            "x, y minus the reference's, (2,).")
        .part("observers", &observers_of, "Ids of those for whom targets are told.")
        .part("targets", &targets, "Their targets, x, y: (n, 2).")
        .part(
            "in_gamut", [](const PanelPart& part) { return part.dialled().in_gamut(); },
            "Whether the display can show what is to be dialled in.")
        .part(
            "drive", &drive,
            "Red, green, blue and, where there is one, white emitter, (3,) or (4,), the largest 1; None\n"
            "where it isn't known.")
        .part(
            "luminance_ratio", [](const PanelPart& part) { return part.dialled().luminance_ratio; },
            "CIE 1931 luminance against the white before; None where it isn't known.")
        .part(
            "verdict",
            [](const PanelPart& part) {
                return part.advice ? Text(code_of(part.advice->verdict)) : Text();
            },
            "\"MOVE\", \"LEAVE\" or \"ASK THE EYES\"; None where it can't be judged.")
        .part(
            "reason",
            [](const PanelPart& part) {
                return part.advice ? Text(code_of(part.advice->reason)) : Text();
            },
            "Why: \"nearer\", \"below_instrument\", ...; None where it can't be judged.")
        .part(
            "before_uv",
            [](const PanelPart& part) {
                return part.advice ? std::optional(part.advice->sight.before) : std::nullopt;
            },
            "Expected distance from the right white, u'v', as it is; None where it can't be judged.")
        .part(
            "after_uv",
            [](const PanelPart& part) {
                return part.advice ? std::optional(part.advice->sight.after) : std::nullopt;
            },
            "The same after the move.")
        .part(
            "dominant_cause",
            [](const PanelPart& part) {
                return part.budget ? Text(part.budget->dominant().code) : Text();
            },
            "What makes most of the uncertainty: \"panel_spectrum\", \"observer\", ...; None: not known.")
        .part("warnings", &warning_codes, "Codes of what is doubtful about it.")
        .finish();
}

}  // namespace

void bind_white(py::module_& module) {
    const InstrumentLimits usual;
    Record<InstrumentLimits>(module, "Instrument",
                             "What is known of the instrument that reads x, y.")
        .member("reading_noise", &InstrumentLimits::reading_noise_xy,
                "Standard deviation of a reading's x and y.")
        .member("wavelength_shift", &InstrumentLimits::wavelength_shift_nm,
                "Its wavelength scale is right within this, nm.")
        .member("bandwidth", &InstrumentLimits::bandwidth_nm, "nm")
        .member("stray_light", &InstrumentLimits::stray_light, "Share of the peak.")
        .member("noise", &InstrumentLimits::noise, "Share of the peak.")
        .member("step", &InstrumentLimits::step_nm, "nm; 0: that of the spectra.")
        .finish()
        .def(py::init([](double reading_noise, double shift, double bandwidth, double stray_light,
                         double noise, double step) {
                 return InstrumentLimits{shift, bandwidth, stray_light, noise, step, reading_noise};
             }),
             py::kw_only(), py::arg("reading_noise") = usual.reading_noise_xy,
             py::arg("wavelength_shift") = usual.wavelength_shift_nm,
             py::arg("bandwidth") = usual.bandwidth_nm, py::arg("stray_light") = usual.stray_light,
             py::arg("noise") = usual.noise, py::arg("step") = usual.step_nm,
             "Each has the value of a usual one where it isn't said.");
    bind_part(module);
    auto answer =
        Record<report::WhiteAnswer>(
            module, "WhiteAnswer",
            "What displays must read, how sure that is, and whether to move their whites.")
            .part(
                "reference", [](const report::WhiteAnswer& own) { return own.reference.name; },
                "Its name.")
            .part(
                "parts", [](const report::WhiteAnswer& own) { return own.panels; },
                "A WhitePart a display, in their order.")
            .finish();
    say(
        answer, [](const report::WhiteAnswer& own) { return report::white_report(own); },
        [](const report::WhiteAnswer& own) { return report::white_json(own); });
    module.def(
        "white", &white, py::arg("panels"), py::arg("reference") = "D65", py::kw_only(),
        py::arg("observers") = py::none(), py::arg("population") = py::none(),
        py::arg("viewers") = py::none(), py::arg("instrument") = usual,
        py::arg("additivity_floor") = 0.0, py::arg("threads") = 1,
        "What each display must read to look like the reference, how sure that is, and whether to\n"
        "move its white at all: a WhiteAnswer. panels: one Panel or a list, or what panel() takes;\n"
        "observers: the first is who is meant, None: CIE 2015, 2 and 10 degrees; population: whose\n"
        "differences are told, None: 1,024 people of 20 to 70 years; viewers: (n, 2), ages in years\n"
        "(NaN: not known) and fields in degrees, called A, B, C, ...; additivity_floor: standard\n"
        "deviation in x and y that no observer function explains, 0 to .1; threads: that the work is\n"
        "divided over, 0: as many as the machine has; no digit depends on it. Raises DomainError,\n"
        "InputError, SingularError.");
}

}  // namespace samelight::python
