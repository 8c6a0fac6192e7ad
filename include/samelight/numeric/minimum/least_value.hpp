#pragma once
// The least value of a function without derivatives: of one number by golden sections, of a few by a downhill simplex.
#include <algorithm>
#include <array>
#include <cstddef>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Where a function with one minimum between `low` and `high` is least: golden sections until what is left is no wider than `width`
/// (above the rounding of `low` and `high`), which no kink stops. Error: half of `width`, or what rounding of `f` hides. Throws what `f` throws.
template <class F>
double golden_minimum(double low, double high, double width, F&& f) {
    constexpr double ratio = 0.618033988749894848;
    double left = high - ratio * (high - low);
    double right = low + ratio * (high - low);
    double at_left = f(left);
    double at_right = f(right);
    while (high - low > width) {
        if (at_left <= at_right) {
            high = right;
            right = left;
            at_right = at_left;
            left = high - ratio * (high - low);
            at_left = f(left);
        } else {
            low = left;
            left = right;
            at_left = at_right;
            right = low + ratio * (high - low);
            at_right = f(right);
        }
    }
    return 0.5 * (low + high);
}

/// Where a downhill simplex begins and when it is content.
template <std::size_t N>
struct SimplexSearch {
    std::array<double, N> start;
    double step;       // along each axis, in the numbers' own unit
    double tolerance;  // between the corners' values, relative to the least
    int most_values = 300;
};

/// Where a function of N numbers has a least value, found by the downhill simplex: until its corners' values lie within the tolerance of
/// each other, or after about most_values values. The nearest minimum, not the least of several. Throws what `value_at` throws.
/// Source: Nelder & Mead 1965, Comput. J. 7:308.
template <std::size_t N, class F>
std::array<double, N> simplex_minimum(const SimplexSearch<N>& search, F&& value_at) {
    struct Corner {
        std::array<double, N> at;
        double value;
    };
    std::array<Corner, N + 1> corners{};
    for (std::size_t k = 0; k <= N; ++k) {
        corners[k].at = search.start;
        if (k > 0) {
            corners[k].at[k - 1] += search.step;
        }
        corners[k].value = value_at(corners[k].at);
    }
    const auto by_value = [](const Corner& a, const Corner& b) { return a.value < b.value; };
    for (int values = N + 1; values < search.most_values;) {
        std::sort(corners.begin(), corners.end(), by_value);
        if (!(corners[N].value - corners[0].value > search.tolerance * corners[0].value)) {
            break;
        }
        // From the worst corner through the middle of the others: t = 1 is the mirror image.
        const auto moved = [&](double t) {
            Corner corner{};
            for (std::size_t i = 0; i < N; ++i) {
                double middle = corners[0].at[i];
                for (std::size_t k = 1; k < N; ++k) {
                    middle += corners[k].at[i];
                }
                middle /= static_cast<double>(N);
                corner.at[i] = middle + t * (middle - corners[N].at[i]);
            }
            corner.value = value_at(corner.at);
            ++values;
            return corner;
        };
        const Corner mirrored = moved(1.0);
        if (mirrored.value < corners[0].value) {
            const Corner further = moved(2.0);
            corners[N] = further.value < mirrored.value ? further : mirrored;
        } else if (mirrored.value < corners[N - 1].value) {
            corners[N] = mirrored;
        } else {
            const Corner nearer = moved(mirrored.value < corners[N].value ? 0.5 : -0.5);
            if (nearer.value < std::min(mirrored.value, corners[N].value)) {
                corners[N] = nearer;
                continue;
            }
            for (std::size_t k = 1; k <= N; ++k) {
                for (std::size_t i = 0; i < N; ++i) {
                    corners[k].at[i] = 0.5 * (corners[k].at[i] + corners[0].at[i]);
                }
                corners[k].value = value_at(corners[k].at);
                ++values;
            }
        }
    }
    return std::min_element(corners.begin(), corners.end(), by_value)->at;
}

}  // namespace samelight::detail
