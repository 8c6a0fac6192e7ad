#pragma once
// The bodies of colour/spaces/ictcp.hpp.

#include <array>
#include <cmath>
#include <concepts>
#include <string>

#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double delta_e_itp(const Ictcp<PqIctcp>& a, const Ictcp<PqIctcp>& b) {
    return detail::delta_e_itp(a.values(), b.values());
}

}  // namespace samelight
