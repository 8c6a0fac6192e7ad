#pragma once
// The bodies of spectrum/instrument.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The truth at any wavelength: linear between its samples, beyond them by the rule (refuse has been dealt with before).
inline double with_beyond(const Spectrum& truth, double nm, Beyond beyond) {
    if (beyond == Beyond::nearest) {
        return truth.at(std::clamp(nm, truth.first_nm(), truth.last_nm()));
    }
    return truth.at(nm);
}

/// The truth between its samples of indices `next` - 1 and `next`, or beyond its ends; as with_beyond(), without a search.
inline double between_neighbours(const Spectrum& truth, double nm, std::size_t next,
                                 Beyond beyond) {
    const std::span<const double> all = truth.wavelengths_nm();
    if (next == 0 || next == all.size() || nm == all[next]) {
        return with_beyond(truth, nm, beyond);
    }
    const std::span<const double> values = truth.values();
    const double t = (nm - all[next - 1]) / (all[next] - all[next - 1]);
    return values[next - 1] + t * (values[next] - values[next - 1]);
}

/// The integral of the truth times one side of the passband: weight 0 at `foot_nm`, 1 at `top_nm` (on either side of it).
/// Between two neighbouring samples both are linear, so Simpson's rule is exact.
inline double half_passband(const Spectrum& truth, double foot_nm, double top_nm, Beyond beyond) {
    const double low = std::min(foot_nm, top_nm);
    const double high = std::max(foot_nm, top_nm);
    const std::span<const double> nm = truth.wavelengths_nm();
    const auto weight = [&](double at) { return (at - foot_nm) / (top_nm - foot_nm); };
    auto next = static_cast<std::size_t>(std::upper_bound(nm.begin(), nm.end(), low) - nm.begin());
    double from = low;
    double weighted_from = weight(low) * between_neighbours(truth, low, next, beyond);
    double sum = 0.0;
    // Up to `to`, which lies behind the sample before `next`; its weighted light is the next piece's first.
    const auto add = [&](double to, double light_to) {
        const double middle = 0.5 * (from + to);
        const double weighted_to = weight(to) * light_to;
        // Just outside the truth its end values must not count under Beyond::zero, so both ends come from the middle's side.
        const bool dark =
            beyond == Beyond::zero && (middle < truth.first_nm() || middle > truth.last_nm());
        if (to > from && !dark) {
            sum += (to - from) / 6.0 *
                   (weighted_from +
                    4.0 * weight(middle) * between_neighbours(truth, middle, next, beyond) +
                    weighted_to);
        }
        from = to;
        weighted_from = weighted_to;
    };
    for (; next != nm.size() && nm[next] < high; ++next) {
        add(nm[next], truth.values()[next]);
    }
    add(high, between_neighbours(truth, high, next, beyond));
    return sum;
}

/// The truth averaged through a triangular passband about `nm`.
inline double through_passband(const Spectrum& truth, double nm, double bandwidth_nm,
                               Beyond beyond) {
    if (!(bandwidth_nm > 0.0)) {
        return with_beyond(truth, nm, beyond);
    }
    return (half_passband(truth, nm - bandwidth_nm, nm, beyond) +
            half_passband(truth, nm + bandwidth_nm, nm, beyond)) /
           bandwidth_nm;
}

inline void require_instrument(const ReadingInstrument& instrument) {
    const auto require = [](bool good, const std::string& what, double value,
                            const std::string& wanted) {
        if (!good) {
            throw Error(ErrorKind::domain, "read_by", what + " " + to_text(value), wanted);
        }
    };
    const auto not_negative = [](double value) { return value >= 0.0 && std::isfinite(value); };
    require(std::isfinite(instrument.wavelength_shift_nm), "a wavelength shift of",
            instrument.wavelength_shift_nm, "a finite one, nm");
    require(not_negative(instrument.bandwidth_nm), "a bandwidth of", instrument.bandwidth_nm,
            "0 nm or more");
    require(instrument.stray_light >= 0.0 && instrument.stray_light <= 1.0, "stray light of",
            instrument.stray_light, "0 to 1 of the peak");
    require(not_negative(instrument.noise), "noise of", instrument.noise, "0 of the peak or more");
    require(not_negative(instrument.step_nm), "a step of", instrument.step_nm, "0 nm or more");
    require(not_negative(instrument.first_nm), "a first wavelength of", instrument.first_nm,
            "0 nm or more");
}

/// The wavelengths at which the instrument reads, within the truth's range.
inline std::vector<double> reading_wavelengths(const ReadingInstrument& instrument,
                                               const Spectrum& truth) {
    if (!(instrument.step_nm > 0.0)) {
        return {truth.wavelengths_nm().begin(), truth.wavelengths_nm().end()};
    }
    const double first = instrument.first_nm > 0.0 ? instrument.first_nm : truth.first_nm();
    const double steps = std::floor((truth.last_nm() - first) / instrument.step_nm + 1e-9);
    if (first < truth.first_nm() - 1e-9 || !(steps >= 1.0) || steps > 99999.0) {
        throw Error(ErrorKind::domain, "read_by",
                    "readings from " + to_text(first) + " nm by " + to_text(instrument.step_nm) +
                        " nm of a spectrum of " + to_text(truth.first_nm()) + "-" +
                        to_text(truth.last_nm()) + " nm",
                    "2 to 100000 readings within the spectrum");
    }
    std::vector<double> nm;
    for (int i = 0; i <= static_cast<int>(steps); ++i) {
        nm.push_back(first + instrument.step_nm * static_cast<double>(i));
    }
    return nm;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Spectrum read_by(const ReadingInstrument& instrument, const Spectrum& truth,
                                  std::uint64_t seed, Beyond beyond) {
    detail::require_instrument(instrument);
    if (beyond == Beyond::refuse) {
        const double reach = instrument.bandwidth_nm + std::abs(instrument.wavelength_shift_nm);
        const double dark = 1e-9 * std::abs(truth.peak());
        for (std::size_t i = 0; i < truth.size(); ++i) {
            const double nm = truth.wavelengths_nm()[i];
            const bool at_an_end = nm <= truth.first_nm() + reach || nm >= truth.last_nm() - reach;
            if (at_an_end && reach > 0.0 && std::abs(truth.values()[i]) > dark) {
                throw Error(ErrorKind::domain, "read_by",
                            "light at " + to_text(nm) + " nm in a spectrum that ends within " +
                                to_text(reach) + " nm of there",
                            "darkness at both ends, or a rule for what lies beyond them");
            }
        }
    }
    std::vector<double> nm = detail::reading_wavelengths(instrument, truth);
    std::vector<double> values;
    values.reserve(nm.size());
    for (const double reading_nm : nm) {
        values.push_back(detail::through_passband(
            truth, reading_nm - instrument.wavelength_shift_nm, instrument.bandwidth_nm, beyond));
    }
    const double peak = std::max(0.0, *std::max_element(values.begin(), values.end()));
    const PseudoRandom random(seed);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] += instrument.stray_light * peak;
        if (instrument.noise > 0.0) {
            values[i] += instrument.noise * peak * normal_quantile(random.unit(i));
        }
    }
    return {std::move(nm), std::move(values)};
}

}  // namespace samelight
