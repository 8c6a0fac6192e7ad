#pragma once
// The bodies of meter/readings/black.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Vector6 black_pair(const PairedReading& pair) {
    Vector6 v;
    v << pair.meter[0], pair.meter[1], pair.meter[2], pair.reference[0], pair.reference[1],
        pair.reference[2];
    return v;
}

/// @param digits  what was written down: repeats that agree to the last digit are no better known than that digit
inline Black black_of(const std::vector<PairedReading>& pairs, const Resolutions& digits) {
    Black black;
    black.count = pairs.size();
    const double n = static_cast<double>(pairs.size());
    Vector6 sum = Vector6::Zero();
    for (const PairedReading& pair : pairs) {
        sum += black_pair(pair);
    }
    const Vector6 mean = sum / n;
    black.meter.xyz = {mean[0], mean[1], mean[2]};
    black.reference.xyz = {mean[3], mean[4], mean[5]};
    if (pairs.size() < 2) {
        return black;
    }
    ReadingNoise::Matrix6 products = ReadingNoise::Matrix6::Zero();
    for (const PairedReading& pair : pairs) {
        const Vector6 d = black_pair(pair) - mean;
        products += d * d.transpose();
    }
    black.scatter = noise_from(products, n - 1.0);
    const double factor = student_factor(0.95, n - 1.0) / std::sqrt(n);
    const auto half_step = [](const Resolution& r) {
        return 0.5 * (r.xyz > 0.0 ? r.xyz : r.luminance);
    };
    black.meter.noise =
        std::hypot(factor * std::sqrt(black.scatter.matrix()(1, 1)), half_step(digits.meter));
    black.reference.noise =
        std::hypot(factor * std::sqrt(black.scatter.matrix()(4, 4)), half_step(digits.reference));
    return black;
}

inline void take_off(std::array<double, 3>& xyz, const BlackReading& black,
                     const std::string& patch, Instrument instrument) {
    if (!black.above_noise()) {
        return;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        xyz[k] -= black.xyz[k];
    }
    if (!(xyz[1] > 0.0) || !(xyz[0] + xyz[1] + xyz[2] > 0.0)) {
        throw Error(ErrorKind::domain, "subtract_black",
                    "patch " + patch + ", " + code_of(instrument) +
                        ": no light left above black (Y " + to_text(xyz[1], 5) + " cd/m2)",
                    "patches brighter than black");
    }
}

inline void say_what_was_done(const Black& black, std::vector<Warning>& warnings) {
    if (black.count < 2) {
        warnings.push_back(Warning{"black_read_once"});
        return;
    }
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        const BlackReading& b = black.of(instrument);
        if (!b.above_noise()) {
            warnings.push_back(Warning{"black_in_noise",
                                       {{"instrument", code_of(instrument)},
                                        {"luminance_cd_m2", b.xyz[1]},
                                        {"noise_cd_m2", *b.noise}}});
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WithoutBlack subtract_black(const ReadingSet& set) {
    if (set.black().empty()) {
        return {set, {}, {}};
    }
    const Black black = detail::black_of(set.black(), set.resolution());
    std::vector<PairedReading> pairs;
    for (const Patch& patch : set.patches()) {
        for (PairedReading pair : patch.pairs) {
            detail::take_off(pair.reference, black.reference, patch.name, Instrument::reference);
            detail::take_off(pair.meter, black.meter, patch.name, Instrument::meter);
            pairs.push_back(std::move(pair));
        }
    }
    if (pairs.empty()) {
        throw Error(ErrorKind::shape, "subtract_black", "no patch but black", "patches with light");
    }
    WithoutBlack result{
        ReadingSet(std::move(pairs), set.names(), set.observer(), set.resolution()), black, {}};
    detail::say_what_was_done(black, result.warnings);
    return result;
}

}  // namespace samelight
