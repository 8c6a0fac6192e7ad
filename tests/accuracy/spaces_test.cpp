// The largest errors of CIELAB, CIELUV and ICtCp in batches. References: the standards' formulas as printed, in long double.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>

#include <gtest/gtest.h>

#include "accuracy/as_printed/lab.hpp"
#include "accuracy/as_printed/transfer.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/colour/spaces/ictcp_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/colour/spaces/luv_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Exact3;
using test::Figure;

using O = Cie1931_2deg;
const std::array<double, 3> d65 = {95.04, 100.0, 108.88};  // CIE 15:2018, Table T.3
Tristimulus<O> white() { return {d65[0], d65[1], d65[2]}; }

template <class T>
class SpacesAccuracy : public testing::Test {};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(SpacesAccuracy, Numbers);

/// Ratios to the white from 1e-9 to 1; a sixth of them below 0, down to -0.01.
std::array<double, 3> light(test::Random& random) {
    std::array<double, 3> xyz{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double sign = random.whole(1, 6) == 1 ? -0.01 : 1.0;
        xyz[k] = sign * d65[k] * std::pow(10.0, random.between(-9.0, 0.0));
    }
    return xyz;
}

TYPED_TEST(SpacesAccuracy, Lab) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure(
        {"lab_from_xyz()", "", "colour/spaces/lab_batch.hpp", "ratios to the white from -0.01 to 1",
         test::bound_of<T>("5e-13", "2e-4"), "L\\*, a\\*, b\\*", "CIE 15:2018, 8.2.1, as printed"},
        test::type_name<T>());
    test::over_draws<T, 3, 3>(
        101, light,
        [](const auto& in, auto& out) {
            lab_from_xyz<T>(test::three(in), white(), test::three(out));
        },
        [&](const auto& in, const auto& out) {
            figure.see(test::farthest(out, test::lab_as_printed(test::exactly(in), d65)));
        });
}

TYPED_TEST(SpacesAccuracy, LabBack) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure({"xyz_from_lab()", "", "colour/spaces/lab_batch.hpp",
                   "colours between black and white", test::bound_of<T>("2e-15", "1e-6"),
                   "X, Y, Z of the white", "CIE 15:2018, 8.2.1, as printed, solved"},
                  test::type_name<T>());
    test::over_draws<T, 3, 3>(
        102,
        [](test::Random& random) {
            const std::array<double, 3> xyz = light(random);
            const Exact3 lab = test::lab_as_printed(test::exactly(xyz), d65);
            return std::array<double, 3>{static_cast<double>(lab[0]), static_cast<double>(lab[1]),
                                         static_cast<double>(lab[2])};
        },
        [](const auto& in, auto& out) {
            xyz_from_lab<T>(test::three(in), white(), test::three(out));
        },
        [&](const auto& in, const auto& out) {
            figure.see(test::farthest(out, test::xyz_of_lab_as_printed(test::exactly(in), d65),
                                      test::exactly(d65)));
        });
}

TYPED_TEST(SpacesAccuracy, Luv) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure({"luv_from_xyz()", "", "colour/spaces/luv_batch.hpp",
                   "lights of a wide gamut, black to white", test::bound_of<T>("1e-12", "2e-4"),
                   "L\\*, u\\*, v\\*", "CIE 15:2018, 8.2.2, as printed"},
                  test::type_name<T>());
    test::over_draws<T, 3, 3>(
        103, test::wide_gamut_light,
        [](const auto& in, auto& out) {
            luv_from_xyz<T>(test::three(in), white(), test::three(out));
        },
        [&](const auto& in, const auto& out) {
            figure.see(test::farthest(out, test::luv_as_printed(test::exactly(in), d65)));
        });
}

TYPED_TEST(SpacesAccuracy, LuvBack) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure(
        {"xyz_from_luv()", "", "colour/spaces/luv_batch.hpp",
         "lights of a wide gamut, L\\* from 0.1 to 100", test::bound_of<T>("1e-12", "5e-6"),
         "the largest of X, Y, Z", "CIE 15:2018, 8.2.2, as printed, solved"},
        test::type_name<T>());
    test::over_draws<T, 3, 3>(
        104,
        [](test::Random& random) {
            std::array<double, 3> xyz{};
            do {
                xyz = test::wide_gamut_light(random);
            } while (xyz[1] < 0.02);
            const Exact3 luv = test::luv_as_printed(test::exactly(xyz), d65);
            return std::array<double, 3>{static_cast<double>(luv[0]), static_cast<double>(luv[1]),
                                         static_cast<double>(luv[2])};
        },
        [](const auto& in, auto& out) {
            xyz_from_luv<T>(test::three(in), white(), test::three(out));
        },
        [&](const auto& in, const auto& out) {
            const Exact3 want = test::xyz_of_luv_as_printed(test::exactly(in), d65);
            const Exact most = std::max({want[0], want[1], want[2]});
            figure.see(test::farthest(out, want, {most, most, most}));
        });
}

// ---- ICtCp: ITU-R BT.2100-2, Table 7, from its whole numbers ------------------------------------------------

using ExactMatrix = std::array<Exact3, 3>;
Exact3 times(const ExactMatrix& m, const Exact3& v) {
    Exact3 result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
    return result;
}
ExactMatrix inverse_of(const ExactMatrix& m) {
    ExactMatrix result{};
    const auto minor = [&](std::size_t i, std::size_t k) {
        const std::size_t a = (i + 1) % 3, b = (i + 2) % 3, c = (k + 1) % 3, d = (k + 2) % 3;
        return m[a][c] * m[b][d] - m[a][d] * m[b][c];
    };
    const Exact determinant = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            result[i][k] = minor(k, i) / determinant;
        }
    }
    return result;
}
ExactMatrix per_4096(const ExactMatrix& m) {
    ExactMatrix result = m;
    for (auto& row : result) {
        for (Exact& value : row) {
            value /= 4096.0L;
        }
    }
    return result;
}
const ExactMatrix lms_of_rgb = {{{1688, 2146, 262}, {683, 2951, 462}, {99, 309, 3688}}};

template <class Kind>
ExactMatrix ictcp_of_signals() {
    return std::is_same_v<Kind, PqIctcp>
               ? ExactMatrix{{{2048, 2048, 0}, {6610, -13613, 7003}, {17933, -17390, -543}}}
               : ExactMatrix{{{2048, 2048, 0}, {3625, -7465, 3840}, {9500, -9212, -288}}};
}
template <class Kind>
Exact signal_of(Exact light) {
    return std::is_same_v<Kind, PqIctcp> ? test::pq_signal_as_printed(light)
                                         : test::hlg_oetf_as_printed(light);
}
/// Odd, as both are continued below 0.
template <class Kind>
Exact light_of(Exact signal) {
    const Exact size = std::abs(signal);
    return std::copysign(std::is_same_v<Kind, PqIctcp> ? test::pq_luminance_as_printed(size)
                                                       : test::hlg_oetf_inverse_as_printed(size),
                         signal);
}
template <class Kind>
Exact3 ictcp_as_printed(const Exact3& rgb) {
    const Exact3 lms = times(per_4096(lms_of_rgb), rgb);
    return times(per_4096(ictcp_of_signals<Kind>()),
                 {signal_of<Kind>(lms[0]), signal_of<Kind>(lms[1]), signal_of<Kind>(lms[2])});
}

/// R, G, B from 1e-4 of the most to it.
template <class Kind>
std::array<double, 3> drawn_rgb(test::Random& random) {
    std::array<double, 3> rgb{};
    for (double& value : rgb) {
        value =
            (std::is_same_v<Kind, PqIctcp> ? 1e4 : 1.0) * std::pow(10.0, random.between(-7.0, 0.0));
    }
    return rgb;
}

template <class T, class Kind>
void look_at_ictcp(const std::string& kind, const char* range) {
    const ExactMatrix rgb_of_lms = inverse_of(per_4096(lms_of_rgb));
    const ExactMatrix signals_of = inverse_of(per_4096(ictcp_of_signals<Kind>()));
    Figure there({"ictcp_from_bt2020()", kind, "colour/spaces/ictcp_batch.hpp", range,
                  test::bound_of<T>("1e-14", "2e-6"), "I, CT, CP",
                  "ITU-R BT.2100-2, Tables 4, 5 and 7, as printed"},
                 test::type_name<T>());
    Figure back({"bt2020_from_ictcp()", kind, "colour/spaces/ictcp_batch.hpp", range,
                 test::bound_of<T>("5e-14", "2e-5"),
                 "the largest of R, G, B + " +
                     std::string(std::is_same_v<Kind, PqIctcp> ? "1 cd/m2" : "0.01"),
                 "ITU-R BT.2100-2, Tables 4, 5 and 7, as printed, solved"},
                test::type_name<T>());
    test::over_draws<T, 3, 6>(
        105, drawn_rgb<Kind>,
        [](const auto& in, auto& out) {
            ictcp_from_bt2020<Kind, T>(test::three(in), test::three(out));
            bt2020_from_ictcp<Kind, T>(test::three(std::as_const(out)), test::three(out, 3));
        },
        [&](const auto& in, const auto& out) {
            const std::array<T, 3> ictcp = {out[0], out[1], out[2]};
            there.see(test::farthest(ictcp, ictcp_as_printed<Kind>(test::exactly(in))));
            const Exact3 signals = times(signals_of, test::exactly(ictcp));
            const Exact3 want =
                times(rgb_of_lms, {light_of<Kind>(signals[0]), light_of<Kind>(signals[1]),
                                   light_of<Kind>(signals[2])});
            const Exact most = std::max({want[0], want[1], want[2]}) +
                               (std::is_same_v<Kind, PqIctcp> ? 1.0L : 0.01L);
            back.see(
                test::farthest(std::array<T, 3>{out[3], out[4], out[5]}, want, {most, most, most}));
        });
}

TYPED_TEST(SpacesAccuracy, Ictcp) {
    SAMELIGHT_NEEDS_EXACT()
    look_at_ictcp<TypeParam, PqIctcp>("PQ", "R, G, B from 0.001 to 10,000 cd/m2");
    look_at_ictcp<TypeParam, HlgIctcp>("HLG", "R, G, B from 1e-7 to 1");
}

TYPED_TEST(SpacesAccuracy, DeltaEItp) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const auto stated = [](const char* part, const char* range, const std::string& bound) {
        return test::Stated{"delta_e_itp()",
                            part,
                            "colour/spaces/ictcp_batch.hpp",
                            range,
                            bound,
                            "the difference",
                            "ITU-R BT.2124-0, as printed"};
    };
    Figure near(stated("", "colours within the nominal range, differences below 500",
                       test::bound_of<T>("1e-12", "1e-4")),
                test::type_name<T>());
    Figure far(stated("", "colours within the nominal range, any difference",
                      test::bound_of<T>("1e-12", "2e-4")),
               test::type_name<T>());
    test::over_draws<T, 6, 1>(
        106,
        [](test::Random& random) {
            std::array<double, 6> row{};
            for (std::size_t k = 0; k < 6; ++k) {
                row[k] = random.between(0.0, 1.0) - (k % 3 == 0 ? 0.0 : 0.5);
            }
            return row;
        },
        [](const auto& in, auto& out) {
            delta_e_itp<T>(test::three(in), test::three(in, 3), std::span<T>(out[0]));
        },
        [&](const auto& in, const auto& out) {
            const auto v = test::exactly(in);
            const Exact i = v[0] - v[3], t = (v[1] - v[4]) / 2.0L, p = v[2] - v[5];
            const Exact want = 720.0L * std::sqrt(i * i + t * t + p * p);
            far.see(static_cast<Exact>(out[0]) - want);
            if (want < 500.0L) {
                near.see(static_cast<Exact>(out[0]) - want);
            }
        });
}

}  // namespace
}  // namespace samelight
