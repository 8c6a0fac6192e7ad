#pragma once
// The bodies of meter/correction/fit_noise.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/small_algebra.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::size_t repeats_of(const ReadingSet& set) {
    std::size_t repeats = 0;
    for (const Patch& patch : set.patches()) {
        repeats += patch.count() - 1;
    }
    return repeats;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The rows of both instruments' Y alone.
inline ReadingNoise luminance_alone(const ReadingNoise& noise) {
    ReadingNoise result{{}, noise.degrees_of_freedom};
    for (const std::size_t i : {2U, 5U}) {
        for (const std::size_t k : {2U, 5U}) {
            result.covariance.at(6 * i + k) = noise.covariance.at(6 * i + k);
        }
    }
    return result;
}

/// Noise stated for x and y alone: that of Y is the repeats', with as few degrees of freedom as they have; unknown without repeats.
inline FitNoise stated_without_luminance(const ReadingSet& set, std::size_t used,
                                         const ReadingNoise& stated) {
    FitNoise noise{{stated}, std::vector<std::size_t>(used, 0), {}, 0};
    if (repeats_of(set) < fewest_repeats) {
        return noise;
    }
    ReadingNoise xy = stated;
    xy.luminance_known = true;
    const ReadingNoise luminance = luminance_alone(pooled_noise(set.patches()));
    ReadingNoise both = luminance;
    for (std::size_t i = 0; i < both.covariance.size(); ++i) {
        both.covariance.at(i) += xy.covariance.at(i);
    }
    noise.groups = {xy, luminance, both};
    noise.luminance = 1;
    noise.any_reading = 2;
    return noise;
}

/// What rounding does to one pair of readings of a patch.
inline ReadingNoise rounding_noise(const ReadingSet& set, const Patch& patch) {
    ReadingNoise noise;
    for (const Instrument instrument : {Instrument::meter, Instrument::reference}) {
        const Resolution& resolution = set.resolution(instrument);
        if (!resolution.known()) {
            continue;
        }
        const auto c = resolution.covariance(patch.of(instrument));
        const std::size_t first = instrument == Instrument::meter ? 0 : 3;
        for (std::size_t i = 0; i < 9; ++i) {
            noise.covariance.at(6 * (first + i / 3) + first + i % 3) = c.at(i);
        }
    }
    return noise;
}

SAMELIGHT_INLINE void warn_if_noise_differs(const ReadingSet& set, std::vector<Warning>& to) {
    const std::vector<Patch>& patches = set.patches();
    constexpr std::array<std::size_t, 4> chromaticities = {0, 1, 3, 4};
    // Others that agree to the last digit scatter by what that digit hides.
    constexpr double least_variance = 1e-12;
    const double share = 0.01 / static_cast<double>(chromaticities.size() * patches.size());
    std::vector<ReadingNoise::Matrix6> sums;
    ReadingNoise::Matrix6 all = ReadingNoise::Matrix6::Zero();
    double all_freedom = 0.0;
    for (const Patch& patch : patches) {
        sums.push_back(scatter(patch));
        all += sums.back();
        all_freedom += static_cast<double>(patch.count() - 1);
    }
    double limit = 0.0;
    double limit_for = 0.0;  // as a rule all patches were read equally often
    for (std::size_t p = 0; p < patches.size(); ++p) {
        const double own = static_cast<double>(patches[p].count() - 1);
        const double rest = all_freedom - own;
        if (!(own > 0.0) || !(rest > 0.0)) {
            continue;
        }
        if (own != limit_for) {
            limit = fisher_quantile(1.0 - share, own, rest);
            limit_for = own;
        }
        const ReadingNoise rounding = rounding_noise(set, patches[p]);
        for (const std::size_t k : chromaticities) {
            const auto i = static_cast<Eigen::Index>(k);
            const double mine = sums[p](i, i) / own;
            const double others = std::max(
                {(all(i, i) - sums[p](i, i)) / rest, rounding.covariance[7 * k], least_variance});
            if (mine > limit * others) {
                to.push_back(Warning{"noise_differs",
                                     {{"quantity", k % 3 == 0 ? "x" : "y"},
                                      {"instrument", k < 3 ? "meter" : "reference"},
                                      {"times", std::sqrt(mine / others)},
                                      {"patch", patches[p].name}}});
                return;
            }
        }
    }
}

inline FitNoise scatter_before_fit(const ReadingSet& set, const std::vector<const Patch*>& used,
                                   NoiseFrom from, const std::optional<ReadingNoise>& stated) {
    FitNoise noise;
    if (from == NoiseFrom::stated) {
        if (!stated) {
            throw Error(ErrorKind::domain, "fit_correction", "stated noise that is not there",
                        "the noise of one pair of readings");
        }
        if (!stated->luminance_known) {
            return stated_without_luminance(set, used.size(), *stated);
        }
        return {{*stated}, std::vector<std::size_t>(used.size(), 0), {}, 0};
    }
    if (from == NoiseFrom::each_patch) {
        constexpr std::size_t fewest = 3;  // two deviations at least, to span x and y
        for (const Patch* patch : used) {
            if (patch->count() < fewest) {
                throw Error(ErrorKind::shape, "fit_correction",
                            "patch " + patch->name + " read " + std::to_string(patch->count()) +
                                (patch->count() == 1 ? " time" : " times"),
                            "3 repeats or more, better 6, for each patch's own noise");
            }
            noise.group_of_patch.push_back(noise.groups.size());
            noise.groups.push_back(patch_noise(*patch));
        }
        return noise;
    }
    if (from == NoiseFrom::pooled && repeats_of(set) >= fewest_repeats) {
        return {{pooled_noise(set.patches())}, std::vector<std::size_t>(used.size(), 0), {}, 0};
    }
    return noise;
}

SAMELIGHT_INLINE FitNoise noise_before_fit(const ReadingSet& set,
                                           const std::vector<const Patch*>& used, NoiseFrom from,
                                           const std::optional<ReadingNoise>& stated) {
    FitNoise noise = scatter_before_fit(set, used, from, stated);
    const Resolutions& digits = set.resolution();
    if ((from == NoiseFrom::stated && !noise.luminance) || noise.groups.empty() ||
        !(digits.reference.known() || digits.meter.known())) {
        return noise;
    }
    for (const Patch* patch : used) {
        const ReadingNoise rounding = rounding_noise(set, *patch);
        noise.rounding.push_back(noise.luminance ? luminance_alone(rounding) : rounding);
    }
    return noise;
}

SAMELIGHT_INLINE FitNoise noise_from_residuals(const std::vector<const Patch*>& patches,
                                               const Correction& correction) {
    constexpr std::size_t fitted = 3;
    const bool least_squares = correction.method == CorrectionMethod::least_squares ||
                               correction.method == CorrectionMethod::white_exact_least_squares;
    if (!least_squares || patches.size() < fitted + 3) {
        throw Error(ErrorKind::shape, "fit_correction",
                    "noise from the residuals of " + std::to_string(patches.size()) +
                        " patches by the method " + code_of(correction.method),
                    "an unweighted least-squares method and 6 patches or more");
    }
    ReadingNoise::Matrix6 sum = ReadingNoise::Matrix6::Zero();
    std::size_t i = 0;
    for (const PatchResidual& residual : correction.residuals) {
        if (!residual.fitted) {
            continue;
        }
        Vector6 d = Vector6::Zero();
        d.tail<3>() << residual.after.x, residual.after.y, residual.after.luminance;
        // A residual belongs to a mean; one pair scatters more.
        sum += static_cast<double>(patches[i++]->count()) * dense::product_transposed(d, d);
    }
    return {{noise_from(sum, static_cast<double>(patches.size() - fitted))},
            std::vector<std::size_t>(patches.size(), 0),
            {},
            {}};
}

/// How the parameters move with the mean black, which is in every patch of the instruments it was taken from; by X, Y, Z.
inline NoiseTerm::Matrix moved_by_black(const MatrixFit& fit,
                                        const std::vector<const Patch*>& patches,
                                        const Black& black) {
    NoiseTerm::Matrix result = NoiseTerm::Matrix::Zero();
    for (std::size_t i = 0; i < patches.size(); ++i) {
        if (black.meter.above_noise()) {
            result.leftCols<3>() -= dense::product(
                fit.by_patch[i].leftCols<3>(), dense::inverse_3x3(xyz_by_xyY(patches[i]->meter)));
        }
        if (black.reference.above_noise()) {
            result.rightCols<3>() -=
                dense::product(fit.by_patch[i].rightCols<3>(),
                               dense::inverse_3x3(xyz_by_xyY(patches[i]->reference)));
        }
    }
    return result;
}

inline void add_term(Correction& correction, const std::string& patch,
                     const NoiseTerm::Matrix& by_reading, double count, std::size_t group,
                     bool rounding = false) {
    NoiseTerm term{patch, {}, count, group, rounding};
    Eigen::Map<NoiseTerm::Matrix>(term.parameters_from_reading.data()) = by_reading;
    correction.noise_terms.push_back(term);
}

/// Adds a term's covariance of the ten parameters, 10 x 10.
inline void add_covariance(const Correction& correction, const NoiseTerm& term,
                           std::array<double, 100>& to) {
    add_carried(term.parameters_from_reading, correction.noise[term.group].covariance,
                term.parameters_from_reading, 1.0 / term.count, to);
}

inline void sum_terms(Correction& correction) {
    std::array<double, 100> total{};
    for (const NoiseTerm& term : correction.noise_terms) {
        add_covariance(correction, term, total);
    }
    ParameterCovariance covariance;
    for (const ReadingNoise& noise : correction.noise) {
        covariance.luminance_known = covariance.luminance_known && noise.luminance_known;
    }
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t j = 0; j < 9; ++j) {
            covariance.elements[9 * i + j] = 0.5 * (total[10 * i + j] + total[10 * j + i]);
        }
        covariance.with_luminance[i] = total[10 * i + 9];
    }
    covariance.luminance = total[99];
    correction.covariance = covariance;
}

/// The fewest degrees of freedom of any part that makes over 1 % of the variance of some parameter. A part below that adds less than 1e-4 of the
/// inverse of its own to the inverse of the whole (Welch's and Satterthwaite's formula), so that a dim black read three times does not decide.
inline double fewest_degrees_of_freedom(const Correction& correction) {
    constexpr double least_share = 0.01;
    std::vector<std::array<double, 100>> part(correction.noise.size());
    std::array<double, 10> total{};
    for (const NoiseTerm& term : correction.noise_terms) {
        add_covariance(correction, term, part[term.group]);
    }
    for (const auto& p : part) {
        for (std::size_t k = 0; k < 10; ++k) {
            total[k] += p[11 * k];
        }
    }
    double fewest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < part.size(); ++i) {
        for (std::size_t k = 0; k < 10; ++k) {
            if (part[i][11 * k] > least_share * total[k]) {
                fewest = std::min(fewest, correction.noise[i].degrees_of_freedom);
            }
        }
    }
    return fewest;
}

SAMELIGHT_INLINE void carry_noise(Correction& correction, const MatrixFit& fit,
                                  const std::vector<const Patch*>& patches, const FitNoise& noise,
                                  const std::optional<Black>& black) {
    if (noise.groups.empty()) {
        return;
    }
    correction.noise = noise.groups;
    correction.reading_noise = noise.any_reading;
    for (std::size_t i = 0; i < patches.size(); ++i) {
        add_term(correction, patches[i]->name, fit.by_patch[i],
                 static_cast<double>(patches[i]->count()), noise.group_of_patch[i]);
        if (noise.luminance) {
            add_term(correction, patches[i]->name, fit.by_patch[i],
                     static_cast<double>(patches[i]->count()), *noise.luminance);
        }
    }
    if (black && (black->meter.above_noise() || black->reference.above_noise())) {
        add_term(correction, "black", moved_by_black(fit, patches, *black),
                 static_cast<double>(black->count), correction.noise.size());
        correction.noise.push_back(black->scatter);
    }
    for (std::size_t i = 0; i < noise.rounding.size(); ++i) {
        add_term(correction, patches[i]->name, fit.by_patch[i], 1.0, correction.noise.size(), true);
        correction.noise.push_back(noise.rounding[i]);
    }
    correction.degrees_of_freedom = fewest_degrees_of_freedom(correction);
    sum_terms(correction);
}

}  // namespace samelight::detail
