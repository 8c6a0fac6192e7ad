#pragma once
// By what a display is judged, in few words.
#include <string>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// "BT.1886", "power 2.4", "sRGB", "PQ", "PQ from 4000 cd/m2" (rolled off) or "HLG".
std::string curve_short(const CurveOptions& curve);

/// Of a published encoding, by its title, as people call it ("BT.709"); of a display's own primaries "primaries of FILE".
std::string encoding_short(const std::string& title);

/// The curve, the primaries and the white, as the last of a first screen's figures.
KeyFigure judged_by(const IntendedDisplay& intended);

}  // namespace samelight::report
