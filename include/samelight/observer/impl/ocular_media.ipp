#pragma once
// The bodies of observer/ocular_media.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/observer/ocular_media.hpp"
#include "samelight/tables/cie2006_absorbance.hpp"
#include "samelight/tables/cie2006_lens.hpp"
#include "samelight/tables/cie2006_lens_total.hpp"
#include "samelight/tables/cie2006_macula.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const OcularMedia& ocular_media() {
    static const OcularMedia media = detail::load_ocular_media();
    return media;
}

SAMELIGHT_INLINE const ConeCurve& log_absorbance(std::size_t cone) {
    namespace t = tables::cie2006_absorbance;
    static_assert(t::first_nm == cone_first_nm && t::step_nm == 1.0 && t::count == cone_count);
    return cone == 0 ? t::l : cone == 1 ? t::m : t::s;
}

}  // namespace samelight
