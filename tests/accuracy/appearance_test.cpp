// The largest errors of CIECAM16 and CAM16-UCS in batches. References: the formulas as printed, in long double; back, the light itself.
#include <array>
#include <cmath>
#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/ciecam16.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "colour/ciecam16_colours.hpp"
#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_batch.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Figure;
using test::cam::O;
using test::cam::plain;

template <class T>
class AppearanceAccuracy : public testing::Test {};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(AppearanceAccuracy, Numbers);

const char* const lights = "lights of a wide gamut, black to white";
const char* const coloured = "lights of a wide gamut, black to white, C above 2";

test::Stated stated(const char* operation, const char* part, const char* range, std::string bound,
                    const char* unit) {
    return {operation,        part, "colour/appearance/ciecam16_batch.hpp",       range,
            std::move(bound), unit, "CIE 248:2022 and Li et al. 2017, as printed"};
}

Exact around(Exact degrees) { return std::remainder(degrees, 360.0L); }

TYPED_TEST(AppearanceAccuracy, Attributes) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string type = test::type_name<T>();
    const auto of = [](const char* d, const char* f) { return test::bound_of<T>(d, f); };
    const char* all = "appearance_from_xyz()";
    Figure J(stated("jch_from_xyz()", "J", lights, of("1e-12", "2e-4"), "J"), type);
    Figure C(stated("jch_from_xyz()", "C", lights, of("5e-12", "1e-3"), "C"), type);
    Figure h(stated("jch_from_xyz()", "h", coloured, of("5e-11", "0.02"), "degrees"), type);
    Figure s(stated(all, "s", coloured, of("1e-11", "3e-3"), "s"), type);
    Figure Q(stated(all, "Q", lights, of("1e-12", "2e-4"), "Q"), type);
    Figure M(stated(all, "M", lights, of("5e-12", "1e-3"), "M"), type);
    Figure ucs(stated("ucs_from_xyz()", "", lights, of("5e-12", "1e-3"), "J', a', b'"), type);
    const ViewingConditions<O> viewing = plain();
    const Ciecam16<O> model(viewing);
    test::over_draws<T, 3, 13>(
        131, test::wide_gamut_light,
        [&](const auto& in, auto& out) {
            jch_from_xyz<T>(test::three(in), model, test::three(out));
            ucs_from_xyz<T>(test::three(in), model, test::three(out, 3));
            const auto column = [&](std::size_t k) { return std::span<T>(out[6 + k]); };
            appearance_from_xyz<T>(test::three(in), model,
                                   AppearanceColumns<T>{column(0), column(1), column(2), column(3),
                                                        column(4), column(5), column(6)});
        },
        [&](const auto& in, const auto& row) {
            // J, C, h, s, Q, M, J', a', b'
            const auto want =
                test::cam::as_printed(viewing,
                                      {static_cast<double>(in[0]), static_cast<double>(in[1]),
                                       static_cast<double>(in[2])},
                                      true);
            const auto got = test::exactly(row);
            J.see(got[0] - want[0]);
            J.see(got[6] - want[0]);
            C.see(got[1] - want[1]);
            C.see(got[7] - want[1]);
            Q.see(got[10] - want[4]);
            M.see(got[11] - want[5]);
            if (want[1] > 2.0L) {
                h.see(around(got[2] - want[2]));
                h.see(around(got[8] - want[2]));
                s.see(got[9] - want[3]);
            }
            for (std::size_t k = 0; k < 3; ++k) {
                ucs.see(got[3 + k] - want[6 + k]);
            }
        });
}

TYPED_TEST(AppearanceAccuracy, ThereAndBack) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string bound = test::bound_of<T>("2e-14", "1e-5");
    Figure jch(stated("xyz_from_jch()", "", lights, bound, "the white, there and back"),
               test::type_name<T>());
    Figure ucs(stated("xyz_from_ucs()", "", lights, bound, "the white, there and back"),
               test::type_name<T>());
    const Ciecam16<O> model(plain());
    test::over_draws<T, 3, 6>(
        132, test::wide_gamut_light,
        [&](const auto& in, auto& out) {
            jch_from_xyz<T>(test::three(in), model, test::three(out));
            xyz_from_jch<T>(test::three(std::as_const(out)), model, test::three(out));
            ucs_from_xyz<T>(test::three(in), model, test::three(out, 3));
            xyz_from_ucs<T>(test::three(std::as_const(out), 3), model, test::three(out, 3));
        },
        [&](const auto& in, const auto& out) {
            const std::array<Exact, 3> white = {100.0L, 100.0L, 100.0L};
            jch.see(
                test::farthest(std::array<T, 3>{out[0], out[1], out[2]}, test::exactly(in), white));
            ucs.see(
                test::farthest(std::array<T, 3>{out[3], out[4], out[5]}, test::exactly(in), white));
        });
}

}  // namespace
}  // namespace samelight
