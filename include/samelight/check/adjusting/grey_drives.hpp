#pragma once
// The greys of a display as three channels: what its controls move.
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One level of grey as it was read: the mean of its repeats.
struct GreyLevel {
    /// 0 to 1 of the signal.
    double level;
    /// X, Y, Z of CIE 1931, cd/m2
    std::array<double, 3> xyz;
    /// How many readings.
    int readings;
};

/// Readings of greys, mean by level, ascending. Greys are equal signals, or patches whose names signal_named() takes for greys; all else is left out.
/// X, Y, Z in cd/m2; levels 0 to 1.09. Throws as require_readings(). Source: own rule for the names.
SAMELIGHT_API std::vector<GreyLevel> grey_levels(std::span<const PatchReading> readings);

/// How much readings of one grey scatter, one standard deviation.
struct GreyNoise {
    /// Of a channel's light by itself, relative: what moves x and y. Own choice: 0.3 %, about 0.0003 in x and 0.0004 in y.
    double relative = 0.003;
    /// Of all channels together, relative: what moves Y alone. Own choice.
    double luminance = 0.003;
    /// Of a channel's light however dark it is, cd/m2. Own choice.
    double floor_cd_m2 = 0.0005;
    /// Of repeats, behind `relative` and `luminance`; 0: they are the defaults.
    int repeats = 0;

    /// Of the mean of n readings of a channel's light by itself, in its unit.
    [[nodiscard]] double of(double light_cd_m2, int readings) const;
};

/// Three channels, each with a drive: the 1/2.2th power of its light, 1 at the measured white.
///
/// Controls act on signals ahead of the display's curve. In drives a gain is nearly the same share at every level and an offset nearly the same
/// amount, whatever the curve is; how nearly is in ControlReply's doubt. The channels are those of the intended primaries, scaled to the
/// measured white: coordinates near greys, no claim about the display's own primaries.
/// Range: lights within the triangle of the primaries. Error: rounding. Source: own rule.
class SAMELIGHT_API GreyDrives {
  public:
    /// @param white  X, Y, Z as read, cd/m2
    /// @param black  the same of signal 0: taken off
    /// Throws Error (domain) for a white outside the primaries' triangle, no brighter than the black or none of a
    /// display (least_white_cd_m2, most_white_cd_m2), and for what is no number.
    GreyDrives(const IntendedDisplay& intended, const std::array<double, 3>& white,
               const std::array<double, 3>& black);

    /// Drives of a light; absent where a channel has none left above the black.
    [[nodiscard]] std::optional<std::array<double, 3>> drives(
        const std::array<double, 3>& xyz) const;
    /// X, Y, Z in cd/m2 of drives; those below 0 are 0.
    [[nodiscard]] std::array<double, 3> xyz(const std::array<double, 3>& drives) const;
    /// Standard deviations of the drives of a light by the noise of its readings, each channel's own.
    [[nodiscard]] std::array<double, 3> noise(const std::array<double, 3>& drives,
                                              const GreyNoise& noise, int readings) const;
    /// d(x, y) / d(drives): two rows of three.
    [[nodiscard]] std::array<std::array<double, 3>, 2> xy_by_drives(
        const std::array<double, 3>& drives) const;
    /// Luminance of each channel at white, cd/m2; their sum is white's less black's.
    [[nodiscard]] std::array<double, 3> luminances() const;

    /// The power between light and drive.
    static constexpr double exponent = 2.2;

  private:
    Matrix3 xyz_from_light_{}, light_from_xyz_{};
    std::array<double, 3> black_;
};

/// The scatter of repeats, pooled over levels of at least 5 cd/m2, and never below 0.03 %; the default with fewer than three repeats beyond
/// the first. Throws as require_readings(). Source: JCGM 100:2008, 4.2 (pooled variances, from memory).
SAMELIGHT_API GreyNoise grey_noise(std::span<const PatchReading> readings,
                                   const GreyDrives& drives);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/adjusting/impl/grey_drives.ipp"
#endif
