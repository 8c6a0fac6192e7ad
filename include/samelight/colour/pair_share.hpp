#pragma once
// How many pairs of viewers disagree: the share of pairs of points in a plane that lie more than a threshold apart.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

namespace detail {

/// A tree of boxes around points of the plane. Two boxes that lie wholly within or wholly beyond the threshold of each other are
/// counted at once; only boxes about the threshold apart are opened.
class PairCounter {
  public:
    PairCounter(std::span<const double> first, std::span<const double> second, double threshold)
        : limit_(threshold * threshold), order_(first.size()) {
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        nodes_.reserve(4 * first.size() / leaf_size + 4);
        build(first, second, 0, first.size());
        x_.reserve(first.size());
        y_.reserve(first.size());
        for (const std::size_t i : order_) {
            x_.push_back(first[i]);
            y_.push_back(second[i]);
        }
    }

    /// Pairs, each once, that lie more than the threshold apart.
    [[nodiscard]] std::uint64_t count() const { return within(0); }

  private:
    static constexpr std::size_t leaf_size = 32;

    struct Node {
        std::size_t begin, end;
        double low_x, high_x, low_y, high_y;
        std::size_t left = 0, right = 0;  ///< 0 for a leaf

        [[nodiscard]] std::size_t size() const { return end - begin; }
        [[nodiscard]] bool leaf() const { return left == 0; }
    };

    static double squared(double dx, double dy) { return dx * dx + dy * dy; }

    std::size_t build(std::span<const double> x, std::span<const double> y, std::size_t begin,
                      std::size_t end) {
        Node node{begin,           end, x[order_[begin]], x[order_[begin]], y[order_[begin]],
                  y[order_[begin]]};
        for (std::size_t i = begin; i < end; ++i) {
            node.low_x = std::min(node.low_x, x[order_[i]]);
            node.high_x = std::max(node.high_x, x[order_[i]]);
            node.low_y = std::min(node.low_y, y[order_[i]]);
            node.high_y = std::max(node.high_y, y[order_[i]]);
        }
        const std::size_t at = nodes_.size();
        nodes_.push_back(node);
        if (end - begin > leaf_size) {
            const std::size_t middle = begin + (end - begin) / 2;
            const bool wide = node.high_x - node.low_x > node.high_y - node.low_y;
            const std::span<const double> key = wide ? x : y;
            const auto from = order_.begin();
            std::nth_element(from + static_cast<std::ptrdiff_t>(begin),
                             from + static_cast<std::ptrdiff_t>(middle),
                             from + static_cast<std::ptrdiff_t>(end),
                             [key](std::size_t a, std::size_t b) { return key[a] < key[b]; });
            const std::size_t left = build(x, y, begin, middle);
            const std::size_t right = build(x, y, middle, end);
            nodes_[at].left = left;
            nodes_[at].right = right;
        }
        return at;
    }

    [[nodiscard]] std::uint64_t within(std::size_t at) const {
        const Node& node = nodes_[at];
        if (squared(node.high_x - node.low_x, node.high_y - node.low_y) <= limit_) {
            return 0;
        }
        if (!node.leaf()) {
            return within(node.left) + within(node.right) + between(node.left, node.right);
        }
        std::uint64_t found = 0;
        for (std::size_t i = node.begin; i < node.end; ++i) {
            found += beyond(x_[i], y_[i], i + 1, node.end);
        }
        return found;
    }

    [[nodiscard]] std::uint64_t between(std::size_t at_a, std::size_t at_b) const {
        const Node& a = nodes_[at_a];
        const Node& b = nodes_[at_b];
        const double gap_x = std::max({0.0, a.low_x - b.high_x, b.low_x - a.high_x});
        const double gap_y = std::max({0.0, a.low_y - b.high_y, b.low_y - a.high_y});
        if (squared(gap_x, gap_y) > limit_) {
            return static_cast<std::uint64_t>(a.size()) * b.size();
        }
        const double far_x = std::max(a.high_x - b.low_x, b.high_x - a.low_x);
        const double far_y = std::max(a.high_y - b.low_y, b.high_y - a.low_y);
        if (squared(far_x, far_y) <= limit_) {
            return 0;
        }
        if (!a.leaf() && (b.leaf() || a.size() >= b.size())) {
            return between(a.left, at_b) + between(a.right, at_b);
        }
        if (!b.leaf()) {
            return between(at_a, b.left) + between(at_a, b.right);
        }
        std::uint64_t found = 0;
        for (std::size_t i = a.begin; i < a.end; ++i) {
            found += beyond(x_[i], y_[i], b.begin, b.end);
        }
        return found;
    }

    /// How many of the points from `begin` to `end` lie beyond the threshold from (x, y).
    [[nodiscard]] std::uint64_t beyond(double x, double y, std::size_t begin,
                                       std::size_t end) const {
        std::uint64_t found = 0;
        for (std::size_t i = begin; i < end; ++i) {
            found += squared(x_[i] - x, y_[i] - y) > limit_ ? 1U : 0U;
        }
        return found;
    }

    double limit_;
    std::vector<std::size_t> order_;
    std::vector<Node> nodes_;
    std::vector<double> x_, y_;
};

}  // namespace detail

/// The share, 0 to 1, of all pairs of viewers whose points lie more than `threshold` apart: an index of this library's own.
///
/// first, second: the two coordinates of N >= 2 points, one a viewer, finite: u', v' of the white that each viewer wants, say, or of
/// the difference that each sees between two lights. threshold: 0 or more, in the points' unit; 0.004 in u', v' is a usual one.
/// Every one of the N (N - 1) / 2 pairs counts, exactly; a pair whose distance equals the threshold to within 1e-15 of it may fall on
/// either side. Time grows about as N^1.5, memory as N; nothing is drawn at random.
/// Throws Error (shape) for fewer than two points or unequal lengths, Error (domain) for what isn't finite or a threshold below 0.
inline double pair_share(std::span<const double> first, std::span<const double> second,
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
