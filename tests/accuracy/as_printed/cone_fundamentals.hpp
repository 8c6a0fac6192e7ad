#pragma once
// Cone fundamentals as written in CIE 170-1, in long double: what the tests compare with.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "accuracy/ledger.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/ocular_media.hpp"

namespace samelight::test {

using ExactRow = std::vector<Exact>;

/// One row in energy units at the cornea, 1 at its peak: CIE 170-1:2006, clause 6, from its tables. The eye is the person's, as doubles.
inline ExactRow row_as_written(const detail::Eye& eye, std::size_t cone) {
    const OcularMedia& media = ocular_media();
    const ConeCurve& curve = log_absorbance(cone);
    ExactRow row(static_cast<std::size_t>(cone_count));
    for (std::size_t i = 0; i < row.size(); ++i) {
        const Exact position = static_cast<Exact>(i) - static_cast<Exact>(eye.shift_nm[cone]);
        if (cone == 2 && position > static_cast<Exact>(s_cone_last_nm - cone_first_nm)) {
            continue;
        }
        const Exact below =
            std::clamp(std::floor(position), 0.0L, static_cast<Exact>(curve.size() - 2));
        const auto at = static_cast<std::size_t>(below);
        const Exact log10_absorbance =
            curve[at] + (position - below) * (static_cast<Exact>(curve[at + 1]) - curve[at]);
        const Exact absorbance = std::exp(log10_absorbance * std::numbers::ln10_v<Exact>);
        const Exact depth = eye.pigment[cone] * absorbance * std::numbers::ln10_v<Exact>;
        const Exact absorbed = depth > 0.0L ? -std::expm1(-depth) / depth : 1.0L;
        const Exact density = static_cast<Exact>(eye.ageing) * media.ageing[i] +
                              static_cast<Exact>(eye.fixed) * media.fixed[i] +
                              static_cast<Exact>(eye.macula) * media.macula[i];
        row[i] = (cone_first_nm + static_cast<Exact>(i)) * absorbance * absorbed *
                 std::exp(-density * std::numbers::ln10_v<Exact>);
    }
    const Exact peak = *std::max_element(row.begin(), row.end());
    for (Exact& value : row) {
        value /= peak;
    }
    return row;
}

}  // namespace samelight::test
