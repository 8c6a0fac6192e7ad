#pragma once
// The bodies of colour/differences/pair_share.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numeric>
#include <span>
#include <string>
#include <vector>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A tree of boxes around points of the plane. Two boxes that lie wholly within or wholly beyond the threshold of each other are
/// counted at once; only boxes about the threshold apart are opened. A leaf is a block of a fixed number of points, the last one filled
/// up with what is no number and so never beyond anything: every compiler makes its loops vectors.
class PairCounter {
  public:
    PairCounter(std::span<const double> first, std::span<const double> second, double threshold)
        : limit_(threshold * threshold) {
        points_.reserve(first.size());
        for (std::size_t i = 0; i < first.size(); ++i) {
            points_.push_back({first[i], second[i]});
        }
        nodes_.reserve(2 * (points_.size() / block + 1));
        build(0, points_.size());
        const std::size_t padded = (points_.size() + block - 1) / block * block;
        x_.assign(padded, std::numeric_limits<double>::quiet_NaN());
        y_ = x_;
        for (std::size_t i = 0; i < points_.size(); ++i) {
            x_[i] = points_[i][0];
            y_[i] = points_[i][1];
        }
    }

    /// Pairs, each once, that lie more than the threshold apart.
    [[nodiscard]] std::uint64_t count() const { return within(0); }

  private:
    static constexpr std::size_t block = 16;
    using Point = std::array<double, 2>;

    struct Node {
        std::size_t begin, end;
        Point low, high;
        /// 0 for a leaf
        std::size_t left = 0, right = 0;

        [[nodiscard]] std::size_t size() const { return end - begin; }
        [[nodiscard]] bool leaf() const { return left == 0; }
    };

    static double squared(double dx, double dy) { return dx * dx + dy * dy; }

    std::size_t build(std::size_t begin, std::size_t end) {
        Node node{begin, end, points_[begin], points_[begin]};
        for (std::size_t i = begin; i < end; ++i) {
            for (std::size_t k = 0; k < 2; ++k) {
                node.low[k] = std::min(node.low[k], points_[i][k]);
                node.high[k] = std::max(node.high[k], points_[i][k]);
            }
        }
        const std::size_t at = nodes_.size();
        nodes_.push_back(node);
        if (end - begin > block) {
            const std::size_t blocks = (end - begin + block - 1) / block;
            const std::size_t middle = begin + blocks / 2 * block;
            const std::size_t axis =
                node.high[0] - node.low[0] > node.high[1] - node.low[1] ? 0 : 1;
            const auto from = points_.begin();
            std::nth_element(from + static_cast<std::ptrdiff_t>(begin),
                             from + static_cast<std::ptrdiff_t>(middle),
                             from + static_cast<std::ptrdiff_t>(end),
                             [axis](const Point& a, const Point& b) { return a[axis] < b[axis]; });
            const std::size_t left = build(begin, middle);
            const std::size_t right = build(middle, end);
            nodes_[at].left = left;
            nodes_[at].right = right;
        }
        return at;
    }

    [[nodiscard]] std::uint64_t within(std::size_t at) const {
        const Node& node = nodes_[at];
        if (squared(node.high[0] - node.low[0], node.high[1] - node.low[1]) <= limit_) {
            return 0;
        }
        if (!node.leaf()) {
            return within(node.left) + within(node.right) + between(node.left, node.right);
        }
        return beyond(node, node) / 2;  // each pair twice, and no point is beyond itself
    }

    [[nodiscard]] std::uint64_t between(std::size_t at_a, std::size_t at_b) const {
        const Node& a = nodes_[at_a];
        const Node& b = nodes_[at_b];
        const double gap_x = std::max({0.0, a.low[0] - b.high[0], b.low[0] - a.high[0]});
        const double gap_y = std::max({0.0, a.low[1] - b.high[1], b.low[1] - a.high[1]});
        if (squared(gap_x, gap_y) > limit_) {
            return static_cast<std::uint64_t>(a.size()) * b.size();
        }
        const double far_x = std::max(a.high[0] - b.low[0], b.high[0] - a.low[0]);
        const double far_y = std::max(a.high[1] - b.low[1], b.high[1] - a.low[1]);
        if (squared(far_x, far_y) <= limit_) {
            return 0;
        }
        if (!a.leaf() && (b.leaf() || a.size() >= b.size())) {
            return between(a.left, at_b) + between(a.right, at_b);
        }
        if (!b.leaf()) {
            return between(at_a, b.left) + between(at_a, b.right);
        }
        return beyond(a, b);
    }

    /// Points of two leaves that lie beyond the threshold of each other.
    [[nodiscard]] std::uint64_t beyond(const Node& a, const Node& b) const {
        const double* const x = x_.data() + b.begin;
        const double* const y = y_.data() + b.begin;
        std::array<double, block> found{};  // whole numbers, exactly; one a lane
        for (std::size_t i = a.begin; i < a.end; ++i) {
            for (std::size_t k = 0; k < block; ++k) {
                found[k] += squared(x[k] - x_[i], y[k] - y_[i]) > limit_ ? 1.0 : 0.0;
            }
        }
        return static_cast<std::uint64_t>(std::accumulate(found.begin(), found.end(), 0.0));
    }

    double limit_;
    std::vector<Point> points_;
    std::vector<Node> nodes_;
    /// Of the points in their blocks.
    std::vector<double> x_, y_;
};

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double pair_share(std::span<const double> first, std::span<const double> second,
                                   double threshold) {
    if (first.size() != second.size() || first.size() < 2) {
        throw Error(
            ErrorKind::shape, "pair_share",
            std::to_string(first.size()) + " and " + std::to_string(second.size()) + " coordinates",
            "equal counts of at least 2");
    }
    if (!(threshold >= 0.0) || !std::isfinite(threshold)) {
        throw Error(ErrorKind::domain, "pair_share", "threshold " + to_text(threshold),
                    "a finite threshold of 0 or more");
    }
    for (std::size_t i = 0; i < first.size(); ++i) {
        if (!std::isfinite(first[i]) || !std::isfinite(second[i])) {
            throw Error(ErrorKind::domain, "pair_share",
                        "point " + std::to_string(i) + " at " + to_text(first[i]) + ", " +
                            to_text(second[i]),
                        "finite coordinates");
        }
    }
    const auto n = static_cast<double>(first.size());
    const auto apart = static_cast<double>(detail::PairCounter(first, second, threshold).count());
    return apart / (0.5 * n * (n - 1.0));
}

}  // namespace samelight
