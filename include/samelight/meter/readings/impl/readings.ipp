#pragma once
// The bodies of meter/readings/readings.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>
#include <vector>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::string lower_case_name(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
    return result;
}

/// The letter by which a name in small letters may be called, too.
inline std::string letter_for(const std::string& name) {
    return name == "black" ? "k" : name.substr(0, 1);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool is_called(std::string_view patch, const std::string& name) {
    const std::string lower = detail::lower_case_name(patch);
    const std::string wanted = detail::lower_case_name(name);
    return lower == wanted || lower == detail::letter_for(wanted);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Where a patch stands among those of its round when nothing else says: the named colours first.
inline std::size_t rank_of(const std::string& patch, const PatchNames& names) {
    const std::array<const std::string*, 5> order = {&names.red, &names.green, &names.blue,
                                                     &names.white, &names.black};
    std::size_t rank = 0;
    while (rank < order.size() && !is_called(patch, *order.at(rank))) {
        ++rank;
    }
    return rank;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<InstrumentReading> in_one_order(
    std::vector<InstrumentReading> readings, const PatchNames& names) {
    const bool timed = std::all_of(readings.begin(), readings.end(),
                                   [](const InstrumentReading& r) { return r.time_s.has_value(); });
    std::map<std::pair<std::string, int>, bool> group_timed;
    for (const InstrumentReading& r : readings) {
        bool& all = group_timed.try_emplace({detail::lower_case_name(r.patch), r.round}, true)
                        .first->second;
        all = all && r.time_s.has_value();
    }
    using Key = std::tuple<int, double, std::size_t, std::string, Instrument, double>;
    const auto key = [&](const InstrumentReading& r) {
        const std::string patch = detail::lower_case_name(r.patch);
        return Key{r.round,
                   timed ? *r.time_s : 0.0,
                   detail::rank_of(patch, names),
                   patch,
                   r.instrument,
                   group_timed.at({patch, r.round}) ? *r.time_s : 0.0};
    };
    std::vector<std::pair<Key, InstrumentReading>> keyed;
    keyed.reserve(readings.size());
    for (InstrumentReading& r : readings) {
        Key own = key(r);
        keyed.emplace_back(std::move(own), std::move(r));
    }
    std::stable_sort(keyed.begin(), keyed.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i < keyed.size(); ++i) {
        readings[i] = std::move(keyed[i].second);
    }
    return readings;
}

SAMELIGHT_INLINE std::vector<PairedReading> pair_readings(
    std::span<const InstrumentReading> readings) {
    using Key = std::tuple<std::string, int, std::size_t>;
    std::map<std::pair<std::string, int>, std::array<std::size_t, 2>> count;
    std::map<Key, const InstrumentReading*> meter;
    for (const InstrumentReading& r : readings) {
        const auto side = r.instrument == Instrument::meter ? 1U : 0U;
        const std::string patch = detail::lower_case_name(r.patch);
        const std::size_t index = count[{patch, r.round}].at(side)++;
        if (r.instrument == Instrument::meter) {
            meter[{patch, r.round, index}] = &r;
        }
    }
    for (const auto& [where, n] : count) {
        if (n[0] != n[1]) {
            throw Error(ErrorKind::shape, "pair_readings",
                        "patch " + where.first + ", repeat " + std::to_string(where.second) + ": " +
                            std::to_string(n[0]) + " of the reference and " + std::to_string(n[1]) +
                            " of the meter",
                        "as many of the one as of the other");
        }
    }
    std::vector<PairedReading> pairs;
    count.clear();
    for (const InstrumentReading& r : readings) {
        if (r.instrument == Instrument::meter) {
            continue;
        }
        const std::string patch = detail::lower_case_name(r.patch);
        const InstrumentReading& other = *meter.at({patch, r.round, count[{patch, r.round}][0]++});
        pairs.push_back({r.patch, r.xyz, other.xyz, r.round, r.time_s ? r.time_s : other.time_s});
    }
    return pairs;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Means of x, y and Y.
inline void set_means(Patch& patch) {
    patch.reference = patch.meter = {0.0, 0.0, 0.0};
    const double n = static_cast<double>(patch.count());
    for (const PairedReading& pair : patch.pairs) {
        const auto r = xyY_from_xyz(pair.reference);
        const auto m = xyY_from_xyz(pair.meter);
        for (std::size_t k = 0; k < 3; ++k) {
            patch.reference[k] += r[k] / n;
            patch.meter[k] += m[k] / n;
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ReadingSet::ReadingSet(std::vector<PairedReading> pairs, PatchNames names,
                                        std::string observer,
                                        const std::optional<Resolutions>& resolution)
    : names_(std::move(names)), observer_(std::move(observer)), pairs_(std::move(pairs)) {
    if (pairs_.empty()) {
        throw Error(ErrorKind::shape, "ReadingSet", "no readings", "paired readings");
    }
    for (const PairedReading& pair : pairs_) {
        const bool is_black = is_called(pair.patch, names_.black);
        require_usable(pair, Instrument::reference, pair.reference, is_black);
        require_usable(pair, Instrument::meter, pair.meter, is_black);
        if (is_black) {
            black_.push_back(pair);
            continue;
        }
        const auto [at, is_new] =
            index_of_.try_emplace(detail::lower_case_name(pair.patch), patches_.size());
        if (is_new) {
            patches_.push_back({pair.patch, {pair}, {}, {}});
        } else {
            patches_[at->second].pairs.push_back(pair);
        }
    }
    for (Patch& patch : patches_) {
        detail::set_means(patch);
    }
    resolution_ = resolution ? *resolution
                             : Resolutions{resolution_of(values(Instrument::reference)),
                                           resolution_of(values(Instrument::meter))};
}

SAMELIGHT_INLINE std::optional<std::size_t> ReadingSet::find(const std::string& name) const {
    std::optional<std::size_t> first;
    const std::string wanted = detail::lower_case_name(name);
    for (const std::string& called : {wanted, detail::letter_for(wanted)}) {
        const auto at = index_of_.find(called);
        if (at != index_of_.end() && (!first || at->second < *first)) {
            first = at->second;
        }
    }
    return first;
}

SAMELIGHT_INLINE std::size_t ReadingSet::require(const char* where, const std::string& name) const {
    if (const auto found = find(name)) {
        return *found;
    }
    std::string there;
    for (const Patch& patch : patches_) {
        there += (there.empty() ? "" : ", ") + patch.name;
    }
    throw Error(
        ErrorKind::shape, where,
        "no patch named \"" + name + "\" among " + (there.empty() ? "no patches but black" : there),
        "readings of " + name);
}

SAMELIGHT_INLINE std::size_t ReadingSet::white_or_brightest() const {
    if (const auto found = find(names_.white)) {
        return *found;
    }
    const auto brightest = std::max_element(
        patches_.begin(), patches_.end(),
        [](const Patch& a, const Patch& b) { return a.reference[2] < b.reference[2]; });
    return static_cast<std::size_t>(brightest - patches_.begin());
}

SAMELIGHT_INLINE void ReadingSet::require_usable(const PairedReading& pair, Instrument instrument,
                                                 const std::array<double, 3>& xyz, bool is_black) {
    // Worded where it is needed alone: a set may hold thousands of pairs, and is made anew for each that is left out.
    const auto found = [&] {
        return "patch " + pair.patch + ", repeat " + std::to_string(pair.round) + ", " +
               code_of(instrument) + ": X, Y, Z = " + to_text(xyz[0]) + ", " + to_text(xyz[1]) +
               ", " + to_text(xyz[2]);
    };
    if (!std::all_of(xyz.begin(), xyz.end(), [](double v) { return std::isfinite(v); })) {
        throw Error(ErrorKind::domain, "ReadingSet", found(), "finite values");
    }
    if (!is_black && (!(xyz[1] >= least_luminance) || !(xyz[0] + xyz[1] + xyz[2] > 0.0))) {
        throw Error(ErrorKind::domain, "ReadingSet", found(),
                    "a luminance of " + to_text(least_luminance) +
                        " cd/m2 or more and a sum above 0 (only a patch named black may read "
                        "less)");
    }
}

SAMELIGHT_INLINE std::vector<std::array<double, 3>> ReadingSet::values(
    Instrument instrument) const {
    std::vector<std::array<double, 3>> result;
    result.reserve(pairs_.size());
    for (const PairedReading& pair : pairs_) {
        result.push_back(instrument == Instrument::reference ? pair.reference : pair.meter);
    }
    return result;
}

}  // namespace samelight
