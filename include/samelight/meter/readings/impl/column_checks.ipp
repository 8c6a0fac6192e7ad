#pragma once
// The bodies of meter/readings/column_checks.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/light_columns.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::optional<NamedLights> named_lights(const ReadingSet& set,
                                                         Instrument instrument) {
    const PatchNames& names = set.names();
    NamedLights lights{};
    std::size_t k = 0;
    for (const std::string* name : {&names.red, &names.green, &names.blue, &names.white}) {
        const auto found = set.find(*name);
        if (!found) {
            return {};
        }
        const auto& v = set.patches()[*found].of(instrument);
        if (!(v[1] > 0.0)) {
            return {};
        }
        lights.at(k++) = xyz_from_xyY(v[0], v[1], v[2]);
    }
    return lights;
}

SAMELIGHT_INLINE double gain_by_names(const NamedLights& lights, const ColumnOrder& o) {
    double gain = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const auto own = shares(xyY_from_xyz(lights.at(k)));
        gain += own.at(o.order.at(k)) - own.at(k);
    }
    return gain;
}

/// One light's columns in another order.
struct LightInOrder {
    /// 0 to 3: red, green, blue, white
    std::size_t light = 0;
    const ColumnOrder* order = nullptr;
};

/// How far red, green and blue together are from white then; infinite where that is no light.
inline double apart_in_order(NamedLights lights, const LightInOrder& one) {
    lights.at(one.light) = in_order(lights.at(one.light), *one.order);
    return lights.at(one.light)[1] > 0.0 ? apart_from_white(lights)
                                         : std::numeric_limits<double>::infinity();
}

/// Lights that don't add are this far apart at least, in x, y; what is off by half of that, or less, adds (common practice, no source).
inline constexpr double not_adding = 0.02;

/// Whether that mends what is wrong: five times nearer, and as near as lights are that add.
inline bool mends(double given, double mended) {
    return mended < std::min(given / 5.0, 0.5 * not_adding);
}

/// The light and order that mends all of the instruments' lights best; nothing where one of them is no more than `least_apart` apart as given, or where
/// nothing mends it.
inline std::optional<LightInOrder> light_in_wrong_order(const std::vector<NamedLights>& all,
                                                        double least_apart) {
    std::vector<double> given;
    for (const NamedLights& lights : all) {
        given.push_back(apart_from_white(lights));
    }
    if (!(*std::min_element(given.begin(), given.end()) > least_apart)) {
        return {};
    }
    std::optional<LightInOrder> best;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t light = 0; light < 4; ++light) {
        for (const ColumnOrder& o : column_orders) {
            double sum = 0.0;
            bool mended = true;
            for (std::size_t i = 0; i < all.size(); ++i) {
                const double then = apart_in_order(all[i], {light, &o});
                mended = mended && mends(given[i], then);
                sum += then;
            }
            if (mended && sum < least) {
                least = sum;
                best = LightInOrder{light, &o};
            }
        }
    }
    return best;
}

/// x and y of all colours, told by additivity.
inline std::optional<ExchangeFound> all_xy_exchanged(const std::array<NamedLights, 2>& lights) {
    const auto reference = xy_exchange_by_adding(lights[0], with_xy_exchanged(lights[0]));
    const auto meter = xy_exchange_by_adding(lights[1], with_xy_exchanged(lights[1]));
    if (!reference || !meter) {
        return {};
    }
    return ExchangeFound{ExchangedIn::both,
                         ExchangedColumns::x_and_y,
                         {},
                         ExchangeShownBy::additivity,
                         std::max(reference->given_xy, meter->given_xy),
                         std::max(reference->mended_xy, meter->mended_xy)};
}

/// All colours in another order, told by their names.
inline std::optional<ExchangeFound> all_in_wrong_order(const std::array<NamedLights, 2>& lights) {
    constexpr double least_gain = 0.2;
    const ColumnOrder* best = nullptr;
    double most = least_gain;
    for (const ColumnOrder& o : column_orders) {
        const double gain = std::min(gain_by_names(lights[0], o), gain_by_names(lights[1], o));
        if (gain > most) {
            most = gain;
            best = &o;
        }
    }
    if (best == nullptr) {
        return {};
    }
    return ExchangeFound{ExchangedIn::both, best->which, {}, ExchangeShownBy::names, 0.0, 0.0};
}

/// One colour of both instruments or of either, told by additivity; of one only where the other's lights add, as both see the same.
inline std::optional<ExchangeFound> one_in_wrong_order(const std::array<NamedLights, 2>& lights,
                                                       const PatchNames& names) {
    const std::array<const std::string*, 4> called = {&names.red, &names.green, &names.blue,
                                                      &names.white};
    const auto found = [&](const LightInOrder& one, const NamedLights& own,
                           ExchangedIn instruments) {
        return ExchangeFound{instruments,           one.order->which,
                             *called.at(one.light), ExchangeShownBy::additivity,
                             apart_from_white(own), apart_in_order(own, one)};
    };
    const std::array<double, 2> given = {apart_from_white(lights[0]), apart_from_white(lights[1])};
    if (std::max(given[0], given[1]) > not_adding) {
        if (const auto one = light_in_wrong_order({lights[0], lights[1]}, 0.5 * not_adding)) {
            return found(*one, lights[0], ExchangedIn::both);
        }
    }
    for (std::size_t i = 0; i < lights.size(); ++i) {
        // Both see the same lights: what keeps these from adding would show in the other, too.
        if (!(given.at(1 - i) < given.at(i) / 2.0)) {
            continue;
        }
        if (const auto one = light_in_wrong_order({lights.at(i)}, 0.5 * not_adding)) {
            return found(*one, lights.at(i), i == 0 ? ExchangedIn::reference : ExchangedIn::meter);
        }
    }
    return {};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(ExchangedColumns columns) {
    constexpr std::array<const char*, 5> codes = {"xy", "XY", "XZ", "YZ", "XYZ"};
    return codes.at(static_cast<std::size_t>(columns));
}

SAMELIGHT_INLINE const char* code_of(ExchangedIn instruments) {
    constexpr std::array<const char*, 4> codes = {"reference", "meter", "both", "one"};
    return codes.at(static_cast<std::size_t>(instruments));
}

SAMELIGHT_INLINE const char* code_of(ExchangeShownBy shown_by) {
    constexpr std::array<const char*, 3> codes = {"additivity", "names", "correction"};
    return codes.at(static_cast<std::size_t>(shown_by));
}

SAMELIGHT_INLINE Warning exchange_warning(const ExchangeFound& found) {
    Warning warning{
        "columns_look_exchanged",
        {{"instruments", code_of(found.instruments)}, {"columns", code_of(found.columns)}}};
    if (!found.patch.empty()) {
        warning.facts.push_back(Fact{"patch", found.patch});
    }
    warning.facts.push_back(Fact{"shown_by", code_of(found.shown_by)});
    if (found.shown_by != ExchangeShownBy::names) {
        warning.facts.push_back(Fact{"given_xy", found.given_xy});
        warning.facts.push_back(Fact{"mended_xy", found.mended_xy});
    }
    return warning;
}

SAMELIGHT_INLINE std::optional<ExchangeFound> check_columns(const ReadingSet& set) {
    const auto reference = detail::named_lights(set, Instrument::reference);
    const auto meter = detail::named_lights(set, Instrument::meter);
    if (!reference || !meter) {
        return {};
    }
    const std::array<detail::NamedLights, 2> lights = {*reference, *meter};
    if (auto found = detail::all_xy_exchanged(lights)) {
        return found;
    }
    if (auto found = detail::one_in_wrong_order(lights, set.names())) {
        return found;
    }
    return detail::all_in_wrong_order(lights);
}

SAMELIGHT_INLINE std::optional<ExchangeFound> check_corrected_columns(
    const ReadingSet& set, const Correction& correction) {
    constexpr double suspicious = 0.01;
    for (const Patch& patch : set.patches()) {
        const auto& m = patch.meter;
        const auto& r = patch.reference;
        const auto meter = xyz_from_xyY(m[0], m[1], m[2]);
        const auto reference = xyz_from_xyY(r[0], r[1], r[2]);
        const auto left = [&](const std::array<double, 3>& by_meter,
                              const std::array<double, 3>& by_reference) {
            return detail::xy_apart(detail::xy_of(xyY_from_xyz(correction.corrected_xyz(by_meter))),
                                    detail::xy_of(xyY_from_xyz(by_reference)));
        };
        const double given = left(meter, reference);
        if (!(given > suspicious)) {
            continue;
        }
        double best = given / 3.0;
        const detail::ColumnOrder* mending = nullptr;
        for (const detail::ColumnOrder& o : detail::column_orders) {
            const double by_reference = left(meter, detail::in_order(reference, o));
            const double by_meter = left(detail::in_order(meter, o), reference);
            const double mended = std::min(by_reference, by_meter);
            if (mended < best) {
                best = mended;
                mending = &o;
            }
        }
        if (mending != nullptr) {
            return ExchangeFound{ExchangedIn::one,
                                 mending->which,
                                 patch.name,
                                 ExchangeShownBy::correction,
                                 given,
                                 best};
        }
    }
    return {};
}

SAMELIGHT_INLINE Warning odd_white_warning(const OddWhite& white) {
    return Warning{"white_looks_odd", {{"x", white.x}, {"y", white.y}}};
}

SAMELIGHT_INLINE std::optional<OddWhite> check_white(const ReadingSet& set) {
    constexpr double farthest = 0.08;
    const auto found = set.find(set.names().white);
    if (!found) {
        return {};
    }
    const auto& white = set.patches()[*found].reference;
    if (!(apart_from_daylight({white[0], white[1]}) > farthest)) {
        return {};
    }
    return OddWhite{white[0], white[1]};
}

}  // namespace samelight
