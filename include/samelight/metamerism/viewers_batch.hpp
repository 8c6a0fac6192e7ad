#pragma once
// What each person of a population sees of colours that are shown in several ways, made person by person and consumed at once.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/difference_batch.hpp"
#include "samelight/colour/lab_batch.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/door.hpp"

namespace samelight {

/// CIEDE2000 of many pairs, and the same without its lightness term: as if the two were equally light. Columns of one length, an
/// output may be an input's memory; both sides relative to one white. Range, NaN and error as delta_e_2000() for columns, the root of a
/// sum that lightness is left out of included. Throws Error (shape) for columns of different lengths.
/// Source: ISO/CIE 11664-6:2014; without lightness: Park & Murdoch 2020 (from memory).
template <class T, class V = math::Batch<T>>
void delta_e_2000_and_chromatic(std::type_identity_t<Columns3<const T>> p,
                                std::type_identity_t<Columns3<const T>> q, std::span<T> whole,
                                std::type_identity_t<std::span<T>> chromatic) {
    const std::array<std::span<const T>, 6> in{p.first, p.second, p.third,
                                               q.first, q.second, q.third};
    const std::array<std::span<T>, 2> out{whole, chromatic};
    math::for_each_batch<V, T, 6, 2>(
        "delta_e_2000_and_chromatic", in, out, [](const std::array<V, 6>& v) {
            const auto t = detail::ciede2000_terms(detail::LabOf<V>{v[0], v[1], v[2]},
                                                   detail::LabOf<V>{v[3], v[4], v[5]});
            const V lightness = t.dL / t.SL;
            const V chroma = t.dC / t.SC;
            const V hue = t.dH / t.SH;
            const V rest = chroma * chroma + hue * hue + t.RT * chroma * hue;
            return std::array<V, 2>{math::sqrt(V(lightness * lightness + rest)), math::sqrt(rest)};
        });
}

/// Distances of many pairs of points in a plane: columns to a column. NaN in gives NaN out. Throws Error (shape).
template <class T, class V = math::Batch<T>>
void plane_distance(std::type_identity_t<std::span<const T>> u1,
                    std::type_identity_t<std::span<const T>> v1,
                    std::type_identity_t<std::span<const T>> u2,
                    std::type_identity_t<std::span<const T>> v2, std::span<T> result) {
    math::for_each_batch<V, T, 4, 1>("plane_distance", {u1, v1, u2, v2}, {result},
                                     [](const std::array<V, 4>& p) {
                                         const V du = p[2] - p[0];
                                         const V dv = p[3] - p[1];
                                         return std::array<V, 1>{math::sqrt(V(du * du + dv * dv))};
                                     });
}

/// The colours of every side as one viewer sees them. Sides are the ways in which one set of m colours is shown.
class ViewerColours {
  public:
    ViewerColours(std::size_t sides, std::size_t colours)
        : colours_(colours), values_(sides * stored * colours) {}

    /// Colours of a side, m.
    [[nodiscard]] std::size_t size() const noexcept { return colours_; }
    /// L*, a*, b* relative to the viewer's white.
    [[nodiscard]] Columns3<const double> lab(std::size_t side) const {
        return {column(side, 0), column(side, 1), column(side, 2)};
    }
    /// u', v' in the viewer's own X, Y, Z.
    [[nodiscard]] std::span<const double> u(std::size_t side) const { return column(side, 3); }
    [[nodiscard]] std::span<const double> v(std::size_t side) const { return column(side, 4); }

    /// Fills a side from the viewer's X, Y, Z (3 x m, row after row), which are consumed.
    void set(std::size_t side, std::span<double> xyz, const Tristimulus<Any>& white) {
        const std::span<double> x = xyz.subspan(0, colours_);
        const std::span<double> y = xyz.subspan(colours_, colours_);
        const std::span<double> z = xyz.subspan(2 * colours_, colours_);
        using V = math::Batch<double>;
        const std::array<std::span<const double>, 3> from{x, y, z};
        const std::array<std::span<double>, 2> to{own(side, 3), own(side, 4)};
        math::for_each_batch<V, double, 3, 2>("uv", from, to, [](const std::array<V, 3>& t) {
            const V sum = t[0] + V(15.0) * t[1] + V(3.0) * t[2];
            return std::array<V, 2>{V(V(4.0) * t[0] / sum), V(V(9.0) * t[1] / sum)};
        });
        lab_from_xyz<double>({x, y, z}, white,
                             Columns3<double>(own(side, 0), own(side, 1), own(side, 2)));
    }

  private:
    static constexpr std::size_t stored = 5;

    [[nodiscard]] std::size_t offset(std::size_t side, std::size_t which) const {
        return (side * stored + which) * colours_;
    }
    [[nodiscard]] std::span<const double> column(std::size_t side, std::size_t which) const {
        return std::span<const double>(values_).subspan(offset(side, which), colours_);
    }
    [[nodiscard]] std::span<double> own(std::size_t side, std::size_t which) {
        return std::span<double>(values_).subspan(offset(side, which), colours_);
    }

    std::size_t colours_;
    std::vector<double> values_;
};

namespace detail {

using Rows3 = Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor>;

/// The sides' parts beside each other and the white after them, as one matrix of lights.
inline Eigen::MatrixXd all_parts(std::span<const MixedLights> sides, const SampledLight& white) {
    std::size_t count = 1;
    for (const MixedLights& side : sides) {
        count += side.part_count();
    }
    Eigen::MatrixXd parts(white.sampling.count(), static_cast<Eigen::Index>(count));
    Eigen::Index at = 0;
    for (const MixedLights& side : sides) {
        parts.middleCols(at, side.parts().cols()) = side.parts();
        at += side.parts().cols();
    }
    parts.col(at) = white.column();
    return parts;
}

inline void require_sides(const char* where, std::span<const MixedLights> sides,
                          const SampledLight& white) {
    if (sides.empty() || sides.front().size() == 0) {
        throw Error(ErrorKind::shape, where, "no colours", "at least one");
    }
    for (const MixedLights& side : sides) {
        require_same_sampling(where, side.sampling(), white.sampling);
        if (side.size() != sides.front().size()) {
            throw Error(ErrorKind::shape, where,
                        std::to_string(side.size()) + " colours beside " +
                            std::to_string(sides.front().size()),
                        "one set of colours, shown in several ways");
        }
    }
}

/// The viewer's X, Y, Z of a side's colours from those of its parts (3 x k): 3 x m.
inline void mix(const Eigen::Ref<const Eigen::Matrix3Xd>& parts, const Eigen::MatrixXd& amounts,
                bool plain, Rows3& out) {
    if (plain) {
        out = parts;
        return;
    }
    // amounts is m x k: each part's amounts lie beside each other in memory.
    for (Eigen::Index row = 0; row < 3; ++row) {
        out.row(row) = parts(row, 0) * amounts.col(0).transpose();
        for (Eigen::Index k = 1; k < amounts.cols(); ++k) {
            out.row(row) += parts(row, k) * amounts.col(k).transpose();
        }
    }
}

/// Calls visit(i, colours) for every one of n people, in order; person(i) gives Individual i. CIELAB is relative to `white`, to which the
/// person is taken to be adapted. The people's fundamentals are made in blocks and not kept.
template <class Person, class Visit>
void for_each_viewer(const char* where, std::size_t n, const Person& person,
                     std::span<const MixedLights> sides, const SampledLight& white, Visit visit) {
    require_sides(where, sides, white);
    const Eigen::MatrixXd parts = all_parts(sides, white);
    const std::size_t colours = sides.front().size();
    std::vector<Eigen::MatrixXd> amounts;
    for (const MixedLights& side : sides) {
        amounts.emplace_back(side.amounts().transpose());
    }
    ViewerColours seen(sides.size(), colours);
    Rows3 xyz(3, static_cast<Eigen::Index>(colours));
    constexpr std::size_t block = 256;
    std::vector<Individual> people;
    for (std::size_t first = 0; first < n; first += block) {
        people.clear();
        for (std::size_t i = first; i < std::min(first + block, n); ++i) {
            people.push_back(person(i));
        }
        const PopulationResponses responses = population_responses(
            people, white.sampling, parts, {BatchPrecision::double_precision, true});
        for (std::size_t i = 0; i < people.size(); ++i) {
            const XyzFromLms xyz_from =
                xyz_from_lms(people[i].conditions.field_deg, responses.equal_energy(i));
            const Eigen::Matrix3Xd of_parts = xyz_from.matrix() * responses.lms(i);
            const Eigen::Vector3d w = of_parts.rightCols(1);
            const Tristimulus<Any> own_white(OfObserver<Any>("viewer"), {w[0], w[1], w[2]});
            Eigen::Index at = 0;
            for (std::size_t s = 0; s < sides.size(); ++s) {
                const auto k = static_cast<Eigen::Index>(sides[s].part_count());
                mix(of_parts.middleCols(at, k), amounts[s], sides[s].plain(), xyz);
                at += k;
                seen.set(s, {xyz.data(), 3 * colours}, own_white);
            }
            visit(first + i, seen);
        }
    }
}

/// The same for the people of a population.
template <class Visit>
void for_each_viewer(const char* where, const Population& population,
                     std::span<const MixedLights> sides, const SampledLight& white, Visit visit) {
    for_each_viewer(
        where, population.size(), [&](std::size_t i) { return population.individual(i); }, sides,
        white, visit);
}

}  // namespace detail

}  // namespace samelight
