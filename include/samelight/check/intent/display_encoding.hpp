#pragma once
// An encoding whose primaries are a display's own.
#include <string>

#include "samelight/colour/signals/rgb.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The encoding of which red, green and blue are the panel's first three emitters, as CIE 1931 sees them, about the white of D65 (x 0.3127, y 0.3290).
/// @param title  what it is called on pages
/// No unit. Error: that of the spectra's sampling, as tristimulus() has it. Throws as RgbEncoding, for primaries on one line or a triangle without that
/// white.
/// Source: CIE 15:2018, 7.1 and 7.3; the white is ITU-R BT.709-6's, table 1, item 1.4 (from memory).
SAMELIGHT_API RgbEncoding encoding_of_panel(std::string title, const Panel& panel);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/intent/impl/display_encoding.ipp"
#endif
