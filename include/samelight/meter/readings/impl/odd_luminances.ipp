#pragma once
// The bodies of meter/readings/odd_luminances.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(LuminanceBeside beside) {
    constexpr std::array<const char*, 5> codes = {"own_repeats", "other_primaries",
                                                  "primaries_together", "white", "other_colours"};
    return codes.at(static_cast<std::size_t>(beside));
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

inline bool is_odd(double times, double factor = odd_luminance_factor) {
    return times > factor || times < 1.0 / factor;
}

inline double middle_luminance(const Patch& patch, Instrument instrument) {
    std::vector<double> values;
    for (const PairedReading& pair : patch.pairs) {
        values.push_back(instrument == Instrument::reference ? pair.reference[1] : pair.meter[1]);
    }
    return percentile(values, 50.0);
}

/// Readings against the middle one of three or more of their patch.
inline void odd_among_repeats(const ReadingSet& set, Instrument instrument,
                              std::vector<OddLuminance>& odd) {
    constexpr std::size_t fewest = 3;
    for (const Patch& patch : set.patches()) {
        if (patch.count() < fewest) {
            continue;
        }
        const double middle = middle_luminance(patch, instrument);
        for (const PairedReading& pair : patch.pairs) {
            const double times =
                (instrument == Instrument::reference ? pair.reference[1] : pair.meter[1]) / middle;
            if (is_odd(times)) {
                odd.push_back(
                    {patch.name, pair.round, times, LuminanceBeside::own_repeats, instrument});
            }
        }
    }
}

/// Red, green and blue against the amounts of each that make white's chromaticity, which hold whatever lights white; then white against their sum, which a
/// white emitter exceeds and a limiter falls short of, and the others against the brighter of both. By medians, which one reading can't move.
inline void odd_among_colours(const ReadingSet& set, Instrument instrument,
                              std::vector<OddLuminance>& odd) {
    constexpr double least_share = 0.001;
    constexpr double white_factor = 10.0;
    const PatchNames& names = set.names();
    std::array<const Patch*, 4> rgbw{};
    const std::array<const std::string*, 4> called = {&names.red, &names.green, &names.blue,
                                                      &names.white};
    for (std::size_t k = 0; k < rgbw.size(); ++k) {
        const auto found = set.find(*called.at(k));
        if (!found) {
            return;
        }
        rgbw.at(k) = &set.patches()[*found];
    }
    Eigen::Matrix3d primaries;
    for (Eigen::Index k = 0; k < 3; ++k) {
        primaries.col(k) =
            chromaticity_column(rgbw.at(static_cast<std::size_t>(k))->of(instrument));
    }
    const ColourTriangle t =
        colour_triangle(primaries, chromaticity_column(rgbw[3]->of(instrument)));
    if (!(t.amount.minCoeff() > least_share)) {
        return;
    }
    std::array<double, 3> share{};
    double sum = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double read = middle_luminance(*rgbw.at(k), instrument);
        sum += read;
        share.at(k) = read / (t.amount[static_cast<Eigen::Index>(k)] *
                              std::max(least_share, rgbw.at(k)->of(instrument)[1]));
    }
    const double middle = percentile(share, 50.0);
    const std::size_t before = odd.size();
    for (std::size_t k = 0; k < 3; ++k) {
        if (is_odd(share.at(k) / middle)) {
            odd.push_back({rgbw.at(k)->name, 0, share.at(k) / middle,
                           LuminanceBeside::other_primaries, instrument});
        }
    }
    if (odd.size() > before) {
        return;
    }
    const double white = middle_luminance(*rgbw[3], instrument);
    if (is_odd(white / sum, white_factor)) {
        odd.push_back(
            {rgbw[3]->name, 0, white / sum, LuminanceBeside::primaries_together, instrument});
        return;
    }
    const double brightest = std::max(white, sum);
    for (const Patch& patch : set.patches()) {
        const double times = middle_luminance(patch, instrument) / brightest;
        if (times > odd_luminance_factor) {
            odd.push_back({patch.name, 0, times, LuminanceBeside::white, instrument});
        }
    }
}

/// The reference over the meter on a patch, against the middle one of all patches.
inline void odd_between_instruments(const ReadingSet& set, std::vector<OddLuminance>& odd) {
    constexpr std::size_t fewest = 3;
    std::vector<double> ratios;
    for (const Patch& patch : set.patches()) {
        ratios.push_back(middle_luminance(patch, Instrument::meter) /
                         middle_luminance(patch, Instrument::reference));
    }
    if (ratios.size() < fewest) {
        return;
    }
    const double middle = percentile(ratios, 50.0);
    for (std::size_t i = 0; i < ratios.size(); ++i) {
        if (is_odd(ratios[i] / middle, odd_luminance_ratio)) {
            odd.push_back({set.patches()[i].name, 0, ratios[i] / middle,
                           LuminanceBeside::other_colours, Instrument::meter});
        }
    }
}

SAMELIGHT_INLINE std::vector<OddLuminance> merged(const std::vector<OddLuminance>& odd) {
    std::vector<OddLuminance> result;
    for (const OddLuminance& o : odd) {
        const auto same = std::find_if(result.begin(), result.end(), [&](const OddLuminance& r) {
            return r.patch == o.patch && r.round == o.round;
        });
        if (same == result.end()) {
            result.push_back(o);
        } else if (same->beside == o.beside && same->by != o.by) {
            same->by.reset();
        }
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<OddLuminance> odd_luminances(const ReadingSet& set,
                                                          MeterValues values) {
    std::vector<OddLuminance> odd;
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        detail::odd_among_repeats(set, instrument, odd);
        detail::odd_among_colours(set, instrument, odd);
    }
    if (values == MeterValues::tristimulus) {
        detail::odd_between_instruments(set, odd);
    }
    return detail::merged(odd);
}

}  // namespace samelight
