// The largest errors of a meter's corrections from paired readings. References: the methods' own equations, solved in long double.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/ledger.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Figure;

using Three = std::array<double, 3>;
using Exact3 = std::array<Exact, 3>;
using ExactMatrix = std::array<Exact3, 3>;

/// A x = b by Gauss-Jordan with the largest pivot, for three right-hand sides: b becomes x.
void solve(ExactMatrix a, ExactMatrix& b) {
    for (std::size_t k = 0; k < 3; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k + 1; i < 3; ++i) {
            pivot = std::abs(a[i][k]) > std::abs(a[pivot][k]) ? i : pivot;
        }
        std::swap(a[k], a[pivot]);
        std::swap(b[k], b[pivot]);
        for (std::size_t i = 0; i < 3; ++i) {
            if (i == k) {
                continue;
            }
            const Exact times = a[i][k] / a[k][k];
            for (std::size_t j = 0; j < 3; ++j) {
                a[i][j] -= times * a[k][j];
                b[i][j] -= times * b[k][j];
            }
        }
    }
    for (std::size_t k = 0; k < 3; ++k) {
        for (Exact& value : b[k]) {
            value /= a[k][k];
        }
    }
}

/// X, Y, Z of red, green and blue of a display between BT.709 and BT.2020, white 50 to 500 cd/m2.
std::array<Three, 3> primaries(test::Random& random) {
    const auto light = [&](double x, double y, double luminance) {
        return Three{luminance * x / y, luminance, luminance * (1.0 - x - y) / y};
    };
    const double white = random.between(50.0, 500.0);
    return {light(random.between(0.64, 0.7), random.between(0.29, 0.33), 0.23 * white),
            light(random.between(0.17, 0.3), random.between(0.6, 0.79), 0.70 * white),
            light(random.between(0.13, 0.16), random.between(0.045, 0.07), 0.07 * white)};
}
Three mixture(const std::array<Three, 3>& lights, const Three& drive) {
    Three sum{};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            sum[k] += drive[i] * lights[i][k];
        }
    }
    return sum;
}
/// What a meter reads of a light: each value off by up to 5 % of all, its own way.
Three read_by_meter(const Three& light, const std::array<Three, 3>& of_meter) {
    Three result{};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            result[i] += of_meter[i][k] * light[k];
        }
    }
    return result;
}
std::array<Three, 3> meter(test::Random& random) {
    std::array<Three, 3> matrix{};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            matrix[i][k] = (i == k ? 1.0 : 0.0) + random.between(-0.03, 0.03);
        }
    }
    return matrix;
}

TEST(MeterAccuracy, LeastSquares) {
    SAMELIGHT_NEEDS_EXACT()
    Figure figure({"least_squares_matrix()", "", "meter/readings/pair_columns.hpp",
                   "12 colours of displays between BT.709 and BT.2020, noise 0.2 %", "1e-11",
                   "an entry of the matrix", "normal equations in long double"},
                  "double");
    test::Random random(151);
    for (std::size_t seen = 0; seen < test::draws(); seen += 9) {
        const auto lights = primaries(random);
        const auto of_meter = meter(random);
        std::vector<Three> read;
        std::vector<Three> reference;
        // Primaries, white and eight mixtures.
        for (int i = 0; i < 12; ++i) {
            const auto drive = [&](int one) {
                return i < 4 ? (i == 3 || i == one ? 1.0 : 0.0) : random.between(0.0, 1.0);
            };
            const double r = drive(0);
            const double g = drive(1);
            reference.push_back(mixture(lights, {r, g, drive(2)}));
            read.push_back(read_by_meter(reference.back(), of_meter));
            for (double& value : read.back()) {
                value *= 1.0 + 0.002 * random.normal();
            }
        }
        ExactMatrix products{};
        ExactMatrix right{};
        for (std::size_t n = 0; n < read.size(); ++n) {
            for (std::size_t i = 0; i < 3; ++i) {
                for (std::size_t k = 0; k < 3; ++k) {
                    products[i][k] += static_cast<Exact>(read[n][i]) * read[n][k];
                    right[i][k] += static_cast<Exact>(read[n][i]) * reference[n][k];
                }
            }
        }
        solve(products, right);  // of the transpose
        const std::array<double, 9> got = least_squares_matrix(PairColumns(read, reference));
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                figure.see(got[3 * i + k] - right[k][i]);
            }
        }
    }
}

Exact3 chromaticity(const Three& xyz) {
    const Exact sum = static_cast<Exact>(xyz[0]) + xyz[1] + xyz[2];
    return {xyz[0] / sum, xyz[1] / sum, xyz[2] / sum};
}
/// P diag(P^-1 w): columns x, y, z of red, green and blue, so scaled that their sum is white's.
ExactMatrix scaled_primaries(const std::array<Three, 4>& rgbw) {
    ExactMatrix p{};
    ExactMatrix w{};
    const Exact3 white = chromaticity(rgbw[3]);
    for (std::size_t i = 0; i < 3; ++i) {
        const Exact3 c = chromaticity(rgbw[i]);
        for (std::size_t k = 0; k < 3; ++k) {
            p[k][i] = c[k];
        }
        w[i][0] = white[i];
    }
    solve(p, w);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            p[k][i] *= w[i][0];
        }
    }
    return p;
}

TEST(MeterAccuracy, FourColour) {
    SAMELIGHT_NEEDS_EXACT()
    Figure figure({"fit_correction()", "four colours", "meter/correction/fit.hpp",
                   "displays between BT.709 and BT.2020", "1e-12", "an entry of the matrix",
                   "Ohno & Hardis 1997, in long double"},
                  "double");
    test::Random random(152);
    for (std::size_t seen = 0; seen < test::draws(); seen += 9) {
        const auto lights = primaries(random);
        const auto of_meter = meter(random);
        const std::array<Three, 4> reference = {lights[0], lights[1], lights[2],
                                                mixture(lights, {1.0, 1.0, 1.0})};
        const std::array<const char*, 4> names = {"red", "green", "blue", "white"};
        std::array<Three, 4> read{};
        std::vector<PairedReading> pairs;
        for (std::size_t i = 0; i < 4; ++i) {
            read[i] = read_by_meter(reference[i], of_meter);
            for (double& value : read[i]) {
                value *= 1.0 + 0.002 * random.normal();
            }
            pairs.push_back({names[i], reference[i], read[i], 1, {}});
        }
        // R = N M^-1, times the luminance factor that sets white: R^T = M^-T N^T.
        const ExactMatrix m = scaled_primaries(read);
        const ExactMatrix n = scaled_primaries(reference);
        ExactMatrix m_transposed{};
        ExactMatrix want{};
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                m_transposed[i][k] = m[k][i];
                want[i][k] = n[k][i];
            }
        }
        solve(m_transposed, want);
        Exact corrected_y = 0.0L;
        for (std::size_t k = 0; k < 3; ++k) {
            corrected_y += want[k][1] * read[3][k];
        }
        const std::array<double, 9> got =
            fit_correction(ReadingSet(std::move(pairs))).xyz_from_meter();
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                figure.see(got[3 * i + k] - want[k][i] * reference[3][1] / corrected_y);
            }
        }
    }
}

}  // namespace
}  // namespace samelight
