#pragma once
// Whether two targets pull opposite ways: the one rule for the verdict and for the warning.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A target and whose it is.
struct NamedTarget {
    /// As it stands in a sentence: "viewer A", "CIE 2015, 10 degrees".
    std::string name;
    Chromaticity<Cie1931_2deg> xy;
};

/// Two of a list, by their places in it.
struct TargetPair {
    std::size_t first;
    std::size_t second;
};

/// The two targets that pull a white at `start` opposite ways and lie furthest apart in u'v'; none where no two do.
///
/// Two pull opposite ways where each lies further from `start` than can be seen side by side (uv_step_radius) and than the instrument can tell, twice
/// `noise_xy` (standard deviation of a reading's x and y), and their directions from there, in u'v' of CIE 1931, include more than a right angle. Every two
/// targets are compared. Throws nothing. Own rule.
SAMELIGHT_API std::optional<TargetPair> opposed_pair(const Chromaticity<Cie1931_2deg>& start,
                                                     const std::vector<NamedTarget>& targets,
                                                     double noise_xy);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/opposed.ipp"
#endif
