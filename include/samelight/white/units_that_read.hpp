#pragma once
// Where the targets of the units of a type lie that read as was read: what readings in numbers leave open.
#include <array>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How units that read so are drawn.
struct UnitsDrawn {
    /// 128 or more. With so many the share within a range is right to 1 in 100 on average over displays.
    std::size_t count = 512;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// Units of a type that read about as was read of one: every parameter spread evenly, independently, over the part of its plausible range that
/// the readings don't rule out (eight standard deviations about the bent unit, 2 in 100 of the range at least), with the light of each.
class SAMELIGHT_API UnitsThatRead {
  public:
    /// @param unit  the type's bent unit (bend_to())
    /// Takes a tenth of a second. Throws Error (shape) for fewer than 128 units, and as require_readings().
    UnitsThatRead(const BentUnit& unit, const PrimaryReadings& readings,
                  const Sampling& sampling = {}, const UnitsDrawn& drawn = {});

    /// The type.
    [[nodiscard]] const GenericModel& model() const noexcept { return *unit_.model; }
    /// The type's unit nearest to the readings.
    [[nodiscard]] const BentUnit& unit() const noexcept { return unit_; }
    /// What was read of the display.
    [[nodiscard]] const PrimaryReadings& readings() const noexcept { return readings_; }
    /// Of the lights.
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }
    /// How many units were drawn.
    [[nodiscard]] std::size_t size() const noexcept { return lights_.size(); }
    /// Red, green, blue and, where the type has one, the white emitter, each on a scale of its own: n x 3 or 4.
    [[nodiscard]] const Eigen::MatrixXd& lights(std::size_t unit) const { return lights_.at(unit); }
    /// How many of them can't make the white that was read.
    [[nodiscard]] std::size_t without_white() const noexcept { return without_white_; }
    /// What each drawn unit reads, x, y of red, of green, of blue: units x 6.
    [[nodiscard]] const Eigen::MatrixXd& drawn_readings() const noexcept { return drawn_; }

  private:
    BentUnit unit_;
    PrimaryReadings readings_;
    Sampling sampling_;
    std::vector<Eigen::MatrixXd> lights_;
    Eigen::MatrixXd drawn_;
    std::size_t without_white_ = 0;
};

/// A target is asked for: of which light, for whom, from what.
struct TargetAsked {
    const Reference& reference;
    const Observer& observer;
    TargetOptions options = {};
};

/// The targets of the units that read so, about a target as said.
struct TargetsThatRead {
    /// Expanded uncertainty of x and of y, coverage 95 %.
    UnitVariation within;
    UnitDisplacement displacement;
};

/// Where the targets of the units lie that read as was read, about the target `said`.
///
/// The drawn units' readings get the instrument's noise; their targets are regressed on these to the second degree, near units counting more;
/// what the readings can't explain is left over and is the spread. Of readings that no unit of the type gives the noise is to be raised first
/// (believable()).
/// Range: readings as require_readings(). Error: over units drawn from all types the stated ranges hold the unit's own target in 93 to 97
/// of 100 (tested). Takes some milliseconds. Throws Error (domain) where fewer than half of the units have a target.
/// Source: own; the regression is that of Beaumont, Zhang & Balding 2002, Genetics 162:2025 (conditioning drawn values by local regression).
SAMELIGHT_API TargetsThatRead targets_that_read(const UnitsThatRead& given,
                                                const TargetAsked& asked,
                                                const Chromaticity<Cie1931_2deg>& said);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/units_that_read.ipp"
#endif
