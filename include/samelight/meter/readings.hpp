#pragma once
// Paired readings: what the reference and the meter made of the same patches, grouped by patch.
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
#include <utility>
#include <vector>

#include "samelight/meter/resolution.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {

/// The two instruments of a calibration: the reference (a spectroradiometer, as a rule) and the meter that is to be corrected.
enum class Instrument { reference, meter };

/// "reference" or "meter".
inline const char* name_of(Instrument instrument) {
    return instrument == Instrument::reference ? "reference" : "meter";
}

/// One reading of one instrument, as a file holds it.
struct InstrumentReading {
    std::string patch;  ///< name of the colour shown ("white", "red", ...)
    Instrument instrument = Instrument::reference;
    int round = 1;                      ///< which time around, from 1; the `repeat` of a file
    std::array<double, 3> xyz{};        ///< X, Y, Z, cd/m2
    std::optional<double> time_s = {};  ///< seconds from any start
};

/// One reading of each instrument of the same showing of a patch.
struct PairedReading {
    std::string patch;
    std::array<double, 3> reference{};  ///< X, Y, Z of the reference, cd/m2
    std::array<double, 3> meter{};      ///< X, Y, Z as the meter says them, cd/m2
    int round = 1;
    std::optional<double> time_s = {};  ///< of the reference's reading where both have one
};

/// X, Y, Z from x, y, Y. Throws Error (domain) unless y is above 0 and all three are finite. Source: CIE 15:2018, 7.3.
inline std::array<double, 3> xyz_from_xyY(double x, double y, double Y) {
    if (!(y > 0.0) || !std::isfinite(x) || !std::isfinite(y) || !std::isfinite(Y)) {
        throw Error(ErrorKind::domain, "xyz_from_xyY",
                    "x, y, Y = " + to_text(x) + ", " + to_text(y) + ", " + to_text(Y),
                    "finite numbers with y above 0");
    }
    return {x / y * Y, Y, (1.0 - x - y) / y * Y};
}

/// x, y, Y from X, Y, Z; the inverse of xyz_from_xyY. No check: NaN where the sum is 0.
inline std::array<double, 3> xyY_from_xyz(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {xyz[0] / sum, xyz[1] / sum, xyz[1]};
}

/// What the colours that a method names are called in the readings; letter case does not matter, and the first letter alone will do
/// ("W"; "K" for black).
struct PatchNames {
    std::string red = "red";
    std::string green = "green";
    std::string blue = "blue";
    std::string white = "white";
    std::string black = "black";
};

namespace detail {

/// Lower case of ASCII letters, whatever the locale.
inline std::string lower_case_name(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
    return result;
}

inline bool is_called(std::string_view patch, const std::string& name) {
    const std::string lower = lower_case_name(patch);
    const std::string wanted = lower_case_name(name);
    const std::string letter = wanted == "black" ? "k" : wanted.substr(0, 1);
    return lower == wanted || lower == letter;
}

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

}  // namespace detail

/// The readings in an order that the rows of a file have no say in: by round, within a round by time where all readings have one, else red, green, blue, white,
/// black and the others by name, the reference before the meter. Readings of one patch, round and instrument are put in the order of their times where all
/// readings of that patch and round have one; else they keep theirs, as nothing but the order tells the first white of a round from the last.
inline std::vector<InstrumentReading> in_one_order(std::vector<InstrumentReading> readings,
                                                   const PatchNames& names = {}) {
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

/// Puts together the readings of both instruments: within a patch and a round the first reading of the one belongs to the first of the other,
/// the second to the second, and so on (white may be read at both ends of a round). Letter case in names does not matter. The order is
/// the reference's.
/// Throws Error (shape) naming the patch where the counts of the two instruments differ in a round.
inline std::vector<PairedReading> pair_readings(std::span<const InstrumentReading> readings) {
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

/// All pairs of one patch and their means. The means are of x, y and Y, not of X and Z: where luminance flickers the chromaticities still have
/// equal weight.
struct Patch {
    std::string name;
    std::vector<PairedReading> pairs;
    std::array<double, 3> reference{};  ///< mean x, y, Y
    std::array<double, 3> meter{};      ///< mean x, y, Y

    [[nodiscard]] std::size_t count() const noexcept { return pairs.size(); }
    [[nodiscard]] const std::array<double, 3>& of(Instrument instrument) const noexcept {
        return instrument == Instrument::reference ? reference : meter;
    }
};

namespace detail {

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

}  // namespace detail

/// The least luminance that counts as light, cd/m2: what is darker, no instrument of the trade tells from none.
inline constexpr double least_luminance = 1e-6;

/// Paired readings of a calibration, checked and grouped by patch in the order of their first appearance; black apart.
class ReadingSet {
  public:
    /// @param pairs    X, Y, Z in cd/m2, both instruments in the same unit
    /// @param names    what red, green, blue, white and black are called
    /// @param observer id of the observer that the reference's values belong to
    /// @param resolution  of what was written down, where the pairs are no longer that (black taken off); absent: found from them
    /// Throws Error (shape) for no readings at all, Error (domain) for a value that isn't finite and, black apart, a luminance below
    /// least_luminance or a sum X + Y + Z that isn't above 0; each names patch, repeat and instrument.
    explicit ReadingSet(std::vector<PairedReading> pairs, PatchNames names = {},
                        std::string observer = std::string(Cie1931_2deg::id),
                        const std::optional<Resolutions>& resolution = {})
        : names_(std::move(names)), observer_(std::move(observer)), pairs_(std::move(pairs)) {
        if (pairs_.empty()) {
            throw Error(ErrorKind::shape, "ReadingSet", "no readings", "paired readings");
        }
        for (const PairedReading& pair : pairs_) {
            const bool is_black = detail::is_called(pair.patch, names_.black);
            require_usable(pair, Instrument::reference, pair.reference, is_black);
            require_usable(pair, Instrument::meter, pair.meter, is_black);
            if (is_black) {
                black_.push_back(pair);
                continue;
            }
            const auto found = std::find_if(patches_.begin(), patches_.end(), [&](const Patch& p) {
                return detail::lower_case_name(p.name) == detail::lower_case_name(pair.patch);
            });
            if (found != patches_.end()) {
                found->pairs.push_back(pair);
            } else {
                patches_.push_back({pair.patch, {pair}, {}, {}});
            }
        }
        for (Patch& patch : patches_) {
            detail::set_means(patch);
        }
        resolution_ = resolution ? *resolution
                                 : Resolutions{resolution_of(values(Instrument::reference)),
                                               resolution_of(values(Instrument::meter))};
    }

    /// Without black.
    [[nodiscard]] const std::vector<Patch>& patches() const noexcept { return patches_; }
    /// Readings of black; may be none.
    [[nodiscard]] const std::vector<PairedReading>& black() const noexcept { return black_; }
    /// All pairs in their order, as given.
    [[nodiscard]] const std::vector<PairedReading>& pairs() const noexcept { return pairs_; }
    [[nodiscard]] const PatchNames& names() const noexcept { return names_; }
    [[nodiscard]] const std::string& observer() const noexcept { return observer_; }
    /// The digits that the readings were written down with.
    [[nodiscard]] const Resolutions& resolution() const noexcept { return resolution_; }
    [[nodiscard]] const Resolution& resolution(Instrument instrument) const noexcept {
        return instrument == Instrument::reference ? resolution_.reference : resolution_.meter;
    }

    /// Index of the patch of this name in patches(), if there is one.
    [[nodiscard]] std::optional<std::size_t> find(const std::string& name) const {
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            if (detail::is_called(patches_[i].name, name)) {
                return i;
            }
        }
        return {};
    }

    /// The same. Throws Error (shape) naming `where` and the patches there are.
    [[nodiscard]] std::size_t require(const char* where, const std::string& name) const {
        if (const auto found = find(name)) {
            return *found;
        }
        std::string there;
        for (const Patch& patch : patches_) {
            there += (there.empty() ? "" : ", ") + patch.name;
        }
        throw Error(ErrorKind::shape, where,
                    "no patch named \"" + name + "\" among " +
                        (there.empty() ? "no patches but black" : there),
                    "readings of " + name);
    }

    /// Index of the white, or of the brightest patch (by the reference) where none is called white.
    [[nodiscard]] std::size_t white_or_brightest() const {
        if (const auto found = find(names_.white)) {
            return *found;
        }
        const auto brightest = std::max_element(
            patches_.begin(), patches_.end(),
            [](const Patch& a, const Patch& b) { return a.reference[2] < b.reference[2]; });
        return static_cast<std::size_t>(brightest - patches_.begin());
    }

  private:
    static void require_usable(const PairedReading& pair, Instrument instrument,
                               const std::array<double, 3>& xyz, bool is_black) {
        const std::string found = "patch " + pair.patch + ", repeat " + std::to_string(pair.round) +
                                  ", " + name_of(instrument) + ": X, Y, Z = " + to_text(xyz[0]) +
                                  ", " + to_text(xyz[1]) + ", " + to_text(xyz[2]);
        if (!std::all_of(xyz.begin(), xyz.end(), [](double v) { return std::isfinite(v); })) {
            throw Error(ErrorKind::domain, "ReadingSet", found, "finite values");
        }
        if (!is_black && (!(xyz[1] >= least_luminance) || !(xyz[0] + xyz[1] + xyz[2] > 0.0))) {
            throw Error(ErrorKind::domain, "ReadingSet", found,
                        "a luminance of " + to_text(least_luminance) +
                            " cd/m2 or more and a sum above 0 (only a patch named black may read "
                            "less)");
        }
    }
    [[nodiscard]] std::vector<std::array<double, 3>> values(Instrument instrument) const {
        std::vector<std::array<double, 3>> result;
        result.reserve(pairs_.size());
        for (const PairedReading& pair : pairs_) {
            result.push_back(instrument == Instrument::reference ? pair.reference : pair.meter);
        }
        return result;
    }

    PatchNames names_;
    std::string observer_;
    std::vector<PairedReading> pairs_;
    std::vector<Patch> patches_;
    std::vector<PairedReading> black_;
    Resolutions resolution_;
};

}  // namespace samelight
