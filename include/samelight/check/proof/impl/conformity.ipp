#pragma once
// The bodies of check/proof/conformity.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include "samelight/check/proof/conformity.hpp"
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

/// The lower factor of a covariance of ten parameters, which need not have full rank.
inline std::array<double, 100> gate_factor(const ParameterCovariance& covariance) {
    std::array<double, 100> l{};
    for (std::size_t i = 0; i < 10; ++i) {
        for (std::size_t j = 0; j < 10; ++j) {
            if (i < 9 && j < 9) {
                l[10 * i + j] = covariance.elements[9 * i + j];
            } else if (covariance.luminance_known) {
                l[10 * i + j] =
                    i == j ? covariance.luminance : covariance.with_luminance[std::min(i, j)];
            }
        }
    }
    double most = 0.0;
    for (std::size_t i = 0; i < 10; ++i) {
        most = std::max(most, l[11 * i]);
    }
    for (std::size_t j = 0; j < 10; ++j) {
        double pivot = l[11 * j];
        for (std::size_t k = 0; k < j; ++k) {
            pivot -= l[10 * j + k] * l[10 * j + k];
        }
        const double root = pivot > 1e-14 * most ? std::sqrt(pivot) : 0.0;
        for (std::size_t i = j; i < 10; ++i) {
            double sum = l[10 * i + j];
            for (std::size_t k = 0; k < j; ++k) {
                sum -= l[10 * i + k] * l[10 * j + k];
            }
            l[10 * i + j] = root > 0.0 ? (i == j ? root : sum / root) : 0.0;
        }
        for (std::size_t k = j + 1; k < 10; ++k) {
            l[10 * j + k] = 0.0;
        }
    }
    return l;
}

/// Corrected readings drawn anew: a 3 x 3 matrix that takes those at hand there.
class DrawnCorrection {
  public:
    DrawnCorrection(const Correction& correction, const std::array<double, 3>& white)
        : matrix_(correction.reference_from_meter),
          from_corrected_(inverse(square(correction.reference_from_meter))),
          factor_(gate_factor(*correction.covariance)),
          scales_(GateDraws::scales(
              correction.degrees_of_freedom > 0.0 ? correction.degrees_of_freedom : 1e6)),
          white_(white) {}

    Matrix3 next(GateDraws& draws) const {
        std::array<double, 10> z{};
        for (double& value : z) {
            value = draws.normal();
        }
        const double scale = draws.one_of(scales_);
        std::array<double, 9> moved = matrix_;
        for (std::size_t i = 0; i < 9; ++i) {
            for (std::size_t k = 0; k <= i; ++k) {
                moved[i] += scale * factor_[10 * i + k] * z[k];
            }
        }
        Matrix3 result = product(square(moved), from_corrected_);
        // The white's luminance is what it was read as, whatever the correction's scale: so is what was meant.
        const double keep = white_[1] / times(result, white_)[1];
        for (auto& row : result) {
            for (double& value : row) {
                value *= keep;
            }
        }
        return result;
    }

  private:
    static Matrix3 square(const std::array<double, 9>& m) {
        return {{{m[0], m[1], m[2]}, {m[3], m[4], m[5]}, {m[6], m[7], m[8]}}};
    }

    std::array<double, 9> matrix_;
    Matrix3 from_corrected_;
    std::array<double, 100> factor_;
    std::vector<double> scales_;
    std::array<double, 3> white_;
};

/// Trials on some of the patches.
class GateTrials {
  public:
    GateTrials(const GateQuestion& question, std::uint64_t seed)
        : question_(question),
          draws_(seed),
          scales_(GateDraws::scales(question.noise.degrees_of_freedom)) {
        if (question.correction && question.correction->covariance) {
            correction_.emplace(*question.correction, question.white);
        }
    }

    /// CIEDE2000 of the patches in one trial, by what scatters: noise, correction or both.
    enum class Scatters { noise, correction, both };
    void draw(const std::vector<std::size_t>& patches, Scatters by, std::vector<double>& de00) {
        const bool with_correction = correction_ && by != Scatters::noise;
        const Matrix3 moved = with_correction ? correction_->next(draws_) : Matrix3{};
        const double scale = by == Scatters::correction ? 0.0 : draws_.one_of(scales_);
        de00.clear();
        for (const std::size_t i : patches) {
            std::array<double, 3> xyz{};
            std::array<double, 3> kept{};
            for (std::size_t k = 0; k < 3; ++k) {
                kept[k] = kept_of(i, k);
                const double meant = question_.intended[i][k];
                xyz[k] = meant + kept[k] * (question_.measured[i][k] - meant);
            }
            if (with_correction) {
                xyz = times(moved, xyz);
            }
            for (std::size_t k = 0; scale > 0.0 && k < 3; ++k) {
                const double share =
                    scale * std::sqrt(kept[k] / static_cast<double>(question_.counts[i]));
                xyz[k] += share * question_.noise.standard_deviation(xyz[k]) * draws_.normal();
            }
            de00.push_back(de00_of_lights(xyz, question_.intended[i], question_.white));
        }
    }
    [[nodiscard]] bool corrects() const { return correction_.has_value(); }

    /// The share of errors like these that isn't noise: what is read is drawn towards what is meant by the rest.
    void keep(double share) { kept_ = share; }

  private:
    /// Nothing is drawn further than a standard deviation of its noise: a patch that is far off among good ones stays far off.
    /// Source: Efron & Morris 1972, J. Am. Stat. Assoc. 67:130 (limited translation; from memory).
    [[nodiscard]] double kept_of(std::size_t patch, std::size_t value) const {
        const double off =
            std::abs(question_.measured[patch][value] - question_.intended[patch][value]);
        const double sd = question_.noise.standard_deviation(question_.measured[patch][value]) /
                          std::sqrt(static_cast<double>(question_.counts[patch]));
        return off > 0.0 ? std::max(kept_, 1.0 - sd / off) : kept_;
    }

    const GateQuestion& question_;
    GateDraws draws_;
    std::vector<double> scales_;
    std::optional<DrawnCorrection> correction_;
    double kept_ = 1.0;
};

/// What is read has the noise in it, and the largest of many the most: of the errors' squares, in squares of the noise, 1 is noise. From the patches
/// that may be the largest; never below a third, for what few patches say of themselves isn't sure.
/// Source: Morris 1983, J. Am. Stat. Assoc. 78:47 (empirical Bayes; from memory); the limit and the choice of patches are ours.
inline double share_of_errors(const GateQuestion& question,
                              const std::vector<std::size_t>& patches) {
    std::vector<double> squares;
    for (const std::size_t i : patches) {
        double sum = 0.0;
        for (std::size_t k = 0; k < 3; ++k) {
            const double sd = question.noise.standard_deviation(question.measured[i][k]);
            const double off = question.measured[i][k] - question.intended[i][k];
            sum += off * off * static_cast<double>(question.counts[i]) / (3.0 * sd * sd);
        }
        squares.push_back(sum);
    }
    return std::clamp(1.0 - 1.0 / std::max(sample_quantile(squares, 0.5), 1e-9), 1.0 / 3.0, 1.0);
}

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
inline double gate_spread_by(const GateQuestion& question, std::size_t patch,
                             GateTrials::Scatters by) {
    GateTrials trials(question, 2);
    std::vector<double> all;
    std::vector<double> one;
    for (int t = 0; t < 400; ++t) {
        trials.draw({patch}, by, one);
        all.push_back(one.front());
    }
    return gate_spread(all);
}

/// The patches that may be the largest: within five standard deviations of it, of the 400 largest as measured.
inline std::vector<std::size_t> contenders(const GateQuestion& question,
                                           const std::vector<double>& de00) {
    std::vector<std::size_t> order(de00.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const std::size_t most = std::min<std::size_t>(order.size(), 400);
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(most), order.end(),
                      [&](std::size_t a, std::size_t b) {
                          return de00[a] > de00[b] || (de00[a] == de00[b] && a < b);
                      });
    order.resize(most);
    GateTrials trials(question, 3);
    constexpr std::size_t first = 24;
    std::vector<std::vector<double>> drawn(order.size());
    std::vector<double> one;
    for (std::size_t t = 0; t < first; ++t) {
        trials.draw(order, GateTrials::Scatters::both, one);
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
    return result;
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
    const double guarded = normal_probability(2.0);
    if (probability >= guarded) {
        return GateVerdict::pass;
    }
    return probability <= 1.0 - guarded ? GateVerdict::fail : GateVerdict::cannot_tell;
}

SAMELIGHT_INLINE GateAnswer answer_gate(const GateQuestion& question) {
    detail::require_question(question);
    std::vector<double> de00;
    GateAnswer answer;
    for (std::size_t i = 0; i < question.measured.size(); ++i) {
        de00.push_back(de00_of_lights(question.measured[i], question.intended[i], question.white));
        if (de00[i] > answer.largest) {
            answer.largest = de00[i];
            answer.at = i;
        }
    }
    const std::vector<std::size_t> patches = detail::contenders(question, de00);
    detail::GateTrials trials(question, 1);
    trials.keep(detail::share_of_errors(question, patches));
    std::vector<double> one;
    std::vector<double> largest;
    std::size_t kept = 0;
    for (std::size_t t = 0; t < detail::gate_trials; ++t) {
        trials.draw(patches, detail::GateTrials::Scatters::both, one);
        largest.push_back(*std::max_element(one.begin(), one.end()));
        kept += largest.back() <= question.gate ? 1 : 0;
    }
    answer.probability = static_cast<double>(kept) / static_cast<double>(detail::gate_trials);
    answer.standard_uncertainty = detail::gate_spread(largest);
    answer.guard_band = 2.0 * answer.standard_uncertainty;
    answer.from_noise =
        detail::gate_spread_by(question, answer.at, detail::GateTrials::Scatters::noise);
    answer.from_correction =
        trials.corrects()
            ? detail::gate_spread_by(question, answer.at, detail::GateTrials::Scatters::correction)
            : 0.0;
    answer.verdict = gate_verdict(answer.probability);
    // What was read within the gate has failed nothing: so much noise leaves it open.
    if (answer.verdict == GateVerdict::fail && answer.largest <= question.gate) {
        answer.verdict = GateVerdict::cannot_tell;
    }
    return answer;
}

}  // namespace samelight
