// What each patch must read: white replaced against RP 177's rows, seen alike against the white target and a plain solution.
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Dense>

#include "numeric/check_rows.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/patch_target.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

IntendedDisplay meant(const RgbEncoding& encoding = RgbEncoding::of<Bt709>(), double black = 0.0) {
    CurveOptions options;
    options.black_cd_m2 = black;
    return {encoding, SignalCurve(options)};
}

const Quantisation eight{8, SignalRange::full};

// SMPTE RP 177:1993; the rows of BT.709, BT.2020 and P3.
TEST(IntendedDisplay, ShowsThePrimariesOfRp177sRows) {
    const std::array<RgbEncoding, 3> encodings = {
        RgbEncoding::of<Bt709>(), RgbEncoding::of<Bt2020>(), RgbEncoding::of<P3D65>()};
    std::size_t i = 0;
    for (const auto& row : test::CheckRows("checks/rgb_npm.csv")) {
        if (i == encodings.size()) {
            break;
        }
        const IntendedDisplay display = meant(encodings.at(i++));
        const std::array<std::array<const char*, 3>, 3> names = {
            {{"M11", "M21", "M31"}, {"M12", "M22", "M32"}, {"M13", "M23", "M33"}}};
        for (std::size_t primary = 0; primary < 3; ++primary) {
            std::array<double, 3> signal{};
            signal.at(primary) = 1.0;
            const auto xyz = display.xyz(signal);
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(xyz.at(k), 100.0 * row.number(names.at(primary).at(k)), 1e-7);
            }
        }
    }
    EXPECT_EQ(i, encodings.size());
}

TEST(IntendedDisplay, KeepsItsPrimariesAboutAnotherWhite) {
    const IntendedDisplay plain = meant();
    const IntendedDisplay chosen = plain.with_white({0.3050, 0.3200});
    const auto xy = [](const std::array<double, 3>& t) {
        const double sum = t[0] + t[1] + t[2];
        return std::array{t[0] / sum, t[1] / sum};
    };
    EXPECT_NEAR(xy(chosen.white())[0], 0.3050, 1e-12);
    EXPECT_NEAR(xy(chosen.white())[1], 0.3200, 1e-12);
    EXPECT_NEAR(chosen.white()[1], 100.0, 1e-10);
    EXPECT_NEAR(xy(chosen.xyz({0.7, 0.0, 0.0}))[0], 0.64, 1e-12);
    EXPECT_NEAR(xy(chosen.xyz({0.0, 0.4, 0.0}))[1], 0.60, 1e-12);
    const auto back = chosen.signals(chosen.xyz({0.3, 0.6, 0.9}));
    EXPECT_NEAR(back.signal[0], 0.3, 1e-9);
    EXPECT_NEAR(back.signal[2], 0.9, 1e-9);
}

TEST(ProofPatches, AreAsManyAsSaidAndWholeCodes) {
    for (const Quantisation& q : {eight, Quantisation(10, SignalRange::limited)}) {
        const auto list = proof_patches(meant(), q);
        ASSERT_EQ(list.size(), 133U);
        std::array<std::size_t, 4> count{};
        for (const SignalPatch& patch : list) {
            ++count.at(static_cast<std::size_t>(patch.group));
            for (const double s : patch.signal) {
                const double code = q.exact_code(Signal(s));
                EXPECT_NEAR(code, std::round(code), 1e-9) << patch.name;
            }
        }
        EXPECT_EQ(count[0], 13U);
        EXPECT_EQ(count[1], 20U);
        EXPECT_EQ(count[2], 64U);
    }
}

// Signals alone tell most of the skin that was measured, and call no other surface of the list but few so.
TEST(ProofPatches, OfSkinAreToldByTheirSignals) {
    int skin = 0;
    int others = 0;
    for (const SignalPatch& patch : proof_patches(meant(), eight)) {
        const bool told = group_of(patch.signal) == SignalGroup::skin;
        skin += told && patch.group == SignalGroup::skin ? 1 : 0;
        others += told && patch.group != SignalGroup::skin ? 1 : 0;
    }
    EXPECT_GE(skin, 18);
    EXPECT_LE(others, 12);
}

// A white surface has the signals of white.
TEST(SurfacePatches, OfAPerfectWhiteAreWhite) {
    const SurfacePatch white{"white", PatchGroup::neutral, {{400.0, 700.0}, {1.0, 1.0}}};
    const SurfacePatch grey{"grey", PatchGroup::neutral, {{400.0, 700.0}, {0.5, 0.5}}};
    const std::array surfaces = {white, grey};
    const auto list = surface_patches(meant(RgbEncoding::of<P3Cinema>()), surfaces);
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(list[0].signal.at(k), 1.0, 1e-9);
        EXPECT_NEAR(list[1].signal.at(k), std::pow(0.5, 1.0 / 2.4), 1e-9);
    }
}

class SeenAlikeOfPanels : public ::testing::Test {
  protected:
    Panel laser = generic_panel(generic_model("laser-rgb"));
    Panel tube = generic_panel(generic_model("crt"));
    const Observer& eye = standard_observer<Cie2015_2deg>();
};

// The issue's own law: on one and the same panel both kinds of target are one.
TEST_F(SeenAlikeOfPanels, IsWhiteReplacedForOneAndTheSamePanel) {
    const auto list = proof_patches(meant(), eight);
    const auto alike = targets_seen_alike(meant(), {laser, laser, eye}, list);
    const auto replaced = targets_white_replaced(meant(), list);
    for (std::size_t i = 0; i < list.size(); ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(alike[i].xyz.at(k), replaced[i].xyz.at(k), 1e-8) << list[i].name;
        }
    }
}

// The white is the white target of the same displays, which has its own tests.
TEST_F(SeenAlikeOfPanels, HasTheWhiteTarget) {
    const auto list = proof_patches(meant(), eight);
    const auto alike = targets_seen_alike(meant(), {laser, tube, eye}, list);
    const auto target = white_target(laser, display_reference(tube, {0.3127, 0.3290}), eye);
    const auto& white = alike[12];
    ASSERT_EQ(white.patch.name, "grey-100");
    const double sum = white.xyz[0] + white.xyz[1] + white.xyz[2];
    EXPECT_NEAR(white.xyz[0] / sum, target.xy.x(), 1e-10);
    EXPECT_NEAR(white.xyz[1] / sum, target.xy.y(), 1e-10);
}

// Its own stated bound: on one panel what is asked for is what is read, and on two the eye's answers are alike, to 1e-10 of the white.
TEST_F(SeenAlikeOfPanels, KeepsItsStatedError) {
    const std::array<double, 3> white = {95.047, 100.0, 108.883};
    Eigen::Matrix3Xd colours(3, 2);
    colours.col(0) << 20.0, 18.0, 12.0;
    colours.col(1) << 30.0, 35.0, 40.0;
    const SeenAlike same = seen_alike({tube, tube, eye}, white, colours);
    ASSERT_EQ(same.read.size(), 3U);
    for (std::size_t k = 0; k < 3; ++k) {
        const auto row = static_cast<Eigen::Index>(k);
        EXPECT_NEAR(same.read[0].at(k), white.at(k), 1e-10 * 100.0);
        EXPECT_NEAR(same.read[1].at(k), colours(row, 0), 1e-10 * 100.0);
        EXPECT_NEAR(same.read[2].at(k), colours(row, 1), 1e-10 * 100.0);
    }

    const SeenAlike two = seen_alike({laser, tube, eye}, white, colours);
    const Eigen::MatrixXd cie = standard_observer<Cie1931_2deg>().on(Sampling{}).rows();
    const Eigen::MatrixXd own = eye.on(Sampling{}).rows();
    const auto answers = [&](const Panel& panel, const std::array<double, 3>& xyz) {
        const Eigen::MatrixXd p = panel.emitters();
        const Eigen::Vector3d drive =
            (cie * p).eval().fullPivLu().solve(Eigen::Vector3d(xyz[0], xyz[1], xyz[2]));
        return Eigen::Vector3d(own * (p * drive));
    };
    const double scale = answers(tube, white)[1];
    for (std::size_t i = 0; i < 3; ++i) {
        const std::array<double, 3> asked =
            i == 0 ? white
                   : std::array{colours(0, static_cast<Eigen::Index>(i) - 1),
                                colours(1, static_cast<Eigen::Index>(i) - 1),
                                colours(2, static_cast<Eigen::Index>(i) - 1)};
        const Eigen::Vector3d gap = answers(laser, two.read.at(i)) - answers(tube, asked);
        EXPECT_LT(gap.cwiseAbs().maxCoeff(), 1e-10 * scale) << i;
    }
}

// Second route: A w = T r by Eigen's own solver, patch by patch, the white at the same luminance to the eye.
TEST_F(SeenAlikeOfPanels, SolvesEachPatchForTheEye) {
    const IntendedDisplay plain = meant();
    const std::vector<SignalPatch> list = {{"skin", SignalGroup::skin, {0.8, 0.6, 0.5}, {}},
                                           {"leaf", SignalGroup::other, {0.4, 0.5, 0.3}, {}}};
    const auto alike = targets_seen_alike(plain, {laser, tube, eye}, list);
    const Eigen::MatrixXd cie = standard_observer<Cie1931_2deg>().on(Sampling{}).rows();
    const Eigen::MatrixXd own = eye.on(Sampling{}).rows();
    const Eigen::MatrixXd p = laser.emitters();
    const Eigen::MatrixXd t = tube.emitters();
    const auto read = [&](const std::array<double, 3>& xyz) {
        const Eigen::Vector3d drive =
            (cie * t).eval().fullPivLu().solve(Eigen::Vector3d(xyz[0], xyz[1], xyz[2]));
        const Eigen::Vector3d w = (own * p).eval().fullPivLu().solve(own * (t * drive));
        return Eigen::Vector3d(cie * (p * w));
    };
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Eigen::Vector3d wanted = read(plain.xyz(list[i].signal));
        for (Eigen::Index k = 0; k < 3; ++k) {
            EXPECT_NEAR(alike[i].xyz.at(static_cast<std::size_t>(k)), wanted[k], 1e-7);
        }
    }
}

TEST_F(SeenAlikeOfPanels, SaysWhatLiesOutsideAndTakesTheNearest) {
    const IntendedDisplay wide = meant(RgbEncoding::of<Bt2020>());
    const std::vector<SignalPatch> list = {{"green", SignalGroup::saturated, {0.0, 1.0, 0.0}, {}},
                                           {"grey", SignalGroup::grey, {0.5, 0.5, 0.5}, {}}};
    const auto alike = targets_seen_alike(wide, {tube, laser, eye}, list);
    EXPECT_EQ(alike[0].reach, PatchReach::nearest);
    EXPECT_GT(alike[0].left_uv, 0.01);
    EXPECT_EQ(alike[1].reach, PatchReach::shown);
    EXPECT_EQ(alike[1].left_uv, 0.0);
    const auto lacks = targets_seen_alike(wide, {laser, tube, eye}, list);
    EXPECT_NE(lacks[0].reach, PatchReach::shown);
}

}  // namespace
}  // namespace samelight
