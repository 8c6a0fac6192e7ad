#pragma once
// What is known of the errors behind readings with noise, for check/proof/impl/conformity.ipp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include "samelight/check/proof/conformity.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One patch in coordinates in which CIEDE2000 is a length (about the intended light) and the noise of each is independent.
struct PatchErrors {
    Eigen::Matrix3d coordinates_from_xyz, xyz_from_coordinates;
    /// Measured minus intended, and the variances of its noise.
    Eigen::Vector3d off, variance;
    /// What errors of the whole display do to it: a column each.
    Eigen::Matrix3Xd common = Eigen::Matrix3Xd(3, 0);
    /// 0: meant to be grey, 1: to be a colour.
    std::size_t kind = 0;
};

/// What so much of each column does. Of no columns Eigen would step beside an empty matrix, which is undefined.
template <class Columns, class Amounts>
Eigen::Vector3d common_part(const Columns& columns, const Amounts& amounts) {
    if (amounts.size() == 0) {
        return Eigen::Vector3d::Zero();
    }
    return columns * amounts;
}

/// CIEDE2000's square about a light, as a form of steps in X, Y, Z of such sizes.
inline Eigen::Matrix3d de00_form(const std::array<double, 3>& at,
                                 const std::array<double, 3>& white, const Eigen::Vector3d& steps) {
    const auto square = [&](std::size_t j, std::size_t k) {
        std::array<double, 3> moved = at;
        moved[j] += steps[static_cast<Eigen::Index>(j)];
        if (k != j) {
            moved[k] += steps[static_cast<Eigen::Index>(k)];
        }
        const double d = de00_of_lights(moved, at, white);
        return d * d;
    };
    Eigen::Matrix3d form;
    for (std::size_t j = 0; j < 3; ++j) {
        form(static_cast<Eigen::Index>(j), static_cast<Eigen::Index>(j)) = square(j, j);
    }
    for (std::size_t j = 0; j < 3; ++j) {
        for (std::size_t k = j + 1; k < 3; ++k) {
            const auto r = static_cast<Eigen::Index>(j);
            const auto c = static_cast<Eigen::Index>(k);
            form(r, c) = form(c, r) = 0.5 * (square(j, k) - form(r, r) - form(c, c));
        }
    }
    return form;
}

inline PatchErrors patch_errors(const GateQuestion& question, std::size_t patch) {
    const std::array<double, 3>& measured = question.measured[patch];
    const std::array<double, 3>& meant = question.intended[patch];
    Eigen::Vector3d sd;
    Eigen::Vector3d off;
    for (std::size_t k = 0; k < 3; ++k) {
        const auto i = static_cast<Eigen::Index>(k);
        // Without noise nothing is drawn; the coordinates need some measure all the same.
        sd[i] = std::max(question.noise.standard_deviation(measured[k]) /
                             std::sqrt(static_cast<double>(question.counts[patch])),
                         1e-9 * question.white[k]);
        off[i] = measured[k] - meant[k];
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(de00_form(meant, question.white, sd));
    const double least = std::max(1e-6 * axes.eigenvalues()[2], 1e-18);
    PatchErrors errors;
    errors.variance = axes.eigenvalues().cwiseMax(least);
    const Eigen::Vector3d roots = errors.variance.cwiseSqrt();
    errors.coordinates_from_xyz =
        roots.asDiagonal() * axes.eigenvectors().transpose() * sd.cwiseInverse().asDiagonal();
    errors.xyz_from_coordinates =
        sd.asDiagonal() * axes.eigenvectors() * roots.cwiseInverse().asDiagonal();
    errors.off = errors.coordinates_from_xyz * off;
    for (std::size_t k = 0; k < 3; ++k) {
        const double share = meant[k] / question.white[k];
        errors.kind =
            std::abs(share - meant[1] / question.white[1]) > 1e-6 + 1e-3 * share ? 1 : errors.kind;
    }
    return errors;
}

/// The lower factor of the covariance of a correction's nine elements, which need not have full rank.
inline std::array<double, 81> correction_factor(const ParameterCovariance& covariance) {
    std::array<double, 81> l = covariance.elements;
    double most = 0.0;
    for (std::size_t i = 0; i < 9; ++i) {
        most = std::max(most, l[10 * i]);
    }
    for (std::size_t j = 0; j < 9; ++j) {
        double pivot = l[10 * j];
        for (std::size_t k = 0; k < j; ++k) {
            pivot -= l[9 * j + k] * l[9 * j + k];
        }
        const double root = pivot > 1e-14 * most ? std::sqrt(pivot) : 0.0;
        for (std::size_t i = j; i < 9; ++i) {
            double sum = l[9 * i + j];
            for (std::size_t k = 0; k < j; ++k) {
                sum -= l[9 * i + k] * l[9 * j + k];
            }
            l[9 * i + j] = root > 0.0 ? (i == j ? root : sum / root) : 0.0;
        }
        for (std::size_t k = j + 1; k < 9; ++k) {
            l[9 * j + k] = 0.0;
        }
    }
    return l;
}

/// What is uncertain of all readings together, as a 3 x 3 matrix of them for each independent standard normal number: the correction, beside which
/// the white's luminance stays as read, as what is meant
/// goes by it; and that luminance.
inline std::vector<Eigen::Matrix3d> reading_errors(const GateQuestion& question) {
    std::vector<Eigen::Matrix3d> errors;
    if (question.white_noise > 0.0) {
        errors.emplace_back(question.white_noise * Eigen::Matrix3d::Identity());
    }
    if (!question.correction || !question.correction->covariance) {
        return errors;
    }
    const Correction& correction = *question.correction;
    using RowMajor = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;
    const Eigen::Matrix3d from_corrected =
        Eigen::Map<const RowMajor>(correction.reference_from_meter.data()).inverse();
    const std::array<double, 81> factor = correction_factor(*correction.covariance);
    const double freedom = correction.degrees_of_freedom;
    // Student's t has a wider scatter than the normal distribution of the same scale, which it is where the freedom is infinite.
    const double wider =
        freedom > 2.5 && std::isfinite(freedom) ? std::sqrt(freedom / (freedom - 2.0)) : 1.0;
    const Eigen::Vector3d white = Eigen::Map<const Eigen::Vector3d>(question.white.data());
    for (std::size_t k = 0; k < 9; ++k) {
        RowMajor moved;
        for (std::size_t i = 0; i < 9; ++i) {
            moved.data()[i] = wider * factor[9 * i + k];
        }
        Eigen::Matrix3d error = moved * from_corrected;
        error -= (error * white)[1] / white[1] * Eigen::Matrix3d::Identity();
        errors.push_back(error);
    }
    return errors;
}

/// The errors of all patches as a sum: what the display as a whole does, known from all patches together; what the correction does, known from its
/// covariance and from all patches; and
/// what each patch does besides, whose sizes come from a mixture of normal distributions about 0, one for each coordinate of greys and of colours,
/// whose weights all patches tell together.
/// Source: empirical Bayes, Efron & Morris 1973, J. Am. Stat. Assoc. 68:117; the mixture of sizes, Stephens 2017, Biostatistics 18:275; variances of
/// groups of numbers, MacKay 1992,
/// Neural Comput. 4:415 (all from memory); what is common and the sizes are ours.
class ErrorModel {
  public:
    explicit ErrorModel(const GateQuestion& question) {
        for (std::size_t i = 0; i < question.measured.size(); ++i) {
            patches_.push_back(patch_errors(question, i));
        }
        for (const auto& group : question.common) {
            add_display(group);
        }
        display_ = patches_.front().common.cols();
        add_readings(question, reading_errors(question));
        choose_sizes();
        find();
    }

    [[nodiscard]] const PatchErrors& patch(std::size_t i) const { return patches_[i]; }
    /// How many numbers are common to all patches: the display's first, the correction's last.
    [[nodiscard]] Eigen::Index common_count() const { return common_.size(); }
    [[nodiscard]] Eigen::Index display_count() const { return display_; }
    [[nodiscard]] Eigen::Index correction_count() const { return correction_; }

    /// The common numbers, moved by independent standard normal ones.
    [[nodiscard]] Eigen::VectorXd common_drawn(const Eigen::VectorXd& normal) const {
        if (common_.size() == 0) {
            return common_;
        }
        return common_ + spread_.matrixU().solve(normal);
    }
    /// The variance of what a patch has besides in a coordinate, for a number between 0 and 1.
    [[nodiscard]] double size_drawn(std::size_t patch, std::size_t axis, double unit) const {
        const std::vector<double>& shares = shares_[3 * patch + axis];
        std::size_t k = 0;
        for (double sum = shares[0]; k + 1 < sizes_.size() && unit > sum; sum += shares[k]) {
            ++k;
        }
        return sizes_[k];
    }

  private:
    static constexpr int rounds = 40;
    /// Fewer patches tell nothing of sizes: what is read is what is known.
    static constexpr std::size_t fewest_for_sizes = 8;
    /// As if so many patches of evenly many sizes had been seen besides: how seldom large errors are few patches don't tell, and with 1 of what was
    /// stated at .9 only .7 came true. Own choice, by
    /// simulated displays.
    static constexpr double seen_besides = 10.0;

    /// A group of columns, each with a mean square of 1 over the patches.
    void add_display(const std::vector<std::vector<std::array<double, 3>>>& group) {
        const Eigen::Index first = patches_.front().common.cols();
        const auto more = static_cast<Eigen::Index>(group.size());
        Eigen::VectorXd sum = Eigen::VectorXd::Constant(more, 1e-30);
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            PatchErrors& p = patches_[i];
            p.common.conservativeResize(3, first + more);
            for (Eigen::Index c = 0; c < more; ++c) {
                const auto& moved = group[static_cast<std::size_t>(c)][i];
                p.common.col(first + c) =
                    p.coordinates_from_xyz * Eigen::Map<const Eigen::Vector3d>(moved.data());
                sum[c] += p.common.col(first + c).squaredNorm();
            }
        }
        const double count = static_cast<double>(patches_.size());
        for (PatchErrors& p : patches_) {
            p.common.rightCols(more) *= (sum / count).cwiseSqrt().cwiseInverse().asDiagonal();
        }
        groups_.push_back({first, more});
    }

    void add_readings(const GateQuestion& question, const std::vector<Eigen::Matrix3d>& errors) {
        const auto more = static_cast<Eigen::Index>(errors.size());
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            PatchErrors& p = patches_[i];
            const Eigen::Vector3d measured =
                Eigen::Map<const Eigen::Vector3d>(question.measured[i].data());
            p.common.conservativeResize(3, display_ + more);
            for (Eigen::Index k = 0; k < more; ++k) {
                p.common.col(display_ + k) =
                    p.coordinates_from_xyz * (errors[static_cast<std::size_t>(k)] * measured);
            }
        }
        common_ = Eigen::VectorXd::Zero(display_ + more);
        variance_ = Eigen::VectorXd::Ones(display_ + more);
        correction_ = more - (question.white_noise > 0.0 ? 1 : 0);
    }

    /// Variances from a part of the noise to beyond the largest error, by twos of the deviation.
    void choose_sizes() {
        std::vector<double> noise;
        double most = 0.0;
        for (const PatchErrors& p : patches_) {
            noise.push_back(std::sqrt(p.variance.sum() / 3.0));
            most = std::max(most, p.off.norm());
        }
        const double low = 0.05 * sample_quantile(noise, 0.5);
        most = std::max(2.0 * most, 40.0 * low);
        for (double size = low; size < most && sizes_.size() < 16; size *= 2.0) {
            sizes_.push_back(size * size);
        }
        if (patches_.size() < fewest_for_sizes) {
            sizes_ = {1e8 * most * most};
        }
        const std::vector<double> even(sizes_.size(), 1.0 / static_cast<double>(sizes_.size()));
        for (auto& of_kind : weights_) {
            of_kind.fill(even);
        }
        shares_.assign(3 * patches_.size(), even);
    }

    /// Which sizes a patch's own part may have come from.
    void share_sizes() {
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            const PatchErrors& p = patches_[i];
            const Eigen::Vector3d rest = p.off - common_part(p.common, common_);
            for (std::size_t j = 0; j < 3; ++j) {
                const auto axis = static_cast<Eigen::Index>(j);
                std::vector<double>& shares = shares_[3 * i + j];
                double sum = 0.0;
                for (std::size_t k = 0; k < sizes_.size(); ++k) {
                    const double v = sizes_[k] + p.variance[axis];
                    // Beside the smallest exponent that there is no patch has a size at all.
                    const double z2 = std::min(rest[axis] * rest[axis] / v, 1200.0);
                    shares[k] = weights_[p.kind][j][k] * std::exp(-0.5 * z2) / std::sqrt(v);
                    sum += shares[k];
                }
                for (double& s : shares) {
                    s /= sum;
                }
            }
        }
    }

    void weigh_sizes() {
        const double besides = seen_besides / static_cast<double>(sizes_.size());
        for (auto& of_kind : weights_) {
            for (auto& weights : of_kind) {
                std::fill(weights.begin(), weights.end(), besides);
            }
        }
        std::array<double, 2> all = {seen_besides, seen_besides};
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            const std::size_t kind = patches_[i].kind;
            all[kind] += 1.0;
            for (std::size_t j = 0; j < 3; ++j) {
                for (std::size_t k = 0; k < sizes_.size(); ++k) {
                    weights_[kind][j][k] += shares_[3 * i + j][k];
                }
            }
        }
        for (std::size_t kind = 0; kind < 2; ++kind) {
            for (auto& weights : weights_[kind]) {
                for (double& weight : weights) {
                    weight /= all[kind];
                }
            }
        }
    }

    /// Weighted least squares; the numbers of a group are as large as they are together, those of the correction as its covariance says.
    void find_common() {
        const Eigen::Index n = common_.size();
        Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(n, n);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(n);
        for (std::size_t i = 0; i < patches_.size(); ++i) {
            const PatchErrors& p = patches_[i];
            Eigen::Vector3d weight = Eigen::Vector3d::Zero();
            for (std::size_t j = 0; j < 3; ++j) {
                const auto axis = static_cast<Eigen::Index>(j);
                for (std::size_t k = 0; k < sizes_.size(); ++k) {
                    weight[axis] += shares_[3 * i + j][k] / (p.variance[axis] + sizes_[k]);
                }
            }
            const Eigen::MatrixXd weighted = weight.asDiagonal() * p.common;
            normal.noalias() += p.common.transpose() * weighted;
            right.noalias() += weighted.transpose() * p.off;
        }
        normal.diagonal() += variance_.cwiseInverse();
        spread_.compute(normal);
        common_ = spread_.solve(right);
        if (display_ == 0) {
            return;
        }
        const Eigen::VectorXd left = spread_.solve(Eigen::MatrixXd::Identity(n, n)).diagonal();
        for (const auto& [first, count] : groups_) {
            auto variance = variance_.segment(first, count);
            const double told =
                static_cast<double>(count) - left.segment(first, count).sum() / variance[0];
            variance.setConstant(std::clamp(
                common_.segment(first, count).squaredNorm() / std::max(told, 0.1), 1e-6, 1e4));
        }
    }

    void find() {
        for (int round = 0; round < rounds; ++round) {
            share_sizes();
            weigh_sizes();
            if (common_.size() > 0) {
                find_common();
            }
        }
        share_sizes();
    }

    std::vector<PatchErrors> patches_;
    Eigen::Index display_ = 0, correction_ = 0;
    struct Group {
        Eigen::Index first, count;
    };
    std::vector<Group> groups_;
    std::vector<double> sizes_;
    /// Of greys and of colours, whose errors are of other sizes.
    std::array<std::array<std::vector<double>, 3>, 2> weights_;
    /// Three a patch.
    std::vector<std::vector<double>> shares_;
    Eigen::VectorXd common_, variance_;
    Eigen::LLT<Eigen::MatrixXd> spread_;
};

}  // namespace samelight::detail
