#include "intent_options.hpp"

namespace samelight::command {

void add_intent_options(CLI::App& to, report::IntentTyped& typed) {
    to.add_option(
        "--white", typed.white,
        "the white that was chosen: x,y, or the JSON of samelight white (FILE#DISPLAY for one of several)");
    to.add_option(
          "--encoding", typed.encoding,
          "whose primaries: bt709, p3-d65, p3-cinema, bt2020, or a display's file for its own")
        ->capture_default_str();
    to.add_option("--curve", typed.curve,
                  "bt1886, power:EXPONENT, srgb, pq, pq:PROGRAMME-PEAK (rolled off) or hlg")
        ->capture_default_str();
    to.add_option("--peak", typed.white_cd_m2,
                  "luminance of full white, cd/m2; else as measured, or 100");
    to.add_option("--black", typed.black_cd_m2,
                  "luminance of black, cd/m2; else as measured, or 0");
}

}  // namespace samelight::command
