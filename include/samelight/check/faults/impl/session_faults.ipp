#pragma once
// The bodies of check/faults/session_faults.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/faults/session_faults.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/light_places.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The largest departure of one patch's readings that lasts.
struct AnchorDrift {
    double luminance = 0.0, duv = 0.0;
    std::size_t from = 0, to = 0;
    bool found = false;
};

inline AnchorDrift anchor_drift(const std::vector<const TimedReading*>& readings,
                                const ProofNoise& noise) {
    AnchorDrift drift;
    if (readings.size() < 4) {
        return drift;
    }
    std::array<double, 3> middle{};
    for (std::size_t k = 0; k < 3; ++k) {
        std::vector<double> values;
        for (const TimedReading* r : readings) {
            values.push_back(r->xyz[k]);
        }
        middle[k] = middle_of(std::move(values));
    }
    const auto centre = uv_of_light(middle);
    if (!centre || !(middle[1] > 50.0 * noise.floor_cd_m2)) {
        return drift;
    }
    const double luminance_sd = noise.standard_deviation(middle[1]) / middle[1];
    const double uv_sd = uv_spread(middle, noise, 1);
    std::size_t run = 0;
    for (const TimedReading* r : readings) {
        const auto uv = uv_of_light(r->xyz);
        const double luminance = r->xyz[1] / middle[1] - 1.0;
        const double duv = uv ? std::hypot((*uv)[0] - (*centre)[0], (*uv)[1] - (*centre)[1]) : 0.0;
        const bool off = std::abs(luminance) > std::max(0.01, 6.0 * luminance_sd) ||
                         duv > std::max(0.0012, 6.0 * uv_sd);
        run = off ? run + 1 : 0;
        if (run == 1) {
            drift.from = drift.found ? drift.from : r->order;
        }
        if (run >= 2) {
            drift.found = true;
            drift.to = r->order;
            drift.luminance =
                std::abs(luminance) > std::abs(drift.luminance) ? luminance : drift.luminance;
            drift.duv = std::max(drift.duv, duv);
        } else if (run == 0 && !drift.found) {
            drift.from = 0;
        }
    }
    return drift;
}

/// Points in the order in which they were read, with how far their luminance departs from the model.
struct OrderedDeparture {
    std::size_t point, order;
    double departure;
};

inline std::vector<OrderedDeparture> departures(const ProofReadings& readings, const ModelFit& fit,
                                                const ModelState& state) {
    const auto lights = fit.model().lights(state);
    const double white = fit.model().intended().white()[1];
    std::vector<OrderedDeparture> result;
    std::vector<double> values;
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        const double y = readings.points[i].xyz[1];
        if (readings.points[i].count == 1 && y > 0.005 * white && lights[i][1] > 0.0 &&
            y > 100.0 * readings.noise.floor_cd_m2) {
            result.push_back({i, readings.points[i].order, std::log(y / lights[i][1])});
            values.push_back(result.back().departure);
        }
    }
    const double middle = middle_of(values);
    for (OrderedDeparture& d : result) {
        d.departure -= middle;
    }
    std::stable_sort(
        result.begin(), result.end(),
        [](const OrderedDeparture& a, const OrderedDeparture& b) { return a.order < b.order; });
    return result;
}

/// The stretch that departs most for its length; empty (from = to) where none does enough.
struct Stretch {
    std::size_t from = 0, to = 0;
    double mean = 0.0;
};

inline Stretch departing_stretch(const std::vector<OrderedDeparture>& all, double least_sd) {
    constexpr std::size_t most = 400;
    Stretch best;
    if (all.size() < 15 || all.size() > most) {
        return best;
    }
    std::vector<double> sizes;
    for (const auto& d : all) {
        sizes.push_back(std::abs(d.departure));
    }
    const double sd = std::max(1.4826 * middle_of(sizes), std::max(least_sd, 0.002));
    double most_sd = 9.0;
    for (std::size_t from = 0; from < all.size(); ++from) {
        double sum = 0.0;
        std::size_t above = 0;
        for (std::size_t to = from + 1; to <= all.size(); ++to) {
            // A single misread patch must not make a stretch.
            const double one = std::clamp(all[to - 1].departure, -0.25, 0.25);
            sum += one;
            above += one > 0.0 ? 1 : 0;
            const auto n = static_cast<double>(to - from);
            const double same =
                std::max(static_cast<double>(above), n - static_cast<double>(above));
            const double strength = std::abs(sum) / (sd * std::sqrt(n));
            if (to - from >= 5 && n < 0.6 * static_cast<double>(all.size()) && strength > most_sd &&
                std::abs(sum) / n > 0.01 && same > 0.9 * n) {
                most_sd = strength;
                best = {from, to, sum / n};
            }
        }
    }
    return best;
}

/// Which channels are above the least: patches of one hue have the same.
inline std::array<bool, 3> hue_of(const std::array<double, 3>& signal) {
    const double least = *std::min_element(signal.begin(), signal.end());
    return {signal[0] > least + 0.02, signal[1] > least + 0.02, signal[2] > least + 0.02};
}

/// All of one hue: such a stretch departs by its colour as likely as by its time, and nobody can tell.
inline bool of_one_hue(const ProofReadings& readings, const std::vector<OrderedDeparture>& all,
                       const Stretch& stretch) {
    const auto hue = [&](std::size_t i) {
        return hue_of(readings.points[all[i].point].shown.signal);
    };
    for (std::size_t i = stretch.from; i < stretch.to; ++i) {
        if (hue(i) != hue(stretch.from) || hue(i) == std::array<bool, 3>{}) {
            return false;
        }
    }
    return true;
}

/// Most of the stretch departs alike, rather than a few patches a lot.
inline bool departs_alike(const std::vector<OrderedDeparture>& all, const Stretch& stretch) {
    std::size_t alike = 0;
    for (std::size_t i = stretch.from; i < stretch.to; ++i) {
        const double share = all[i].departure / stretch.mean;
        alike += share > 0.3 && share < 2.2 ? 1 : 0;
    }
    return static_cast<double>(alike) > 0.75 * static_cast<double>(stretch.to - stretch.from);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE void add_drift(const ProofReadings& readings, const ModelFit& fit,
                                const ModelState& state, PatchFindings& found) {
    std::map<std::size_t, std::vector<const TimedReading*>> by_point;
    for (const TimedReading& r : readings.repeats) {
        by_point[r.point].push_back(&r);
    }
    for (const auto& [point, timed] : by_point) {
        const detail::AnchorDrift drift = detail::anchor_drift(timed, readings.noise);
        if (!drift.found) {
            continue;
        }
        Fault fault{FaultKind::drift};
        fault.measured = drift.luminance;
        fault.strength = std::max(33.0 * std::abs(drift.luminance), 600.0 * drift.duv);
        for (std::size_t i = 0; i < readings.points.size(); ++i) {
            const ProofPoint& p = readings.points[i];
            if (p.order >= drift.from && p.order <= drift.to) {
                found.explained[i] = 1;
                fault.patch = fault.patch.empty() ? p.shown.name : fault.patch;
                fault.other = p.shown.name;
                ++fault.patches;
            }
        }
        fault.line = readings.points[point].line;
        found.faults.push_back(std::move(fault));
        return;
    }
    const auto all = detail::departures(readings, fit, state);
    const detail::Stretch stretch = detail::departing_stretch(all, 1.2 * readings.noise.relative);
    if (stretch.to == stretch.from || !detail::departs_alike(all, stretch) ||
        detail::of_one_hue(readings, all, stretch)) {
        return;
    }
    Fault fault{FaultKind::drift};
    fault.measured = std::exp(stretch.mean) - 1.0;
    fault.patches = stretch.to - stretch.from;
    fault.strength = 33.0 * std::abs(fault.measured);
    for (std::size_t i = stretch.from; i < stretch.to; ++i) {
        found.explained[all[i].point] = 1;
    }
    const ProofPoint& first = readings.points[all[stretch.from].point];
    fault.patch = first.shown.name;
    fault.line = first.line;
    fault.other = readings.points[all[stretch.to - 1].point].shown.name;
    found.faults.push_back(std::move(fault));
}

SAMELIGHT_INLINE std::vector<Fault> window_faults(const ProofReadings& readings) {
    std::map<std::array<int, 3>, std::map<double, std::pair<double, double>>> sums;
    std::map<std::array<int, 3>, std::string> names;
    for (const WindowReading& r : readings.windows) {
        const auto& s = r.shown.signal;
        if (std::max({s[0], s[1], s[2]}) >= 0.895) {
            auto& sum = sums[detail::signal_key(s)][r.window_pct];
            sum.first += r.xyz[1];
            sum.second += 1.0;
            names.emplace(detail::signal_key(s), r.shown.name);
        }
    }
    std::vector<Fault> faults;
    for (const auto& [key, windows] : sums) {
        const double first = windows.begin()->second.first / windows.begin()->second.second;
        for (const auto& [window, sum] : windows) {
            const double share = sum.first / sum.second / first;
            if (share < 0.93) {
                Fault fault{FaultKind::limiter};
                fault.measured =
                    windows.rbegin()->second.first / windows.rbegin()->second.second / first;
                fault.intended = 1.0;
                fault.patch = names[key];
                fault.other = to_text(window);
                fault.strength = 33.0 * (1.0 - share);
                fault.patches = 1;
                faults.push_back(std::move(fault));
                break;
            }
        }
    }
    // One limiter: as the greys have it, else as the patch that it takes most from.
    const auto grey = [&](const Fault& fault) {
        return std::any_of(readings.windows.begin(), readings.windows.end(), [&](const auto& r) {
            return r.shown.name == fault.patch && r.shown.group == SignalGroup::grey;
        });
    };
    if (faults.size() > 1) {
        std::stable_sort(faults.begin(), faults.end(), [&](const Fault& a, const Fault& b) {
            return grey(a) != grey(b) ? grey(a) : a.strength > b.strength;
        });
        faults.resize(1);
    }
    return faults;
}

SAMELIGHT_INLINE std::vector<Fault> screen_faults(const std::vector<Uniformity>& screen) {
    std::vector<Fault> faults;
    for (const Uniformity& patch : screen) {
        if (!patch.white) {
            continue;
        }
        if (std::abs(patch.largest_luminance) > 0.15) {
            Fault fault{FaultKind::uneven_luminance};
            fault.measured = patch.largest_luminance;
            fault.patch = patch.patch;
            fault.other = patch.positions[patch.luminance_at].position;
            fault.strength = 33.0 * std::abs(patch.largest_luminance);
            faults.push_back(std::move(fault));
        }
        if (patch.largest_duv > chromaticity_gate) {
            Fault fault{FaultKind::uneven_colour};
            fault.measured = patch.largest_duv;
            fault.patch = patch.patch;
            fault.other = patch.positions[patch.duv_at].position;
            fault.strength = 600.0 * patch.largest_duv;
            faults.push_back(std::move(fault));
        }
        break;
    }
    return faults;
}

SAMELIGHT_INLINE std::vector<Fault> repeat_faults(const ProofReadings& readings) {
    std::vector<Fault> faults;
    for (const OddRepeat& odd : readings.odd_repeats) {
        const auto same = std::find_if(faults.begin(), faults.end(),
                                       [&](const Fault& f) { return f.patch == odd.patch; });
        if (same != faults.end()) {
            same->measured = std::max(same->measured, odd.off_delta_e);
            same->strength = same->measured;
            continue;
        }
        Fault fault{FaultKind::repeats_disagree};
        fault.patch = odd.patch;
        fault.line = odd.line;
        fault.measured = odd.off_delta_e;
        fault.strength = odd.off_delta_e;
        fault.patches = 1;
        faults.push_back(std::move(fault));
    }
    return faults;
}

}  // namespace samelight
