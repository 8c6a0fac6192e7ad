// Arbitrary bytes as a file of an adjustment: refused in one line, or signals that stay signals.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/adjustment_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.csv", [&] { return samelight::io::parse_adjustment_csv(bytes, "fuzz.csv"); },
        [](const samelight::io::AdjustmentFile& file) {
            demand(file.adjustment.parts() > 0, "at least one part");
            for (const double s : {0.0, 0.3, 1.0}) {
                for (const double value : file.adjustment.apply({s, 1.0 - s, 0.5 * s})) {
                    demand(value >= 0.0 && value <= 1.0, "signals of 0 to 1");
                }
            }
            demand(file.adjustment.scaled(0.5).parts() == file.adjustment.parts(), "as many parts");
            fuzz::demand_one_line_each(file.understood);
        });
    return 0;
}
