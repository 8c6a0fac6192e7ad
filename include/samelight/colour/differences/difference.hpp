#pragma once
// Colour differences made from CIELAB: Delta E*ab, CMC(l:c), CIE94, CIEDE2000.
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// CMC(l:c): what a step in lightness and in chroma weighs against one in hue. 2:1 for acceptability, 1:1 for perceptibility.
struct CmcWeights {
    double l = 2.0;
    double c = 1.0;
};

/// CIE94: the weights kL, kC, kH and the constants K1, K2. Source: CIE 116-1995.
struct Cie94Weights {
    double kL = 1.0;
    double kC = 1.0;
    double kH = 1.0;
    double K1 = 0.045;
    double K2 = 0.015;

    /// The constants for graphic arts (the default) and for textiles, without unit.
    static constexpr Cie94Weights graphic_arts() { return {}; }
    static constexpr Cie94Weights textiles() { return {2.0, 1.0, 1.0, 0.048, 0.014}; }
};

/// CIEDE2000: the parametric factors kL, kC, kH, all 1 in the reference conditions. Source: ISO/CIE 11664-6.
struct Ciede2000Weights {
    double kL = 1.0;
    double kC = 1.0;
    double kH = 1.0;
};

namespace detail {

SAMELIGHT_API void require_weights(const char* where, const CmcWeights& w);
SAMELIGHT_API void require_weights(const char* where, const Cie94Weights& w);
SAMELIGHT_API void require_weights(const char* where, const Ciede2000Weights& w);

template <class O>
LabOf<double> bare(const Lab<O>& lab) {
    return {lab.L(), lab.a(), lab.b()};
}

}  // namespace detail

/// Delta E*ab of 1976: the distance in CIELAB. Symmetric; no unit. Any two colours relative to one white.
/// Error: 1e-15 relative to the larger of the colours' coordinates.
/// Throws Error (observer) for two observers, Error (domain) for two whites. Source: CIE 15:2018, 8.2.1.
template <class O>
double delta_e_ab(const Lab<O>& p, const Lab<O>& q) {
    return (p - q).distance();
}

/// CMC(l:c) of a sample beside a standard: not symmetric; no unit.
///
/// Range: |L*|, |a*|, |b*| up to 1e6, L* of the standard 0 or more (below 16 its weight no longer depends on it, so that small
/// negative L* do no harm). Error: 1e-12 where the difference is below 200.
/// Throws Error (observer) for two observers, Error (domain) for two whites or weights that are not above 0.
/// Source: BS 6923:1988 and ISO 105-J03:2009.
template <class O>
double delta_e_cmc(const Lab<O>& standard, const Lab<O>& sample, const CmcWeights& weights = {}) {
    require_same_white("delta_e_cmc", standard, sample);
    detail::require_weights("delta_e_cmc", weights);
    return detail::cmc(detail::bare(standard), detail::bare(sample), weights.l, weights.c);
}

/// CIE94 of a sample beside a standard: not symmetric, the weights follow the standard's chroma; no unit.
///
/// Range: |L*|, |a*|, |b*| up to 1e6. Error: 1e-12 where the difference is below 200.
/// Throws Error (observer) for two observers, Error (domain) for two whites or weights outside their range.
/// Source: CIE 116-1995; CIE 15:2018, 8.3 keeps it for existing uses only.
template <class O>
double delta_e_94(const Lab<O>& standard, const Lab<O>& sample,
                  const Cie94Weights& weights = Cie94Weights::graphic_arts()) {
    require_same_white("delta_e_94", standard, sample);
    detail::require_weights("delta_e_94", weights);
    return detail::cie94(
        detail::bare(standard), detail::bare(sample),
        detail::Cie94Constants<double>(weights.kL, weights.kC, weights.kH, weights.K1, weights.K2));
}

/// CIEDE2000. Symmetric; no unit; made for differences up to 5.
///
/// Range: |L*|, |a*|, |b*| up to 1e6. Error: 1e-12 where the difference is below 200; but the formula itself jumps where the two
/// hues are 180 degrees apart, by up to the whole of its hue terms, and a pair that lies on the jump up to rounding counts as
/// exactly 180 degrees apart (tolerance 1e-9 degrees), which is what the published values take it for.
/// Throws Error (observer) for two observers, Error (domain) for two whites or weights that are not above 0.
/// Source: ISO/CIE 11664-6:2014; Sharma, Wu & Dalal 2005, Color Res. Appl. 30:21, eqs. 2-22.
template <class O>
double delta_e_2000(const Lab<O>& p, const Lab<O>& q, const Ciede2000Weights& weights = {}) {
    require_same_white("delta_e_2000", p, q);
    detail::require_weights("delta_e_2000", weights);
    return detail::ciede2000(detail::bare(p), detail::bare(q), weights.kL, weights.kC, weights.kH);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/differences/impl/difference.ipp"
#endif
