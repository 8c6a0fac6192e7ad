#include <string>

#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace samelight::report {

Quantisation codes_typed(int bits, const std::string& range) {
    if (!range.empty() && range != "full" && range != "limited") {
        throw Error(ErrorKind::input, "--range", "\"" + io::harmless(range) + "\"",
                    "full or limited");
    }
    if (bits < 8 || bits > 16) {
        throw Error(ErrorKind::input, "--bits", to_text(bits), "8 to 16");
    }
    return {bits, range == "limited" ? SignalRange::limited : SignalRange::full};
}

}  // namespace samelight::report
