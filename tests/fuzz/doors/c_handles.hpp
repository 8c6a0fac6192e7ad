#pragma once
// Displays, lights, observers and people of the C interface, made of a fuzzer's bytes; null where they are refused.
#include <array>
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "doors/c_answers.hpp"
#include "doors/drawn.hpp"

namespace fuzz {

template <class T>
using Handle = std::unique_ptr<T, void (*)(T*)>;
using Observer = Handle<samelight_observer>;
using Panel = Handle<samelight_panel>;
using Reference = Handle<samelight_reference>;
using Population = Handle<samelight_population>;

/// The wavelengths of an instrument: mostly ascending.
inline std::vector<double> drawn_wavelengths(Drawn& drawn) {
    const std::size_t count = 2 + drawn.count(14);
    const double first = drawn.number(200.0, 500.0);
    const double step = drawn.number(0.5, 50.0);
    std::vector<double> all;
    for (std::size_t i = 0; i < count; ++i) {
        all.push_back(first + step * double(i));
    }
    if (drawn.one_in(8)) all[drawn.byte() % count] = drawn.number(300.0, 800.0);
    return all;
}

/// Spectra with what they lie in.
struct DrawnSpectra {
    std::vector<double> nm;
    std::vector<double> values;
    samelight_spectra spectra{};
};
inline DrawnSpectra drawn_spectra(Drawn& drawn, std::size_t count) {
    DrawnSpectra made;
    made.nm = drawn_wavelengths(drawn);
    for (std::size_t i = 0; i < count; ++i) {
        const std::vector<double> values = drawn.numbers(made.nm.size(), -0.01, 1.0);
        made.values.insert(made.values.end(), values.begin(), values.end());
    }
    made.spectra = {made.nm.data(), made.nm.size(), made.values.data(), count, 0, 0};
    return made;
}

inline Observer drawn_observer(Drawn& drawn) {
    constexpr std::array<const char*, 8> names = {
        "cie1931-2deg",  "cie2015-2deg", "cie1964-10deg",   "cie2015-10deg",
        "judd-vos-1978", "nobody",       "cie2006:1e999:2", "cie2006:33:3"};
    samelight_observer* made = nullptr;
    samelight_error error{};
    if (drawn.one_in(3)) {
        const double age = drawn.number(10.0, 90.0);
        answered(samelight_observer_of_age(age, drawn.number(0.5, 11.0), &made, &error), error,
                 "observer of age");
    } else if (drawn.one_in(4)) {
        samelight_observer_table table{};
        samelight_observer_table_defaults(&table);
        table.id = drawn.word(std::array<const char*, 4>{"own", "two words", "", "cie1931-2deg"});
        table.title = "One's own";
        table.receptors = drawn.one_in(2) ? SAMELIGHT_CONES : SAMELIGHT_COLOUR_MATCHING;
        table.grid = {drawn.number(300.0, 500.0), drawn.number(1.0, 60.0), 2 + drawn.count(10)};
        const std::vector<double> rows = drawn.numbers(3 * table.grid.count, -0.1, 2.0);
        table.rows = rows.data();
        answered(samelight_observer_from_table(&table, &made, &error), error, "observer's table");
    } else {
        answered(samelight_observer_named(drawn.word(names), &made, &error), error,
                 "observer's name");
    }
    return {made, samelight_observer_destroy};
}

inline samelight_panel* panel_of_spectra(Drawn& drawn) {
    const DrawnSpectra lights = drawn_spectra(drawn, 5);
    const std::size_t count = lights.nm.size();
    const double* values = lights.values.data();
    samelight_panel_spectra spectra{};
    samelight_panel_spectra_defaults(&spectra);
    spectra.name = "drawn";
    spectra.wavelengths_nm = lights.nm.data();
    spectra.wavelength_count = count;
    spectra.red = values;
    spectra.green = values + count;
    spectra.blue = values + 2 * count;
    if (drawn.one_in(2)) spectra.white = values + 3 * count;
    if (drawn.one_in(2)) spectra.black = values + 4 * count;
    spectra.common_scale = drawn.one_in(4) ? 0 : 1;
    samelight_panel* made = nullptr;
    samelight_error error{};
    answered(samelight_panel_from_spectra(&spectra, &made, &error), error, "panel");
    return made;
}

inline Panel drawn_panel(Drawn& drawn) {
    constexpr std::array<const char*, 4> types = {"crt", "oled-rgb", "lcd-white-led", "no-type"};
    samelight_error error{};
    samelight_panel* made = nullptr;
    if (drawn.one_in(2)) {
        answered(samelight_panel_generic(drawn.word(types), &made, &error), error, "generic panel");
    } else {
        made = panel_of_spectra(drawn);
    }
    Panel panel(made, samelight_panel_destroy);
    if (panel && drawn.one_in(3)) {
        samelight_panel* set = nullptr;
        if (drawn.one_in(2)) {
            const DrawnSpectra white = drawn_spectra(drawn, 1);
            answered(samelight_panel_with_measured_white(panel.get(), &white.spectra, &set, &error),
                     error, "measured white");
        } else {
            const double x = drawn.number(0.2, 0.45);
            answered(
                samelight_panel_with_white(panel.get(), x, drawn.number(0.2, 0.45), &set, &error),
                error, "white of a panel");
        }
        if (set != nullptr) panel.reset(set);
    }
    return panel;
}

inline Reference drawn_reference(Drawn& drawn) {
    samelight_reference* made = nullptr;
    samelight_error error{};
    if (drawn.one_in(3)) {
        const DrawnSpectra light = drawn_spectra(drawn, 1);
        answered(samelight_reference_spectrum("lamp", &light.spectra, &made, &error), error,
                 "reference spectrum");
    } else if (drawn.one_in(3)) {
        const Panel panel = drawn_panel(drawn);
        if (panel)
            answered(samelight_reference_panel(panel.get(), &made, &error), error,
                     "reference panel");
    } else {
        answered(
            samelight_reference_illuminant(
                drawn.word(std::array<const char*, 5>{"D65", "A", "E", "D50", "Z"}), &made, &error),
            error, "illuminant");
    }
    return {made, samelight_reference_destroy};
}

inline Population drawn_population(Drawn& drawn) {
    samelight_population_options options{};
    samelight_population_options_defaults(&options);
    options.count = drawn.count(40);
    options.youngest_years = drawn.number(18.0, 60.0);
    options.oldest_years = drawn.number(40.0, 82.0);
    options.field_deg = drawn.number(0.9, 10.1);
    options.seed = drawn.byte();
    samelight_population* made = nullptr;
    samelight_error error{};
    answered(samelight_population_create(&options, &made, &error), error, "population");
    return {made, samelight_population_destroy};
}

}  // namespace fuzz
