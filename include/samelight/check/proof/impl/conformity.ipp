#pragma once
// The bodies of check/proof/conformity.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include "samelight/check/proof/conformity.hpp"
#include "samelight/check/proof/impl/error_model.ipp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr std::size_t gate_trials = 2000;

/// Numbers of a distribution by strata: cheap, and the same everywhere.
class GateDraws {
  public:
    explicit GateDraws(std::uint64_t seed) : random_(seed), normal_(strata()) {}
    double normal() { return normal_[random_.next() >> 52]; }
    double unit() { return random_.next_unit(); }

    /// What a standard deviation known with so many degrees of freedom is to be multiplied with.
    static std::vector<double> scales(double freedom) {
        std::vector<double> scales(64, 1.0);
        for (std::size_t i = 0; i < scales.size() && freedom < 1e4; ++i) {
            const double p = (static_cast<double>(i) + 0.5) / static_cast<double>(scales.size());
            scales[i] = std::sqrt(freedom / chi_squared_quantile(p, freedom));
        }
        return scales;
    }
    double one_of(const std::vector<double>& scales) { return scales[random_.next() >> 58]; }

  private:
    /// Made once: they cost more than all else.
    static const std::array<double, 4096>& strata() {
        static const std::array<double, 4096> values = [] {
            std::array<double, 4096> made{};
            for (std::size_t i = 0; i < made.size(); ++i) {
                made[i] = normal_quantile((static_cast<double>(i) + 0.5) /
                                          static_cast<double>(made.size()));
            }
            return made;
        }();
        return values;
    }

    PseudoRandom random_;
    const std::array<double, 4096>& normal_;
};

/// Trials on some of the patches.
class GateTrials {
  public:
    GateTrials(const GateQuestion& question, const ErrorModel& errors, std::uint64_t seed)
        : question_(question),
          errors_(errors),
          draws_(seed),
          scales_(GateDraws::scales(question.noise.degrees_of_freedom)) {}

    /// CIEDE2000 of what the patches may truly give.
    void draw(const std::vector<std::size_t>& patches, std::vector<double>& de00) {
        const double scale = draws_.one_of(scales_);
        const Eigen::VectorXd common =
            errors_.common_drawn(scale * normals(errors_.common_count()));
        de00.clear();
        for (const std::size_t i : patches) {
            de00.push_back(length(i, true_errors(i, common, scale * scale)));
        }
    }
    /// The same of one patch as measured, where the noise alone scatters.
    double with_noise(std::size_t i) {
        const PatchErrors& patch = errors_.patch(i);
        const double scale = draws_.one_of(scales_);
        return length(i, patch.off + scale * patch.variance.cwiseSqrt().cwiseProduct(normals(3)));
    }
    /// And where the correction alone does.
    double with_correction(std::size_t i) {
        const PatchErrors& patch = errors_.patch(i);
        const Eigen::Index n = errors_.correction_count();
        return length(i, patch.off + common_part(patch.common.rightCols(n), normals(n)));
    }

  private:
    Eigen::VectorXd normals(Eigen::Index count) {
        Eigen::VectorXd values(count);
        for (double& value : values) {
            value = draws_.normal();
        }
        return values;
    }

    /// noise: its variance, over that which is stated.
    Eigen::Vector3d true_errors(std::size_t i, const Eigen::VectorXd& common, double noise) {
        const PatchErrors& patch = errors_.patch(i);
        const Eigen::Index n = errors_.display_count();
        const Eigen::Vector3d rest = patch.off - common_part(patch.common, common);
        Eigen::Vector3d at = common_part(patch.common.leftCols(n), common.head(n));
        for (std::size_t j = 0; j < 3; ++j) {
            const auto axis = static_cast<Eigen::Index>(j);
            const double size = errors_.size_drawn(i, j, draws_.unit());
            const double variance = noise * patch.variance[axis];
            const double kept = size / (size + variance);
            at[axis] += kept * rest[axis] + std::sqrt(kept * variance) * draws_.normal();
        }
        return at;
    }

    [[nodiscard]] double length(std::size_t i, const Eigen::Vector3d& errors) const {
        const Eigen::Vector3d xyz = errors_.patch(i).xyz_from_coordinates * errors;
        const std::array<double, 3>& meant = question_.intended[i];
        return de00_of_lights({meant[0] + xyz[0], meant[1] + xyz[1], meant[2] + xyz[2]}, meant,
                              question_.white);
    }

    const GateQuestion& question_;
    const ErrorModel& errors_;
    GateDraws draws_;
    std::vector<double> scales_;
};

/// Standard deviation, as each patch's values come.
inline double gate_spread(const std::vector<double>& values) {
    double mean = 0.0;
    for (const double v : values) {
        mean += v / static_cast<double>(values.size());
    }
    double sum = 0.0;
    for (const double v : values) {
        sum += (v - mean) * (v - mean);
    }
    return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

/// Of one patch, by one cause.
inline double gate_spread_by(GateTrials trials, std::size_t patch,
                             double (GateTrials::*drawn)(std::size_t)) {
    std::vector<double> values;
    for (int t = 0; t < 400; ++t) {
        values.push_back((trials.*drawn)(patch));
    }
    return gate_spread(values);
}

/// The patches that may be the largest: within five standard deviations of it, of the 400 largest as measured.
inline std::vector<std::size_t> contenders(const GateQuestion& question, const ErrorModel& errors,
                                           const std::vector<double>& de00) {
    std::vector<std::size_t> order(de00.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const std::size_t most = std::min<std::size_t>(order.size(), 400);
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(most), order.end(),
                      [&](std::size_t a, std::size_t b) {
                          return de00[a] > de00[b] || (de00[a] == de00[b] && a < b);
                      });
    order.resize(most);
    GateTrials trials(question, errors, 3);
    constexpr std::size_t first = 24;
    std::vector<std::vector<double>> drawn(order.size());
    std::vector<double> one;
    for (std::size_t t = 0; t < first; ++t) {
        trials.draw(order, one);
        for (std::size_t i = 0; i < one.size(); ++i) {
            drawn[i].push_back(one[i]);
        }
    }
    std::vector<double> spread;
    for (const auto& values : drawn) {
        spread.push_back(gate_spread(values));
    }
    double floor = 0.0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        floor = std::max(floor, de00[order[i]] - 5.0 * spread[i]);
    }
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (de00[order[i]] + 5.0 * spread[i] >= floor) {
            result.push_back(order[i]);
        }
    }
    // A comparison with what is no number holds for none.
    if (result.empty()) {
        throw Error(ErrorKind::domain, "answer_gate", "errors that are no numbers",
                    "noise and a correction's covariance of finite numbers");
    }
    return result;
}

inline std::vector<double> measured_de00(const GateQuestion& question) {
    std::vector<double> de00;
    for (std::size_t i = 0; i < question.measured.size(); ++i) {
        de00.push_back(de00_of_lights(question.measured[i], question.intended[i], question.white));
    }
    return de00;
}

/// What the largest of all may truly be, from small to large.
inline std::vector<double> drawn_largest(const GateQuestion& question, const ErrorModel& errors,
                                         const std::vector<double>& de00) {
    const std::vector<std::size_t> patches = contenders(question, errors, de00);
    GateTrials trials(question, errors, 1);
    std::vector<double> one;
    std::vector<double> largest;
    for (std::size_t t = 0; t < gate_trials; ++t) {
        trials.draw(patches, one);
        largest.push_back(*std::max_element(one.begin(), one.end()));
    }
    std::sort(largest.begin(), largest.end());
    return largest;
}

/// The limits at which the rule would just pass and just fail, about the middle.
inline void add_guard_bands(const std::vector<double>& largest, GateAnswer& answer) {
    const auto count = static_cast<double>(largest.size());
    answer.estimate = largest[largest.size() / 2];
    const auto pass = static_cast<std::size_t>(std::ceil(acceptance_probability * count)) - 1;
    const auto fail = static_cast<std::size_t>(std::floor((1.0 - acceptance_probability) * count));
    answer.guard_band = largest[pass] - answer.estimate;
    answer.guard_band_beyond = answer.estimate - largest[fail];
}

inline void require_question(const GateQuestion& question) {
    const std::size_t n = question.measured.size();
    if (n == 0 || question.intended.size() != n || question.counts.size() != n) {
        throw Error(ErrorKind::shape, "answer_gate", std::to_string(n) + " patches",
                    "one at least, and a target and a count for each");
    }
    if (!(question.gate > 0.0)) {
        throw Error(ErrorKind::domain, "answer_gate", "a gate of " + to_text(question.gate),
                    "one above 0");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double conformance_probability(double estimate, double standard_uncertainty,
                                                const ToleranceInterval& permitted) {
    if (!(standard_uncertainty > 0.0) || !std::isfinite(estimate)) {
        throw Error(ErrorKind::domain, "conformance_probability",
                    to_text(estimate) + " with " + to_text(standard_uncertainty),
                    "a finite estimate and an uncertainty above 0");
    }
    const auto below = [&](double limit) {
        return normal_probability((limit - estimate) / standard_uncertainty);
    };
    return below(permitted.high) - below(permitted.low);
}

SAMELIGHT_INLINE GateVerdict gate_verdict(double probability) {
    if (!(probability >= 0.0 && probability <= 1.0)) {
        throw Error(ErrorKind::domain, "gate_verdict", to_text(probability), "0 to 1");
    }
    if (probability >= acceptance_probability) {
        return GateVerdict::pass;
    }
    return probability <= 1.0 - acceptance_probability ? GateVerdict::fail
                                                       : GateVerdict::cannot_tell;
}

SAMELIGHT_INLINE std::vector<double> largest_draws(const GateQuestion& question) {
    detail::require_question(question);
    return detail::drawn_largest(question, detail::ErrorModel(question),
                                 detail::measured_de00(question));
}

SAMELIGHT_INLINE GateAnswer answer_gate(const GateQuestion& question) {
    detail::require_question(question);
    const std::vector<double> de00 = detail::measured_de00(question);
    GateAnswer answer;
    answer.at = static_cast<std::size_t>(std::max_element(de00.begin(), de00.end()) - de00.begin());
    answer.largest = de00[answer.at];
    const detail::ErrorModel errors(question);
    const std::vector<double> largest = detail::drawn_largest(question, errors, de00);
    const auto kept = std::upper_bound(largest.begin(), largest.end(), question.gate);
    answer.probability =
        static_cast<double>(kept - largest.begin()) / static_cast<double>(detail::gate_trials);
    answer.standard_uncertainty = detail::gate_spread(largest);
    detail::add_guard_bands(largest, answer);
    const detail::GateTrials by_cause(question, errors, 2);
    answer.from_noise =
        detail::gate_spread_by(by_cause, answer.at, &detail::GateTrials::with_noise);
    answer.from_correction =
        errors.correction_count() > 0
            ? detail::gate_spread_by(by_cause, answer.at, &detail::GateTrials::with_correction)
            : 0.0;
    answer.verdict = gate_verdict(answer.probability);
    // What was read within the gate has failed nothing: so much noise leaves it open.
    if (answer.verdict == GateVerdict::fail && answer.largest <= question.gate) {
        answer.verdict = GateVerdict::cannot_tell;
    }
    return answer;
}

}  // namespace samelight
