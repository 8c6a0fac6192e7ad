#pragma once
// The generic emission models that there are, and finding one by name. Sources: beside each model's parameters.
#include <span>
#include <string_view>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Every generic model, oldest technology first. Valid for the whole run of the program. Throws
/// nothing.
SAMELIGHT_API std::span<const GenericModel> generic_models();

/// The generic model of this name ("oled-rgb"; lower case, as listed by generic_models()). Valid
/// for the whole run of the program. Throws Error (domain) listing the names there are.
SAMELIGHT_API const GenericModel& generic_model(std::string_view name);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_model.ipp"
#endif
