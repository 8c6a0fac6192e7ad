#pragma once
// Odd readings: flagged by a rule that they themselves can't bend, and never dropped. Own rules.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A reading, or a patch, further from its like than the usual scatter allows.
struct SAMELIGHT_API OddReading {
    std::string patch;
    /// 0 for a whole patch
    int round = 0;
    Instrument instrument = Instrument::reference;
    /// "x", "y", "Y" or, for a whole patch, "x, y"
    std::string quantity;
    /// From the patch's median; of Y relative; for a patch what correction leaves.
    double deviation = 0.0;
    /// Deviation over the usual scatter.
    double times_usual = 0.0;
    /// Which of how many of its patch and round, in their order; 1 of 1 for a patch.
    int reading = 1, readings_in_round = 1;

    /// "white", or "white (first)", "white (last)", "white (2nd)" of a round that read it more often.
    [[nodiscard]] std::string named() const;
};

/// Readings this many times the usual scatter away are odd. Of calibrations of 4 patches without any fault, 3 in 100 have a reading flagged with 3 repeats, under
/// 1 in 100 with 5 or more; a reading 20 standard deviations off is missed 5 times in 1,000 at most.
inline constexpr double odd_reading_limit = 7.0;

namespace detail {

/// Least scatter that is taken for real: what instruments resolve, .0001 in x, y and 0.1 % in Y (common practice, no source). Repeats that
/// agree to the last digit would else make any other digit odd; where the digits are coarser, finest_scatter_of() is larger.
inline constexpr std::array<double, 3> finest_scatter = {0.0001, 0.0001, 0.001};

/// x, y and relative Y of one instrument's readings of a patch.
std::vector<double> values_of(const Patch& patch, Instrument instrument, std::size_t k);

/// Standard deviation from the median distance of two repeats, over all patches: the middle of |a - b| is 0.9539 standard deviations for normal
/// readings, whatever the number of repeats. Source: Rousseeuw & Croux 1993, Alternatives to the median absolute deviation,
/// doi:10.1080/01621459.1993.10476408 (the idea of pairwise differences; from memory).
double usual_scatter(const std::vector<Patch>& patches, Instrument instrument, std::size_t k,
                     std::size_t fewest);

/// Half a step of the digits, if that is more than finest_scatter: readings that scatter by half a step agree to the last digit as often
/// as not, so no smaller scatter can be seen in them.
double finest_scatter_of(const ReadingSet& set, const Patch& patch, Instrument instrument,
                         std::size_t k);

}  // namespace detail

/// Readings whose x, y or Y lies more than odd_reading_limit times the usual scatter from their patch's median. The scatter of a quantity is taken as
/// alike on all patches, and never as less than the digits can show. Needs six pairs of repeats over all (four patches read twice are too few: nothing is flagged then).
/// Every reading stays in the fit; who reads again decides.
SAMELIGHT_API std::vector<OddReading> odd_readings(const ReadingSet& set);

/// Patches on which a correction leaves far more than on the others of their kind (fitted, or not fitted): over odd_reading_limit times the usual distance
/// both in x, y and in X, Y, Z. One of them alone is no oddity: dark saturated colours are always further off in x, y, bright ones in X, Y, Z. Needs six
/// patches of a kind. `set` is what the correction was made from.
SAMELIGHT_API std::vector<OddReading> odd_patches(const ReadingSet& set,
                                                  const Correction& correction);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/outliers.ipp"
#endif
