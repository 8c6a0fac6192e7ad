#pragma once
// A display of the tests' own whose white balance is steered: signals, coupling controls of coarse steps, limits, leaking black, noisy readings.
// It knows nothing of GreyDrives: gains and offsets act on signals, each channel has a curve and a colour of its own. Invented, no source.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <vector>

#include "samelight/check/adjusting/control.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {

/// Numbers from a seed.
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : random_(seed) {}
    double between(double low, double high) { return low + (high - low) * random_.next_unit(); }
    double normal() {
        const double a = random_.next_unit();
        const double b = random_.next_unit();
        return std::sqrt(-2.0 * std::log(a)) * std::cos(2.0 * std::numbers::pi * b);
    }
    int whole(int low, int high) {
        return low + static_cast<int>(random_.next_unit() * (high - low + 1));
    }

  private:
    PseudoRandom random_;
};

class SteeredDisplay {
  public:
    static constexpr std::size_t controls = 6;

    explicit SteeredDisplay(std::uint64_t seed) : chance_(seed) {
        const std::array<std::array<double, 2>, 3> xy = {
            {{0.64, 0.33}, {0.28, 0.64}, {0.152, 0.055}}};
        std::array<std::array<double, 2>, 3> own{};
        const double exponent = chance_.between(2.15, 2.5);
        for (std::size_t k = 0; k < 3; ++k) {
            own[k] = {xy[k][0] + chance_.between(-0.015, 0.015),
                      xy[k][1] + chance_.between(-0.012, 0.012)};
            exponent_[k] = exponent + chance_.between(-0.04, 0.04);
            bend_[k] = chance_.between(-0.004, 0.004);
        }
        // Shares of D65 by the display's own primaries, then off by up to 12 % a channel.
        const Matrix3 columns = detail::primary_columns({own[0], own[1], own[2], {0.3127, 0.3290}});
        const auto shares = detail::times(
            detail::inverse(columns), xyz_from_xyY(0.3127, 0.3290, chance_.between(90.0, 300.0)));
        for (std::size_t k = 0; k < 3; ++k) {
            const double share = shares[k] * std::exp(chance_.between(-0.06, 0.06));
            for (std::size_t i = 0; i < 3; ++i) {
                light_[k][i] = columns[i][k] * share;
            }
        }
        const double leak =
            chance_.between(0.0, 0.0006) * (light_[0][1] + light_[1][1] + light_[2][1]);
        black_ = xyz_from_xyY(0.29, 0.30, std::max(1e-6, leak));
        for (std::size_t j = 0; j < controls; ++j) {
            const bool gain = j < 3;
            const double size =
                gain ? chance_.between(0.002, 0.008) : chance_.between(0.0006, 0.003);
            for (std::size_t k = 0; k < 3; ++k) {
                const double part = size * (k == j % 3 ? 1.0 : chance_.between(0.0, 0.15));
                top_[j][k] = part * (gain ? 1.0 : chance_.between(0.0, 1.0));
                bottom_[j][k] = part * (gain ? chance_.between(-0.05, 0.1) : 1.0);
            }
            offset_error_[j % 3] = chance_.between(-0.008, 0.008);
        }
    }

    /// Steps from the factory's setting, red, green, blue gain and offset.
    std::array<int, controls> set{};
    std::array<int, controls> least{-40, -40, -40, -40, -40, -40};
    std::array<int, controls> most{40, 40, 40, 40, 40, 40};
    /// Controls that do nothing, whatever they stand at: a locked mode.
    std::array<bool, controls> dead{};

    static Control control(std::size_t j) {
        return {static_cast<ControlChannel>(j % 3),
                j < 3 ? ControlKind::gain : ControlKind::offset};
    }

    [[nodiscard]] std::array<double, 3> truth(double signal) const {
        std::array<double, 3> xyz = black_;
        for (std::size_t k = 0; k < 3; ++k) {
            double e = signal + offset_error_[k] * (1.0 - signal) +
                       bend_[k] * std::sin(2.0 * std::numbers::pi * signal);
            for (std::size_t j = 0; j < controls; ++j) {
                e +=
                    (dead[j] ? 0 : set[j]) * (top_[j][k] * signal + bottom_[j][k] * (1.0 - signal));
            }
            for (std::size_t i = 0; i < 3; ++i) {
                xyz[i] += light_[k][i] * std::pow(std::max(0.0, e), exponent_[k]);
            }
        }
        return xyz;
    }

    /// As an instrument reads it: 0.2 % of X, Y and Z, of which half in common, and 0.0003 cd/m2.
    std::array<double, 3> read(double signal) {
        std::array<double, 3> xyz = truth(signal);
        const double common = 0.0014 * chance_.normal();
        for (double& v : xyz) {
            v = v * (1.0 + common + 0.001 * chance_.normal()) + 0.0003 * chance_.normal();
        }
        return xyz;
    }

    /// Greys once, white three times.
    std::vector<GreyLevel> read_greys() {
        std::vector<GreyLevel> greys;
        for (const double level : {0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0}) {
            const int times = level == 1.0 ? 3 : 1;
            GreyLevel grey{level, {}, times};
            for (int i = 0; i < times; ++i) {
                const auto once = read(level);
                for (std::size_t k = 0; k < 3; ++k) {
                    grey.xyz[k] += once[k] / times;
                }
            }
            greys.push_back(grey);
        }
        return greys;
    }

    /// Each control moved by about `reach` of drive, up or down, at full signal and at 30 %, from where it stands.
    std::vector<ControlReading> read_controls() {
        std::vector<ControlReading> rows;
        for (const double level : {1.0, 0.3}) {
            for (int i = 0; i < 2; ++i) {
                rows.push_back({{}, 0, level, read(level)});
            }
        }
        const auto before = set;
        for (std::size_t j = 0; j < controls; ++j) {
            for (const double level : {1.0, 0.3}) {
                for (const int steps : {-8, 8}) {
                    set = before;
                    set[j] += steps;
                    rows.push_back({control(j), steps, level, read(level), least[j] - before[j],
                                    most[j] - before[j]});
                }
            }
        }
        set = before;
        return rows;
    }

    [[nodiscard]] std::array<double, 3> black() const { return black_; }
    Chance& chance() { return chance_; }

  private:
    Chance chance_;
    std::array<double, 3> exponent_{}, bend_{}, offset_error_{}, black_{};
    std::array<std::array<double, 3>, 3> light_{};
    std::array<std::array<double, 3>, controls> top_{}, bottom_{};
};

}  // namespace samelight::test
