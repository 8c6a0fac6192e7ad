#pragma once
// How far a reading is from what was meant, in the measures of the trade.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Measured against intended, both X, Y, Z in cd/m2.
struct ColourGap {
    /// CIEDE2000, relative to the intended white.
    double de00 = 0.0;
    /// The same with the measured light brought to the intended luminance.
    double de00_without_lightness = 0.0;
    /// ITU-R BT.2124.
    double de_itp = 0.0;
    /// Measured minus intended in u', v'; absent where either has no light, or too little to be told from noise.
    std::optional<std::array<double, 2>> uv = {};
    /// Measured over intended luminance, minus 1; absent where none is intended.
    std::optional<double> luminance = {};

    /// Length of uv, 0 where absent; no unit.
    [[nodiscard]] double duv() const;
};

/// CIEDE2000 of two lights, X, Y, Z in the unit of `white`, whose X, Y and Z are above 0. Error: as delta_e_2000(). Throws nothing. Source: ISO/CIE
/// 11664-6:2014.
SAMELIGHT_API double de00_of_lights(const std::array<double, 3>& a, const std::array<double, 3>& b,
                                    const std::array<double, 3>& white);

/// All measures of one patch. X, Y, Z in cd/m2; white: the intended one, with X, Y and Z above 0.
/// Without lightness: the measured light times intended over measured Y; 0 where either isn't above 0 (own rule). Errors: as the measures' own.
/// Throws Error (domain) for lights beyond ictcp()'s range or a white that is none. Source: ISO/CIE 11664-6:2014, ITU-R BT.2124-0, CIE 15:2018.
SAMELIGHT_API ColourGap colour_gap(const std::array<double, 3>& measured,
                                   const std::array<double, 3>& intended,
                                   const std::array<double, 3>& white);

/// One measure over several patches.
struct MeasureSummary {
    double mean = 0.0, percentile_95 = 0.0, largest = 0.0;
    /// Which patch has the largest.
    std::size_t at = 0;
};

/// A group's patches together.
struct GroupSummary {
    /// "greys", "skin", "saturated" or "all"
    std::string group;
    std::size_t count = 0;
    MeasureSummary de00, de00_without_lightness, de_itp;
    /// Of the patches that have u', v'.
    MeasureSummary duv;
};

/// Greys, skin, saturated and all; groups without patches are left out. One gap and one group a patch; no unit. The percentile is that of
/// sample_quantile(). Throws Error (shape) for different lengths. Own choice of groups.
SAMELIGHT_API std::vector<GroupSummary> summaries(std::span<const ColourGap> gaps,
                                                  std::span<const SignalGroup> groups);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/patch_difference.ipp"
#endif
