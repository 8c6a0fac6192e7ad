// Arbitrary bytes as a file of spectra. Whatever is refused is refused in one line; whatever is accepted holds finite
// spectra on one set of wavelengths and survives being written and read again.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/spectral_csv.hpp"

namespace {

using samelight::io::LightColumn;
using samelight::io::SpectralFile;

using fuzz::demand;

void check_file(const SpectralFile& file) {
    demand(!file.lights.empty(), "at least one light");
    const auto first = file.lights.front().light.wavelengths_nm();
    for (const LightColumn& column : file.lights) {
        demand(!column.name.empty(), "a name");
        demand(column.repeats >= 1, "at least one repeat");
        demand(std::isfinite(column.repeat_spread) && column.repeat_spread >= 0.0,
               "a finite spread");
        const auto nm = column.light.wavelengths_nm();
        demand(nm.size() == first.size(), "as many wavelengths for each light");
        demand(nm.front() <= 400.0 && nm.back() >= 700.0, "400-700 nm covered");
        for (std::size_t i = 0; i < nm.size(); ++i) {
            demand(nm[i] == first[i], "the same wavelengths for each light");
            demand(std::isfinite(column.light.values()[i]), "finite values");
        }
    }
    fuzz::demand_one_line_each(file.understood);
    fuzz::demand_one_line_each(file.warnings);
}

bool same_bits(double a, double b) { return a == b && std::signbit(a) == std::signbit(b); }

void check_round_trip(const SpectralFile& file) {
    const std::string text = samelight::io::spectral_csv_text({}, file.lights, file.unit);
    SpectralFile again;
    try {
        again = samelight::io::parse_spectral_csv(text, "written.csv");
    } catch (const samelight::Error& error) {
        demand(false, std::string("what was written can be read: ") + error.what());
    }
    demand(again.unit == file.unit, "the same unit");
    demand(again.lights.size() == file.lights.size(), "as many lights");
    for (std::size_t k = 0; k < file.lights.size(); ++k) {
        const LightColumn& before = file.lights[k];
        const LightColumn& after = again.lights[k];
        demand(after.name == before.name, "the name " + before.name + ", not " + after.name);
        demand(after.light.size() == before.light.size(), "as many wavelengths");
        for (std::size_t i = 0; i < before.light.size(); ++i) {
            demand(same_bits(after.light.wavelengths_nm()[i], before.light.wavelengths_nm()[i]),
                   "the same wavelengths");
            demand(same_bits(after.light.values()[i], before.light.values()[i]), "the same values");
        }
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_spectral_csv(bytes, "fuzz.csv"); },
        [](const SpectralFile& file) {
            check_file(file);
            check_round_trip(file);
        });
    return 0;
}
