#pragma once
// The bodies of observer/by_name.hpp.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<ConeConditions> cone_conditions_named(std::string_view name) {
    constexpr std::string_view prefix = "cie2006:";
    if (!name.starts_with(prefix)) {
        return std::nullopt;
    }
    const std::string_view rest = name.substr(prefix.size());
    const std::size_t colon = rest.find(':');
    const auto age = detail::decimal_number(rest.substr(0, colon));
    const auto field = colon == std::string_view::npos
                           ? std::nullopt
                           : detail::decimal_number(rest.substr(colon + 1));
    if (!age || !field) {
        throw Error(ErrorKind::domain, "observer", "\"" + std::string(name) + "\"",
                    "cie2006:AGE:FIELD with years and degrees, like cie2006:45:2");
    }
    ConeConditions conditions;
    conditions.age_years = *age;
    conditions.field_deg = *field;
    detail::require_conditions(("observer \"" + std::string(name) + "\"").c_str(), conditions);
    return conditions;
}

SAMELIGHT_INLINE Observer observer_named(std::string_view name) {
    if (const auto conditions = cone_conditions_named(name)) {
        return cone_fundamentals(*conditions);
    }
    std::string known;
    for (const Observer* observer : named_observers()) {
        if (observer->id() == name) {
            return *observer;
        }
        known += observer->id() + ", ";
    }
    throw Error(ErrorKind::domain, "observer", "\"" + std::string(name) + "\"",
                "one of " + known + "or cie2006:AGE:FIELD (20-80 years, 1-10 degrees)");
}

}  // namespace samelight
