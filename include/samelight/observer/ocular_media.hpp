#pragma once
// What light passes on its way to the cones, and what the cones' pigments absorb: the curves of CIE 170-1 by 1 nm.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/tables/cie2006_absorbance.hpp"
#include "samelight/tables/cie2006_lens.hpp"
#include "samelight/tables/cie2006_lens_total.hpp"
#include "samelight/tables/cie2006_macula.hpp"

namespace samelight {

/// The wavelengths of CIE 170-1's curves: 390 to 830 nm by 1 nm.
inline constexpr int cone_first_nm = static_cast<int>(tables::cie2006_lens_total::first_nm);
inline constexpr int cone_count = tables::cie2006_lens_total::count;
/// The report tabulates no S cone beyond this wavelength, nm; its sensitivity is taken as 0 there.
inline constexpr int s_cone_last_nm = 615;

/// One curve, a value for each nm from 390 to 830.
using ConeCurve = std::array<double, static_cast<std::size_t>(cone_count)>;

/// Decadic densities of what lies before the cones.
///
/// The density of lens and other media at A years is factor(A) ageing + fixed; at 32 years the factor is 1 and the sum is the
/// published total, to the bit. `macula` is relative: 1 at 460 nm (its largest value, at 458 nm, is 1.006).
///
/// The report gives the two parts of the lens from 400 nm by 5 nm and the total by 1 nm. Here the total is the anchor. From 460
/// nm up all of it ages, as in the report. Below that the ageing part is a natural cubic spline through the report's values, held
/// at its value for 400 nm down to 390 nm, never more than the total; the rest is fixed. At 390 nm the report's own program has
/// 0.608 for the ageing part, this 0.662: at 20 years S is 2.3e-4 of its peak off there, L and M 2e-5.
/// Sources: CIE 170-1:2006, Tables 6.4 and 6.10; Pokorny, Smith & Lutze 1987, doi:10.1364/AO.26.001437.
struct OcularMedia {
    ConeCurve ageing{};
    ConeCurve fixed{};
    ConeCurve macula{};
};

namespace detail {

/// A natural cubic spline through (nodes, values), n >= 3 ascending nodes: the second derivatives, 0 at both ends.
template <std::size_t N>
std::array<double, N> spline_curvatures(const std::array<double, N>& nodes,
                                        const std::array<double, N>& values) {
    std::array<double, N> curvature{};
    std::array<double, N> upper{};
    for (std::size_t i = 1; i + 1 < N; ++i) {
        const double left = nodes[i] - nodes[i - 1];
        const double right = nodes[i + 1] - nodes[i];
        const double bend =
            6.0 * ((values[i + 1] - values[i]) / right - (values[i] - values[i - 1]) / left);
        const double pivot = 2.0 * (left + right) - left * upper[i - 1];
        upper[i] = right / pivot;
        curvature[i] = (bend - left * curvature[i - 1]) / pivot;
    }
    for (std::size_t i = N - 1; i-- > 1;) {
        curvature[i] -= upper[i] * curvature[i + 1];
    }
    return curvature;
}

/// The spline's value at x between the first and the last node.
template <std::size_t N>
double spline_value(const std::array<double, N>& nodes, const std::array<double, N>& values,
                    const std::array<double, N>& curvature, double x) {
    const auto above = std::upper_bound(nodes.begin() + 1, nodes.end() - 1, x);
    const auto i = static_cast<std::size_t>(above - nodes.begin());
    const double h = nodes[i] - nodes[i - 1];
    const double b = (x - nodes[i - 1]) / h;
    const double a = 1.0 - b;
    return a * values[i - 1] + b * values[i] +
           h * h / 6.0 * ((a * a * a - a) * curvature[i - 1] + (b * b * b - b) * curvature[i]);
}

/// The ageing part below 460 nm, see OcularMedia.
inline ConeCurve ageing_below_460() {
    namespace parts = tables::cie2006_lens;
    constexpr std::size_t held = 2;  // 390 and 395 nm
    std::array<double, parts::ageing.size() + held> nodes{};
    std::array<double, parts::ageing.size() + held> values{};
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        nodes[i] = parts::first_nm + parts::step_nm * (static_cast<double>(i) - held);
        values[i] = parts::ageing[i < held ? 0 : i - held];
    }
    const auto curvature = spline_curvatures(nodes, values);
    ConeCurve result{};
    for (std::size_t i = 0; cone_first_nm + static_cast<int>(i) < 460; ++i) {
        const double nm = cone_first_nm + static_cast<double>(i);
        result[i] =
            nm < parts::first_nm ? parts::ageing[0] : spline_value(nodes, values, curvature, nm);
    }
    return result;
}

inline OcularMedia load_ocular_media() {
    namespace lens = tables::cie2006_lens_total;
    namespace macula = tables::cie2006_macula;
    static_assert(lens::step_nm == 1.0 && macula::step_nm == 1.0);
    static_assert(macula::first_nm == lens::first_nm && macula::count == lens::count);
    constexpr std::size_t at_460 = 460 - cone_first_nm;
    OcularMedia media;
    media.ageing = ageing_below_460();
    for (std::size_t i = 0; i < media.ageing.size(); ++i) {
        const double total = lens::density[i];
        media.ageing[i] = i < at_460 ? std::min(media.ageing[i], total) : total;
        media.fixed[i] = total - media.ageing[i];
        media.macula[i] = macula::density[i] / macula::density[at_460];
    }
    return media;
}

}  // namespace detail

/// The curves before the cones. Made once, on first use; thread-safe.
inline const OcularMedia& ocular_media() {
    static const OcularMedia media = detail::load_ocular_media();
    return media;
}

/// log10 of the absorbance of a cone's pigment relative to its peak, by 1 nm from 390 nm; cone 0, 1, 2 is L, M, S. Beyond
/// s_cone_last_nm the S curve holds an extrapolation that is no data of the CIE and must not be used.
/// Source: CIE 170-1:2006, Table 6.6.
inline const ConeCurve& log_absorbance(std::size_t cone) {
    namespace t = tables::cie2006_absorbance;
    static_assert(t::first_nm == cone_first_nm && t::step_nm == 1.0 && t::count == cone_count);
    return cone == 0 ? t::l : cone == 1 ? t::m : t::s;
}

/// How much the ageing part of the lens grows from 32 years to `age_years`.
/// Range: 20 to 80 years (not checked here). Source: CIE 170-1:2006, eqs. for 20 to 60 years and above.
inline double lens_ageing_factor(double age_years) {
    return age_years <= 60.0 ? 1.0 + 0.02 * (age_years - 32.0) : 1.56 + 0.0667 * (age_years - 60.0);
}

}  // namespace samelight
