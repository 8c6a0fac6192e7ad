#pragma once
// The bodies of spectrum/sampling.hpp.

#include <cmath>
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Sampling::Sampling(double first_nm, double step_nm, int count)
    : first_nm_(first_nm), step_nm_(step_nm), count_(count) {
    if (!(first_nm > 0.0) || !std::isfinite(first_nm) || !(step_nm > 0.0) ||
        !std::isfinite(step_nm) || count < 1 || count > 100000) {
        throw Error(ErrorKind::domain, "Sampling",
                    "first " + to_text(first_nm) + " nm, step " + to_text(step_nm) + " nm, count " +
                        std::to_string(count),
                    "a first wavelength and a step above 0 nm and a count from 1 to 100000");
    }
}

SAMELIGHT_INLINE void require_same_sampling(const char* where, const Sampling& a,
                                            const Sampling& b) {
    if (!(a == b)) {
        throw Error(ErrorKind::shape, where, "samplings " + a.describe() + " and " + b.describe(),
                    "one sampling for both");
    }
}

}  // namespace samelight
