#pragma once
// The lights that two visits are compared by: red, green, blue, white and black, each with its repeats.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The five lights.
enum class VisitLight { red, green, blue, white, black };

/// "red", "green", "blue", "white" or "black".
inline const char* code_of(VisitLight light) {
    constexpr std::array<const char*, 5> codes = {"red", "green", "blue", "white", "black"};
    return codes.at(static_cast<std::size_t>(light));
}

/// Which light a reading is of: by its full signals, or where it has none by its name (also "red-100-100", "grey-100", "grey-0"). Absent: none of
/// them.
/// Throws nothing but std::bad_alloc.
SAMELIGHT_API std::optional<VisitLight> visit_light_of(const PatchReading& reading);

/// Where the five were read.
struct LightsPlace {
    /// As in the readings; empty where they name none.
    std::string mode = {};
    /// Share of the screen; absent where the readings say none.
    std::optional<double> window_pct = {};

    friend bool operator==(const LightsPlace&, const LightsPlace&) = default;
};

/// X, Y, Z of each reading, cd/m2, by light.
struct VisitLights {
    std::array<std::vector<std::array<double, 3>>, 5> readings{};
    LightsPlace place = {};

    /// Those of one light.
    [[nodiscard]] const std::vector<std::array<double, 3>>& of(VisitLight light) const {
        return readings[static_cast<std::size_t>(light)];
    }
    /// Mean X, Y, Z, cd/m2; of no readings 0.
    [[nodiscard]] std::array<double, 3> mean(VisitLight light) const;
};

/// The lights in one place: those whose readings are at the centre or say no position. Throws nothing but std::bad_alloc.
SAMELIGHT_API VisitLights visit_lights(const std::vector<PatchReading>& readings,
                                       const LightsPlace& place);

/// The places where all of red, green, blue and white were read, in the file's order. Throws nothing but std::bad_alloc.
SAMELIGHT_API std::vector<LightsPlace> lights_places(const std::vector<PatchReading>& readings);

/// How readings scatter: covariance of x, y and ln Y of one reading.
struct LightScatter {
    CovarianceMatrix<3> covariance{};
    /// Infinite where stated.
    double degrees_of_freedom = 0.0;
    /// Not from repeats.
    bool stated = false;
};

/// The scatter of the repeats of red, green, blue and white about their means, of both visits together: of x, y, ln Y. With fewer than 4 degrees of
/// freedom that of stated standard deviations instead, .0003 in x and y and .5 % of Y (common practice, no source). Own rule; the covariance is that
/// of JCGM 100:2008, 4.2.2 and 5.2.3.
SAMELIGHT_API LightScatter light_scatter(const VisitLights& then, const VisitLights& now);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/visit_lights.ipp"
#endif
