#pragma once
// A panel: the light of its emitters as measured, its native white, its black, and what was found when they were compared.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>
#include <Eigen/SVD>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/doubts.hpp"

namespace samelight {

/// The spectra a panel is made from: each primary at full drive, and optionally white at full drive and black.
struct PanelSpectra {
    Spectrum red, green, blue;
    std::optional<Spectrum> white = std::nullopt;
    std::optional<Spectrum> black = std::nullopt;
    bool common_scale =
        true;  ///< false where each spectrum is scaled for itself, so that their ratios say nothing
};

/// How white at full drive compares with red + green + blue (after black, where it is known, has been taken from all four).
struct Additivity {
    double luminance_ratio;                   ///< Y of red + green + blue over Y of white
    ChromaticityOffset<Cie1931_2deg> offset;  ///< x, y of red + green + blue minus that of white
    double spectral_difference;  ///< sum of |white - (red + green + blue)| over the sum of white
    /// True where white is nothing but red + green + blue: within 2 % in luminance, .001 in x and y, and 5 % of the light
    /// wavelength by wavelength (a white emitter can hide behind equal colour).
    [[nodiscard]] bool additive() const {
        return std::abs(luminance_ratio - 1.0) <= 0.02 && std::abs(offset.first()) <= 0.001 &&
               std::abs(offset.second()) <= 0.001 && spectral_difference <= 0.05;
    }
};

/// A display's light on one sampling: the matrix P of T P w = T r, with the white it shows at full drive.
///
/// Black, where measured, is in every one of the other measurements too; it is taken from red, green, blue and white on the way
/// in, so that emitters() and white() are what the drive adds, and is added once to every light the panel shows. Where black was
/// not measured it is taken as none, and stays inside the primaries.
class Panel {
  public:
    using Columns = Eigen::Matrix<double, Eigen::Dynamic, 3>;

    /// Throws Error (singular) for primaries that depend on each other (for the CIE 1931 observer the smallest singular value of
    /// their chromaticity directions is under a hundredth of the largest), Error (domain) for a primary without light and for primaries
    /// under each other's names.
    Panel(std::string name, const PanelSpectra& spectra, const Sampling& sampling = {})
        : name_(std::move(name)), sampling_(sampling) {
        const std::array<const Spectrum*, 3> primaries = {&spectra.red, &spectra.green,
                                                          &spectra.blue};
        black_ = spectra.black ? take_in(*spectra.black) : std::vector<double>(size(), 0.0);
        black_known_ = spectra.black.has_value();
        black_measurable_ = black_known_ && !drowned_in_noise(*spectra.black);
        for (const Spectrum* primary : primaries) {
            const std::vector<double> column = without_black(take_in(*primary));
            emitters_.insert(emitters_.end(), column.begin(), column.end());
        }
        require_independent();
        scale_known_ = spectra.common_scale;
        if (spectra.white) {
            white_ = without_black(take_in(*spectra.white));
            if (!spectra.common_scale) {
                fit_scale_to_white();
            }
            additivity_ = compare_with_sum();
            measured_white_ = white_;
        }
        if (!spectra.white || additivity_->additive()) {
            white_.assign(size(), 0.0);
            for (std::size_t k = 0; k < 3 * size(); ++k) {
                white_[k % size()] += emitters_[k];
            }
        }
    }

    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }

    /// Light of red, green and blue at full drive, without black: n x 3. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Columns> emitters() const {
        return {emitters_.data(), sampling_.count(), 3};
    }
    /// The white that a match starts from, without black: n x 1. Red + green + blue where white is nothing else, within
    /// Additivity's limits, else as measured.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> white() const {
        return {white_.data(), sampling_.count()};
    }
    /// The white at full drive as it was measured, or red + green + blue where it wasn't: n x 1, without black.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> native_white() const {
        const std::vector<double>& light = measured_white_.empty() ? white_ : measured_white_;
        return {light.data(), sampling_.count()};
    }
    /// Light that is there at drive 0: n x 1.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> black() const {
        return {black_.data(), sampling_.count()};
    }

    /// True where the native white is more or other than red + green + blue: it is then the base that they tune.
    [[nodiscard]] bool white_is_base() const { return additivity_ && !additivity_->additive(); }
    /// Whether the ratios of the primaries mean anything. Without it drive and cost in light are unknown, unless white is the base.
    [[nodiscard]] bool scale_known() const noexcept { return scale_known_; }
    /// Whether the native white's own colour is known: from its own measurement, or as the sum of primaries on one scale.
    [[nodiscard]] bool white_known() const { return scale_known_ || additivity_.has_value(); }
    [[nodiscard]] bool black_known() const noexcept { return black_known_; }
    /// Whether black was measured and there is more in it than noise.
    [[nodiscard]] bool black_measurable() const noexcept { return black_measurable_; }
    /// Whether the primaries' common scale was found by fitting them to the measured white, so that comparing both proves nothing.
    [[nodiscard]] bool scale_fitted() const noexcept { return scale_fitted_; }
    /// Present where white was measured.
    [[nodiscard]] const std::optional<Additivity>& additivity() const noexcept {
        return additivity_;
    }
    /// Largest share of any column's light that lay outside the sampling's range.
    [[nodiscard]] double outside_fraction() const noexcept { return outside_fraction_; }

  private:
    [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(sampling_.count()); }

    std::vector<double> take_in(const Spectrum& spectrum) {
        SampledLight light = enter(spectrum, sampling_);
        outside_fraction_ = std::max(outside_fraction_, std::abs(light.outside_fraction));
        return std::move(light.values);
    }

    [[nodiscard]] std::vector<double> without_black(std::vector<double> values) const {
        for (std::size_t i = 0; i < values.size(); ++i) {
            values[i] -= black_[i];
        }
        return values;
    }

    [[nodiscard]] Tristimulus<Cie1931_2deg> seen(const Eigen::VectorXd& light) const {
        return tristimulus<Cie1931_2deg>(
            SampledLight{sampling_, {light.begin(), light.end()}, 0.0});
    }

    void require_independent() const {
        Eigen::Matrix3d directions;
        for (Eigen::Index k = 0; k < 3; ++k) {
            const Tristimulus<Cie1931_2deg> t = seen(emitters().col(k));
            const double length = t.column().norm();
            if (!(length > 0.0) || !(t.Y() > 0.0)) {
                throw Error(ErrorKind::domain, "Panel " + name_,
                            std::string("no light left in ") + primary_name(k) +
                                (black_known_ ? " after black was taken from it" : ""),
                            "red, green and blue brighter than black");
            }
            directions.col(k) = t.column() / length;
        }
        const Eigen::Vector3d s = Eigen::JacobiSVD<Eigen::Matrix3d>(directions).singularValues();
        if (s[2] < 0.01 * s[0]) {
            throw Error(ErrorKind::singular, "Panel " + name_,
                        "primaries that depend on each other (smallest to largest singular value " +
                            to_text(s[2] / s[0], 5) + ")",
                        "three independent primaries (above 0.01); was one colour measured twice?");
        }
        require_names_to_fit(directions);
    }

    /// Red must be the reddest (largest x), green the greenest (largest y), blue the bluest (smallest y). Swapped columns give a right
    /// target and send the hand to the wrong control.
    void require_names_to_fit(const Eigen::Matrix3d& directions) const {
        const Eigen::RowVector3d sums = directions.colwise().sum();
        const Eigen::RowVector3d x = directions.row(0).cwiseQuotient(sums);
        const Eigen::RowVector3d y = directions.row(1).cwiseQuotient(sums);
        Eigen::Index reddest = 0;
        Eigen::Index greenest = 0;
        Eigen::Index bluest = 0;
        x.maxCoeff(&reddest);
        y.maxCoeff(&greenest);
        y.minCoeff(&bluest);
        if (reddest != 0 || greenest != 1 || bluest != 2) {
            throw Error(ErrorKind::domain, "Panel " + name_,
                        std::string("columns that look swapped: ") + primary_name(reddest) +
                            " is the reddest, " + primary_name(greenest) + " the greenest, " +
                            primary_name(bluest) + " the bluest",
                        "red, green and blue under their own names");
        }
    }

    static const char* primary_name(Eigen::Index k) {
        constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
        return names.at(static_cast<std::size_t>(k));
    }

    /// Each primary's amount in the measured white, by least squares over wavelength; used where the columns' own scales say nothing.
    void fit_scale_to_white() {
        const Eigen::Matrix3d gram = emitters().transpose() * emitters();
        const Eigen::Vector3d amount = gram.inverse() * (emitters().transpose() * white());
        if (!(amount.minCoeff() > 0.0)) {
            return;
        }
        for (std::size_t k = 0; k < 3 * size(); ++k) {
            emitters_[k] *= amount[static_cast<Eigen::Index>(k / size())];
        }
        scale_fitted_ = compare_with_sum().additive();
        scale_known_ = scale_fitted_;
    }

    [[nodiscard]] Additivity compare_with_sum() const {
        const Eigen::VectorXd sum = emitters().rowwise().sum();
        const Tristimulus<Cie1931_2deg> seen_sum = seen(sum);
        const Tristimulus<Cie1931_2deg> seen_white = seen(white());
        if (!(seen_white.Y() > 0.0)) {
            throw Error(ErrorKind::domain, "Panel " + name_, "a white without light",
                        "white at full drive, above black");
        }
        return {seen_sum.Y() / seen_white.Y(), chromaticity(seen_sum) - chromaticity(seen_white),
                (white() - sum).cwiseAbs().sum() / white().cwiseAbs().sum()};
    }

    std::string name_;
    Sampling sampling_;
    std::vector<double> emitters_;
    std::vector<double> white_;
    std::vector<double> measured_white_;  ///< empty where white wasn't measured
    std::vector<double> black_;
    bool black_known_ = false;
    bool black_measurable_ = false;
    bool scale_fitted_ = false;
    bool scale_known_ = true;
    std::optional<Additivity> additivity_;
    double outside_fraction_ = 0.0;
};

}  // namespace samelight
