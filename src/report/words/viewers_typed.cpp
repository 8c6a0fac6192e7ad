#include "report/words/viewers_typed.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/assess/watching_eyes.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {

std::vector<assess::WatchingEye> eyes_typed(const std::vector<std::string>& typed) {
    if (typed.size() > 26) {
        throw Error(ErrorKind::input, "viewers", std::to_string(typed.size()) + " viewers",
                    "26 or fewer");
    }
    std::vector<assess::WatchingEye> eyes;
    for (const std::string& text : typed) {
        const std::size_t colon = text.find(':');
        const bool unknown = std::string_view(text).substr(0, colon) == "unknown";
        const double age =
            unknown ? 0.0
                    : samelight::detail::number_or_nan(std::string_view(text).substr(0, colon));
        const double field =
            colon == std::string::npos
                ? 2.0
                : samelight::detail::number_or_nan(std::string_view(text).substr(colon + 1));
        const std::string where = "viewer \"" + text + "\"";
        if (!std::isfinite(age) || !std::isfinite(field)) {
            throw Error(ErrorKind::input, where, "not an age and a field",
                        "AGE or AGE:FIELD, years and degrees, such as 45 or 45:4");
        }
        eyes.push_back({unknown ? std::nullopt : std::optional(age), field});
        samelight::detail::require_viewer(eyes.back(), where);
    }
    return eyes;
}

}  // namespace samelight::report
