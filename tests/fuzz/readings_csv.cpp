// Arbitrary bytes as a file of paired readings: refused in one line, or finite readings with names.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/readings_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_readings_csv(bytes, "fuzz.csv"); },
        [](const samelight::io::ReadingsFile& file) {
            demand(!file.rows.empty(), "at least one reading");
            std::size_t line = 0;
            for (const samelight::io::ReadingRow& row : file.rows) {
                demand(fuzz::is_one_line(row.reading.patch), "a patch's name of one line");
                demand(row.line > line, "lines in the file's order");
                line = row.line;
                for (const double value : row.reading.xyz) {
                    demand(std::isfinite(value), "finite values");
                }
                demand(!row.bits || (*row.bits >= 8 && *row.bits <= 16), "8 to 16 bits");
            }
            fuzz::demand_one_line_each(file.understood);
            fuzz::demand_one_line_each(file.warnings);
        });
    return 0;
}
