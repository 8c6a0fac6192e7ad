// Arbitrary bytes as a correction file: refused in one line, or a correction that can be written and read back the same.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/correction_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using fuzz::demand;
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_correction(bytes, "fuzz.json"); },
        [](const samelight::StoredCorrection& stored) {
            std::string text;
            try {
                text = samelight::io::correction_text(stored);
                const auto again = samelight::io::parse_correction(text, "written.json");
                demand(samelight::io::correction_text(again) == text, "the same text again");
                demand(
                    again.correction.reference_from_meter == stored.correction.reference_from_meter,
                    "the same matrix");
            } catch (const samelight::Error& error) {
                demand(false, std::string("what was read can be written: ") + error.what());
            }
        });
    return 0;
}
