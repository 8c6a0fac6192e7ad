#pragma once
// What is expected to be seen of a white left as it is and of one dialled in, where the right white is known only with some uncertainty.
#include <array>
#include <cmath>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is known of where the right white lies, CIE 1931 x, y.
struct RightWhite {
    /// For a typical eye: the targets of the observers that might be taken, first the one in use; the right white lies anywhere between
    /// it and the furthest of them, as likely here as there. For named viewers: each one's own target.
    std::vector<NamedTarget> pulls;
    /// Whether these are viewers; whoever is worst off then counts.
    bool named = false;
    /// How sure each viewer's target is beside what they share, in their order: xx, xy, yx, yy; empty: quite.
    std::vector<CovarianceMatrix<2>> own = {};
    /// How sure all of them are: the spectra, the instrument. What the choice of an observer adds isn't part of it.
    CovarianceMatrix<2> shared = {};
};

namespace detail {

using Place = std::array<double, 2>;

inline double apart(const Place& a, const Place& b) { return std::hypot(a[0] - b[0], a[1] - b[1]); }
double furthest(const Place& from, const std::vector<Place>& places);

/// Radius of the smallest circle that holds all places, to a hundredth: steps towards the furthest, each shorter than the last (Badoiu &
/// Clarkson 2003, from memory).
double circle_radius(const std::vector<Place>& places);

/// A normal quantity of two dimensions made of two of one.
Place correlated(const CovarianceMatrix<2>& covariance, double a, double b);

}  // namespace detail

/// What is expected of the white `as_it_is` and of `target`, by 4,096 draws that are the same at every call.
/// Standard error: a sixtieth of the spread of what is drawn, a few 1e-5 for everyday uncertainties; a difference of two calls is far surer.
/// `known` names one target at least. Throws nothing of its own. Source: JCGM 101:2008, clause 7.
SAMELIGHT_API ExpectedSight expect_sight(const Chromaticity<Cie1931_2deg>& as_it_is,
                                         const Chromaticity<Cie1931_2deg>& target,
                                         const RightWhite& known);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/expectation.ipp"
#endif
