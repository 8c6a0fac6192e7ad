#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
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
#include "samelight/assess/meter_fit.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using report::MeterFitAnswer;
using report::MeterModelAnswer;

/// Corrected readings, and how sure they are.
struct CorrectedRows {
    std::size_t count = 0;
    std::vector<double> xyz = {}, half_widths = {};
    std::vector<bool> outside = {};
};

CorrectionMethod method_named(const std::string& name) {
    const std::vector<std::string> names = report::meter_fit_methods();
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
        std::string known;
        for (const std::string& one : names) {
            known += (known.empty() ? "" : ", ") + one;
        }
        throw Error(ErrorKind::input, ErrorPlace{"method"}, "\"" + name + "\"", "one of " + known);
    }
    // In the order of CorrectionMethod.
    return static_cast<CorrectionMethod>(at - names.begin());
}

assess::DisplayReadings paired(const std::vector<std::string>& patches,
                               const py::object& reference_xyz, const py::object& meter_xyz,
                               const std::optional<std::vector<int>>& rounds) {
    const Rows reference = rows_of(reference_xyz, 3, "reference_xyz");
    const Rows meter = rows_of(meter_xyz, 3, "meter_xyz");
    const std::size_t count = patches.size();
    if (reference.count != count || meter.count != count || (rounds && rounds->size() != count)) {
        throw Error(ErrorKind::shape, ErrorPlace{"readings"},
                    std::to_string(count) + " patches, " + std::to_string(reference.count) +
                        " and " + std::to_string(meter.count) + " readings" +
                        (rounds ? ", " + std::to_string(rounds->size()) + " rounds" : ""),
                    "as many of each");
    }
    assess::DisplayReadings display;
    for (std::size_t i = 0; i < count; ++i) {
        const int round = rounds ? (*rounds)[i] : 1;
        if (round < 1) {
            throw Error(ErrorKind::domain, ErrorPlace{"round of pair " + std::to_string(i)},
                        std::to_string(round), "1 or more");
        }
        const auto xyz = [&](const Rows& rows) {
            return std::array<double, 3>{rows.row(i)[0], rows.row(i)[1], rows.row(i)[2]};
        };
        display.readings.push_back({patches[i], Instrument::reference, round, xyz(reference)});
        display.readings.push_back({patches[i], Instrument::meter, round, xyz(meter)});
    }
    return display;
}

MeterFitAnswer fit_correction(const std::vector<std::string>& patches,
                              const py::object& reference_xyz, const py::object& meter_xyz,
                              const std::optional<std::vector<int>>& rounds,
                              const std::string& name, const std::string& method,
                              double wanted_half_width, std::optional<double> noise,
                              std::size_t resamples, std::uint64_t seed, std::size_t threads) {
    assess::MeterFitRequest asked;
    asked.display = paired(patches, reference_xyz, meter_xyz, rounds);
    asked.display.name = name;
    asked.options.method = method_named(method);
    asked.options.wanted_half_width = wanted_half_width;
    asked.options.resamples = resamples;
    asked.options.seed = seed;
    asked.options.threads = threads;
    if (noise) {
        asked.options.noise_from = NoiseFrom::stated;
        asked.options.stated = stated_noise(*noise);
    }
    assess::require_valid(asked.options);
    const py::gil_scoped_release free;
    return {assess::about({name}, [&] { return assess::answer_meter_fit(asked); }), {}, {}, {}};
}

MeterModelAnswer model_correction(const py::object& sensitivities, const py::object& wavelengths,
                                  const py::object& panel, const py::object& observer,
                                  const std::string& name, bool scale_on_a) {
    const SpectraRows rows = spectra_of(sensitivities, wavelengths, "sensitivities");
    if (rows.rows.single || rows.rows.count != 3) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(rows.rows.count) + " sensitivities",
                    "three: those behind X, Y and Z");
    }
    assess::MeterModelRequest asked{
        meter_rows(
            {name,
             {spectrum_at(rows, 0, "x"), spectrum_at(rows, 1, "y"), spectrum_at(rows, 2, "z")},
             {"x", "y", "z"},
             scale_on_a ? RowScale::illuminant_a : RowScale::as_given}),
        listed(panel_of(panel))};
    asked.observer = observer_of(observer);
    const std::string subject = name + " with " + asked.panel.name;
    const py::gil_scoped_release free;
    return {assess::about({subject}, [&] { return assess::answer_meter_model(asked); }), {}};
}

/// Expanded uncertainties of x, y and Y; NaN where they can't be told.
std::array<double, 3> half_widths_of(const Correction& correction, const double* row) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    if (correction.covariance) {
        try {
            return certainty(correction, {row[0], row[1], row[2]}).half_widths();
        } catch (const Error&) {
            // A reading without light has no x, y.
        }
    }
    return {none, none, none};
}

CorrectedRows apply(const StoredCorrection& stored, const py::object& meter_xyz) {
    const Rows rows = rows_of(meter_xyz, 3, "meter_xyz");
    const py::gil_scoped_release free;
    CorrectedRows result{rows.count};
    for (std::size_t i = 0; i < rows.count; ++i) {
        const double* row = rows.row(i);
        const Corrected corrected = assess::about({"reading " + std::to_string(i)}, [&] {
            return corrected_reading(stored.correction, {row[0], row[1], row[2]});
        });
        const auto& xyz = corrected.xyz.values();
        result.xyz.insert(result.xyz.end(), xyz.begin(), xyz.end());
        const auto sure = half_widths_of(stored.correction, row);
        result.half_widths.insert(result.half_widths.end(), sure.begin(), sure.end());
        // Of the correction's warnings there is but this one (corrected_reading()).
        result.outside.push_back(!corrected.warnings.empty());
    }
    return result;
}

py::array outside(const CorrectedRows& own) {
    py::array_t<bool> result(static_cast<py::ssize_t>(own.count));
    std::copy(own.outside.begin(), own.outside.end(), result.mutable_data());
    return result;
}

void bind_correction(py::module_& module) {
    const auto rows = [](std::vector<double> CorrectedRows::*at) {
        return [at](const CorrectedRows& own) {
            return array_of(own.*at, {static_cast<py::ssize_t>(own.count), 3});
        };
    };
    Record<CorrectedRows>(module, "CorrectedReadings", "What Correction.apply() gives.")
        .part("xyz", rows(&CorrectedRows::xyz), "X, Y, Z in cd/m2, (n, 3).")
        .part(
            "half_widths", rows(&CorrectedRows::half_widths),
            "Expanded uncertainties of x, y and Y (relative), coverage 95 %, by the correction, without\n"
            "the reading's own scatter, (n, 3); infinite for too few repeats, NaN where it isn't known.")
        .part("outside", &outside,
              "(n,), True where the correction holds near one white only and this is none.")
        .finish();
    py::class_<StoredCorrection>(
        module, "Correction",
        "A correction of a filter meter, with what is kept beside it. Made by\n"
        "fit_correction() and model_correction().")
        .def_property_readonly(
            "matrix",
            [](const StoredCorrection& own) {
                const auto matrix = own.correction.xyz_from_meter();
                return array_of({matrix.begin(), matrix.end()}, {3, 3});
            },
            "(3, 3): reference X, Y, Z = matrix @ meter X, Y, Z.")
        .def_property_readonly(
            "method",
            [](const StoredCorrection& own) { return std::string(code_of(own.correction.method)); },
            "As in a correction file: \"four-colour\", \"from spectra\", ...")
        .def_property_readonly(
            "observer", [](const StoredCorrection& own) { return own.correction.observer; },
            "Id of the observer whose values it gives.")
        .def("apply", &apply, py::arg("meter_xyz"),
             "Corrects readings, (n, 3) or (3,), cd/m2: CorrectedReadings. Raises DomainError.")
        .def(
            "to_json", [](const StoredCorrection& own) { return io::correction_text(own); },
            "The text of a correction file, which reads back to the bit.")
        .def_static(
            "from_json",
            [](const std::string& text, const std::string& name) {
                return io::parse_correction(text, name);
            },
            py::arg("text"), py::arg("name") = "correction",
            "Reads the text of a correction file. Raises InputError, which names the key.")
        .def("__repr__", [](const StoredCorrection& own) {
            return "Correction('" + std::string(code_of(own.correction.method)) + "')";
        });
}

}  // namespace

void bind_corrections(py::module_& module) {
    bind_correction(module);
    auto fit =
        Record<MeterFitAnswer>(module, "FitAnswer",
                               "A correction from paired readings, and how good it is.")
            .part(
                "correction", [](const MeterFitAnswer& own) { return own.stored; },
                "The Correction.")
            .part(
                "verdict",
                [](const MeterFitAnswer& own) {
                    return std::string(code_of(own.judgement.verdict));
                },
                "\"use\", \"use_unproven\", \"not_needed\", \"read_again\" or \"do_not_use\".")
            .part(
                "reason",
                [](const MeterFitAnswer& own) {
                    return std::string(code_of(own.judgement.reason));
                },
                "Why.")
            .finish();
    say(
        fit, [](const MeterFitAnswer& own) { return report::meter_fit_report(own); },
        [](const MeterFitAnswer& own) { return report::meter_fit_json(own); });
    auto model =
        Record<MeterModelAnswer>(
            module, "ModelAnswer",
            "A correction from a meter's sensitivities and a display's spectra.")
            .part(
                "correction", [](const MeterModelAnswer& own) { return own.stored; },
                "The Correction.")
            .part(
                "verdict",
                [](const MeterModelAnswer& own) { return std::string(code_of(own.verdict)); },
                "Whether to use it.")
            .finish();
    say(
        model, [](const MeterModelAnswer& own) { return report::meter_model_report(own); },
        [](const MeterModelAnswer& own) { return report::meter_model_json(own); });
    const assess::MeterFitOptions usual;
    module.def(
        "fit_correction", &fit_correction, py::arg("patches"), py::arg("reference_xyz"),
        py::arg("meter_xyz"), py::arg("rounds") = py::none(), py::kw_only(),
        py::arg("name") = "display", py::arg("method") = "four-colour",
        py::arg("wanted_half_width") = usual.wanted_half_width, py::arg("noise") = py::none(),
        py::arg("resamples") = usual.resamples, py::arg("seed") = usual.seed,
        py::arg("threads") = usual.threads,
        "Makes a correction of what a reference and a meter read of the same showings, and judges it:\n"
        "a FitAnswer. patches: n names (\"white\", \"red\", \"green\", \"blue\", \"black\", any); readings:\n"
        "(n, 3), X, Y, Z in cd/m2; rounds: n, which time around, from 1. method: \"four-colour\",\n"
        "\"three-colour\", \"least-squares\", \"weighted\", \"white-exact\", \"white-only\"; noise: standard\n"
        "deviation of a reading's x and y, None: from the readings; threads: that the resamples are\n"
        "divided over, 0: as many as the machine has; no digit depends on it. Raises InputError,\n"
        "ShapeError.");
    module.def(
        "model_correction", &model_correction, py::arg("sensitivities"),
        py::arg("wavelengths") = py::none(), py::kw_only(), py::arg("panel"),
        py::arg("observer") = "cie1931-2deg", py::arg("name") = "meter",
        py::arg("scale_on_a") = false,
        "Makes a correction for a display from what a meter is sensitive to, (3, m) at m wavelengths,\n"
        "nm: a ModelAnswer. scale_on_a: its scale isn't known, and such that it reads illuminant A\n"
        "right.");
}

}  // namespace samelight::python
