#pragma once
// The bodies of colour/signals/transfer_pq.hpp.

#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Luminance Pq::luminance(Signal s) {
    if (std::abs(s.value()) > detail::pq::signal_limit) {
        throw Error(ErrorKind::domain, "Pq::luminance", "signal " + to_text(s.value()),
                    "a signal from -1.1 to 1.1");
    }
    return Luminance(detail::pq_luminance(s.value()));
}

SAMELIGHT_INLINE Signal Pq::signal(Luminance l) {
    if (std::abs(l.cd_m2()) > detail::pq::luminance_limit) {
        throw Error(ErrorKind::domain, "Pq::signal", to_text(l.cd_m2()) + " cd/m2",
                    "a luminance from -26557 to 26557 cd/m2");
    }
    return Signal(detail::pq_signal(l.cd_m2()));
}

}  // namespace samelight
