#pragma once
// Corrections to be stored: one fitted to readings that are invented, and one with everything that a file can hold.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::io::test {

/// A correction from three rounds of six patches whose readings are invented.
inline Correction fitted_correction() {
    PseudoRandom random(3);
    const std::array<const char*, 6> names = {"red", "green", "blue", "white", "yellow", "grey"};
    const std::array<std::array<double, 3>, 6> colours = {
        {{46, 21, 0.1}, {29, 72, 4}, {20, 7, 105}, {95, 100, 109.1}, {75, 93, 4.1}, {47, 50, 54}}};
    std::vector<PairedReading> pairs;
    for (int round = 1; round <= 3; ++round) {
        for (std::size_t i = 0; i < names.size(); ++i) {
            const auto read = [&](double error) {
                std::array<double, 3> v{};
                for (std::size_t k = 0; k < 3; ++k) {
                    v[k] = colours[i][k] * (1.0 + error * static_cast<double>(k) +
                                            0.004 * (random.next_unit() - 0.5));
                }
                return v;
            };
            pairs.push_back({names[i], read(0.0), read(0.02), round, {}});
        }
    }
    return fit_correction(ReadingSet(pairs));
}

inline StoredCorrection full_correction() {
    StoredCorrection stored;
    stored.correction = fitted_correction();
    stored.correction.provenance = {
        "desk display", "spectroradiometer 2",       "meter \"B\"", "2025-03-14", "cinema", "10 %",
        "75 %",         "first line\nsecond, \u00b5"};
    stored.correction.valid_near = ChromaticityDisc{0.3127, 0.1 + 0.2, 0.01};
    stored.correction.warnings = {
        Warning{"drift", {{"instrument", "meter"}, {"distance_xy", 0.1 + 0.2}, {"rounds", 5.0}}}};
    stored.correction.verdict = FitVerdict::read_again;
    stored.panel_spectra = StoredPanelSpectra{
        {380.0, 400.5, 780.0}, {1e-300, 1.0 / 3.0, 5e-324}, {0.0, 1.0, -0.0}, {2, 3, 4}, {1, 2, 3}};
    stored.panel_spectra_digest = "sha256:0123";
    return stored;
}

}  // namespace samelight::io::test
