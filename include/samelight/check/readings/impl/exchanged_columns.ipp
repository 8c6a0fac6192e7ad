#pragma once
// The bodies of check/readings/exchanged_columns.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/readings/exchanged_columns.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/meter/readings/light_columns.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// x, y of the spectral colours from 400 to 700 nm, by 5; the line of purples closes them.
inline const std::vector<std::array<double, 2>>& spectral_locus() {
    static const std::vector<std::array<double, 2>> locus = [] {
        const Observer& observer = standard_observer<Cie1931_2deg>();
        std::vector<std::array<double, 2>> points;
        for (int nm = 400; nm <= 700; nm += 5) {
            const double x = observer.at(0, nm);
            const double y = observer.at(1, nm);
            const double sum = x + y + observer.at(2, nm);
            points.push_back({x / sum, y / sum});
        }
        return points;
    }();
    return locus;
}

inline double apart_from_edge(const std::array<double, 2>& p, const std::array<double, 2>& a,
                              const std::array<double, 2>& b) {
    const double dx = b[0] - a[0];
    const double dy = b[1] - a[1];
    const double length = dx * dx + dy * dy;
    const double along =
        length > 0.0 ? std::clamp(((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length, 0.0, 1.0)
                     : 0.0;
    return std::hypot(p[0] - a[0] - along * dx, p[1] - a[1] - along * dy);
}

SAMELIGHT_INLINE double beyond_locus(const std::array<double, 2>& xy) {
    const auto& locus = spectral_locus();
    bool within = false;
    double nearest = 1.0;
    for (std::size_t i = 0; i < locus.size(); ++i) {
        const auto& a = locus[i];
        const auto& b = locus[(i + 1) % locus.size()];
        nearest = std::min(nearest, apart_from_edge(xy, a, b));
        // Whether a ray to the right crosses the edge.
        if ((a[1] > xy[1]) != (b[1] > xy[1]) &&
            xy[0] < a[0] + (xy[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])) {
            within = !within;
        }
    }
    return within ? 0.0 : nearest;
}

/// One reading as it stands and with x and y exchanged.
struct ReadBothWays {
    const PatchReading* reading;
    std::array<double, 2> given, exchanged;
};

inline std::vector<ReadBothWays> lit_both_ways(std::span<const PatchReading> given,
                                               std::span<const PatchReading> exchanged) {
    constexpr double lit_share = 0.01;
    double most = 0.0;
    for (const PatchReading& reading : given) {
        most = std::max(most, reading.xyz[1]);
    }
    std::vector<ReadBothWays> lit;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const auto xyY = xyY_from_xyz(given[i].xyz);
        const auto other = xyY_from_xyz(exchanged[i].xyz);
        if (given[i].xyz[1] > lit_share * most && std::isfinite(xyY[0] + xyY[1]) &&
            std::isfinite(other[0] + other[1])) {
            lit.push_back({&given[i], {xyY[0], xyY[1]}, {other[0], other[1]}});
        }
    }
    return lit;
}

/// The middle of the greys, both ways; nothing where none was read.
inline std::optional<ReadBothWays> middle_of_greys(const std::vector<ReadBothWays>& lit) {
    constexpr double least_level = 0.2;
    std::array<std::vector<double>, 4> values;
    for (const ReadBothWays& one : lit) {
        const auto level = grey_levels(std::span(one.reading, 1));
        if (!level.empty() && level[0].level >= least_level) {
            values[0].push_back(one.given[0]);
            values[1].push_back(one.given[1]);
            values[2].push_back(one.exchanged[0]);
            values[3].push_back(one.exchanged[1]);
        }
    }
    if (values[0].empty()) {
        return {};
    }
    const auto middle = [](std::vector<double>& of) { return sample_quantile(of, 0.5); };
    return ReadBothWays{
        nullptr, {middle(values[0]), middle(values[1])}, {middle(values[2]), middle(values[3])}};
}

/// What the greys say.
enum class GreysSay { nothing, as_they_stand, exchanged };

inline GreysSay greys_say(const std::optional<ReadBothWays>& greys) {
    constexpr double surely_nearer = 0.005;
    if (!greys) {
        return GreysSay::nothing;
    }
    if (apart_from_daylight(greys->given) + surely_nearer < apart_from_daylight(greys->exchanged)) {
        return GreysSay::as_they_stand;
    }
    return xy_exchange_of_white(greys->given, greys->exchanged) ? GreysSay::exchanged
                                                                : GreysSay::nothing;
}

/// Mean X, Y, Z of red, green, blue and white, without the black where it was read; nothing for a light that wasn't.
inline std::array<std::optional<std::array<double, 3>>, 4> lights_read(
    std::span<const PatchReading> readings) {
    std::array<std::array<double, 3>, 5> sums{};
    std::array<double, 5> counts{};
    for (const PatchReading& reading : readings) {
        if (const auto light = visit_light_of(reading)) {
            const auto k = static_cast<std::size_t>(*light);
            counts.at(k) += 1.0;
            for (std::size_t c = 0; c < 3; ++c) {
                sums.at(k).at(c) += reading.xyz[c];
            }
        }
    }
    std::array<std::optional<std::array<double, 3>>, 4> lights;
    for (std::size_t k = 0; k < 4; ++k) {
        if (counts.at(k) > 0.0) {
            auto& xyz = lights.at(k).emplace();
            for (std::size_t c = 0; c < 3; ++c) {
                xyz.at(c) = sums.at(k).at(c) / counts.at(k) -
                            (counts[4] > 0.0 ? sums[4].at(c) / counts[4] : 0.0);
            }
        }
    }
    return lights;
}

/// How much redder red and greener green would be with x and y exchanged, in x and in y; 0 where one of them wasn't read.
inline double gain_of_red_and_green(
    const std::array<std::optional<std::array<double, 3>>, 4>& lights) {
    if (!lights[0] || !lights[1]) {
        return 0.0;
    }
    const auto red = xyY_from_xyz(*lights[0]);
    const auto green = xyY_from_xyz(*lights[1]);
    const double gain = (red[1] - red[0]) + (green[0] - green[1]);
    return std::isfinite(gain) ? gain : 0.0;
}

/// The colour furthest beyond the locus, where none is once x and y are exchanged.
inline const ReadBothWays* no_light_as_given(const std::vector<ReadBothWays>& lit) {
    // An uncorrected instrument takes a pure colour .005 beyond.
    constexpr double surely_beyond = 0.01;
    constexpr double surely_within = 0.005;
    const ReadBothWays* furthest = nullptr;
    double most = surely_beyond;
    for (const ReadBothWays& one : lit) {
        if (beyond_locus(one.exchanged) > surely_within) {
            return nullptr;
        }
        if (const double beyond = beyond_locus(one.given); beyond > most) {
            most = beyond;
            furthest = &one;
        }
    }
    return furthest;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PatchReading with_xy_exchanged(PatchReading reading) {
    reading.xyz = with_xy_exchanged(reading.xyz);
    return reading;
}

SAMELIGHT_INLINE std::optional<ReadingsExchanged> find_exchanged_columns(
    std::span<const PatchReading> given, std::span<const PatchReading> exchanged) {
    if (given.size() != exchanged.size()) {
        throw Error(ErrorKind::shape, "find_exchanged_columns", "lists of two lengths", "one");
    }
    const auto lit = detail::lit_both_ways(given, exchanged);
    const auto greys = detail::middle_of_greys(lit);
    const detail::GreysSay say = detail::greys_say(greys);
    if (say == detail::GreysSay::as_they_stand) {
        return {};
    }
    constexpr double own_places = 0.2;
    const auto lights = detail::lights_read(given);
    const auto mended = detail::lights_read(exchanged);
    if (lights[0] && lights[1] && lights[2] && lights[3] &&
        xy_exchange_by_adding({*lights[0], *lights[1], *lights[2], *lights[3]},
                              {*mended[0], *mended[1], *mended[2], *mended[3]})) {
        const auto white = xyY_from_xyz(*lights[3]);
        const auto then = xyY_from_xyz(*mended[3]);
        return ReadingsExchanged{
            ExchangeSeenIn::additivity, {white[0], white[1]}, {then[0], then[1]}};
    }
    const double gain = detail::gain_of_red_and_green(lights);
    const bool of_greys = say == detail::GreysSay::exchanged;
    const detail::ReadBothWays* beyond = detail::no_light_as_given(lit);
    if (beyond != nullptr && (of_greys || gain > own_places)) {
        return ReadingsExchanged{ExchangeSeenIn::no_light, beyond->given, beyond->exchanged,
                                 beyond->reading->patch, beyond->reading->line};
    }
    if (of_greys && gain > own_places) {
        return ReadingsExchanged{ExchangeSeenIn::red_and_green, greys->given, greys->exchanged};
    }
    if (of_greys && !(gain < -own_places)) {
        return ReadingsExchanged{ExchangeSeenIn::greys, greys->given, greys->exchanged};
    }
    return {};
}

}  // namespace samelight
