// Arbitrary bytes as a file of ages and as a file of deviation functions: refused in one line, or figures in range.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/io/deviation_functions.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_ages(bytes, "fuzz.csv"); },
        [](const samelight::io::NamedAges& file) {
            for (const double at : {0.1, 0.5, 0.9}) {
                const double age = file.ages.quantile(at);
                demand(age >= 20.0 && age <= 80.0, "ages from 20 to 80");
            }
            fuzz::demand_one_line_each(file.understood);
        });
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_deviation_functions(bytes, "fuzz.csv"); },
        [](const samelight::io::DeviationFunctions& file) {
            demand(file.rows.size() >= 2, "two rows or more");
            double nm = 0.0;
            for (const samelight::ObserverDeviation& row : file.rows) {
                demand(std::isfinite(row.wavelength_nm) && row.wavelength_nm > nm, "ascending");
                nm = row.wavelength_nm;
            }
            fuzz::demand_one_line_each(file.understood);
        });
    return 0;
}
