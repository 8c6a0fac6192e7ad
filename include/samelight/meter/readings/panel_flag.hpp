#pragma once
// Whether spectra are those of the display that was read. Own rule.
#include <optional>
#include <string>

#include "samelight/display/panel.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The code of the warning below.
inline constexpr const char* other_panel_code = "panel_spectra_differ";

/// What is wrong where a panel's spectra aren't of the display that was read: one of red, green, blue and white that both have lies too far
/// from what the reference read, in x, y of the readings' observer. @param name  of the spectra, for the warning
/// Throws Error (domain) for an unknown observer.
SAMELIGHT_API std::optional<Warning> panel_flag(const std::string& name, const Panel& panel,
                                                const ReadingSet& readings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/panel_flag.ipp"
#endif
