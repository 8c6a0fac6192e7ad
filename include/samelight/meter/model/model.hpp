#pragma once
// A correction straight from spectra: the meter's rows and the panel's emitters give the matrix, to any observer.
#include <array>
#include <optional>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What the matrix is exact for, where a panel has a fourth, white emitter. Without one, all three are the same matrix, exact for everything.
enum class SpectraMethod {
    /// Red, green and blue; all that is left is in white.
    primaries_exact,
    /// Nothing; the squares of what is left in X, Y, Z are least over red, green, blue and white, each at X + Y + Z = 1.
    least_squares,
    /// White; red, green and blue as near as that leaves them, in the same sense.
    white_exact
};

/// "red, green and blue exact", "least squares", "white exact".
SAMELIGHT_API const char* code_of(SpectraMethod method);

/// How a correction is made from spectra.
struct SpectraOptions {
    /// Absent: white exact where there is a white emitter, as white and greys are what such a panel shows with it.
    std::optional<SpectraMethod> method = {};
    Provenance provenance = {};
};

namespace detail {

inline std::array<double, 3> as_array(const Eigen::Vector3d& v) { return {v[0], v[1], v[2]}; }

}  // namespace detail

/// The correction of a meter on a panel, from the rows of the one and the spectra of the other: M = (T P)(S P)^-1, with T the
/// observer's rows, S the meter's and P the panel's emitters. To any observer: a meter corrected to CIE 2015 reads CIE 2015
/// tristimulus values of this panel (L, M, S for an observer that is a set of cones).
///
/// Every light that the panel's red, green and blue mix is read exactly (error below 1e-12 relative for condition numbers up to 100).
/// Where the panel has a white emitter, `options.method` says what is kept exact, and a warning (four_emitters) what is left. The light
/// of black, which no drive moves, is not part of P.
/// @param meter  3 x n on the panel's sampling: what the meter says is S times the light, in the unit of the observer's rows
/// The result's covariance is absent: it is as good as the spectra. Throws Error (shape) for two samplings, Error (domain) for a meter that
/// does not answer to an emitter, Error (singular) where the meter can't tell the primaries apart (condition number of its answers, each
/// made length 1, of 100 or more).
/// Source: the definition of tristimulus values, CIE 15:2018, eq. 7.1; ASTM E1455 for matrices of this kind (from memory).
SAMELIGHT_API Correction correction_from_spectra(const Sensitivities& meter, const Panel& panel,
                                                 const Observer& observer,
                                                 const SpectraOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/model/impl/model.ipp"
#endif
