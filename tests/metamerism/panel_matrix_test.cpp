// Every pair of a list of panels: the figures of the pair alone, what the settings do, and what is said about the list.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/exactly.hpp"
#include "numeric/refusals.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight {
namespace {

using test::d65;
using test::eye;
using test::generic;
using test::list;
using test::patches;
using test::people;
using test::refusal;

void expect_same_index(const PopulationIndex& a, const PopulationIndex& b) {
    EXPECT_EQ(a.viewers, b.viewers);
    ASSERT_EQ(a.colours.size(), b.colours.size());
    EXPECT_NEAR(a.de00.p95, b.de00.p95, 1e-10);
    EXPECT_NEAR(a.uv.mean, b.uv.mean, 1e-13);
    EXPECT_EQ(a.worst_colour, b.worst_colour);
    EXPECT_NEAR(a.lightness_free, b.lightness_free, 1e-10);
    EXPECT_NEAR(a.mcdm, b.mcdm, 1e-10);
    EXPECT_NEAR(a.ellipse_area_uv / b.ellipse_area_uv, 1.0, 1e-9);
    EXPECT_NEAR(a.ellipsoid_volume / b.ellipsoid_volume, 1.0, 1e-8);
    EXPECT_NEAR(a.pair_share, b.pair_share, 1e-12);
    EXPECT_NEAR(a.colours.back().mcdm, b.colours.back().mcdm, 1e-10);
}

// Second route: population_index() of the same colours, pair by pair and setting by setting, for eyes adapted to the pair's whites.
TEST(PanelMatrix, PairsAreThoseOfThePairAlone) {
    const Population population = people(100);
    const auto panels = list({"lcd-white-led", "oled-rgb", "oled-white", "laser-rgb"});
    PanelMatrixOptions options;
    options.index_settings = {Setting::white_matched};
    const PanelMatrix matrix =
        panel_matrix(panels, {d65(), patches()}, {eye(), population}, options);
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
            lights.push_back((setting == Setting::by_instrument
                                  ? reproduce(entry.panel, {d65(), patches()}, instrument)
                              : setting == Setting::white_matched
                                  ? reproduce_with_white_set(entry.panel, {d65(), patches()},
                                                             {instrument, eye()})
                                  : reproduce(entry.panel, {d65(), patches()}, eye()))
                                 .lights);
        }
        for (const MatrixPair& pair : matrix.pairs) {
            const MixedLights& a = lights[pair.first];
            const MixedLights& b = lights[pair.second];
            const PairFigures& figures = pair.figures[s];
            const SampledLight adapted = mean_light(test::light_of(a.chosen({0}).lights().col(0)),
                                                    test::light_of(b.chosen({0}).lights().col(0)));
            const auto white =
                population_index(population, {a.chosen({0}), b.chosen({0}), adapted});
            const auto colours =
                population_index(population, {a.chosen(common), b.chosen(common), adapted});
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
            for (std::size_t i = 0; i < 100; ++i) {
                EXPECT_NEAR(figures.viewer_white_de00[i], white.viewer_de00[i], 1e-10);
            }
            EXPECT_EQ(figures.white_index.has_value(),
                      matrix.settings[s] == Setting::white_matched);
            if (figures.white_index) {
                expect_same_index(*figures.white_index, white);
                expect_same_index(*figures.colours_index, colours);
            }
        }
    }
}

TEST(PanelMatrix, TheOrderOfTheListHasNoSay) {
    const Population population = people(64);
    const auto forth = panel_matrix(list({"crt", "lcd-narrow-red", "oled-quantum-dot"}),
                                    {d65(), patches()}, {eye(), population});
    const auto back = panel_matrix(list({"oled-quantum-dot", "lcd-narrow-red", "crt"}),
                                   {d65(), patches()}, {eye(), population});
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
        panel_matrix(list({"oled-rgb", "oled-rgb"}), {d65(), patches()}, {eye(), people(64)});
    for (const PairFigures& figures : matrix.pairs.front().figures) {
        EXPECT_NEAR(figures.white_de00.largest, 0.0, test::exactly);
        EXPECT_NEAR(figures.colours_de00.largest, 0.0, test::exactly);
        EXPECT_NEAR(figures.largest_de00, 0.0, test::exactly);
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
    const auto matrix = panel_matrix(list({"lcd-quantum-dot", "oled-white", "laser-rgb"}),
                                     {d65(), patches()}, {their_eye, alike});
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

// What a correction doesn't remove: as many pairs of people disagree after the correction as before, to within 0.05, while the mean difference
// falls: for a white emitter with filters beside a tube from 5.0 to 3.7.
TEST(PanelMatrix, ACorrectionMovesTheMeanAndLeavesTheDisagreement) {
    const auto matrix = panel_matrix(list({"crt", "oled-white", "oled-rgb", "laser-rgb"}),
                                     {d65(), patches()}, {eye(), people(512)});
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
            set_panel(entry, setting, {d65(), patches()}, eye()).lights.lights().col(0)));
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
    const Reproduction put = set_panel(entry, Setting::by_instrument, {d65(), patches()}, eye());
    const Reproduction plain =
        reproduce(entry.panel, {d65(), patches()}, standard_observer<Cie1931_2deg>());
    EXPECT_LT((put.lights.lights() - plain.lights.lights()).cwiseAbs().maxCoeff(),
              1e-12 * plain.lights.lights().maxCoeff());
    entry.set_to = Chromaticity<Cie1931_2deg>(0.1, 0.8);
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(set_panel(entry, Setting::by_instrument, {d65(), patches()}, eye()));
    });
}

// However little is kept at once, the figures are the same: one colour after the other, or all.
TEST(PanelMatrix, MemoryHasNoSay) {
    PanelMatrixOptions options;
    options.settings = {Setting::by_instrument};
    options.index_settings = options.settings;
    options.least = false;
    const auto panels = list({"crt", "oled-rgb", "laser-rgb"});
    const Eigen::MatrixXd some = patches().leftCols(30);
    const auto at_once = panel_matrix(panels, {d65(), some}, {eye(), people(16)}, options);
    options.index_bytes = 3 * 16 * 56 * 4;  // four colours
    const auto bit_by_bit = panel_matrix(panels, {d65(), some}, {eye(), people(16)}, options);
    options.index_bytes = 1;
    const auto one_by_one = panel_matrix(panels, {d65(), some}, {eye(), people(16)}, options);
    for (std::size_t i = 0; i < 3; ++i) {
        const PairFigures& all = at_once.pairs[i].figures[0];
        for (const PanelMatrix* other : {&bit_by_bit, &one_by_one}) {
            const PairFigures& few = other->pairs[i].figures[0];
            EXPECT_NEAR(all.colours_de00.mean, few.colours_de00.mean, 1e-12);
            EXPECT_EQ(all.largest_de00, few.largest_de00);
            EXPECT_EQ(all.worst_colour, few.worst_colour);
            expect_same_index(*all.white_index, *few.white_index);
            expect_same_index(*all.colours_index, *few.colours_index);
        }
    }
}

// Second route: the same in full.
TEST(PanelMatrix, TenthsAreNearEnoughForAPage) {
    PanelMatrixOptions options;
    options.least = false;
    const auto panels = list({"crt", "oled-rgb", "oled-white", "laser-rgb", "crt"});
    const auto full = panel_matrix(panels, {d65(), patches()}, {eye(), people(128)}, options);
    options.precision = MatrixPrecision::tenths;
    const auto tenths = panel_matrix(panels, {d65(), patches()}, {eye(), people(128)}, options);
    double apart = 0.0;
    for (std::size_t i = 0; i < full.pairs.size(); ++i) {
        for (std::size_t s = 0; s < 3; ++s) {
            const PairFigures& a = full.pairs[i].figures[s];
            const PairFigures& b = tenths.pairs[i].figures[s];
            EXPECT_NEAR(a.white_de00.mean, b.white_de00.mean, 1e-10);
            EXPECT_NEAR(a.white_de00.largest, b.white_de00.largest, 1e-10);
            EXPECT_NEAR(a.colours_de00.mean, b.colours_de00.mean, 3e-4);
            EXPECT_NEAR(a.colours_de00.p95, b.colours_de00.p95, 3e-4);
            EXPECT_NEAR(a.largest_de00, b.largest_de00, 3e-4);
            EXPECT_EQ(a.white_pair_share, b.white_pair_share);
            apart += std::abs(a.colours_de00.mean - b.colours_de00.mean);
        }
    }
    EXPECT_GT(apart, 0.0) << "it is another way";
    EXPECT_NEAR(tenths.pair(0, 4).figures[0].largest_de00, 0.0, test::exactly > 0.0 ? 3e-4 : 0.0);
}

// How far people disagree depends on the colour of the white (less blue light, less disagreement about it), so the best belongs to the
// reference's white, however the pair is set; at another white it is asked for with that setting alone.
TEST(PanelMatrix, AtBestBelongsToTheReferencesWhite) {
    const Population population = people(256);
    const SampledLight white = d65();
    const auto compare = [&](const std::optional<Chromaticity<Cie1931_2deg>>& xy,
                             const std::vector<Setting>& settings) {
        auto panels = list({"oled-rgb", "crt"});
        panels[0].set_to = xy;
        panels[1].set_to = xy;
        PanelMatrixOptions options;
        options.settings = settings;
        return panel_matrix(panels, {white, patches().leftCols(1)}, {eye(), population}, options)
            .pairs.front();
    };
    const std::vector<Setting> both = {Setting::by_instrument, Setting::white_matched};
    const MatrixPair unset = compare(std::nullopt, both);
    EXPECT_LE(*unset.least_white_de00, unset.figures[0].white_de00.mean);
    EXPECT_LE(*unset.least_white_de00, unset.figures[1].white_de00.mean);
    for (const Chromaticity<Cie1931_2deg> xy :
         {Chromaticity<Cie1931_2deg>(0.3, 0.3), Chromaticity<Cie1931_2deg>(0.3457, 0.3585),
          Chromaticity<Cie1931_2deg>(0.4476, 0.4074)}) {
        const MatrixPair pair = compare(xy, both);
        EXPECT_NEAR(*pair.least_white_de00, *unset.least_white_de00,
                    3e-3 * *unset.least_white_de00);
        EXPECT_EQ(pair.figures[1].white_de00.mean, unset.figures[1].white_de00.mean)
            << "targets forget how it was set";
        const MatrixPair there = compare(xy, {Setting::by_instrument});
        EXPECT_LE(*there.least_white_de00, there.figures[0].white_de00.mean);
        if (xy.x() > 0.4) {
            EXPECT_LT(pair.figures[0].white_de00.mean, *pair.least_white_de00);
            EXPECT_LT(*there.least_white_de00, 0.8 * *unset.least_white_de00);
        }
    }
}

TEST(PanelMatrix, ColoursThatAPanelCannotShowAreLeftOutForAll) {
    const auto wide =
        panel_matrix(list({"laser-rgb", "oled-rgb"}), {d65(), patches()}, {eye(), people(8)});
    const auto narrow = panel_matrix(list({"laser-rgb", "oled-rgb", "lcd-white-led"}),
                                     {d65(), patches()}, {eye(), people(8)});
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
    const auto matrix = panel_matrix(panels, {d65(), patches().leftCols(20)}, {eye(), people(8)});
    EXPECT_TRUE(matrix.pair(0, 1).mixed_origins);
    EXPECT_FALSE(matrix.pair(0, 2).mixed_origins);
    EXPECT_TRUE(matrix.pair(1, 2).mixed_origins);
    EXPECT_EQ(matrix.origins[1], PanelOrigin::measured);
    EXPECT_TRUE(std::any_of(matrix.warnings.begin(), matrix.warnings.end(),
                            [](const Warning& w) { return w.code == "mixed_origins"; }));
    panels[1].origin = PanelOrigin::generic;
    const auto all = panel_matrix(panels, {d65(), patches().leftCols(20)}, {eye(), people(8)});
    EXPECT_TRUE(all.warnings.empty());
}

TEST(PanelMatrix, RefusesWhatCannotBe) {
    const auto two = list({"crt", "oled-rgb"});
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(panel_matrix(list({"crt"}), {d65(), patches()}, {eye(), people(8)}));
    });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(panel_matrix(two, {d65(), patches()}, {eye(), people(1)}));
    });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(panel_matrix(two, {d65(), patches().leftCols(0)}, {eye(), people(8)}));
    });
    PanelMatrixOptions none;
    none.settings.clear();
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(panel_matrix(two, {d65(), patches()}, {eye(), people(8)}, none));
    });
    const Eigen::MatrixXd laser_green =
        rebin(generic_spectra(generic_model("laser-rgb")).green, {}).column();
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(panel_matrix(two, {d65(), laser_green}, {eye(), people(8)}));
    });
    PanelMatrixOptions one;
    one.settings = {Setting::by_instrument};
    const auto matrix = panel_matrix(two, {d65(), patches()}, {eye(), people(8)}, one);
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(
            bought(matrix, matrix.pairs.front(), Setting::by_instrument, Setting::white_matched));
    });
}

}  // namespace
}  // namespace samelight
