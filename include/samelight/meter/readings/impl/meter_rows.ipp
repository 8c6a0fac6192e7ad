#pragma once
// The bodies of meter/readings/meter_rows.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

inline void warn_if_row_is_cut(const MeterResponses& meter, std::size_t k, const Sampling& sampling,
                               std::vector<Warning>& warnings) {
    const Spectrum& row = meter.responses[k];
    const double enough = 0.01 * row.peak();
    const bool below = row.first_nm() > sampling.first_nm() + row.band_nm(0) &&
                       std::abs(row.values().front()) > enough;
    const bool above = row.last_nm() < sampling.last_nm() - row.band_nm(row.size() - 1) &&
                       std::abs(row.values().back()) > enough;
    if (below || above) {
        warnings.push_back(Warning{"rows_cut",
                                   {{"meter", meter.name},
                                    {"row", meter.names[k]},
                                    {"at_nm", below ? row.first_nm() : row.last_nm()}}});
    }
}

inline bool have_one_peak(const MeterResponses& meter) {
    constexpr double equal = 1e-6;  // relative: what figures written to seven digits leave
    const double first = meter.responses.front().peak();
    return std::all_of(meter.responses.begin(), meter.responses.end(), [&](const Spectrum& row) {
        return std::abs(row.peak() - first) <= equal * first;
    });
}

}  // namespace detail

SAMELIGHT_INLINE MeterRows meter_rows(const MeterResponses& meter, const Sampling& sampling) {
    MeterRows result{{meter.name, sampling, {}}, meter.scale, false, {}};
    result.one_peak = detail::have_one_peak(meter);
    if (result.one_peak) {
        result.scale = RowScale::illuminant_a;
        result.warnings.push_back(Warning{"rows_scaled", {{"meter", meter.name}}});
    }
    for (std::size_t k = 0; k < meter.responses.size(); ++k) {
        for (int i = 0; i < sampling.count(); ++i) {
            result.rows.values.push_back(meter.responses[k].at(sampling.wavelength_nm(i)));
        }
        detail::warn_if_row_is_cut(meter, k, sampling, result.warnings);
    }
    if (result.scale == RowScale::illuminant_a) {
        result.rows = calibrated(std::move(result.rows), standard_observer<Cie1931_2deg>());
    }
    return result;
}

SAMELIGHT_INLINE MeterRows meter_rows(const Observer& observer, const Sampling& sampling) {
    if (observer.receptors() == Receptors::cones) {
        throw Error(ErrorKind::input, "meter " + observer.id(), "cones",
                    "an observer with x, y, z, or a meter's three rows");
    }
    return {observer.on(sampling), RowScale::as_given, true, {}};
}

}  // namespace samelight
