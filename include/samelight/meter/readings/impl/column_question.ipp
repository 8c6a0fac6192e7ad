#pragma once
// The bodies of meter/readings/column_question.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/column_question.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::optional<std::array<double, 3>> mean_of(
    std::span<const InstrumentReading> readings, Instrument instrument, const std::string& name) {
    std::array<double, 3> sum{};
    double count = 0.0;
    for (const InstrumentReading& r : readings) {
        if (r.instrument == instrument && is_called(r.patch, name)) {
            for (std::size_t k = 0; k < 3; ++k) {
                sum.at(k) += r.xyz.at(k);
            }
            count += 1.0;
        }
    }
    if (!(count > 0.0)) {
        return {};
    }
    return std::array<double, 3>{sum[0] / count, sum[1] / count, sum[2] / count};
}

/// The order of all of an instrument's columns that fits the names of red, green and blue best; nothing where they fit as they are.
inline const ColumnOrder* order_by_names(std::span<const InstrumentReading> readings,
                                         Instrument instrument, const PatchNames& names) {
    constexpr double least_gain = 0.2;
    NamedLights lights{};
    std::size_t k = 0;
    for (const std::string* name : {&names.red, &names.green, &names.blue}) {
        const auto mean = mean_of(readings, instrument, *name);
        if (!mean || !((*mean)[0] + (*mean)[1] + (*mean)[2] > 0.0)) {
            return nullptr;
        }
        lights.at(k++) = *mean;
    }
    const auto best =
        std::max_element(column_orders.begin(), column_orders.end(),
                         [&](const ColumnOrder& a, const ColumnOrder& b) {
                             return gain_by_names(lights, a) < gain_by_names(lights, b);
                         });
    return gain_by_names(lights, *best) > least_gain ? &*best : nullptr;
}

/// The order of one patch's columns that is a light with the most of what its name says.
inline const ColumnOrder* order_of_patch(const std::array<double, 3>& xyz, std::size_t own) {
    const ColumnOrder* best = nullptr;
    for (const ColumnOrder& o : column_orders) {
        const auto then = in_order(xyz, o);
        if (then[1] >= least_luminance &&
            (best == nullptr || then.at(own) > in_order(xyz, *best).at(own))) {
            best = &o;
        }
    }
    return best;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string ask_for_columns(std::span<const InstrumentReading> readings,
                                             const InstrumentReading& none,
                                             const PatchNames& names) {
    const auto ask = [](const detail::ColumnOrder& o, const std::string& of,
                        const std::string& where) {
        return "are " + std::string(o.columns) + of + " " + o.mistake + where + "?";
    };
    const auto* reference = detail::order_by_names(readings, Instrument::reference, names);
    const auto* meter = detail::order_by_names(readings, Instrument::meter, names);
    const auto* own = none.instrument == Instrument::meter ? meter : reference;
    if (own != nullptr && detail::in_order(none.xyz, *own)[1] >= least_luminance) {
        return ask(*own, "",
                   reference == meter ? " in both instruments"
                                      : " in the " + std::string(code_of(none.instrument)));
    }
    const Instrument other_one =
        none.instrument == Instrument::meter ? Instrument::reference : Instrument::meter;
    const std::array<const std::string*, 3> called = {&names.red, &names.green, &names.blue};
    for (std::size_t k = 0; k < called.size(); ++k) {
        if (!is_called(none.patch, *called.at(k))) {
            continue;
        }
        if (const auto* order = detail::order_of_patch(none.xyz, k)) {
            const auto other = detail::mean_of(readings, other_one, *called.at(k));
            const bool both = other && !((*other)[1] >= least_luminance);
            return ask(
                *order, " of " + none.patch,
                both ? " in both instruments" : " in the " + std::string(code_of(none.instrument)));
        }
    }
    return "";
}

}  // namespace samelight
