#include "report/words/primaries_typed.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include "report/words/numbers_typed.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::report {
namespace {

constexpr const char* primaries_option = "--primaries";
constexpr const char* primaries_wanted =
    "red=x,y,Y green=x,y,Y blue=x,y,Y white=x,y,Y in one pair of quotation marks, with or without Y";
constexpr std::array<const char*, 5> typed_lights = {"red", "green", "blue", "white", "black"};

using TypedLights = std::array<std::optional<ReadingTyped>, typed_lights.size()>;

void take_light(const std::string& entry, TypedLights& lights) {
    const std::size_t equals = std::min(entry.find('='), entry.size());
    const auto name = std::find(typed_lights.begin(), typed_lights.end(),
                                io::light_named(entry.substr(0, equals)));
    if (name == typed_lights.end() || equals == entry.size()) {
        throw Error(ErrorKind::input, primaries_option, "\"" + entry + "\"", primaries_wanted);
    }
    auto& light = lights.at(static_cast<std::size_t>(name - typed_lights.begin()));
    const bool black = name == typed_lights.end() - 1;
    const auto read = reading_typed(entry.substr(equals + 1), primaries_option,
                                    black ? ReadingOf::black : ReadingOf::light);
    if (!read || light) {
        throw Error(ErrorKind::input, primaries_option,
                    (light ? "a second \"" : "\"") + entry + "\"", primaries_wanted);
    }
    light = read;
}

/// X, Y and Z; all of 0 for a black that was too dark to be read.
Tristimulus<Cie1931_2deg> xyz_of(const ReadingTyped& light) {
    return *light.luminance > 0.0 ? tristimulus(light.xy, *light.luminance)
                                  : Tristimulus<Cie1931_2deg>(0.0, 0.0, 0.0);
}

LightReading light_without_black(const TypedLights& lights, std::size_t k) {
    const ReadingTyped& light = *lights.at(k);
    const std::optional<ReadingTyped>& black = lights[4];
    if (!black) {
        return {light.xy, light.luminance};
    }
    if (!light.luminance || !black->luminance) {
        throw Error(ErrorKind::input, primaries_option, "a black without all luminances",
                    "Y of every light, or no black");
    }
    const std::optional<LightReading> left = above_black(xyz_of(light), xyz_of(*black));
    if (!left) {
        throw Error(ErrorKind::input, primaries_option,
                    std::string(typed_lights.at(k)) + " no brighter than black",
                    "lights at full drive, and a black darker than each of them");
    }
    return *left;
}

}  // namespace

PrimaryReadings primaries_typed(const std::string& text) {
    TypedLights lights;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find_first_of(" ;", at), text.size());
        if (end > at) {
            take_light(text.substr(at, end - at), lights);
        }
        at = end + 1;
    }
    for (std::size_t k = 0; k < 4; ++k) {
        if (!lights.at(k)) {
            throw Error(ErrorKind::input, primaries_option, "no " + std::string(typed_lights.at(k)),
                        primaries_wanted);
        }
    }
    PrimaryReadings readings{{light_without_black(lights, 0), light_without_black(lights, 1),
                              light_without_black(lights, 2)},
                             light_without_black(lights, 3)};
    require_readings(readings, primaries_option);
    return readings;
}

}  // namespace samelight::report
