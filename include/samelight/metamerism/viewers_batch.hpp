#pragma once
// What each person of a population sees of colours that are shown in several ways: each person is made once, all sides and pairs are
// worked out from what is kept of them, their X, Y, Z of the lights that the colours are mixed from.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// X, Y, Z of one viewer's own.
using OwnXyz = std::array<double, 3>;

/// What people see of k lights: each person's own X, Y, Z (xyz_from_lms()). Memory: 24 k bytes a person, and as much again for 1,024 of
/// them while they are made.
class SeenLights {
  public:
    /// person(i) gives Individual i of n, to several threads at once. lights: n x k on `sampling`.
    template <class Person>
    SeenLights(std::size_t viewers, const Person& person, const Sampling& sampling,
               const Eigen::MatrixXd& lights, std::size_t threads = 1)
        : viewers_(viewers),
          lights_(static_cast<std::size_t>(lights.cols())),
          values_(3 * lights_ * viewers) {
        constexpr std::size_t at_once = 1024;
        constexpr std::size_t block = 32;
        for (std::size_t first = 0; first < viewers_; first += at_once) {
            std::vector<Individual> people(std::min(at_once, viewers_ - first));
            const auto for_people = [&](const auto& work) {
                parallel::for_blocks({people.size(), block}, threads,
                                     [&](std::size_t begin, std::size_t end, std::size_t) {
                                         for (std::size_t i = begin; i < end; ++i) {
                                             work(i);
                                         }
                                     });
            };
            for_people([&](std::size_t i) { people[i] = person(first + i); });
            const PopulationResponses seen = population_responses(
                people, sampling, lights, {BatchPrecision::double_precision, true, threads});
            for_people([&](std::size_t i) {
                const XyzFromLms xyz_from =
                    xyz_from_lms(people[i].conditions.field_deg, seen.equal_energy(i));
                Eigen::Map<Eigen::Matrix3Xd>(values_.data() + 3 * lights_ * (first + i), 3,
                                             static_cast<Eigen::Index>(lights_)) =
                    xyz_from.matrix().lazyProduct(seen.lms(i));
            });
        }
    }

    [[nodiscard]] std::size_t viewers() const noexcept { return viewers_; }
    /// X, Y, Z of light after light, from light `first` on. Valid as long as this object is.
    [[nodiscard]] std::span<const double> of(std::size_t viewer, std::size_t first = 0) const {
        return std::span<const double>(values_).subspan(3 * (lights_ * viewer + first),
                                                        3 * (lights_ - first));
    }

  private:
    std::size_t viewers_;
    std::size_t lights_;
    std::vector<double> values_;
};

/// The ways in which one set of m colours is shown, as lists of amounts of lights that stand beside each other.
class SAMELIGHT_API Sides {
  public:
    /// Throws Error (shape), naming `where`, for no colours, or sides that differ in sampling or in the number of their colours.
    Sides(const char* where, std::span<const MixedLights> sides);

    [[nodiscard]] std::size_t size() const noexcept { return sides_.size(); }
    [[nodiscard]] std::size_t colours() const noexcept { return colours_; }
    /// The lights that all sides are mixed from, beside each other: as many columns as they have parts.
    [[nodiscard]] static Eigen::MatrixXd lights(std::span<const MixedLights> sides);
    [[nodiscard]] std::size_t light_count() const noexcept { return lights_; }

    /// One of X, Y, Z (row 0 to 2) of some of a side's colours, from the colour `first` on, as the viewer sees them for whom `xyz` has the
    /// lights (SeenLights::of()).
    void mix(std::size_t which, std::span<const double> xyz, std::size_t row, std::size_t first,
             std::span<double> out) const;
    /// X, Y, Z of one colour.
    [[nodiscard]] OwnXyz colour(std::size_t which, std::span<const double> xyz,
                                std::size_t colour) const;

  private:
    struct Side {
        std::size_t first_light;
        std::size_t parts;
        /// Every colour is a light of its own.
        bool plain;
        /// m of the first part, then m of the second: none for a plain side
        std::vector<double> amounts;
    };

    std::vector<Side> sides_;
    std::size_t colours_ = 0;
    std::size_t lights_ = 0;
};

/// Some colours of one side as one viewer sees them: X, Y, Z, the cube roots that CIELAB is made of, whatever its white, and u', v'. T is
/// float or double.
template <class T>
class SeenColours {
  public:
    explicit SeenColours(std::size_t most) : most_(most), mixed_(most), values_(8 * most) {}

    /// `count` colours from `first` on. u', v' only where asked for. Error of u', v': 5e-16, in float 3e-7.
    void fill(const Sides& sides, std::size_t which, std::span<const double> xyz, std::size_t first,
              std::size_t count, bool with_uv) {
        count_ = count;
        for (std::size_t row = 0; row < 3; ++row) {
            const std::span<double> mixed = std::span(mixed_).first(count);
            sides.mix(which, xyz, row, first, mixed);
            std::transform(mixed.begin(), mixed.end(), own(row).begin(),
                           [](double value) { return static_cast<T>(value); });
            using V = math::Batch<T>;
            math::for_each_batch<V, T, 1, 1>(
                "cube roots", {column(row)}, {own(3 + row)}, [](const std::array<V, 1>& value) {
                    return std::array<V, 1>{math::positive_cbrt(value[0])};
                });
        }
        if (with_uv) {
            fill_uv();
        }
    }

    /// X, Y, Z, their roots (no numbers to rely on where there is none above 0), u', v'.
    [[nodiscard]] std::span<const T> column(std::size_t k) const {
        return std::span<const T>(values_).subspan(k * most_, count_);
    }
    [[nodiscard]] std::size_t size() const noexcept { return count_; }

  private:
    [[nodiscard]] std::span<T> own(std::size_t k) {
        return std::span<T>(values_).subspan(k * most_, count_);
    }
    void fill_uv() {
        using V = math::Batch<T>;
        const std::array<std::span<const T>, 3> xyz{column(0), column(1), column(2)};
        const std::array<std::span<T>, 2> uv{own(6), own(7)};
        math::for_each_batch<V, T, 3, 2>("uv", xyz, uv, [](const std::array<V, 3>& t) {
            const auto k = [](double value) { return math::constant<V>(value); };
            const V sum = t[0] + k(15.0) * t[1] + k(3.0) * t[2];
            return std::array<V, 2>{V(k(4.0) * t[0] / sum), V(k(9.0) * t[1] / sum)};
        });
    }

    std::size_t most_;
    std::size_t count_ = 0;
    std::vector<double> mixed_;
    std::vector<T> values_;
};

/// CIELAB relative to one white from values and their cube roots: the root of a ratio is the ratio of the roots.
template <class V>
class LabByRoots {
  public:
    explicit LabByRoots(const OwnXyz& white) {
        for (std::size_t k = 0; k < 3; ++k) {
            per_[k] = math::constant<V>(1.0 / white[k]);
            per_root_[k] = math::constant<V>(1.0 / std::cbrt(white[k]));
        }
    }
    /// v: three values, then their roots. As lab_from_ratios().
    [[nodiscard]] LabOf<V> operator()(const V* v) const {
        const auto k = [](double value) { return math::constant<V>(value); };
        const auto response = [&](std::size_t i) {
            constexpr double knee = (24.0 / 116.0) * (24.0 / 116.0) * (24.0 / 116.0);
            const V ratio = v[i] * per_[i];
            return V(math::select(ratio > k(knee), V(v[3 + i] * per_root_[i]),
                                  math::multiply_add(ratio, k(841.0 / 108.0), k(16.0 / 116.0))));
        };
        const V fy = response(1);
        return {V(math::multiply_add(fy, k(116.0), k(-16.0))), V(k(500.0) * (response(0) - fy)),
                V(k(200.0) * (fy - response(2)))};
    }

  private:
    std::array<V, 3> per_;
    std::array<V, 3> per_root_;
};

template <class T>
std::array<std::span<const T>, 12> columns_of(const SeenColours<T>& p, const SeenColours<T>& q) {
    std::array<std::span<const T>, 12> columns;
    for (std::size_t k = 0; k < 6; ++k) {
        columns[k] = p.column(k);
        columns[6 + k] = q.column(k);
    }
    return columns;
}

/// CIEDE2000 of each colour between two sides, for a viewer adapted to `white`. Error: below 2e-12, in float 1e-3, for sides nearly alike.
template <class T>
void differences(const SeenColours<T>& p, const SeenColours<T>& q, const OwnXyz& white,
                 std::span<T> de00) {
    using V = math::Batch<T>;
    const LabByRoots<V> lab(white);
    const V one = math::constant<V>(1.0);
    math::for_each_batch<V, T, 12, 1>(
        "differences", columns_of(p, q), {de00}, [&](const std::array<V, 12>& v) {
            return std::array<V, 1>{ciede2000<V>(lab(v.data()), lab(v.data() + 6), one, one, one)};
        });
}

/// The same, then CIEDE2000 without its lightness term, as if the two were equally light, and L*, a*, b* of the second less the first's.
/// Error: differences below 2e-12 for sides nearly alike, offsets 1e-12. Source: ISO/CIE 11664-6:2014; without lightness: Park & Murdoch 2020 (from memory).
void differences_and_offsets(const SeenColours<double>& p, const SeenColours<double>& q,
                             const OwnXyz& white, const std::array<std::span<double>, 5>& out);

/// CIEDE2000 of many pairs of lights, each relative to the mean of its two: columns X, Y, Z of each to a column. No number where X, Y or
/// Z of the two isn't above 0 in sum. Error: below 2e-12 for two whites.
void differences_about_mean(const std::array<std::span<const double>, 6>& xyz,
                            std::span<double> de00);

/// Midway between two whites: what a viewer is taken to be adapted to who looks at both. Throws Error (domain) where that isn't above 0.
SAMELIGHT_API OwnXyz between(const char* where, const OwnXyz& a, const OwnXyz& b);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/viewers_batch.ipp"
#endif
