// Any readings of patches and any intentions through the C interface: refused in one line, or a proof with finite figures, twice the same.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "doors/c_handles.hpp"

namespace {

using fuzz::Drawn;

/// Readings as a display of BT.709's primaries with some gamma gives them, each off by what the bytes say.
struct Visit {
    std::vector<const char*> names;
    std::vector<double> signals;
    std::vector<double> xyz;
    samelight_patch_readings readings{};
};

void take(Visit& visit, Drawn& drawn, std::size_t count) {
    constexpr std::array<const char*, 12> names = {"white",     "black", "grey-50", "red",
                                                   "green",     "blue",  "grey-20", "white-50",
                                                   "red-75-50", "skin",  "",        "cyan-100"};
    constexpr std::array<std::array<double, 3>, 3> primaries = {
        {{41.24, 21.26, 1.93}, {35.76, 71.52, 11.92}, {18.05, 7.22, 95.05}}};
    const double gamma = drawn.number(1.5, 3.0);
    const double scale = drawn.one_in(6) ? drawn.number(0.001, 100.0) : 1.0;
    for (std::size_t i = 0; i < count; ++i) {
        std::array<double, 3> signal{};
        const std::uint8_t kind = drawn.byte();
        if (kind < 128) {
            signal.fill(double(kind) / 127.0);
        } else {
            for (double& channel : signal)
                channel = kind < 250 ? drawn.byte() / 255.0 : drawn.number(-0.1, 1.1);
        }
        visit.names.push_back(drawn.word(names));
        const bool odd = drawn.one_in(12);
        for (std::size_t k = 0; k < 3; ++k) {
            visit.signals.push_back(signal[k]);
            double light = 0.0;
            for (std::size_t c = 0; c < 3; ++c) {
                light += primaries[c][k] * std::pow(std::fmax(signal[c], 0.0), gamma);
            }
            visit.xyz.push_back(odd ? drawn.number(-1.0, 500.0)
                                    : scale * light * (0.98 + drawn.byte() / 6400.0));
        }
    }
    samelight_patch_readings_defaults(&visit.readings);
    visit.readings.name = "visit";
    visit.readings.count = count;
    const bool by_name = drawn.one_in(4);
    if (by_name || drawn.one_in(2)) visit.readings.patches = visit.names.data();
    if (!by_name) visit.readings.signals = {visit.signals.data(), count, 0};
    visit.readings.xyz = {visit.xyz.data(), count, 0};
}

samelight_check_options drawn_options(Drawn& drawn) {
    constexpr std::array<const char*, 8> encodings = {nullptr,  "bt709",   "p3-d65",   "p3-cinema",
                                                      "bt2020", "smpte-c", "ebu-3213", "none"};
    constexpr std::array<const char*, 12> curves = {
        nullptr, nullptr,  "bt1886",    "power:2.2", "srgb",         "pq",
        "hlg",   "pq:600", "power:2.4", "pq:nan",    "power:1e-300", "power:0"};
    samelight_check_options options{};
    samelight_check_options_defaults(&options);
    if (drawn.one_in(3)) {
        options.white_x = drawn.number(0.25, 0.4);
        options.white_y = drawn.number(0.25, 0.4);
    }
    options.encoding = drawn.word(encodings);
    options.curve = drawn.word(curves);
    if (drawn.one_in(4)) options.white_cd_m2 = drawn.number(0.0, 2000.0);
    if (drawn.one_in(4)) options.black_cd_m2 = drawn.number(0.0, 1.0);
    if (drawn.one_in(4)) options.gate_de00 = drawn.number(0.0, 10.0);
    if (drawn.one_in(4)) options.bits = drawn.byte() % 20;
    options.limited_range = drawn.one_in(4) ? 1 : 0;
    return options;
}

void demand_answer(const samelight_check_answer* answer) {
    samelight_error error{};
    samelight_check_summary summary{};
    samelight_check_summary_defaults(&summary);
    if (!fuzz::answered(samelight_check_answer_summary(answer, &summary, &error), error, "summary"))
        return;
    fuzz::demand(
        summary.probability_of_conformity >= 0.0 && summary.probability_of_conformity <= 1.0,
        "a probability");
    fuzz::demand(summary.largest_de00 >= 0.0 && std::isfinite(summary.largest_de00),
                 "a difference that is one");
    fuzz::demand(!(summary.standard_uncertainty_de00 < 0.0), "an uncertainty that is one");
    for (std::size_t i = 0; i < summary.causes; ++i) {
        samelight_check_cause cause{};
        samelight_check_cause_defaults(&cause);
        if (fuzz::answered(samelight_check_answer_cause(answer, i, &cause, &error), error,
                           "cause")) {
            fuzz::demand_finite(std::array{cause.measured, cause.intended, cause.strength_delta_e},
                                "a cause");
        }
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    samelight_check_options options = drawn_options(drawn);
    Visit visit;
    Visit before;
    take(visit, drawn, drawn.count(24));
    if (drawn.one_in(4)) {
        take(before, drawn, drawn.count(12));
        options.before = &before.readings;
    }
    samelight_check_answer* made = nullptr;
    samelight_error error{};
    const bool judged =
        fuzz::answered(samelight_check(&visit.readings, &options, &made, &error), error, "check");
    const fuzz::Handle<samelight_check_answer> owned(made, samelight_check_answer_destroy);
    if (!judged) return 0;
    demand_answer(made);
    fuzz::same_json_twice(
        [&](samelight_text** json, samelight_error* e) {
            return samelight_check_answer_json(made, json, e);
        },
        "check");
    return 0;
}
