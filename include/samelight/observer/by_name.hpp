#pragma once
// Observers by what people type.
#include <optional>
#include <string_view>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// AGE and FIELD of "cie2006:AGE:FIELD", years and degrees as decimal numbers ("cie2006:45:2", "cie2006:32.5:4"); nothing for a
/// text that begins otherwise. Throws Error (domain) where it begins so and the rest is not two numbers in their ranges
/// (20-80 years, 1-10 degrees).
SAMELIGHT_API std::optional<ConeConditions> cone_conditions_named(std::string_view name);

/// An observer by its name: one of named_observers(), or cie2006:AGE:FIELD for the cone fundamentals of an age and a field.
/// Throws Error (domain) that lists what there is.
SAMELIGHT_API Observer observer_named(std::string_view name);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/by_name.ipp"
#endif
