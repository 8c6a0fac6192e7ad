// Arbitrary bytes as CGATS.17 text: refused in one line that begins with the file's name, or lights that survive being written and read;
// the same bytes as readings and as a list of patches.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "exchange.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.txt", [&] { return samelight::io::parse_spectral_csv(bytes, "fuzz.txt"); },
        fuzz::check_exchanged);
    fuzz::parse_or_refuse(
        "fuzz.txt", [&] { return samelight::io::parse_patch_readings_csv(bytes, "fuzz.txt"); },
        [](const samelight::io::PatchReadingsFile& file) {
            fuzz::demand(!file.rows.empty(), "at least one reading");
            for (const samelight::PatchReading& row : file.rows) {
                for (const double value : row.xyz) {
                    fuzz::demand(std::isfinite(value), "finite values");
                }
            }
            fuzz::demand_one_line_each(file.understood);
        });
    fuzz::parse_or_refuse(
        "fuzz.txt", [&] { return samelight::io::parse_patch_list_csv(bytes, "fuzz.txt"); },
        [](const samelight::io::PatchList& list) {
            fuzz::demand(list.signals.empty() != list.surfaces.empty(), "one kind of patches");
        });
    return 0;
}
