#pragma once
// Valid arguments for every function of the C interface, made by itself: what the tests bend.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "samelight/c/samelight.h"

namespace c_interface {

inline void require(samelight_status status, const samelight_error& error) {
    if (status != SAMELIGHT_OK) throw std::runtime_error(error.message);
}

inline std::string bytes_of(const std::string& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

/// A light with one peak, over 380-780 nm by 5 nm.
inline std::vector<double> peak_at(double nm, double width_nm) {
    std::vector<double> values;
    for (int i = 0; i <= 80; ++i) {
        const double off = (380.0 + 5.0 * i - nm) / width_nm;
        values.push_back(1e-5 + std::exp(-0.5 * off * off));
    }
    return values;
}

inline std::vector<double> sum_of(const std::vector<double>& a, const std::vector<double>& b,
                                  const std::vector<double>& c) {
    std::vector<double> sum;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum.push_back(a[i] + b[i] + c[i]);
    return sum;
}

/// Red, green and blue of two units, of the second of which green and blue are one light.
inline std::vector<double> units_of_which_the_second_cannot_be() {
    std::vector<double> lights;
    for (const auto& light : {peak_at(630, 20), peak_at(530, 25), peak_at(455, 12),
                              peak_at(630, 20), peak_at(530, 25), peak_at(530, 25)}) {
        lights.insert(lights.end(), light.begin(), light.end());
    }
    return lights;
}

/// Handles, arrays and structs that are all right.
struct World {
    World() {
        for (int i = 0; i <= 80; ++i)
            nm.push_back(380.0 + 5.0 * i);
        for (const auto* one : {&red, &green, &blue})
            three.insert(three.end(), one->begin(), one->end());
        spectra = {nm.data(), nm.size(), three.data(), 3, 0, 0};
        light = {nm.data(), nm.size(), white.data(), 1, 0, 0};
        make_panels();
        make_people();
        make_corrections();
        make_check();
    }
    World(const World&) = delete;
    World& operator=(const World&) = delete;
    ~World() {
        samelight_check_answer_destroy(check_answer);
        samelight_correction_destroy(correction);
        samelight_white_answer_destroy(white_answer);
        samelight_population_destroy(population);
        samelight_reference_destroy(reference);
        for (samelight_panel* panel : panels)
            samelight_panel_destroy(panel);
        samelight_observer_destroy(observer);
    }

    samelight_error error{};
    std::vector<double> nm, three;
    const std::vector<double> red = peak_at(630, 20), green = peak_at(530, 25),
                              blue = peak_at(455, 12), white = sum_of(red, green, blue);
    samelight_spectra spectra{}, light{};
    samelight_sampling sampling{400.0, 5.0, 61};
    const std::array<double, 6> six = {41.2, 36.5, 32.1, 95.0, 100.0, 108.9},
                                six_more = {50, 2.6, -79, 60, -3, 20};
    samelight_rows rows{six.data(), 2, 0}, more_rows{six_more.data(), 2, 0};
    const std::array<double, 3> white_xyz = {95.05, 100.0, 108.88};

    samelight_observer* observer = nullptr;
    samelight_observer_table table{};
    std::vector<double> table_rows;
    samelight_panel_spectra panel_spectra{};
    std::string csv = bytes_of(SAMELIGHT_DATA "/demo/desk-display.csv");
    std::array<samelight_panel*, 2> panels{};
    samelight_reference* reference = nullptr;

    samelight_population_options people{};
    samelight_population* population = nullptr;
    samelight_population_spread spread{};
    samelight_viewer viewer{45.0, 4.0};
    const samelight_observer* observers[1] = {};
    samelight_white_options white_options{};
    samelight_white_answer* white_answer = nullptr;
    samelight_white_part part{};
    samelight_metamerism_options metamerism{};
    samelight_metamerism_figures figures{};

    const char* patches[4] = {"red", "green", "blue", "white"};
    const std::int32_t rounds[4] = {1, 1, 1, 1};
    const std::array<double, 12> by_reference = {48.5, 25.0, 2.3,   42.5,  85.0,  14.2,
                                                 22.5, 9.0,  118.5, 113.5, 119.0, 135.0};
    const std::array<double, 12> by_meter = {47.8, 24.1, 2.6,   43.8,  84.3,  14.9,
                                             22.7, 9.7,  113.9, 114.3, 118.1, 131.4};
    samelight_paired_readings pairs{};
    samelight_fit_options fit{};
    samelight_meter meter{};
    samelight_correction* correction = nullptr;
    std::string correction_json;
    samelight_correction_facts facts{};
    const samelight_correction* corrections[1] = {};
    const char* names[1] = {"this one"};
    samelight_choice_request request{};
    samelight_choice choice{};

    const char* shown[6] = {"white", "grey-50", "red-100", "green-100", "blue-100", "black"};
    std::vector<double> read;
    const std::array<double, 18> signals = {1, 1, 1, .5, .5, .5, 1, 0, 0,
                                            0, 1, 0, 0,  0,  1,  0, 0, 0};
    samelight_patch_readings readings{};
    samelight_check_options check{};
    samelight_check_answer* check_answer = nullptr;
    samelight_check_summary summary{};
    samelight_check_cause cause{};

  private:
    void make_panels() {
        samelight_panel_spectra_defaults(&panel_spectra);
        panel_spectra.name = "own";
        panel_spectra.wavelengths_nm = nm.data();
        panel_spectra.wavelength_count = nm.size();
        panel_spectra.red = red.data();
        panel_spectra.green = green.data();
        panel_spectra.blue = blue.data();
        panel_spectra.white = white.data();
        require(samelight_panel_from_spectra(&panel_spectra, &panels[0], &error), error);
        require(samelight_panel_generic("oled-rgb", &panels[1], &error), error);
        require(samelight_reference_illuminant("D65", &reference, &error), error);
    }
    void make_people() {
        require(samelight_observer_named("cie2015-2deg", &observer, &error), error);
        samelight_observer_table_defaults(&table);
        table.id = "own";
        table.title = "One's own";
        table.grid = {380.0, 5.0, 81};
        table_rows = three;
        table.rows = table_rows.data();
        samelight_population_options_defaults(&people);
        people.count = 32;
        require(samelight_population_create(&people, &population, &error), error);
        samelight_population_spread_defaults(&spread);
        observers[0] = observer;
        samelight_white_options_defaults(&white_options);
        white_options.observers = observers;
        white_options.observer_count = 1;
        white_options.population = population;
        white_options.viewers = &viewer;
        white_options.viewer_count = 1;
        require(samelight_white(reference, panels.data(), 1, &white_options, &white_answer, &error),
                error);
        samelight_white_part_defaults(&part);
        samelight_metamerism_options_defaults(&metamerism);
        metamerism.observer = observer;
        metamerism.population = population;
        samelight_metamerism_figures_defaults(&figures);
    }
    void make_corrections() {
        samelight_paired_readings_defaults(&pairs);
        pairs.name = "this display";
        pairs.count = 4;
        pairs.patches = patches;
        pairs.rounds = rounds;
        pairs.reference_xyz = {by_reference.data(), 4, 0};
        pairs.meter_xyz = {by_meter.data(), 4, 0};
        samelight_fit_options_defaults(&fit);
        fit.noise_xy = 0.0005;
        fit.resamples = 50;
        require(samelight_correction_fit(&pairs, &fit, &correction, nullptr, &error), error);
        samelight_text* text = nullptr;
        require(samelight_correction_to_json(correction, &text, &error), error);
        correction_json.assign(samelight_text_data(text), samelight_text_length(text));
        samelight_text_destroy(text);
        samelight_correction_facts_defaults(&facts);
        samelight_meter_defaults(&meter);
        meter.name = "meter";
        meter.sensitivities = spectra;
        corrections[0] = correction;
        samelight_choice_request_defaults(&request);
        request.corrections = corrections;
        request.names = names;
        request.correction_count = 1;
        request.panel = panels[0];
        samelight_choice_defaults(&choice);
    }
    void make_check() {
        // BT.709 primaries about D65, gamma 2.4 above no black: the light of each patch, cd/m2.
        const double grey = 100.0 * std::pow(0.5, 2.4);
        const std::array<double, 3> d65 = {95.046, 100.0, 108.906};
        for (const double share : {1.0, grey / 100.0}) {
            for (const double value : d65)
                read.push_back(share * value);
        }
        for (const double value :
             {41.24, 21.26, 1.93, 35.76, 71.52, 11.92, 18.05, 7.22, 95.05, 0.0, 0.0, 0.0}) {
            read.push_back(value);
        }
        samelight_patch_readings_defaults(&readings);
        readings.name = "visit";
        readings.count = 6;
        readings.patches = shown;
        readings.signals = {signals.data(), 6, 0};
        readings.xyz = {read.data(), 6, 0};
        samelight_check_options_defaults(&check);
        check.curve = "power:2.4";
        check.white_x = 0.30;
        check.white_y = 0.31;
        require(samelight_check(&readings, &check, &check_answer, &error), error);
        samelight_check_summary_defaults(&summary);
        samelight_check_cause_defaults(&cause);
    }
};

/// The arguments as they should be, made once.
inline World& right() {
    static World own;
    return own;
}

using Text = std::unique_ptr<samelight_text, void (*)(samelight_text*)>;

/// What a text says; it is freed.
inline std::string said(samelight_text* text) {
    const Text owned(text, samelight_text_destroy);
    return samelight_text_data(text);
}

}  // namespace c_interface
