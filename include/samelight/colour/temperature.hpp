#pragma once
// Correlated colour temperature and the distance from the locus of Planck's radiators, exactly.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Correlated colour temperature and signed distance from the locus.
struct ColourTemperature {
    /// Temperature of the nearest radiator in the 1960 u, v diagram, K.
    double cct_k;
    /// Distance from it in that diagram; positive above the locus (towards green).
    double duv;
};

namespace detail {

/// A point of the locus in u, v, with its derivative by reciprocal temperature (per mired).
struct LocusPoint {
    double u, v, du, dv;
};

/// The locus by reciprocal temperature in mired (1e6 / T), which is nearly even along it. Sums over the observer's own table.
class SAMELIGHT_API PlanckianLocus {
  public:
    explicit PlanckianLocus(const Observer& observer);

    /// @param mired  0 or more
    [[nodiscard]] LocusPoint at(double mired) const;
    /// The nearest point to (u, v); see colour_temperature().
    [[nodiscard]] std::optional<ColourTemperature> nearest(double u, double v) const;

  private:
    [[nodiscard]] std::size_t nearest_of_coarse(double u, double v) const;

    Observer observer_;
    /// By wavelength: c2 / lambda in units of 1e-6 K, and (560 nm / lambda)^5.
    std::vector<double> exponents_, fall_;
    /// To start from: u, v of coarse_mired(0), (1), ... to 1e-12.
    std::vector<std::array<double, 2>> coarse_;
};

/// One for all that ask.
template <StandardObserver O>
const PlanckianLocus& planckian_locus() {
    static const PlanckianLocus locus(standard_observer<O>());
    return locus;
}

}  // namespace detail

/// Correlated colour temperature and Duv of `c`: the exact nearest point of the locus in u, v (1960), found as the root of the
/// scalar product of distance and tangent. No value where the nearest radiator lies outside 500-1,000,000 K.
///
/// The locus is the plain sum over the observer's own table (CIE 1931: 360-830 nm by 1 nm) with c2 = 1.4388e-2 m K. Temperature
/// to 1e-9 relative up to 25,000 K, Duv to 1e-12, with respect to that definition. The CIE calls the term meaningful only where
/// |Duv| is below about 0.05; values beyond are the same geometry and the caller's to judge.
/// Source: CIE 15:2018, 9.5.
template <StandardObserver O>
std::optional<ColourTemperature> colour_temperature(const Chromaticity<O>& c) {
    const Uv1960<O> uv = uv1960(c);
    return detail::planckian_locus<O>().nearest(uv.u(), uv.v());
}

/// Chromaticity of the point at `duv` from the radiator of temperature `cct_k`: the inverse of colour_temperature, to 1e-9 of the
/// temperature up to 25,000 K (1e-8 above) and 1e-12 in Duv. Range: 500 to 1,000,000 K; |duv| below 0.1. For JuddVos1978 it is the
/// inverse down to a Duv of -0.09 only: further below its locus another radiator can be nearer.
/// Throws Error (domain) outside the range. Source: as colour_temperature().
template <StandardObserver O>
Chromaticity<O> chromaticity(const ColourTemperature& t) {
    if (!(t.cct_k >= 500.0 && t.cct_k <= 1e6) || !(std::abs(t.duv) < 0.1)) {
        throw Error(ErrorKind::domain, "chromaticity",
                    to_text(t.cct_k) + " K, Duv " + to_text(t.duv),
                    "500 to 1000000 K and a Duv within 0.1");
    }
    const detail::LocusPoint at = detail::planckian_locus<O>().at(1e6 / t.cct_k);
    const double length = std::hypot(at.du, at.dv);
    return chromaticity(Uv1960<O>(at.u - t.duv * at.dv / length, at.v + t.duv * at.du / length));
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/impl/temperature.ipp"
#endif
