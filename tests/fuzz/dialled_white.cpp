// Arbitrary bytes as an answer about whites: refused in one line, or a chromaticity.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/dialled_white.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_dialled_white(bytes, "fuzz.json"); },
        [](const samelight::Chromaticity<samelight::Cie1931_2deg>& white) {
            fuzz::demand(std::isfinite(white.x()) && std::isfinite(white.y()), "finite x, y");
        });
    return 0;
}
