#pragma once
// The bodies of meter/correction/bootstrap.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Moments Bootstrap::corrected(const std::array<double, 3>& meter) const {
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(xyz_from_meter.size()), 3);
    for (std::size_t i = 0; i < xyz_from_meter.size(); ++i) {
        const std::array<double, 9>& m = xyz_from_meter[i];
        const auto at = [&](std::size_t row) {
            return m[3 * row] * meter[0] + m[3 * row + 1] * meter[1] + m[3 * row + 2] * meter[2];
        };
        const auto v = xyY_from_xyz({at(0), at(1), at(2)});
        rows.row(static_cast<Eigen::Index>(i)) << v[0], v[1], std::log(v[2]);
    }
    return moments(rows);
}

SAMELIGHT_INLINE Ellipse Bootstrap::region(const std::array<double, 3>& meter,
                                           double coverage) const {
    const Moments m = corrected(meter);
    return coverage_ellipse({m.mean[0], m.mean[1]},
                            Covariance(m.covariance.matrix().topLeftCorner<2, 2>()), coverage);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void IndexDraws::fill(std::span<std::uint32_t> drawn, std::uint32_t bound) {
    const std::size_t pairs = drawn.size() / 2;
    std::size_t i = 0;
    // Sixteen words side by side, which a processor with wide multiplication does at once.
    for (std::array<std::uint64_t, 16> words; i + words.size() <= pairs; i += words.size()) {
        for (std::size_t k = 0; k < words.size(); ++k) {
            words[k] = random_.word(position_ + i + k);
        }
        for (std::size_t k = 0; k < words.size(); ++k) {
            words[k] = static_cast<std::uint64_t>(scaled(words[k] >> 32U, bound)) |
                       static_cast<std::uint64_t>(scaled(words[k] & 0xffffffffU, bound)) << 32U;
        }
        for (std::size_t k = 0; k < words.size(); ++k) {
            drawn[2 * (i + k)] = static_cast<std::uint32_t>(words[k]);
            drawn[2 * (i + k) + 1] = static_cast<std::uint32_t>(words[k] >> 32U);
        }
    }
    for (; i < pairs; ++i) {
        const std::uint64_t word = random_.word(position_ + i);
        drawn[2 * i] = scaled(word >> 32U, bound);
        drawn[2 * i + 1] = scaled(word & 0xffffffffU, bound);
    }
    position_ += pairs;
    if (drawn.size() % 2 != 0) {
        drawn.back() = scaled(random_.word(position_++) >> 32U, bound);
    }
}

/// The products of a pair, the 15 that least squares sums and a 0: two lines of a cache, whole.
struct alignas(64) PairProducts {
    std::array<double, 16> values{};
};

inline std::vector<PairProducts> pair_products(const PairColumns& pairs) {
    std::vector<PairProducts> products(pairs.count());
    for (std::size_t k = 0; k < product_count; ++k) {
        const double* first = pairs.column(product_columns[k].first);
        const double* second = pairs.column(product_columns[k].second);
        for (std::size_t i = 0; i < pairs.count(); ++i) {
            products[i].values[k] = first[i] * second[i];
        }
    }
    return products;
}

/// Sums of the products of the pairs drawn, of two resamples side by side, because one alone waits for each of its sums: the first eight
/// of both, then the rest.
inline std::array<std::array<DrawLanes, 2>, 2> sums_of_drawn(
    const std::vector<PairProducts>& products,
    const std::array<std::vector<std::uint32_t>, 2>& drawn) {
    DrawLanes first_a = DrawLanes::Zero();
    DrawLanes rest_a = DrawLanes::Zero();
    DrawLanes first_b = DrawLanes::Zero();
    DrawLanes rest_b = DrawLanes::Zero();
    for (std::size_t i = 0; i < drawn[0].size(); ++i) {
        const double* a = products[drawn[0][i]].values.data();
        const double* b = products[drawn[1][i]].values.data();
        first_a += Eigen::Map<const DrawLanes>(a);
        rest_a += Eigen::Map<const DrawLanes>(a + draw_lanes);
        first_b += Eigen::Map<const DrawLanes>(b);
        rest_b += Eigen::Map<const DrawLanes>(b + draw_lanes);
    }
    return {{{first_a, rest_a}, {first_b, rest_b}}};
}

/// Resamples `first` to `last` - 1, whose draws are the same whoever makes them.
struct SomeResamples {
    std::size_t first;
    std::size_t last;
    std::uint64_t seed;
};

/// Resamples of so many pairs, behind those in `result`; products: pair_products().
inline void resample_patches(std::size_t pairs, const std::vector<PairProducts>& products,
                             const SomeResamples& which, Bootstrap& result) {
    IndexDraws draws(which.seed, which.first * IndexDraws::words(pairs));
    std::array<std::vector<std::uint32_t>, 2> drawn;
    drawn.fill(std::vector<std::uint32_t>(pairs));
    for (std::size_t done = which.first; done < which.last;
         done += static_cast<std::size_t>(draw_lanes)) {
        const auto now = std::min(draw_lanes, static_cast<Eigen::Index>(which.last - done));
        Eigen::Array<double, draw_lanes, 16> sums;
        sums.setOnes();
        for (Eigen::Index lane = 0; lane < now; lane += 2) {
            const Eigen::Index both = std::min<Eigen::Index>(2, now - lane);
            for (Eigen::Index k = 0; k < both; ++k) {
                draws.fill(drawn[static_cast<std::size_t>(k)], static_cast<std::uint32_t>(pairs));
            }
            const auto found = sums_of_drawn(products, drawn);
            for (Eigen::Index k = 0; k < both; ++k) {
                const auto& [first, rest] = found[static_cast<std::size_t>(k)];
                sums.row(lane + k).head<draw_lanes>() = first.transpose();
                sums.row(lane + k).tail<draw_lanes>() = rest.transpose();
            }
        }
        std::array<DrawLanes, product_count> columns;
        for (std::size_t k = 0; k < columns.size(); ++k) {
            columns[k] = sums.col(static_cast<Eigen::Index>(k));
        }
        const auto solution = solve_normal(columns);
        for (Eigen::Index lane = 0; lane < now; ++lane) {
            if (!(solution.independence[lane] > least_independence)) {
                ++result.dependent;
                continue;
            }
            std::array<double, 9>& m = result.xyz_from_meter.emplace_back();
            for (std::size_t k = 0; k < 9; ++k) {
                m[k] = solution.matrix[k][lane];
            }
        }
    }
}

/// resample(first, last, found) puts what those resamples give behind what is in `found`; all of it, in their order.
template <class Resample>
Bootstrap bootstrap_in_blocks(const BootstrapDraws& draws, const Resample& resample) {
    // A multiple of the lanes, so that the same eight are solved side by side however many there are.
    const parallel::BlocksOf blocks{draws.count, 32 * static_cast<std::size_t>(draw_lanes)};
    std::vector<Bootstrap> found(parallel::workers_for(blocks.count(), draws.threads));
    Bootstrap result;
    result.xyz_from_meter.reserve(draws.count);
    parallel::work_in_blocks(
        blocks.count(), draws.threads,
        [&](std::size_t block, std::size_t worker) {
            found[worker].xyz_from_meter.clear();
            found[worker].dependent = 0;
            resample(blocks.first(block), blocks.first(block + 1), found[worker]);
        },
        [&](std::size_t, std::size_t worker) {
            const auto& matrices = found[worker].xyz_from_meter;
            result.xyz_from_meter.insert(result.xyz_from_meter.end(), matrices.begin(),
                                         matrices.end());
            result.dependent += found[worker].dependent;
        });
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Bootstrap bootstrap_patches(const PairColumns& pairs,
                                             const BootstrapDraws& asked) {
    if (asked.count == 0) {
        throw Error(ErrorKind::domain, "bootstrap_patches", "0 resamples", "at least 1");
    }
    const std::vector<detail::PairProducts> products = detail::pair_products(pairs);
    return detail::bootstrap_in_blocks(
        asked, [&](std::size_t first, std::size_t last, Bootstrap& found) {
            detail::resample_patches(pairs.count(), products, {first, last, asked.seed}, found);
        });
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Means of x, y and Y of a patch's pairs drawn with replacement, as many as there are.
inline void draw_means(const Patch& patch, const std::vector<std::uint32_t>& indices,
                       Patch& drawn) {
    drawn.reference = drawn.meter = {0.0, 0.0, 0.0};
    const double n = static_cast<double>(patch.count());
    for (const std::uint32_t index : indices) {
        const PairedReading& pair = patch.pairs[index];
        // Here `pairs` holds x, y, Y already: see bootstrap_repeats.
        for (std::size_t k = 0; k < 3; ++k) {
            drawn.reference[k] += pair.reference[k] / n;
            drawn.meter[k] += pair.meter[k] / n;
        }
    }
}

inline std::vector<const Patch*> places_of(const std::vector<Patch>& patches) {
    std::vector<const Patch*> places;
    for (const Patch& patch : patches) {
        places.push_back(&patch);
    }
    return places;
}

inline std::array<double, 9> scaled_rows(const MatrixFit& fit) {
    std::array<double, 9> result{};
    for (Eigen::Index i = 0; i < 9; ++i) {
        result[static_cast<std::size_t>(i)] =
            fit.luminance_factor * fit.reference_from_meter(i / 3, i % 3);
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Bootstrap bootstrap_repeats(const ReadingSet& readings, const FitOptions& options,
                                             const BootstrapDraws& asked) {
    if (asked.count == 0) {
        throw Error(ErrorKind::domain, "bootstrap_repeats", "0 resamples", "at least 1");
    }
    const ReadingSet set = subtract_black(readings).set;
    const std::vector<std::size_t> used = detail::patches_used(set, options.method);
    std::vector<Patch> source;  // pairs as x, y, Y
    for (const std::size_t i : used) {
        source.push_back(set.patches()[i]);
        for (PairedReading& pair : source.back().pairs) {
            pair.reference = xyY_from_xyz(pair.reference);
            pair.meter = xyY_from_xyz(pair.meter);
        }
    }
    const std::vector<const Patch*> patches = detail::places_of(source);
    if (options.method != CorrectionMethod::white_only) {
        static_cast<void>(
            detail::require_independent(patches, options.method, !options.check_readings));
    }
    const detail::FitNoise noise =
        detail::noise_before_fit(set, patches, options.noise_from, options.stated);
    std::uint64_t words = 0;
    for (const Patch& patch : source) {
        words += detail::IndexDraws::words(patch.count());
    }
    return detail::bootstrap_in_blocks(
        asked, [&](std::size_t first, std::size_t last, Bootstrap& found) {
            detail::IndexDraws draws(asked.seed, first * words);
            std::vector<std::uint32_t> indices;
            std::vector<Patch> drawn = source;
            const std::vector<const Patch*> of_drawn = detail::places_of(drawn);
            for (std::size_t b = first; b < last; ++b) {
                for (std::size_t p = 0; p < source.size(); ++p) {
                    indices.resize(source[p].count());
                    draws.fill(indices, static_cast<std::uint32_t>(indices.size()));
                    detail::draw_means(source[p], indices, drawn[p]);
                }
                found.xyz_from_meter.push_back(detail::scaled_rows(
                    detail::fit_matrix(set, of_drawn, options, noise, detail::Derivatives::no)));
            }
        });
}

}  // namespace samelight
