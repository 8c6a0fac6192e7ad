#pragma once
// The bodies of display/panel.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/numeric/condition.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool Additivity::additive() const {
    return std::abs(luminance_ratio - 1.0) <= 0.02 && std::abs(offset.first()) <= 0.001 &&
           std::abs(offset.second()) <= 0.001 && spectral_difference <= 0.05;
}

SAMELIGHT_INLINE std::optional<MisreadColumn> misread_column(const Additivity& white) {
    if (!white.amounts || white.additive()) {
        return std::nullopt;
    }
    std::array<double, 3> sorted = *white.amounts;
    std::sort(sorted.begin(), sorted.end());
    std::optional<MisreadColumn> worst;
    double furthest = 0.05;
    for (std::size_t k = 0; k < 3; ++k) {
        const double read = sorted[1] / (*white.amounts)[k];
        if (std::abs(std::log(read)) > std::log1p(furthest)) {
            furthest = std::expm1(std::abs(std::log(read)));
            worst = MisreadColumn{k, read};
        }
    }
    return worst;
}

SAMELIGHT_INLINE Panel::Panel(std::string name, const PanelSpectra& spectra,
                              const Sampling& sampling)
    : name_(std::move(name)), sampling_(sampling) {
    black_known_ = spectra.black.has_value();
    black_measurable_ = black_known_ && !drowned_in_noise(*spectra.black);
    take_in(spectra);
    require_independent();
    scale_known_ = spectra.common_scale;
    if (!spectra.white) {
        return;
    }
    if (!spectra.common_scale) {
        fit_scale_to_white();
    }
    additivity_ = compare_with_sum();
    if (spectra.common_scale && additivity_->amounts && !additivity_->additive()) {
        scale_emitters(*additivity_->amounts);
    }
    if (white_is_base()) {
        lights_.take_measured_for_white();
        if (spread_) {
            spread_->take_measured_for_white();
        }
    }
}

SAMELIGHT_INLINE void Panel::take_in(const PanelSpectra& spectra) {
    std::vector<SampledLight> entered;
    const auto add = [&](const Spectrum& spectrum) {
        entered.push_back(rebin(spectrum, sampling_));
        const auto outside = [&](double nm) {
            return nm < sampling_.first_nm() || nm > sampling_.last_nm();
        };
        if (!sums_to_noise(spectrum, outside)) {
            outside_fraction_ =
                std::max(outside_fraction_, std::abs(entered.back().outside_fraction));
        }
    };
    add(spectra.red);
    add(spectra.green);
    add(spectra.blue);
    if (spectra.white) {
        add(*spectra.white);
    }
    if (spectra.black) {
        add(*spectra.black);
    }
    grid_ = entered.front().grid;
    for (const SampledLight& light : entered) {
        if (!(light.grid == grid_)) {
            grid_ = {std::max(grid_.step_nm, light.grid.step_nm), 0, 0};
            grids_differ_ = true;
        }
    }
    const auto columns = [&](auto&& column_of) {
        std::array<std::vector<double>, 3> parts;  // colours, white, black
        for (std::size_t k = 0; k < entered.size(); ++k) {
            const std::size_t at = k < 3 ? 0 : k == 3 && spectra.white ? 1 : 2;
            const auto column = column_of(entered[k]);
            parts[at].insert(parts[at].end(), column.begin(), column.end());
        }
        parts[2].resize(size(), 0.0);
        return PanelLights(std::move(parts[0]), std::move(parts[1]), std::move(parts[2]));
    };
    lights_ = columns([](const SampledLight& light) { return light.column(); });
    if (grid_.step_nm > 0.0) {
        spread_ = columns([](const SampledLight& light) { return light.spread_column(); });
    }
}

SAMELIGHT_INLINE void Panel::require_independent() const {
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
    const double condition = direction_condition(directions);
    if (!(condition <= 100.0)) {
        throw Error(ErrorKind::singular, "Panel " + name_,
                    "primaries that depend on each other (smallest to largest singular value " +
                        to_text(1.0 / condition, 5) + ")",
                    "three independent primaries (above 0.01); was one colour measured twice?");
    }
    require_names_to_fit(directions);
}

SAMELIGHT_INLINE void Panel::require_names_to_fit(const Eigen::Matrix3d& directions) const {
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

SAMELIGHT_INLINE const char* Panel::primary_name(Eigen::Index k) {
    constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
    return names.at(static_cast<std::size_t>(k));
}

SAMELIGHT_INLINE std::array<double, 3> Panel::amounts_in_white() const {
    const auto emitters = compared().emitters();
    const Eigen::VectorXd amount =
        dense::times(dense::inverse_3x3(dense::transposed_product(emitters, emitters)),
                     dense::transposed_product(emitters, compared().native_white()).col(0));
    return {amount[0], amount[1], amount[2]};
}

SAMELIGHT_INLINE void Panel::scale_emitters(const std::array<double, 3>& by) {
    const Eigen::Vector3d factors(by[0], by[1], by[2]);
    lights_.scale(factors);
    lights_.take_sum_for_white();
    if (spread_) {
        spread_->scale(factors);
        spread_->take_sum_for_white();
    }
}

SAMELIGHT_INLINE void Panel::fit_scale_to_white() {
    const std::array<double, 3> amounts = amounts_in_white();
    if (!(*std::min_element(amounts.begin(), amounts.end()) > 0.0)) {
        return;
    }
    scale_emitters(amounts);
    const Additivity fitted = compare_with_sum();
    scale_fitted_ = fitted.additive() || fitted.amounts;
    scale_known_ = scale_fitted_;
}

SAMELIGHT_INLINE Additivity Panel::compare_with_sum() const {
    constexpr double spanned = 0.05;
    const Tristimulus<Cie1931_2deg> seen_sum = seen(lights_.white());
    const Tristimulus<Cie1931_2deg> seen_white = seen(native_white());
    if (!(seen_white.Y() > 0.0)) {
        throw Error(ErrorKind::domain, "Panel " + name_, "a white without light",
                    "white at full drive, above black");
    }
    const PanelLights& columns = compared();
    const auto difference = [&](const Eigen::VectorXd& from_white) {
        return (columns.native_white() - from_white).cwiseAbs().sum() /
               columns.native_white().cwiseAbs().sum();
    };
    Additivity result{seen_sum.Y() / seen_white.Y(),
                      chromaticity(seen_sum) - chromaticity(seen_white),
                      difference(columns.white())};
    const std::array<double, 3> amounts = amounts_in_white();
    if (*std::min_element(amounts.begin(), amounts.end()) > 0.0 &&
        difference(dense::times(columns.emitters(),
                                Eigen::Vector3d(amounts[0], amounts[1], amounts[2]))) <= spanned) {
        result.amounts = amounts;
    }
    return result;
}

}  // namespace samelight
