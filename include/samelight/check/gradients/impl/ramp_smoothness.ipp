#pragma once
// The bodies of check/gradients/ramp_smoothness.hpp.

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "samelight/check/gradients/ramp_smoothness.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline double signal_apart(const RampPoint& a, const RampPoint& b) {
    double apart = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        apart = std::max(apart, std::abs(a.signal[k] - b.signal[k]));
    }
    return apart;
}

inline double largest_signal(const RampPoint& point) {
    return *std::max_element(point.signal.begin(), point.signal.end());
}

/// A ramp as logarithms over the intended display along a way.
struct RampCourse {
    const MeasuredRamp* ramp = nullptr;
    double noise = 0.0;
    /// It comes from black, whose light this is.
    bool rising = false;
    std::array<double, 3> black{};
    /// Of each point: the way to it, what lies above black over what is meant to, and whether that is known.
    std::vector<double> way;
    std::vector<std::array<double, 3>> logarithm;
    std::vector<bool> known;
    /// The first point that is known.
    std::size_t first = 0;

    [[nodiscard]] const RampPoint& point(std::size_t i) const { return ramp->points[i]; }
    /// How far a reading's logarithm moves where the reading grows by its scatter.
    [[nodiscard]] double moved(std::size_t i, std::size_t k) const {
        const double grown = point(i).xyz[k] * scatter(i);
        return std::log1p(grown / (point(i).xyz[k] - black[k]));
    }
    [[nodiscard]] double scatter(std::size_t i) const {
        return noise / std::sqrt(static_cast<double>(point(i).readings));
    }
};

/// Whether the largest signal rises all along, so that the ramp comes from black.
inline bool comes_from_black(const MeasuredRamp& ramp) {
    for (std::size_t i = 0; i + 1 < ramp.points.size(); ++i) {
        if (!(largest_signal(ramp.points[i + 1]) > largest_signal(ramp.points[i]))) {
            return false;
        }
    }
    return largest_signal(ramp.points.front()) < 0.2;
}

inline RampCourse ramp_course(const MeasuredRamp& ramp, double noise,
                              const IntendedDisplay& intended) {
    RampCourse course{&ramp, noise, comes_from_black(ramp), {}, {}, {}, {}, 0};
    std::array<double, 3> meant_black{};
    if (course.rising) {
        meant_black = intended.xyz({0.0, 0.0, 0.0});
        const bool read = largest_signal(ramp.points.front()) <= 0.0;
        course.black = read ? ramp.points.front().xyz : meant_black;
    }
    double way = 0.0;
    for (std::size_t i = 0; i < ramp.points.size(); ++i) {
        const RampPoint& point = ramp.points[i];
        way += i > 0 ? signal_apart(ramp.points[i - 1], point) : 0.0;
        course.way.push_back(course.rising ? std::log(largest_signal(point)) : way);
        const std::array<double, 3> meant = intended.xyz(point.signal);
        course.logarithm.emplace_back();
        bool known = true;
        for (std::size_t k = 0; k < 3; ++k) {
            const double above = point.xyz[k] - course.black[k];
            const double expected = meant[k] - meant_black[k];
            known = known && above > 4.0 * course.scatter(i) * point.xyz[k] && above > 0.0 &&
                    expected > 0.0;
            course.logarithm[i][k] = known ? std::log(above / expected) : 0.0;
        }
        course.known.push_back(known);
    }
    const auto first = std::find(course.known.begin(), course.known.end(), true);
    course.first = static_cast<std::size_t>(first - course.known.begin());
    return course;
}

/// The points around a step from `i` to `i + 1`, and what each logarithm counts towards the jump between the two.
struct JumpWeights {
    std::size_t begin = 0;
    std::vector<double> weights;
};

/// `half` points on each side where there are as many, and a curve of the degree `half - 1`.
inline std::optional<JumpWeights> jump_weights(const RampCourse& course, std::size_t i,
                                               std::size_t half) {
    const std::size_t size = course.way.size();
    const std::size_t wanted = 2 * half;
    if (i < course.first || course.first + wanted > size) {
        return std::nullopt;
    }
    const std::size_t low = i + 1 > half + course.first ? i + 1 - half : course.first;
    JumpWeights jump{std::min(low, size - wanted), std::vector<double>(wanted)};
    const auto begin = course.known.begin() + static_cast<std::ptrdiff_t>(jump.begin);
    if (!std::all_of(begin, begin + static_cast<std::ptrdiff_t>(wanted),
                     [](bool k) { return k; })) {
        return std::nullopt;
    }
    const auto rows = static_cast<Eigen::Index>(wanted);
    const auto columns = static_cast<Eigen::Index>(half) + 1;
    Eigen::MatrixXd model(rows, columns);
    const double scale = course.way[jump.begin + wanted - 1] - course.way[jump.begin];
    for (Eigen::Index r = 0; r < rows; ++r) {
        const std::size_t at = jump.begin + static_cast<std::size_t>(r);
        double power = 1.0;
        for (Eigen::Index c = 0; c + 1 < columns; ++c) {
            model(r, c) = power;
            power *= (course.way[at] - course.way[i]) / scale;
        }
        model(r, columns - 1) = at > i ? 1.0 : 0.0;
    }
    const Eigen::MatrixXd solved =
        dense::solve_positive(dense::transposed_product(model, model), model.transpose());
    for (std::size_t r = 0; r < wanted; ++r) {
        jump.weights[r] = solved(columns - 1, static_cast<Eigen::Index>(r));
    }
    return jump;
}

inline std::array<double, 3> jump_between(const RampCourse& course, const JumpWeights& weights) {
    std::array<double, 3> jump{};
    for (std::size_t r = 0; r < weights.weights.size(); ++r) {
        for (std::size_t k = 0; k < 3; ++k) {
            jump[k] += weights.weights[r] * course.logarithm[weights.begin + r][k];
        }
    }
    return jump;
}

/// By how much a step `read` goes beyond the step `expected`, in a space where distances are visible steps.
inline double beyond_expected(const std::array<double, 3>& read,
                              const std::array<double, 3>& expected) {
    double along = 0.0;
    double size = 0.0;
    double meant = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        along += read[k] * expected[k];
        size += read[k] * read[k];
        meant += expected[k] * expected[k];
    }
    size = std::sqrt(size);
    meant = std::sqrt(meant);
    // The second is the part that leads back.
    return meant > 0.0 ? std::max(size - meant, -along / meant) : size;
}

/// A step as vectors: of luminance, and of the rest.
struct StepVectors {
    std::array<double, 3> luminance{}, colour{};
};

inline StepVectors step_vectors(const std::array<double, 3>& a, const std::array<double, 3>& b,
                                StepKind kind) {
    const SteppedColour from = stepped_colour(a);
    const SteppedColour to = stepped_colour(b);
    StepVectors step;
    const bool grey = kind == StepKind::grey;
    if (grey) {
        const double steps = visible_step(from, to, kind).luminance;
        step.luminance[0] = b[1] < a[1] ? -steps : steps;
    }
    // BT.2124: 720 times I, half of Ct, and Cp.
    constexpr std::array<double, 3> scale = {720.0, 360.0, 720.0};
    for (std::size_t k = grey ? 1 : 0; k < 3; ++k) {
        step.colour[k] = scale[k] * (to.ictcp[k] - from.ictcp[k]);
    }
    return step;
}

inline VisibleStep beyond_of(const StepVectors& read, const StepVectors& expected) {
    return {beyond_expected(read.luminance, expected.luminance),
            beyond_expected(read.colour, expected.colour)};
}

/// The light that would have been read at the step's end without the jump.
inline std::array<double, 3> without_jump(const RampCourse& course, std::size_t i,
                                          const std::array<double, 3>& jump) {
    std::array<double, 3> xyz{};
    for (std::size_t k = 0; k < 3; ++k) {
        xyz[k] =
            course.black[k] + (course.point(i + 1).xyz[k] - course.black[k]) * std::exp(-jump[k]);
    }
    return xyz;
}

/// What of the step's beyond is due to one reading's scatter, all else as it is.
inline VisibleStep beyond_with(const RampCourse& course, std::size_t i,
                               const std::array<double, 3>& jump, const JumpWeights& weights,
                               std::array<std::size_t, 2> moved) {
    const auto [at, k] = moved;
    std::array<double, 3> other = jump;
    other[k] += weights.weights[at - weights.begin] * course.moved(at, k);
    std::array<double, 3> from = course.point(i).xyz;
    std::array<double, 3> to = course.point(i + 1).xyz;
    std::array<double, 3> expected = without_jump(course, i, other);
    const double grown = 1.0 + course.scatter(at);
    if (at == i) {
        from[k] *= grown;
    } else if (at == i + 1) {
        to[k] *= grown;
        expected[k] = course.black[k] + (to[k] - course.black[k]) * std::exp(-other[k]);
    }
    const StepKind kind = course.ramp->kind;
    return beyond_of(step_vectors(from, to, kind), step_vectors(from, expected, kind));
}

inline void take_smooth_step(const RampCourse& course, std::size_t i, SmoothStep& step) {
    const auto narrow = jump_weights(course, i, 3);
    const auto wide = jump_weights(course, i, 4);
    const StepKind kind = course.ramp->kind;
    const std::array<double, 3>& from = course.point(i).xyz;
    const StepVectors read = step_vectors(from, course.point(i + 1).xyz, kind);
    const auto steps = [&](const std::array<double, 3>& to) {
        return visible_step(stepped_colour(from), stepped_colour(to), kind);
    };
    step.read = steps(course.point(i + 1).xyz);
    step.expected = step.read;
    if (!narrow || !wide) {
        return;
    }
    step.known = true;
    const auto jump = jump_between(course, *narrow);
    const std::array<double, 3> expected = without_jump(course, i, jump);
    step.expected = steps(expected);
    step.beyond = beyond_of(read, step_vectors(from, expected, kind));
    step.beyond_wider = beyond_of(
        read, step_vectors(from, without_jump(course, i, jump_between(course, *wide)), kind));
    for (std::size_t r = 0; r < narrow->weights.size(); ++r) {
        for (std::size_t k = 0; k < 3; ++k) {
            const VisibleStep off = beyond_with(course, i, jump, *narrow, {narrow->begin + r, k});
            const double luminance = off.luminance - step.beyond.luminance;
            const double colour = off.colour - step.beyond.colour;
            step.variance.luminance += luminance * luminance;
            step.variance.colour += colour * colour;
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<SmoothStep> smooth_steps(const MeasuredRamp& ramp, double noise,
                                                      const IntendedDisplay& intended) {
    if (ramp.points.size() < least_ramp_points) {
        throw Error(ErrorKind::input, "ramp", std::to_string(ramp.points.size()) + " points",
                    std::to_string(least_ramp_points) + " or more");
    }
    const detail::RampCourse course = detail::ramp_course(ramp, noise, intended);
    std::vector<SmoothStep> steps(ramp.points.size() - 1);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        detail::take_smooth_step(course, i, steps[i]);
        // There a curve's bend and a jump are the same thing.
        if (course.rising && i < course.first + 1) {
            steps[i].known = false;
        }
    }
    return steps;
}

}  // namespace samelight
