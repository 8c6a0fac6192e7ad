#pragma once
// The bodies of spectrum/line_fit.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/minimum/least_value.hpp"
#include "samelight/spectrum/line_fit.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The samples about one place, and the lines that may reach into them.
struct LineWindow {
    std::vector<double> nm;
    std::vector<double> values;
    /// True wavelengths; the first is the one that is fitted.
    std::vector<double> lines_nm;
};

/// The triangular lines moved by `shift_nm` and the straight line beneath, as columns.
inline Eigen::MatrixXd line_columns(const LineWindow& window, double shift_nm, double width_nm) {
    const auto rows = static_cast<Eigen::Index>(window.nm.size());
    const auto count = static_cast<Eigen::Index>(window.lines_nm.size());
    Eigen::MatrixXd columns(rows, count + 2);
    for (Eigen::Index r = 0; r < rows; ++r) {
        const double nm = window.nm[static_cast<std::size_t>(r)];
        for (Eigen::Index k = 0; k < count; ++k) {
            const double from_top = nm - shift_nm - window.lines_nm[static_cast<std::size_t>(k)];
            columns(r, k) = std::max(0.0, 1.0 - std::abs(from_top) / width_nm);
        }
        columns(r, count) = 1.0;
        columns(r, count + 1) = (nm - window.lines_nm[0]) / width_nm;
    }
    return columns;
}

struct LineResidual {
    /// Heights of the lines, then the straight line.
    Eigen::VectorXd weights;
    double sum_of_squares;
};

inline LineResidual fit_columns(const LineWindow& window, const Eigen::MatrixXd& columns) {
    const Eigen::Map<const Eigen::VectorXd> values(window.values.data(),
                                                   static_cast<Eigen::Index>(window.values.size()));
    const Eigen::VectorXd weights = dense::least_squares(columns, values).weights;
    return {weights, (dense::times(columns, weights) - values).squaredNorm()};
}

/// What is left over by the straight line alone.
inline double without_lines(const LineWindow& window) {
    return fit_columns(window, line_columns(window, 0.0, 1.0).rightCols(2)).sum_of_squares;
}

/// The samples within `half_nm` of `centre_nm`, for line `index` of `lines_nm` and those whose foot reaches in.
inline LineWindow line_window(const Spectrum& spectrum, std::span<const double> lines_nm,
                              std::size_t index, double centre_nm, double half_nm,
                              double width_nm) {
    LineWindow window;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        if (std::abs(spectrum.wavelengths_nm()[i] - centre_nm) <= half_nm) {
            window.nm.push_back(spectrum.wavelengths_nm()[i]);
            window.values.push_back(spectrum.values()[i]);
        }
    }
    window.lines_nm.push_back(lines_nm[index]);
    for (std::size_t k = 0; k < lines_nm.size(); ++k) {
        if (k != index && std::abs(lines_nm[k] - lines_nm[index]) < half_nm + width_nm) {
            window.lines_nm.push_back(lines_nm[k]);
        }
    }
    return window;
}

SAMELIGHT_INLINE double step_near(const Spectrum& spectrum, double nm) {
    const auto all = spectrum.wavelengths_nm();
    const auto above = std::upper_bound(all.begin(), all.end(), nm) - all.begin();
    const auto i =
        std::clamp<std::ptrdiff_t>(above, 1, static_cast<std::ptrdiff_t>(all.size()) - 1);
    return all[static_cast<std::size_t>(i)] - all[static_cast<std::size_t>(i) - 1];
}

/// Standard error of a line's place, from the derivatives of the fit and its residuals (no less than `noise` each).
inline double line_error(const LineWindow& window, double shift_nm, double width_nm,
                         const LineResidual& fit, bool free_width, double noise, double step_nm) {
    const Eigen::MatrixXd columns = line_columns(window, shift_nm, width_nm);
    const double by = 1e-4 * width_nm;
    const Eigen::Index extra = free_width ? 2 : 1;
    Eigen::MatrixXd slopes(columns.rows(), columns.cols() + extra);
    slopes.rightCols(columns.cols()) = columns;
    const auto slope = [&](const Eigen::MatrixXd& above, const Eigen::MatrixXd& below) {
        return Eigen::VectorXd(dense::times(above - below, fit.weights) / (2.0 * by));
    };
    slopes.col(0) = slope(line_columns(window, shift_nm + by, width_nm),
                          line_columns(window, shift_nm - by, width_nm));
    if (free_width) {
        slopes.col(1) = slope(line_columns(window, shift_nm, width_nm + by),
                              line_columns(window, shift_nm, width_nm - by));
    }
    const auto freedom = static_cast<double>(slopes.rows() - slopes.cols());
    const double variance =
        std::max(noise * noise, freedom > 0.0 ? fit.sum_of_squares / freedom : fit.sum_of_squares);
    if (dense::least_squares(slopes, Eigen::VectorXd::Zero(slopes.rows())).rank < slopes.cols()) {
        return 0.25 *
               step_nm;  // as many unknowns as samples: no more is known than between which samples it lies
    }
    const Eigen::MatrixXd covariance = dense::inverse(dense::transposed_product(slopes, slopes));
    return std::min(std::sqrt(variance * std::max(covariance(0, 0), 0.0)), step_nm);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<double> line_width_near(const Spectrum& spectrum, double nm,
                                                       double reach_nm, double least) {
    const auto at = spectrum.wavelengths_nm();
    const auto v = spectrum.values();
    std::optional<std::size_t> top;
    for (std::size_t i = 1; i + 1 < v.size(); ++i) {
        if (std::abs(at[i] - nm) <= reach_nm && v[i] >= v[i - 1] && v[i] >= v[i + 1] &&
            (!top || v[i] > v[*top])) {
            top = i;
        }
    }
    if (!top) {
        return {};
    }
    const auto valley = [&](std::ptrdiff_t step) {
        auto lowest = static_cast<std::ptrdiff_t>(*top);
        for (auto i = lowest + step; i >= 0 && i < static_cast<std::ptrdiff_t>(v.size());
             i += step) {
            const auto here = static_cast<std::size_t>(i);
            if (std::abs(at[here] - at[*top]) > 30.0 ||
                v[here] > v[static_cast<std::size_t>(lowest)] + least) {
                break;
            }
            if (v[here] < v[static_cast<std::size_t>(lowest)]) {
                lowest = i;
            }
        }
        return static_cast<std::size_t>(lowest);
    };
    const std::size_t below = valley(-1);
    const std::size_t above = valley(1);
    const auto beneath = [&](std::size_t i) {
        return above == below ? v[below]
                              : v[below] + (v[above] - v[below]) * (at[i] - at[below]) /
                                               (at[above] - at[below]);
    };
    const double half = 0.5 * (v[*top] - beneath(*top));
    if (!(2.0 * half > least)) {
        return {};
    }
    const auto crossing = [&](std::ptrdiff_t step) {
        auto i = static_cast<std::ptrdiff_t>(*top);
        const auto height = [&](std::ptrdiff_t k) {
            return v[static_cast<std::size_t>(k)] - beneath(static_cast<std::size_t>(k));
        };
        while (height(i + step) > half) {  // ends at the valley, where the height is 0
            i += step;
        }
        const double t = (height(i) - half) / (height(i) - height(i + step));
        return at[static_cast<std::size_t>(i)] +
               t * (at[static_cast<std::size_t>(i + step)] - at[static_cast<std::size_t>(i)]);
    };
    return crossing(1) - crossing(-1);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// How much of the sum of squares about it a line of this shift and width explains; 0 where none of positive height does, or where it
/// isn't wholly within the spectrum.
inline double explained_by_line(const Spectrum& spectrum, std::span<const double> lines_nm,
                                std::size_t index, double shift_nm, double width_nm,
                                double half_nm) {
    const double centre = lines_nm[index] + shift_nm;
    if (centre - width_nm < spectrum.first_nm() || centre + width_nm > spectrum.last_nm()) {
        return 0.0;
    }
    const LineWindow window = line_window(spectrum, lines_nm, index, centre, half_nm, width_nm);
    if (window.nm.size() < window.lines_nm.size() + 3) {
        return 0.0;
    }
    const LineResidual fit = fit_columns(window, line_columns(window, shift_nm, width_nm));
    return fit.weights[0] > 0.0 ? without_lines(window) - fit.sum_of_squares : 0.0;
}

SAMELIGHT_INLINE std::optional<LineFit> fit_line(const Spectrum& spectrum,
                                                 std::span<const double> lines_nm,
                                                 std::size_t asked, std::size_t index,
                                                 double width_nm, bool free_width, double reach_nm,
                                                 double noise, double least) {
    const double step = step_near(spectrum, lines_nm[index]);
    const double half = 1.5 * width_nm + step;
    // First by eye: where triangles explain most, its own and those of its neighbours, for which it could be taken. Then closely, on
    // the samples about that place.
    const std::span<const double> strong = lines_nm.first(asked);
    double place = 0.0;
    double most = 0.0;
    for (double shift = -reach_nm; shift <= reach_nm; shift += 0.25 * std::min(step, width_nm)) {
        double explained = explained_by_line(spectrum, strong, index, shift, width_nm, half);
        for (std::size_t k = 0; k < strong.size() && explained > 0.0; ++k) {
            if (k != index && std::abs(strong[k] - strong[index]) < 2.0 * reach_nm) {
                explained += explained_by_line(spectrum, strong, k, shift, width_nm, half);
            }
        }
        if (explained > most) {
            most = explained;
            place = shift;
        }
    }
    if (!(most > 0.0)) {
        return {};
    }
    const LineWindow window =
        line_window(spectrum, lines_nm, index, lines_nm[index] + place, half, width_nm);
    const auto left_over = [&](double shift, double width) {
        return fit_columns(window, line_columns(window, shift, width)).sum_of_squares;
    };
    // A companion that wasn't thought of by eye pulled the place by no more than a small part of the width.
    const double near =
        std::max(std::min(step, width_nm), window.lines_nm.size() > 1 ? 0.2 * width_nm : 0.0);
    const auto best_shift = [&](double width) {
        return golden_minimum(place - near, place + near, 2e-5 * near,
                              [&](double shift) { return left_over(shift, width); });
    };
    double width = width_nm;
    if (free_width) {
        width = golden_minimum(0.6 * width_nm, 1.5 * width_nm, 0.9e-5 * width_nm,
                               [&](double w) { return left_over(best_shift(w), w); });
    }
    const double shift = best_shift(width);
    const LineResidual fit = fit_columns(window, line_columns(window, shift, width));
    // A fifth of what stands out may stay unexplained: passbands are rounder than triangles, but other lines are wider than they.
    const bool has_the_shape = fit.sum_of_squares < 0.2 * without_lines(window);
    if (!(fit.weights[0] > least) || !has_the_shape || std::abs(shift) > reach_nm) {
        return {};
    }
    double error = line_error(window, shift, width, fit, free_width, noise, step);
    if (free_width && step > 0.45 * width_nm) {
        // Two or three samples on a line: its width and its place can't both be told from them.
        error = std::max(error, 0.25 * step);
    }
    return LineFit{lines_nm[index] + shift, width, fit.weights[0], error};
}

}  // namespace samelight::detail
