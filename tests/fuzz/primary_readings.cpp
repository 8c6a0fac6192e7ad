// Arbitrary bytes as a display in numbers: refused in one line, something else, or lights of which a display can be made.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/primary_readings_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_primary_readings(bytes, "fuzz.csv"); },
        [](const auto& read) {
            if (!read) return;
            // Refuses what can't be.
            samelight::require_readings(read->readings, "fuzz.csv");
            for (const samelight::LightReading& light : read->readings.primaries) {
                demand(std::isfinite(light.xy.x()) && std::isfinite(light.xy.y()),
                       "finite chromaticities");
                demand(!light.luminance || *light.luminance > 0.0, "luminances above 0");
            }
            fuzz::demand_one_line_each(read->understood);
        });
    return 0;
}
