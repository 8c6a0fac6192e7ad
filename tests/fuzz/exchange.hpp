#pragma once
// What both fuzzers of standards' forms demand of spectra: whole, and the same once written and read again.
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/io/spectral_exchange.hpp"

namespace fuzz {

inline void demand_same_values(const samelight::Spectrum& after,
                               const samelight::Spectrum& before) {
    demand(after.size() == before.size(), "as many wavelengths");
    for (std::size_t i = 0; i < before.size(); ++i) {
        demand(after.wavelengths_nm()[i] == before.wavelengths_nm()[i], "the same wavelengths");
        demand(after.values()[i] == before.values()[i], "the same values");
    }
}

/// @param lights of a file, all or some
inline void demand_round_trip(samelight::io::SpectraForm form,
                              const std::vector<samelight::io::LightColumn>& lights,
                              samelight::io::LightUnit unit) {
    const std::string text =
        samelight::io::spectra_text(form, {{}, "2026-11-28", "fuzz"}, lights, unit);
    samelight::io::SpectralFile again;
    try {
        again = samelight::io::parse_spectral_csv(text, "written");
    } catch (const samelight::Error& error) {
        demand(false, std::string("what was written can be read: ") + error.what());
    }
    demand(again.unit == unit, "the same unit");
    demand(again.lights.size() == lights.size(), "as many lights");
    for (std::size_t k = 0; k < lights.size(); ++k) {
        demand(again.lights[k].name == lights[k].name, "the same name");
        demand_same_values(again.lights[k].light, lights[k].light);
    }
}

inline void check_exchanged(const samelight::io::SpectralFile& file) {
    demand(!file.lights.empty(), "at least one light");
    for (const samelight::io::LightColumn& column : file.lights) {
        demand(!column.name.empty(), "a name");
        for (const double value : column.light.values()) {
            demand(std::isfinite(value), "finite values");
        }
    }
    // Of several lights one alone may be noise below zero.
    if (file.lights.size() == 1) {
        demand_round_trip(samelight::io::SpectraForm::tm_27, file.lights, file.unit);
    }
    demand_one_line_each(file.understood);
    demand_one_line_each(file.warnings);
    demand_round_trip(samelight::io::SpectraForm::cgats_17, file.lights, file.unit);
}

}  // namespace fuzz
