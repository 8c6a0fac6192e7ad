#pragma once
// The bodies of spectrum/deconvolution.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/passband.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

using SparseMatrix = Eigen::SparseMatrix<double>;

/// measured_from_true of passband_weights(), n x n.
inline SparseMatrix passband_matrix(std::span<const double> nm, double bandwidth_nm) {
    std::vector<Eigen::Triplet<double>> entries;
    for (const PassbandWeight& w : passband_weights(nm, bandwidth_nm)) {
        entries.emplace_back(w.measured, w.sample, w.weight);
    }
    const auto n = static_cast<Eigen::Index>(nm.size());
    SparseMatrix result(n, n);
    result.setFromTriplets(entries.begin(), entries.end());
    result.prune(0.0, 0.0);
    return result;
}

/// Second differences, (n - 2) x n: on an even grid 1, -2, 1; on an uneven one divided differences in units of the mean step.
inline SparseMatrix roughness_matrix(std::span<const double> nm) {
    const auto n = static_cast<Eigen::Index>(nm.size());
    const double step = (nm.back() - nm.front()) / static_cast<double>(nm.size() - 1);
    std::vector<Eigen::Triplet<double>> entries;
    for (std::size_t i = 1; i + 1 < nm.size(); ++i) {
        const double h0 = (nm[i] - nm[i - 1]) / step;
        const double h1 = (nm[i + 1] - nm[i]) / step;
        const double scale = 2.0 / (h0 + h1);
        const int r = static_cast<int>(i) - 1;
        entries.emplace_back(r, r, scale / h0);
        entries.emplace_back(r, r + 1, -scale / h0 - scale / h1);
        entries.emplace_back(r, r + 2, scale / h1);
    }
    SparseMatrix result(std::max<Eigen::Index>(n - 2, 0), n);
    result.setFromTriplets(entries.begin(), entries.end());
    return result;
}

/// Tikhonov's compromise: least |K s - m|^2 + lambda |L s|^2 over the spectra s, for one lambda after another.
class SmoothedInverse {
  public:
    SmoothedInverse(std::span<const double> nm, double bandwidth_nm, Eigen::VectorXd measured)
        : passband_(passband_matrix(nm, bandwidth_nm)), measured_(std::move(measured)) {
        const SparseMatrix rough = roughness_matrix(nm);
        fit_ = passband_.transpose() * passband_;
        roughness_ = rough.transpose() * rough;
        right_ = passband_.transpose() * measured_;
    }

    void set_smoothing(double lambda) {
        lambda_ = lambda;
        normal_ = fit_ + lambda * roughness_;
        factorise(normal_);
    }
    [[nodiscard]] double smoothing() const { return lambda_; }
    [[nodiscard]] Eigen::VectorXd solve() const { return factor_.solve(right_); }
    /// rms of what is left over.
    [[nodiscard]] double misfit(const Eigen::VectorXd& s) const {
        return (passband_ * s - measured_).norm() / std::sqrt(static_cast<double>(s.size()));
    }
    /// Noise of the middle sample over the noise of the measured ones: the norm of its row of the inverse.
    [[nodiscard]] double noise_gain() const {
        const Eigen::VectorXd middle = Eigen::VectorXd::Unit(normal_.rows(), normal_.rows() / 2);
        const Eigen::VectorXd solved = factor_.solve(middle);
        return (passband_ * solved).norm();
    }

    /// The lambda, from 1e-10 to 1e6, at which `figure(*this)` reaches `wanted`; an end where it doesn't. The figure rises with
    /// lambda, or falls (`falling`). To 0.3 % of a decade, since little depends on it. It stays set.
    template <class Figure>
    void seek(const Figure& figure, double wanted, bool falling) {
        double low = -10.0;
        double high = 6.0;
        for (int step = 0; step < 13; ++step) {
            const double middle = 0.5 * (low + high);
            set_smoothing(std::pow(10.0, middle));
            const bool too_much = falling ? figure(*this) < wanted : figure(*this) > wanted;
            (too_much ? high : low) = middle;
        }
        // From the side on which the demand holds.
        set_smoothing(std::pow(10.0, falling ? high : low));
    }

    /// The same compromise among the spectra that nowhere lie below `floor`, and how many samples lie on it. Block pivoting: what falls
    /// below is held, what would rise from the floor is let go, until nothing changes; after 30 rounds, where it may run in a
    /// circle, nothing is let go any more, so that at worst a few samples more than need be are held.
    [[nodiscard]] std::pair<Eigen::VectorXd, std::size_t> solve_above(double floor) {
        std::vector<bool> held(static_cast<std::size_t>(normal_.rows()), false);
        Eigen::VectorXd s = solve();
        for (int round = 0;; ++round) {
            const std::vector<std::size_t> wrong = offenders(s, held, floor, round < 30);
            if (wrong.empty()) {
                const auto count = std::count(held.begin(), held.end(), true);
                return {s.cwiseMax(floor), static_cast<std::size_t>(count)};
            }
            for (const std::size_t i : wrong) {
                held[i] = !held[i];
            }
            s = solve_with(held, floor);
        }
    }

  private:
    void factorise(const SparseMatrix& matrix) {
        factor_.compute(matrix);
        if (factor_.info() != Eigen::Success) {
            throw Error(ErrorKind::singular, "deconvolve", "a passband that can't be undone",
                        "a bandwidth nearer the step");
        }
    }

    [[nodiscard]] std::vector<std::size_t> offenders(const Eigen::VectorXd& s,
                                                     const std::vector<bool>& held, double floor,
                                                     bool may_let_go) const {
        const Eigen::VectorXd push = normal_ * s - right_;  // what is held must want to be lower
        const double slack = 1e-12 * (1.0 + s.cwiseAbs().maxCoeff());
        std::vector<std::size_t> wrong;
        for (std::size_t i = 0; i < held.size(); ++i) {
            const auto at = static_cast<Eigen::Index>(i);
            if (held[i] ? may_let_go && push[at] < -slack : s[at] < floor - slack) {
                wrong.push_back(i);
            }
        }
        return wrong;
    }

    [[nodiscard]] Eigen::VectorXd solve_with(const std::vector<bool>& held, double floor) {
        const auto is_held = [&](Eigen::Index i) { return held[static_cast<std::size_t>(i)]; };
        Eigen::VectorXd fixed = Eigen::VectorXd::Zero(normal_.rows());
        for (Eigen::Index i = 0; i < fixed.size(); ++i) {
            fixed[i] = is_held(i) ? floor : 0.0;
        }
        Eigen::VectorXd right = right_ - normal_ * fixed;
        SparseMatrix free = normal_;
        free.prune([&](Eigen::Index row, Eigen::Index column, double) {
            return row == column || (!is_held(row) && !is_held(column));
        });
        for (Eigen::Index i = 0; i < fixed.size(); ++i) {
            if (is_held(i)) {
                right[i] = free.coeff(i, i) * floor;
            }
        }
        factorise(free);
        return factor_.solve(right);
    }

    SparseMatrix passband_;
    Eigen::VectorXd measured_;
    SparseMatrix fit_;
    SparseMatrix roughness_;
    SparseMatrix normal_;
    Eigen::VectorXd right_;
    double lambda_ = 0.0;
    Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower, Eigen::NaturalOrdering<int>> factor_;
};

/// Sets lambda: as much as the noise allows to be left over, with the noise gain between 1 and the largest that is wanted.
inline void choose_smoothing(SmoothedInverse& inverse, double noise, double largest_noise_gain) {
    const auto gain = [](const SmoothedInverse& at) { return at.noise_gain(); };
    inverse.seek([](const SmoothedInverse& at) { return at.misfit(at.solve()); }, noise, false);
    if (inverse.noise_gain() > largest_noise_gain) {
        inverse.seek(gain, largest_noise_gain, true);
    } else if (inverse.noise_gain() < 1.0) {
        inverse.seek(gain, 1.0, true);
    }
}

SAMELIGHT_INLINE double largest_step(const Spectrum& spectrum) {
    const auto nm = spectrum.wavelengths_nm();
    double step = 0.0;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        step = std::max(step, nm[i] - nm[i - 1]);
    }
    return step;
}

inline void require_deconvolution(const Spectrum& measured, double bandwidth_nm,
                                  const DeconvolutionOptions& options) {
    const double span = measured.last_nm() - measured.first_nm();
    if (!(bandwidth_nm >= 0.0) || !(bandwidth_nm <= span)) {
        throw Error(ErrorKind::domain, "deconvolve",
                    "a bandwidth of " + to_text(bandwidth_nm) + " nm",
                    "0 nm to the width of the spectrum, " + to_text(span) + " nm");
    }
    const double step = span / static_cast<double>(measured.size() - 1);
    if (bandwidth_nm > 60.0 * step * (1.0 + 1e-9)) {
        throw Error(ErrorKind::shape, "deconvolve",
                    "readings " + to_text(step) + " nm apart for a bandwidth of " +
                        to_text(bandwidth_nm) + " nm",
                    "at most 60 readings within a bandwidth");
    }
    if (options.noise && (!(*options.noise >= 0.0) || !(*options.noise <= 1.0))) {
        throw Error(ErrorKind::domain, "deconvolve", "noise of " + to_text(*options.noise),
                    "0 to 1 of the peak");
    }
    if (!(options.largest_noise_gain >= 1.0) || !std::isfinite(options.largest_noise_gain)) {
        throw Error(ErrorKind::domain, "deconvolve",
                    "a largest noise gain of " + to_text(options.largest_noise_gain), "1 or more");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Deconvolution deconvolve(const Spectrum& measured, double bandwidth_nm,
                                          const DeconvolutionOptions& options) {
    detail::require_deconvolution(measured, bandwidth_nm, options);
    const auto v = measured.values();
    const double peak = measured.peak();
    const double least = *std::min_element(v.begin(), v.end());
    if (bandwidth_nm == 0.0 || !(peak > 0.0)) {
        return {measured, 1.0, 0.0, 0.0, 0.0, 0, peak > 0.0 ? least / peak : 0.0};
    }
    const double noise = options.noise ? *options.noise : relative_noise(measured);
    const Eigen::Map<const Eigen::VectorXd> column(v.data(), static_cast<Eigen::Index>(v.size()));
    detail::SmoothedInverse inverse(measured.wavelengths_nm(), bandwidth_nm, column / peak);
    detail::choose_smoothing(inverse, noise, options.largest_noise_gain);
    const double noise_gain = inverse.noise_gain();
    Eigen::VectorXd s = inverse.solve();
    std::size_t held = 0;
    if (4.0 * detail::largest_step(measured) <= bandwidth_nm * (1.0 + 1e-9)) {
        std::tie(s, held) = inverse.solve_above(std::min(0.0, least / peak));
    }
    std::vector<double> values(v.size());
    Eigen::Map<Eigen::VectorXd>(values.data(), s.size()) = s * peak;
    return {
        {{measured.wavelengths_nm().begin(), measured.wavelengths_nm().end()}, std::move(values)},
        noise_gain,
        inverse.smoothing(),
        inverse.misfit(s),
        noise,
        held,
        s.minCoeff()};
}

}  // namespace samelight
