// Arbitrary bytes as an answer that was kept, of any kind: refused in one line, or what it holds.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "demand.hpp"
#include "samelight/io/answers/panel_answer.hpp"
#include "samelight/io/answers/patch_targets.hpp"
#include "samelight/io/answers/population_file.hpp"
#include "samelight/io/answers/white_answer.hpp"
#include "samelight/io/dialled_white.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_dialled_white(bytes, "fuzz.json"); },
        [](const samelight::Chromaticity<samelight::Cie1931_2deg>& white) {
            fuzz::demand(std::isfinite(white.x()) && std::isfinite(white.y()), "finite x, y");
        });
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_white_answer(bytes, "fuzz.json"); },
        [](const samelight::io::KeptWhites& kept) {
            for (const samelight::io::KeptDisplay& display : kept.displays) {
                fuzz::demand(!display.targets.empty(), "a target of each display");
            }
        });
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_patch_targets(bytes, "fuzz.json"); },
        [](const samelight::io::KeptPatchTargets& kept) {
            fuzz::demand(!kept.targets.empty(), "a target");
        });
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_panel_answer(bytes, "fuzz.json"); },
        [](const samelight::io::KeptPanel& kept) {
            fuzz::demand(kept.spectra.red.size() == kept.spectra.blue.size(), "equal columns");
        });
    fuzz::parse_or_refuse(
        "fuzz.json", [&] { return samelight::io::parse_population(bytes, "fuzz.json"); },
        [](const samelight::PopulationParameters& kept) {
            fuzz::demand(samelight::io::population_text(kept) ==
                             samelight::io::population_text(samelight::io::parse_population(
                                 samelight::io::population_text(kept), "again.json")),
                         "the same text again");
        });
    return 0;
}
