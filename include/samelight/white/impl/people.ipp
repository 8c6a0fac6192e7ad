#pragma once
// The bodies of white/people.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE EyeKnowledge eye_of_age(const ConeConditions& conditions,
                                         const DeviationSpread& spread) {
    EyeKnowledge known{{conditions, Deviations{}}, {}};
    const auto sd = spread.values();
    for (std::size_t k = 0; k < sd.size(); ++k) {
        known.covariance[k * 8 + k] = sd[k] * sd[k];
    }
    return known;
}

SAMELIGHT_INLINE double largest_uv(const std::vector<SeenDifference>& seen) {
    double result = 0.0;
    for (const SeenDifference& s : seen) {
        result = std::max(result, s.uv);
    }
    return result;
}

SAMELIGHT_INLINE std::string viewers_text(const std::vector<std::string>& names) {
    std::string text = names.size() == 1 ? "viewer " : "viewers ";
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    }
    return text;
}

SAMELIGHT_INLINE const char* code_of(AdviceReason reason) {
    constexpr std::array<const char*, 17> codes = {"nearer",
                                                   "nearer_to_worst_off",
                                                   "opposed",
                                                   "below_instrument",
                                                   "helps_too_few",
                                                   "too_little",
                                                   "too_little_for_worst_off",
                                                   "direction_unsure",
                                                   "now_of_another_type",
                                                   "now_of_another_display",
                                                   "display_of_another_type",
                                                   "now_is_no_white",
                                                   "read_no_white",
                                                   "uncertainty_unknown",
                                                   "clipped",
                                                   "column_misread",
                                                   "eye_far_from_normal"};
    return codes.at(static_cast<std::size_t>(reason));
}

SAMELIGHT_INLINE const char* code_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::move:
            return "MOVE";
        case Verdict::leave:
            return "LEAVE";
        case Verdict::ask_the_eyes:
            break;
    }
    return "ASK THE EYES";
}

}  // namespace samelight
