#pragma once
// A display in numbers as it is typed.
#include <string>

#include "samelight/display/types/primary_readings.hpp"

namespace samelight::report {

/// Readings from "red=x,y,Y green=x,y,Y blue=x,y,Y white=x,y,Y", with or without the Y, perhaps with a black=x,y,Y, which is taken off;
/// spaces or semicolons between; the lights by their words or letters in any language of io::light_named(). Throws Error (input), the option first, for anything else, and as require_readings().
PrimaryReadings primaries_typed(const std::string& text);

}  // namespace samelight::report
