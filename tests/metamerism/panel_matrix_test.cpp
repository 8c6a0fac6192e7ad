// Every pair of a list of panels: the figures of the pair alone, what the settings do, and what is said about the list.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/refusals.hpp"
#include "samelight/metamerism/panel_matrix.hpp"

namespace samelight {
namespace {

using test::d65;
using test::generic;
using test::patches;
using test::people;
using test::refusal;

std::vector<MatrixPanel> list(const std::vector<const char*>& names) {
    std::vector<MatrixPanel> panels;
    for (const char* name : names) {
        panels.push_back({generic(name), PanelOrigin::generic});
    }
    return panels;
}

const Observer& eye() { return standard_observer<Cie2015_2deg>(); }

// Second route: population_index() of the same colours, pair by pair and setting by setting.
TEST(PanelMatrix, PairsAreThoseOfThePairAlone) {
    const Population population = people(100);
    const auto panels = list({"lcd-white-led", "oled-rgb", "oled-white", "laser-rgb"});
    const PanelMatrix matrix = panel_matrix(panels, d65(), patches(), eye(), population);
    ASSERT_EQ(matrix.pairs.size(), 6U);
    ASSERT_EQ(matrix.settings.size(), 3U);
    EXPECT_EQ(matrix.viewers, 100U);
    EXPECT_GT(matrix.colours.size(), 100U);
    std::vector<std::size_t> common;
    for (const std::size_t colour : matrix.colours) {
        common.push_back(colour + 1);
    }
    for (std::size_t s = 0; s < 3; ++s) {
        std::vector<MixedLights> lights;
        for (const MatrixPanel& entry : panels) {
            const Observer& instrument = standard_observer<Cie1931_2deg>();
            const Setting setting = matrix.settings[s];
            lights.push_back(
                (setting == Setting::by_instrument
                     ? reproduce(entry.panel, d65(), patches(), instrument)
                 : setting == Setting::white_matched
                     ? reproduce_with_white_for(entry.panel, d65(), patches(), instrument, eye())
                     : reproduce(entry.panel, d65(), patches(), eye()))
                    .lights);
        }
        for (const MatrixPair& pair : matrix.pairs) {
            const MixedLights& a = lights[pair.first];
            const MixedLights& b = lights[pair.second];
            const PairFigures& figures = pair.figures[s];
            const auto white = population_index(population, a.chosen({0}), b.chosen({0}), d65());
            const auto colours =
                population_index(population, a.chosen(common), b.chosen(common), d65());
            EXPECT_NEAR(figures.white_de00.mean, white.de00.mean, 1e-10);
            EXPECT_NEAR(figures.white_de00.p95, white.de00.p95, 1e-10);
            EXPECT_NEAR(figures.white_uv.largest, white.uv.largest, 1e-12);
            EXPECT_NEAR(figures.white_pair_share, white.pair_share, 1e-12);
            EXPECT_NEAR(figures.colours_de00.mean, colours.de00.mean, 1e-10);
            EXPECT_NEAR(figures.colours_de00.p90, colours.de00.p90, 1e-10);
            EXPECT_NEAR(figures.largest_de00, colours.largest_de00, 1e-10);
            EXPECT_EQ(figures.worst_colour, matrix.colours[colours.worst_colour]);
            EXPECT_NEAR(figures.worst_colour_de00, colours.colours[colours.worst_colour].mean_de00,
                        1e-10);
        }
    }
}

TEST(PanelMatrix, TheOrderOfTheListHasNoSay) {
    const Population population = people(64);
    const auto forth = panel_matrix(list({"crt", "lcd-narrow-red", "oled-quantum-dot"}), d65(),
                                    patches(), eye(), population);
    const auto back = panel_matrix(list({"oled-quantum-dot", "lcd-narrow-red", "crt"}), d65(),
                                   patches(), eye(), population);
    EXPECT_EQ(forth.colours, back.colours);
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = 0; j < 3; ++j) {
            if (i == j) {
                refusal(ErrorKind::domain, [&] { static_cast<void>(forth.pair(i, j)); });
                continue;
            }
            for (std::size_t s = 0; s < 3; ++s) {
                const PairFigures& a = forth.pair(i, j).figures[s];
                const PairFigures& b = back.pair(2 - i, 2 - j).figures[s];
                EXPECT_NEAR(a.white_de00.mean, b.white_de00.mean, 1e-10);
                EXPECT_EQ(a.white_pair_share, b.white_pair_share);
                EXPECT_NEAR(a.colours_de00.p95, b.colours_de00.p95, 1e-10);
            }
        }
    }
}

TEST(PanelMatrix, APanelBesideItselfGivesNothing) {
    const auto matrix =
        panel_matrix(list({"oled-rgb", "oled-rgb"}), d65(), patches(), eye(), people(64));
    for (const PairFigures& figures : matrix.pairs.front().figures) {
        EXPECT_EQ(figures.white_de00.largest, 0.0);
        EXPECT_EQ(figures.colours_de00.largest, 0.0);
        EXPECT_EQ(figures.largest_de00, 0.0);
        EXPECT_EQ(figures.white_pair_share, 0.0);
    }
}

// What each setting is for: matched for an observer, a population of that observer alone sees no difference; by instrument it does.
TEST(PanelMatrix, SettingsDoWhatTheySay) {
    PopulationParameters parameters;
    parameters.count = 4;
    parameters.ages = Ages::range(32.0, 32.0);
    parameters.spread = {};
    const Population alike(parameters);
    const Observer their_eye = colour_matching_observer(alike.individual(0));
    const auto matrix = panel_matrix(list({"lcd-quantum-dot", "oled-white", "laser-rgb"}), d65(),
                                     patches(), their_eye, alike);
    for (const MatrixPair& pair : matrix.pairs) {
        EXPECT_GT(pair.figures[0].white_de00.mean, 0.5);
        EXPECT_GT(pair.figures[0].colours_de00.mean, 0.2);
        EXPECT_LT(pair.figures[1].white_de00.mean, 1e-9);
        EXPECT_GT(pair.figures[1].colours_de00.mean, 1e-3);
        EXPECT_LT(pair.figures[1].colours_de00.mean, pair.figures[0].colours_de00.mean);
        EXPECT_LT(pair.figures[2].white_de00.mean, 1e-9);
        EXPECT_LT(pair.figures[2].largest_de00, 1e-6);
        const Bought bought =
            samelight::bought(matrix, pair, Setting::by_instrument, Setting::white_matched);
        EXPECT_EQ(bought.white_before, pair.figures[0].white_de00.mean);
        EXPECT_EQ(bought.colours_after, pair.figures[1].colours_de00.mean);
        EXPECT_NEAR(bought.white(), bought.white_before, 1e-9);
        EXPECT_GT(bought.colours(), 0.0);
    }
}

// What no setting removes: as many pairs of people disagree after the correction as before, to within 0.05, while the mean difference
// falls: for a white emitter with filters beside a tube from 5.0 to 3.7.
TEST(PanelMatrix, ACorrectionMovesTheMeanAndLeavesTheDisagreement) {
    const auto matrix = panel_matrix(list({"crt", "oled-white", "oled-rgb", "laser-rgb"}), d65(),
                                     patches(), eye(), people(512));
    const MatrixPair& pair = matrix.pair(0, 1);
    const Bought bought =
        samelight::bought(matrix, pair, Setting::by_instrument, Setting::white_matched);
    EXPECT_GT(bought.white(), 0.5);
    EXPECT_GT(bought.white_after, 2.0);
    for (const MatrixPair& p : matrix.pairs) {
        EXPECT_NEAR(p.figures[1].white_pair_share, p.figures[0].white_pair_share, 0.05);
    }
}

// Second route: the white that was put there reads what was asked for, is as bright as the reference, and matching forgets it.
TEST(PanelMatrix, AWhiteAsSetIsWhereItWasPut) {
    MatrixPanel entry{generic("oled-white"), PanelOrigin::generic,
                      Chromaticity<Cie1931_2deg>(0.30, 0.31)};
    const auto white_in = [&](Setting setting) {
        return tristimulus<Cie1931_2deg>(test::light_of(
            set_panel(entry, setting, d65(), patches(), eye()).lights.lights().col(0)));
    };
    const auto set = white_in(Setting::by_instrument);
    EXPECT_NEAR(chromaticity(set).x(), 0.30, 1e-12);
    EXPECT_NEAR(chromaticity(set).y(), 0.31, 1e-12);
    EXPECT_NEAR(set.Y() / tristimulus<Cie1931_2deg>(d65()).Y(), 1.0, 1e-12);
    const auto matched = white_in(Setting::white_matched);
    entry.set_to.reset();
    EXPECT_NEAR((chromaticity(matched) - chromaticity(white_in(Setting::white_matched))).distance(),
                0.0, 1e-15);
    entry.set_to = chromaticity(tristimulus<Cie1931_2deg>(d65()));
    const Reproduction put = set_panel(entry, Setting::by_instrument, d65(), patches(), eye());
    const Reproduction plain =
        reproduce(entry.panel, d65(), patches(), standard_observer<Cie1931_2deg>());
    EXPECT_LT((put.lights.lights() - plain.lights.lights()).cwiseAbs().maxCoeff(),
              1e-12 * plain.lights.lights().maxCoeff());
    entry.set_to = Chromaticity<Cie1931_2deg>(0.1, 0.8);
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(set_panel(entry, Setting::by_instrument, d65(), patches(), eye()));
    });
}

TEST(PanelMatrix, TheLeastIsThereWhereAskedForAndBelowEverySetting) {
    PanelMatrixOptions options;
    const auto panels = list({"crt", "oled-rgb", "oled-white"});
    const auto with = panel_matrix(panels, d65(), patches(), eye(), people(64), options);
    for (const MatrixPair& pair : with.pairs) {
        ASSERT_TRUE(pair.least_white_de00);
        for (const PairFigures& figures : pair.figures) {
            EXPECT_LT(*pair.least_white_de00, figures.white_de00.mean);
        }
        EXPECT_GT(*pair.least_white_de00, 1.0);
    }
    options.least = false;
    const auto without = panel_matrix(panels, d65(), patches(), eye(), people(64), options);
    EXPECT_FALSE(without.pairs.front().least_white_de00);
    EXPECT_EQ(without.pairs.front().figures[0].white_de00.mean,
              with.pairs.front().figures[0].white_de00.mean);
}

TEST(PanelMatrix, ColoursThatAPanelCannotShowAreLeftOutForAll) {
    const auto wide =
        panel_matrix(list({"laser-rgb", "oled-rgb"}), d65(), patches(), eye(), people(8));
    const auto narrow = panel_matrix(list({"laser-rgb", "oled-rgb", "lcd-white-led"}), d65(),
                                     patches(), eye(), people(8));
    EXPECT_LT(narrow.colours.size(), wide.colours.size());
    std::vector<std::size_t> out;
    for (const LeftOut& entry : narrow.left_out) {
        EXPECT_FALSE(
            std::binary_search(narrow.colours.begin(), narrow.colours.end(), entry.colour));
        out.push_back(entry.colour);
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    EXPECT_EQ(out.size() + narrow.colours.size(), 140U);
    EXPECT_TRUE(std::any_of(narrow.left_out.begin(), narrow.left_out.end(),
                            [](const LeftOut& entry) { return entry.panel == 2; }));
    ASSERT_EQ(narrow.warnings.size(), 1U);
    EXPECT_EQ(narrow.warnings.front().code, "colours_left_out");
}

TEST(PanelMatrix, MeasuredAndGenericAreMarked) {
    auto panels = list({"lcd-narrow-red", "oled-rgb", "crt"});
    panels[1].origin = PanelOrigin::measured;
    const auto matrix = panel_matrix(panels, d65(), patches().leftCols(20), eye(), people(8));
    EXPECT_TRUE(matrix.pair(0, 1).mixed_origins);
    EXPECT_FALSE(matrix.pair(0, 2).mixed_origins);
    EXPECT_TRUE(matrix.pair(1, 2).mixed_origins);
    EXPECT_EQ(matrix.origins[1], PanelOrigin::measured);
    EXPECT_TRUE(std::any_of(matrix.warnings.begin(), matrix.warnings.end(),
                            [](const Warning& w) { return w.code == "mixed_origins"; }));
    panels[1].origin = PanelOrigin::generic;
    const auto all = panel_matrix(panels, d65(), patches().leftCols(20), eye(), people(8));
    EXPECT_TRUE(all.warnings.empty());
}

TEST(PanelMatrix, RefusesWhatCannotBe) {
    const auto two = list({"crt", "oled-rgb"});
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(panel_matrix(list({"crt"}), d65(), patches(), eye(), people(8)));
    });
    refusal(ErrorKind::shape,
            [&] { static_cast<void>(panel_matrix(two, d65(), patches(), eye(), people(1))); });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(panel_matrix(two, d65(), patches().leftCols(0), eye(), people(8)));
    });
    PanelMatrixOptions none;
    none.settings.clear();
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(panel_matrix(two, d65(), patches(), eye(), people(8), none));
    });
    const Eigen::MatrixXd laser_green =
        enter(generic_spectra(generic_model("laser-rgb")).green, {}).column();
    refusal(ErrorKind::domain,
            [&] { static_cast<void>(panel_matrix(two, d65(), laser_green, eye(), people(8))); });
    PanelMatrixOptions one;
    one.settings = {Setting::by_instrument};
    const auto matrix = panel_matrix(two, d65(), patches(), eye(), people(8), one);
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(
            bought(matrix, matrix.pairs.front(), Setting::by_instrument, Setting::white_matched));
    });
}

}  // namespace
}  // namespace samelight
