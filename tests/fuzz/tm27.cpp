// Arbitrary bytes as TM-27 XML: refused in one line that begins with the file's name, or one light that survives being written and read.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "exchange.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.spdx", [&] { return samelight::io::parse_spectral_csv(bytes, "fuzz.spdx"); },
        fuzz::check_exchanged);
    return 0;
}
