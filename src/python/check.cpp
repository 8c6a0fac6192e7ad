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
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/faults/fault.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using report::CheckAnswer;

/// Readings of patches, in the order in which they were read.
struct PatchReadings {
    std::string name;
    std::vector<PatchReading> readings;
};

/// What the display is meant to show, and how it is judged.
struct Meant {
    std::optional<std::array<double, 2>> white;
    std::string encoding, curve;
    std::optional<double> white_cd_m2, black_cd_m2;
};

void require_reading(const PatchReading& reading, const std::string& place) {
    // Brighter than this is nothing that an instrument was ever before.
    constexpr double most_cd_m2 = 1e9;
    for (const double value : reading.xyz) {
        if (!(std::abs(value) <= most_cd_m2)) {
            throw Error(ErrorKind::domain, ErrorPlace{place}, to_text(value), "X, Y, Z in cd/m2");
        }
    }
    for (const double value : reading.signal.value_or(std::array<double, 3>{})) {
        if (!(value >= 0.0) || !(value <= 1.0)) {
            throw Error(ErrorKind::domain, ErrorPlace{place}, "a signal of " + to_text(value),
                        "0 to 1");
        }
    }
    if (reading.patch.empty() && !reading.signal) {
        throw Error(ErrorKind::input, ErrorPlace{place}, "neither a name nor a signal",
                    "one of the two at least");
    }
}

PatchReadings patch_readings(const py::object& xyz,
                             const std::optional<std::vector<std::string>>& patches,
                             const py::object& signals, const std::string& name) {
    const Rows read = rows_of(xyz, 3, "xyz");
    std::optional<Rows> shown;
    if (!signals.is_none()) {
        shown = rows_of(signals, 3, "signals");
    }
    if ((patches && patches->size() != read.count) || (shown && shown->count != read.count)) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(read.count) + " readings, " +
                        std::to_string(patches ? patches->size() : 0) + " names, " +
                        std::to_string(shown ? shown->count : 0) + " signals",
                    "as many of each, or none");
    }
    const auto three = [](const double* row) {
        return std::array<double, 3>{row[0], row[1], row[2]};
    };
    PatchReadings result{name, {}};
    for (std::size_t i = 0; i < read.count; ++i) {
        PatchReading reading;
        reading.xyz = three(read.row(i));
        reading.patch = patches ? (*patches)[i] : std::string();
        if (shown) {
            reading.signal = three(shown->row(i));
        }
        require_reading(reading, "reading " + std::to_string(i));
        result.readings.push_back(std::move(reading));
    }
    return result;
}

void correct(const Correction& correction, PatchReadings& readings,
             std::vector<Warning>& warnings) {
    if (correction.observer != Cie1931_2deg::id) {
        throw Error(ErrorKind::input, ErrorPlace{"correction"},
                    "one whose values are of the observer " + correction.observer,
                    "one for " + std::string(Cie1931_2deg::id));
    }
    for (PatchReading& reading : readings.readings) {
        const Corrected corrected = corrected_reading(correction, reading.xyz);
        reading.xyz = corrected.xyz.values();
        if (warnings.empty() && !corrected.warnings.empty()) {
            warnings.push_back(corrected.warnings.front());
        }
    }
}

/// With its ends as the readings have them where nothing is said.
report::IntentOpened intent_of(const Meant& meant, const PatchReadings& readings) {
    const MeasuredEnds ends = measured_ends(readings.readings);
    if (ends.white_cd_m2 && !(*ends.white_cd_m2 > 0.0)) {
        throw Error(ErrorKind::input, ErrorPlace{readings.name},
                    "a full white of " + to_text(*ends.white_cd_m2) + " cd/m2", "one with light");
    }
    // Nothing else is let through: other names would be those of files.
    if (meant.encoding.find_first_of("./\\") != std::string::npos) {
        throw Error(ErrorKind::input, ErrorPlace{"encoding"}, "\"" + meant.encoding + "\"",
                    "bt709, p3-d65, p3-cinema, bt2020, smpte-c, ebu-3213 or ntsc-1953");
    }
    report::IntentTyped typed;
    typed.encoding = meant.encoding;
    typed.curve = meant.curve;
    typed.white_cd_m2 = meant.white_cd_m2;
    typed.black_cd_m2 = meant.black_cd_m2;
    report::IntentOpened intent = [&] {
        try {
            return report::open_intent(typed, ends);
        } catch (const Error& error) {
            // An option of the command's, without what it begins with there.
            const std::string place = error.place().name;
            const std::size_t first = place.find_first_not_of('-');
            throw Error(error.kind(),
                        ErrorPlace{first == std::string::npos ? "intent" : place.substr(first)},
                        error.found(), error.wanted());
        }
    }();
    if (meant.white) {
        intent.chosen = assess::about({"white"}, [&] {
            return intent.plain.with_white(
                Chromaticity<Cie1931_2deg>((*meant.white)[0], (*meant.white)[1]));
        });
        intent.white_chosen = true;
    }
    return intent;
}

CheckAnswer judged(PatchReadings now, std::optional<PatchReadings> before, const Meant& meant,
                   const Correction* correction, double gate, Quantisation codes,
                   std::size_t threads) {
    std::vector<Warning> warnings;
    if (correction != nullptr) {
        correct(*correction, now, warnings);
        std::vector<Warning> of_before;
        if (before) {
            correct(*correction, *before, of_before);
        }
    }
    report::IntentOpened intent = intent_of(meant, now);
    const MeasuredEnds ends = measured_ends(now.readings);
    assess::CheckRequest asked{{now.name, std::move(now.readings), intent.chosen, intent.plain},
                               {}};
    if (before) {
        report::IntentOpened then = intent_of(meant, *before);
        asked.before.emplace(assess::CheckedReadings{before->name, std::move(before->readings),
                                                     std::move(then.chosen),
                                                     std::move(then.plain)});
    }
    asked.white_chosen = intent.white_chosen;
    asked.white_level = meant.white_cd_m2 ? WhiteLevel::asked_for : WhiteLevel::as_measured;
    asked.gate.gate = gate;
    asked.quantisation = codes;
    asked.threads = threads;
    if (correction != nullptr) {
        asked.gate.correction = *correction;
    }
    CheckAnswer answer{assess::about({now.name}, [&] { return assess::answer_check(asked); })};
    answer.white_chosen = intent.white_chosen;
    answer.corrected = correction != nullptr;
    answer.white_supposed = !meant.white_cd_m2 && !ends.white_cd_m2;
    answer.black_supposed = !meant.black_cd_m2 && !ends.black_cd_m2;
    answer.understood = std::move(intent.understood);
    answer.warnings = std::move(warnings);
    return answer;
}

CheckAnswer check(const PatchReadings& readings, const std::optional<std::array<double, 2>>& white,
                  const std::string& encoding, const std::string& curve,
                  std::optional<double> white_luminance, std::optional<double> black_luminance,
                  double gate, int bits, bool limited_range,
                  const std::optional<StoredCorrection>& correction,
                  const std::optional<PatchReadings>& before, std::size_t threads) {
    if (!(gate > 0.0) || !(gate <= 100.0)) {
        throw Error(ErrorKind::input, ErrorPlace{"gate"}, to_text(gate), "above 0, up to 100");
    }
    if (bits < 8 || bits > 16) {
        throw Error(ErrorKind::input, ErrorPlace{"bits"}, std::to_string(bits), "8 to 16");
    }
    const Quantisation codes(bits, limited_range ? SignalRange::limited : SignalRange::full);
    const py::gil_scoped_release free;
    return judged(readings, before, {white, encoding, curve, white_luminance, black_luminance},
                  correction ? &correction->correction : nullptr, gate, codes, threads);
}

void bind_answer(py::module_& module) {
    Record<Fault>(module, "Cause", "A cause of what is wrong.")
        .part(
            "code", [](const Fault& own) { return std::string(code_of(own.kind)); },
            "\"white_off\", \"gamma_other\", ...")
        .part(
            "channel", [](const Fault& own) { return std::string(code_of(own.channel)); },
            "\"none\", \"red\", \"green\", \"blue\" or \"all\".")
        .member("measured", &Fault::measured, "In the unit that the cause has.")
        .member("intended", &Fault::intended, "The same.")
        .member("strength", &Fault::strength, "The mean CIELAB distance that it makes.")
        .member("patches", &Fault::patches, "Over so many patches.")
        .member("patch", &Fault::patch, "What it is about; may be empty.")
        .part(
            "offset",
            [](const Fault& own) {
                return array_of({own.xy[0], own.xy[1]}, {2});
            },
            "With white_off: x, y measured minus intended, (2,).")
        .finish();
    auto answer =
        Record<CheckAnswer>(
            module, "CheckAnswer",
            "Whether a display shows what it is meant to, and what is wrong where it doesn't.")
            .part(
                "verdict", [](const CheckAnswer& own) { return std::string(code_of(own.verdict)); },
                "\"pass\", \"fail\", \"cannot_tell\" or \"read_again\".")
            .part(
                "reason", [](const CheckAnswer& own) { return std::string(code_of(own.reason)); },
                "\"conformity\", \"doubtful_patches\", \"instrument\" or \"correction\".")
            .part(
                "probability",
                [](const CheckAnswer& own) { return own.now.chosen.gate.probability; },
                "That all patches keep the gate.")
            .part(
                "largest", [](const CheckAnswer& own) { return own.now.chosen.gate.largest; },
                "CIEDE2000 of the worst patch.")
            .part(
                "largest_patch",
                [](const CheckAnswer& own) {
                    return own.now.readings.points.at(own.now.chosen.gate.at).shown.name;
                },
                "Its name.")
            .part(
                "standard_uncertainty",
                [](const CheckAnswer& own) { return own.now.chosen.gate.standard_uncertainty; },
                "Of its CIEDE2000.")
            .part(
                "patches", [](const CheckAnswer& own) { return own.now.readings.points.size(); },
                "How many were judged.")
            .part(
                "patches_over_gate", [](const CheckAnswer& own) { return own.over_gate; },
                "How many are over the gate.")
            .part(
                "causes", [](const CheckAnswer& own) { return own.now.found.faults; },
                "A Cause each, the weightiest first.")
            .part(
                "unexplained_patches",
                [](const CheckAnswer& own) { return own.now.found.unexplained; },
                "Over the gate, and explained by none of the causes.")
            .finish();
    say(
        answer, [](const CheckAnswer& own) { return report::check_report(own); },
        [](const CheckAnswer& own) { return report::check_json(own); });
}

}  // namespace

void bind_check(py::module_& module) {
    py::class_<PatchReadings>(module, "PatchReadings",
                              "Readings of patches, in the order in which they were read.")
        .def(
            py::init(&patch_readings), py::arg("xyz"), py::arg("patches") = py::none(),
            py::arg("signals") = py::none(), py::kw_only(), py::arg("name") = "readings",
            "xyz: (n, 3), CIE 1931 in cd/m2; patches: n names (\"white\", \"grey-50\", \"red-75\", ...),\n"
            "which stand for signals; signals: (n, 3), R', G', B' from 0 (black) to 1 (white); one of the\n"
            "two may be None. Raises ShapeError, DomainError, InputError.")
        .def("__len__", [](const PatchReadings& own) { return own.readings.size(); })
        .def("__repr__", [](const PatchReadings& own) {
            return "PatchReadings(" + std::to_string(own.readings.size()) + " of '" + own.name +
                   "')";
        });
    bind_answer(module);
    module.def(
        "check", &check, py::arg("readings"), py::kw_only(), py::arg("white") = py::none(),
        py::arg("encoding") = "bt709", py::arg("curve") = "bt1886",
        py::arg("white_luminance") = py::none(), py::arg("black_luminance") = py::none(),
        py::arg("gate") = 3.0, py::arg("bits") = 8, py::arg("limited_range") = false,
        py::arg("correction") = py::none(), py::arg("before") = py::none(), py::arg("threads") = 1,
        "Judges what a display shows: a CheckAnswer. white: x, y that was chosen, None: the encoding's\n"
        "own; encoding: \"bt709\", \"p3-d65\", \"p3-cinema\", \"bt2020\", \"smpte-c\", \"ebu-3213\",\n"
        "\"ntsc-1953\"; curve: \"bt1886\", \"power:EXPONENT\", \"srgb\", \"pq\", \"pq:PEAK\", \"hlg\"; luminances of\n"
        "full white and black, cd/m2, None: as measured; gate: the largest CIEDE2000 that passes; bits,\n"
        "8 to 16, and range of the codes that names stand for; correction: of the readings; before:\n"
        "PatchReadings from before the work; threads: that the work is divided over, 0: as many as the\n"
        "machine has; no digit depends on it. Raises InputError, DomainError.");
}

}  // namespace samelight::python
