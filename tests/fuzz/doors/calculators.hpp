#pragma once
// What is demanded of calculators that numbers go straight into, and the displays and readings that several of them are asked about.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "demand.hpp"
#include "doors/drawn.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"

namespace fuzz {

/// `ask`, or nothing where it refuses in one line.
template <class Ask>
auto or_refused(Ask ask) -> std::optional<decltype(ask())> {
    try {
        return ask();
    } catch (const samelight::Error& error) {
        demand(is_one_line(error.what()), "an error of one line");
        return {};
    }
}

/// As or_refused(), twice: whether it answers must not change.
template <class Ask>
auto twice_or_refused(Ask ask) {
    auto first = or_refused(ask);
    const auto second = or_refused(ask);
    demand(first.has_value() == second.has_value(), "an answer, or a refusal, twice");
    return std::pair{std::move(first), second};
}

template <class Numbers>
void demand_numbers(const Numbers& numbers, const char* what) {
    for (const double number : numbers) {
        demand(std::isfinite(number),
               std::string(what) + ": finite numbers, not " + std::to_string(number));
    }
}

inline void demand_number(double number, const char* what) {
    demand_numbers(std::array{number}, what);
}

inline std::optional<samelight::IntendedDisplay> drawn_display(Drawn& drawn) {
    using namespace samelight;
    CurveOptions options;
    options.kind = static_cast<CurveKind>(drawn.count(4));
    options.white_cd_m2 = drawn.number(50.0, 2000.0);
    options.black_cd_m2 = drawn.one_in(2) ? 0.0 : drawn.number(0.0, 1.0);
    options.exponent = drawn.number(1.8, 2.6);
    if (drawn.one_in(3)) options.programme_peak_cd_m2 = drawn.number(100.0, 10000.0);
    const RgbEncoding encodings[] = {RgbEncoding::of<Bt709>(), RgbEncoding::of<Bt2020>(),
                                     RgbEncoding::of<P3D65>()};
    const RgbEncoding& encoding = encodings[drawn.count(2)];
    return or_refused([&] { return IntendedDisplay(encoding, SignalCurve(options)); });
}

/// Readings of greys (and colours, where `colours`) of such a display, each off by what the bytes say, some by anything.
inline std::vector<samelight::PatchReading> drawn_readings(
    Drawn& drawn, const samelight::IntendedDisplay& display, bool colours) {
    std::vector<samelight::PatchReading> readings(drawn.count(24));
    for (samelight::PatchReading& reading : readings) {
        std::array<double, 3> signal{};
        signal.fill(drawn.one_in(20) ? drawn.number(-0.1, 1.1) : drawn.byte() / 255.0);
        if (colours && drawn.one_in(3)) {
            for (double& channel : signal) {
                channel = drawn.byte() / 255.0;
            }
        }
        const auto light = or_refused([&] { return display.xyz(signal); });
        for (std::size_t k = 0; k < 3; ++k) {
            const double off = 0.98 + drawn.byte() / 6400.0;
            reading.xyz[k] = light ? (*light)[k] * off : 1.0;
        }
        if (drawn.one_in(16)) reading.xyz[drawn.count(2)] = drawn.number(-1.0, 500.0);
        if (!drawn.one_in(30)) reading.signal = signal;
        if (drawn.one_in(8)) reading.window_pct = drawn.number(0.1, 100.0);
        if (drawn.one_in(4)) reading.time_s = drawn.number(0.0, 3600.0);
        reading.patch = drawn.word(
            std::array<const char*, 8>{"", "", "", "white", "black", "red", "grey-50", "?"});
    }
    return readings;
}

}  // namespace fuzz
