#pragma once
// The bodies of check/faults/display_model.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

#include "samelight/check/faults/display_model.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One state, with all that it has in common for all signals.
class ModelInUse {
  public:
    ModelInUse(const IntendedDisplay& intended, const ModelState& state)
        : state_(state),
          curve_(state.curve ? *state.curve : intended.curve()),
          encoding_(state.encoding ? *state.encoding : intended.encoding()),
          white_cd_m2_(curve_.options().white_cd_m2),
          black_cd_m2_(curve_.options().black_cd_m2) {
        using N = ModelNumber;
        for (std::size_t k = 0; k < 3; ++k) {
            exponent_[k] = std::exp(number(N::gamma) + number(N::gamma_red, k));
            offset_[k] = number(N::offset) + number(N::offset_red, k);
            const double clip = std::max(number(N::clip), number(N::clip_red, k));
            end_[k] = clip > 0.0 ? 1.0 - clip : highest;
            black_[k] = number(N::black) + number(N::black_red, k);
        }
        gain_ = {std::exp(number(N::gain_red)), 1.0, std::exp(number(N::gain_blue))};
        saturation_ = std::exp(number(N::saturation));
        turn_ = number(N::hue) * std::numbers::pi / 180.0;
        moves_signals_ = state.order != std::array<std::size_t, 3>{0, 1, 2} ||
                         state.range != ModelRange::as_meant || !state.merged.empty() ||
                         number(N::saturation) != 0.0 || turn_ != 0.0 ||
                         *std::min_element(end_.begin(), end_.end()) < highest ||
                         offset_ != std::array<double, 3>{};
        plain_exponents_ = exponent_ == std::array<double, 3>{1.0, 1.0, 1.0};
        take_bend();
        matrix_ = encoding_.xyz_from_rgb();
        move_primaries();
        white_ = times(matrix_, {1.0, 1.0, 1.0});
        reaches_ = state.gamut == ModelGamut::colours;
        if (reaches_) {
            own_from_meant_ = product(inverse(matrix_), intended.encoding().xyz_from_rgb());
        }
        for (auto n = static_cast<std::size_t>(N::instrument_x);
             n <= static_cast<std::size_t>(N::instrument_zy); ++n) {
            mixes_ = mixes_ || state.numbers[n] != 0.0;
        }
    }

    /// Signals alone decide: the intended curve's light is that at hand.
    [[nodiscard]] bool keeps_curve() const { return !moves_signals_ && !state_.curve; }

    [[nodiscard]] std::array<double, 3> own_lights(const std::array<double, 3>& signal) const {
        return curve_.light(moves_signals_ ? moved(signal) : signal);
    }

    /// X, Y, Z of channels' lights.
    [[nodiscard]] std::array<double, 3> xyz(std::array<double, 3> light) const {
        using N = ModelNumber;
        if (reaches_) {
            // What is meant beyond full is no matter of the gamut.
            const double most = std::max({white_cd_m2_, light[0], light[1], light[2]});
            light = times(own_from_meant_, light);
            for (double& l : light) {
                l = std::clamp(l, black_cd_m2_, most);
            }
        }
        const double range = white_cd_m2_ - black_cd_m2_;
        for (std::size_t k = 0; k < 3; ++k) {
            double share = std::max(0.0, (light[k] - black_cd_m2_) / range);
            if (bends_) {
                share = bent(light[k], k);
            } else if (!plain_exponents_) {
                share = std::pow(share, exponent_[k]);
            }
            light[k] = least_[k] + (white_cd_m2_ - least_[k]) * gain_[k] * share;
        }
        const double common = std::min({light[0], light[1], light[2]}) * number(N::emitter);
        for (std::size_t k = 0; k < 3; ++k) {
            light[k] += common + white_cd_m2_ * black_[k];
        }
        std::array<double, 3> result = times(matrix_, light);
        const double most = (1.0 - number(N::limit)) * white_cd_m2_ * white_[1];
        double factor = std::exp(number(N::scale));
        if (number(N::limit) > 0.0 && result[1] > most) {
            factor *= most / result[1];
        }
        for (double& value : result) {
            value *= factor;
        }
        return mixes_ ? read(result) : result;
    }

  private:
    /// The highest signal of a code, 109 %.
    static constexpr double highest = 1.095;

    [[nodiscard]] double number(ModelNumber n, std::size_t channel = 0) const {
        return state_.numbers[static_cast<std::size_t>(n) + channel];
    }

    /// Where each channel's curve of BT.1886 begins, and the light that it has there.
    void take_bend() {
        using N = ModelNumber;
        const double lift = number(N::lift);
        // Where all light is another, or white adds to what is there, black is still that which was read.
        const double share =
            black_cd_m2_ / white_cd_m2_ / std::exp(number(N::scale)) / (1.0 + number(N::emitter));
        least_.fill(white_cd_m2_ * share);
        if (curve_.options().kind != CurveKind::bt1886) {
            // Another curve has that light added.
            least_.fill(white_cd_m2_ *
                        std::max(share, std::pow(std::max(lift, 0.0), bt1886_exponent)));
            return;
        }
        bends_ = lift != 0.0 ||
                 (black_cd_m2_ > 0.0 && (number(N::unlifted) > 0.0 || !plain_exponents_ ||
                                         number(N::scale) != 0.0 || number(N::emitter) != 0.0));
        first_ = std::pow(black_cd_m2_ / white_cd_m2_, 1.0 / bt1886_exponent);
        for (std::size_t k = 0; k < 3 && bends_; ++k) {
            const double exponent = bt1886_exponent * exponent_[k];
            begin_[k] =
                std::max(0.0, std::pow(share, 1.0 / exponent) * (1.0 - number(N::unlifted)) + lift);
            least_of_curve_[k] = std::pow(begin_[k], exponent);
            least_[k] = white_cd_m2_ * std::max(share, least_of_curve_[k]);
        }
    }

    /// BT.1886's light as the share that the bent curve gives, 0 at its beginning and 1 at full.
    [[nodiscard]] double bent(double light, std::size_t k) const {
        const double along = std::pow(std::max(0.0, light / white_cd_m2_), 1.0 / bt1886_exponent);
        const double signal = std::max(0.0, (along - first_) / (1.0 - first_));
        const double exponent = bt1886_exponent * exponent_[k];
        return (std::pow((1.0 - begin_[k]) * signal + begin_[k], exponent) - least_of_curve_[k]) /
               (1.0 - least_of_curve_[k]);
    }

    [[nodiscard]] std::array<double, 3> moved(std::array<double, 3> v) const {
        constexpr double codes = 255.0;
        v = {v[state_.order[0]], v[state_.order[1]], v[state_.order[2]]};
        for (double& s : v) {
            for (const auto& [low, high] : state_.merged) {
                s = s > low && s <= high + 1e-6 ? low : s;
            }
            if (state_.range == ModelRange::full_taken_for_limited) {
                s = std::clamp((codes * s - 16.0) / 219.0, 0.0, 1.0);
            } else if (state_.range == ModelRange::limited_taken_for_full) {
                s = std::clamp((16.0 + 219.0 * s) / codes, 0.0, 1.0);
            }
        }
        if (saturation_ != 1.0 || turn_ != 0.0) {
            // Colour difference signals of ITU-R BT.709, turned and stretched.
            const double luma = 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2];
            const double cb = saturation_ * (v[2] - luma) / 1.8556;
            const double cr = saturation_ * (v[0] - luma) / 1.5748;
            const double b = std::cos(turn_) * cb - std::sin(turn_) * cr;
            const double r = std::sin(turn_) * cb + std::cos(turn_) * cr;
            v[0] = luma + 1.5748 * r;
            v[2] = luma + 1.8556 * b;
            v[1] = (luma - 0.2126 * v[0] - 0.0722 * v[2]) / 0.7152;
        }
        for (std::size_t k = 0; k < 3; ++k) {
            // What was meant to be beyond full may be so, what is pushed there only with headroom.
            const double top = state_.headroom == ModelHeadroom::some
                                   ? end_[k]
                                   : std::min(end_[k], std::max(1.0, v[k]));
            v[k] = std::clamp(v[k] + offset_[k], 0.0, top);
        }
        return v;
    }

    /// What the instrument makes of it.
    [[nodiscard]] std::array<double, 3> read(const std::array<double, 3>& xyz) const {
        using N = ModelNumber;
        const double x = xyz[0] / white_[0];
        const double y = xyz[1] / white_[1];
        const double z = xyz[2] / white_[2];
        return {white_[0] * (std::exp(number(N::instrument_x)) * x + number(N::instrument_xy) * y +
                             number(N::instrument_xz) * z),
                white_[1] * (y + number(N::instrument_yx) * x + number(N::instrument_yz) * z),
                white_[2] * (std::exp(number(N::instrument_z)) * z + number(N::instrument_zx) * x +
                             number(N::instrument_zy) * y)};
    }

    void move_primaries() {
        using N = ModelNumber;
        constexpr std::array<N, 3> firsts{N::red_x, N::green_x, N::blue_x};
        bool any = false;
        std::array<std::array<double, 2>, 3> at = {
            encoding_.primaries().red, encoding_.primaries().green, encoding_.primaries().blue};
        for (std::size_t k = 0; k < 3; ++k) {
            for (std::size_t i = 0; i < 2; ++i) {
                at[k][i] += number(firsts[k], i);
                any = any || number(firsts[k], i) != 0.0;
            }
        }
        if (!any) {
            return;
        }
        using Xy = Chromaticity<Cie1931_2deg>;
        try {
            const auto& w = encoding_.primaries().white;
            matrix_ = RgbEncoding("", {Xy(at[0][0], at[0][1]), Xy(at[1][0], at[1][1]),
                                       Xy(at[2][0], at[2][1]), Xy(w[0], w[1])})
                          .xyz_from_rgb();
        } catch (const Error&) {
            constexpr double nan = std::numeric_limits<double>::quiet_NaN();
            matrix_ = {{{nan, nan, nan}, {nan, nan, nan}, {nan, nan, nan}}};
        }
    }

    const ModelState& state_;
    const SignalCurve& curve_;
    const RgbEncoding& encoding_;
    double white_cd_m2_, black_cd_m2_;
    std::array<double, 3> exponent_{}, offset_{}, end_{}, black_{}, gain_{}, white_{};
    double saturation_ = 1.0, turn_ = 0.0;
    /// Of BT.1886's curve: the signal of its own beginning, those of the bent ones, and their light there, as a share and in cd/m2.
    double first_ = 0.0;
    std::array<double, 3> begin_{}, least_of_curve_{}, least_{};
    bool moves_signals_ = false, plain_exponents_ = true, mixes_ = false, bends_ = false,
         reaches_ = false;
    Matrix3 matrix_{}, own_from_meant_{};
};

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE DisplayModel::DisplayModel(IntendedDisplay intended,
                                            std::vector<std::array<double, 3>> signals)
    : intended_(std::move(intended)), signals_(std::move(signals)) {
    for (const auto& signal : signals_) {
        undisturbed_.push_back(intended_.curve().light(signal));
    }
}

SAMELIGHT_INLINE std::vector<std::array<double, 3>> DisplayModel::lights(
    const ModelState& state) const {
    const detail::ModelInUse model(intended_, state);
    std::vector<std::array<double, 3>> result;
    result.reserve(signals_.size());
    for (std::size_t i = 0; i < signals_.size(); ++i) {
        result.push_back(
            model.xyz(model.keeps_curve() ? undisturbed_[i] : model.own_lights(signals_[i])));
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> DisplayModel::light(
    const ModelState& state, const std::array<double, 3>& signal) const {
    const detail::ModelInUse model(intended_, state);
    return model.xyz(model.own_lights(signal));
}

}  // namespace samelight
