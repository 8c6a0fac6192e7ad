// Arbitrary bytes as a file of patch readings and as a list of patches: refused in one line, or finite readings.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_patch_readings_csv(bytes, "fuzz.csv"); },
        [](const samelight::io::PatchReadingsFile& file) {
            demand(!file.rows.empty(), "at least one reading");
            for (const samelight::PatchReading& row : file.rows) {
                demand(row.patch.empty() || fuzz::is_one_line(row.patch),
                       "a patch's name of one line");
                demand(!row.patch.empty() || row.signal, "a name or a signal");
                demand(!row.codes || (row.signal && row.quantisation), "a signal of codes");
                for (const double value : row.xyz) {
                    demand(std::isfinite(value), "finite values");
                }
            }
            fuzz::demand_one_line_each(file.understood);
            fuzz::demand_one_line_each(file.warnings);
        });
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_patch_list_csv(bytes, "fuzz.csv"); },
        [](const samelight::io::PatchList& list) {
            demand(list.signals.empty() != list.surfaces.empty(), "one kind of patches");
            for (const samelight::SignalPatch& patch : list.signals) {
                demand(!patch.name.empty() && fuzz::is_one_line(patch.name), "a name of one line");
            }
            fuzz::demand_one_line_each(list.understood);
        });
    return 0;
}
