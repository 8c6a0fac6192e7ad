// Any paired readings, meters and corrections through the C interface: refused in one line, or an answer that is the same twice, reads back and corrects to
// finite readings.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "doors/c_handles.hpp"

namespace {

using fuzz::Drawn;
using Correction = fuzz::Handle<samelight_correction>;

void demand_correction(const samelight_correction* correction, Drawn& drawn) {
    samelight_error error{};
    samelight_correction_facts facts{};
    samelight_correction_facts_defaults(&facts);
    if (fuzz::answered(samelight_correction_facts_of(correction, &facts, &error), error, "facts")) {
        fuzz::demand_finite(facts.xyz_from_meter, "a correction");
    }
    const std::vector<double> readings = drawn.numbers(6, -1.0, 300.0);
    const samelight_rows rows{readings.data(), 2, 0};
    std::array<double, 6> xyz{};
    std::array<double, 6> half_widths{};
    std::array<std::int32_t, 2> outside{};
    if (fuzz::answered(samelight_correction_apply(correction, &rows, xyz.data(), 0,
                                                  half_widths.data(), 0, outside.data(), &error),
                       error, "apply")) {
        fuzz::demand_finite(xyz, "corrected readings");
        for (const double half_width : half_widths) {
            fuzz::demand(!(half_width < 0.0), "half widths of 0 or more");
        }
    }
    const std::string text = fuzz::same_json_twice(
        [&](samelight_text** json, samelight_error* e) {
            return samelight_correction_to_json(correction, json, e);
        },
        "correction");
    if (text.empty()) return;
    samelight_correction* again = nullptr;
    fuzz::demand(fuzz::answered(samelight_correction_from_json("kept", text.data(), text.size(),
                                                               &again, &error),
                                error, "read back"),
                 std::string("a correction that reads back: ") + error.message);
    const Correction owned(again, samelight_correction_destroy);
    fuzz::demand(fuzz::same_json_twice(
                     [&](samelight_text** json, samelight_error* e) {
                         return samelight_correction_to_json(again, json, e);
                     },
                     "read back") == text,
                 "a correction that reads back to the bit");
}

void fit(Drawn& drawn) {
    constexpr std::array<const char*, 8> patches = {"white", "red",     "green", "blue",
                                                    "black", "grey-50", "",      "skin"};
    constexpr std::array<const char*, 8> methods = {"four-colour", "three-colour", "least-squares",
                                                    "weighted",    "white-exact",  "white-only",
                                                    "none",        nullptr};
    const std::size_t count = drawn.count(9);
    std::vector<const char*> names;
    std::vector<std::int32_t> rounds;
    for (std::size_t i = 0; i < count; ++i) {
        names.push_back(drawn.one_in(5) ? drawn.word(patches) : patches[i % 4]);
        rounds.push_back(drawn.one_in(9) ? std::int32_t{drawn.byte()} - 2
                                         : std::int32_t(i / 4 + 1));
    }
    const std::vector<double> reference = drawn.numbers(3 * count, -0.5, 200.0);
    std::vector<double> meter = drawn.numbers(3 * count, -0.5, 200.0);
    if (drawn.one_in(2)) {
        // A meter that is nearly right.
        for (std::size_t i = 0; i < meter.size(); ++i) {
            meter[i] = reference[i] * (0.95 + 0.001 * drawn.byte());
        }
    }
    samelight_paired_readings pairs{};
    samelight_paired_readings_defaults(&pairs);
    pairs.name = "drawn";
    pairs.count = count;
    pairs.patches = names.data();
    pairs.rounds = drawn.one_in(2) ? rounds.data() : nullptr;
    pairs.reference_xyz = {reference.data(), count, 0};
    pairs.meter_xyz = {meter.data(), count, 0};
    samelight_fit_options options{};
    samelight_fit_options_defaults(&options);
    options.method = drawn.word(methods);
    options.wanted_half_width = drawn.number(0.0, 0.01);
    options.noise_xy = drawn.number(0.0, 0.01);
    options.resamples = drawn.count(40);
    samelight_correction* made = nullptr;
    samelight_error error{};
    const bool fitted = fuzz::answered(
        samelight_correction_fit(&pairs, &options, &made, nullptr, &error), error, "fit");
    const Correction owned(made, samelight_correction_destroy);
    if (!fitted) return;
    demand_correction(made, drawn);
    if (!drawn.one_in(4)) return;
    fuzz::same_json_twice(
        [&](samelight_text** json, samelight_error* e) {
            samelight_correction* again = nullptr;
            const samelight_status status =
                samelight_correction_fit(&pairs, &options, &again, json, e);
            samelight_correction_destroy(again);
            return status;
        },
        "fit's answer");
}

void model(Drawn& drawn) {
    const fuzz::DrawnSpectra sensitivities = fuzz::drawn_spectra(drawn, 3);
    const fuzz::Panel panel = fuzz::drawn_panel(drawn);
    const fuzz::Observer observer = fuzz::drawn_observer(drawn);
    if (!panel) return;
    samelight_meter meter{};
    samelight_meter_defaults(&meter);
    meter.name = "meter";
    meter.sensitivities = sensitivities.spectra;
    meter.scale_on_a = drawn.one_in(2) ? 1 : 0;
    samelight_correction* made = nullptr;
    samelight_text* text = nullptr;
    samelight_error error{};
    const bool modelled = fuzz::answered(
        samelight_correction_model(&meter, panel.get(), observer.get(), &made, &text, &error),
        error, "model");
    const Correction owned(made, samelight_correction_destroy);
    const fuzz::Handle<samelight_text> json(text, samelight_text_destroy);
    if (!modelled) return;
    demand_correction(made, drawn);
    const samelight_correction* one[1] = {made};
    const char* names[1] = {"this"};
    samelight_choice_request request{};
    samelight_choice_request_defaults(&request);
    request.corrections = one;
    request.names = names;
    request.correction_count = drawn.count(1);
    request.panel = panel.get();
    request.meter = drawn.one_in(2) ? &meter : nullptr;
    request.mismatch_percent = drawn.number(0.0, 60.0);
    request.limit_uv = drawn.number(0.0, 0.02);
    samelight_choice choice{};
    samelight_choice_defaults(&choice);
    if (fuzz::answered(samelight_correction_choose(&request, &choice, nullptr, &error), error,
                       "choose")) {
        fuzz::demand(choice.expected_uv >= 0.0, "an expected error of 0 or more");
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    if (drawn.one_in(3)) {
        model(drawn);
    } else {
        fit(drawn);
    }
    return 0;
}
