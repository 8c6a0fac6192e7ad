// Arbitrary bytes as a file of control readings: refused in one line, or finite readings of controls that have names.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/control_readings_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_control_readings_csv(bytes, "fuzz.csv"); },
        [](const samelight::io::ControlReadingsFile& file) {
            std::size_t line = 0;
            bool moved = false;
            for (const samelight::ControlReading& row : file.rows) {
                moved = moved || row.steps != 0;
                demand(row.line > line, "lines in the file's order");
                line = row.line;
                demand(row.steps == 0 || row.control.has_value(), "a control that was moved");
                if (row.control) {
                    demand(
                        samelight::control_named(samelight::name_of(*row.control)) == row.control ||
                            row.control->kind == samelight::ControlKind::point,
                        "a name that leads back");
                }
                demand(!row.level || (*row.level > 0.0 && *row.level <= 1.09), "a level");
                demand(row.least.value_or(0) <= 0 && row.most.value_or(0) >= 0, "limits about 0");
                for (const double value : row.xyz) {
                    demand(std::isfinite(value), "finite values");
                }
            }
            demand(moved, "a control that was moved");
            fuzz::demand_one_line_each(file.understood);
        });
    return 0;
}
