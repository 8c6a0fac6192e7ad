// Which correction: what was read before what is expected, one correction twice, raw channels, and differences too small to be read.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/invented_meter.hpp"
#include "numeric/facts.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/meter/selection/keep.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

const Observer& instrument_observer() { return standard_observer<Cie1931_2deg>(); }

Panel panel_of(const std::string& model) { return generic_panel(generic_model(model)); }

Sensitivities meter_on(const Panel& panel, std::size_t which = 0) {
    return test::invented_meters().at(which).on(panel.sampling());
}

CandidateCorrection known_from(const Sensitivities& meter, const Panel& panel) {
    return {panel.name(), correction_from_spectra(meter, panel, instrument_observer()), panel};
}

/// The same meter's rows on scales of their own: channels that are no X, Y, Z.
Sensitivities raw(Sensitivities meter) {
    const std::array<double, 3> scale = {320.0, 120.0, 40.0};
    const std::size_t n = meter.values.size() / 3;
    for (std::size_t i = 0; i < meter.values.size(); ++i) {
        meter.values[i] *= scale.at(i / n);
    }
    return meter;
}

CandidateCorrection raw_on(const Sensitivities& meter, const Panel& panel) {
    CandidateCorrection known = known_from(raw(meter), panel);
    known.correction.raw_channels = true;
    return known;
}

// A correction named twice tells what it told once.
TEST(ChooseEvidence, OneCorrectionTwiceIsOne) {
    const Panel own = panel_of("oled-rgb");
    const Panel other = panel_of("lcd-white-led");
    const CandidateCorrection known = known_from(meter_on(own), own);
    CandidateCorrection again = known;
    again.name = "the same by another name";
    const Choices once = choose_corrections({&other, 1}, std::vector<CandidateCorrection>{known});
    const Choices twice =
        choose_corrections({&other, 1}, std::vector<CandidateCorrection>{known, again});
    EXPECT_EQ(twice.panels[0].none.white_uv, once.panels[0].none.white_uv);
    EXPECT_EQ(twice.panels[0].with[0].error->white_uv, once.panels[0].with[0].error->white_uv);
    EXPECT_EQ(twice.supposed_mismatch, once.supposed_mismatch);
    ASSERT_EQ(twice.warnings.size(), once.warnings.size() + 1);
    EXPECT_EQ(twice.warnings[0].code, "same_correction");
    EXPECT_EQ(test::text_of(twice.warnings[0], "correction"), again.name);
    EXPECT_EQ(test::text_of(twice.warnings[0], "same_as"), known.name);
    // Of two displays the same matrix is evidence twice: a right meter's is the same on each.
    const Sensitivities right = instrument_observer().on(own.sampling());
    EXPECT_FALSE(is_same_correction(known_from(right, own), known_from(right, other)));
}

// A meter that is right is right with every correction: rounding must not make any of them better or worse than none.
TEST(ChooseEvidence, RoundingIsNoDifference) {
    std::vector<Panel> panels;
    std::vector<CandidateCorrection> known;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
        known.push_back(
            known_from(instrument_observer().on(panels.back().sampling()), panels.back()));
    }
    ChooseOptions options;
    options.meter = instrument_observer().on(panels[0].sampling());
    for (const PanelChoice& c : choose_corrections(panels, known, options).panels) {
        EXPECT_EQ(c.verdict, Choice::use_none) << c.panel;
        EXPECT_FALSE(c.best) << c.panel;
        for (const CorrectionProspect& with : c.with) {
            EXPECT_FALSE(with.worse_than_none) << c.panel;
        }
    }
    EXPECT_TRUE(readably_less(0.0010, 0.0012));
    EXPECT_FALSE(readably_less(0.00115, 0.0012));
    EXPECT_FALSE(readably_less(0.0012, 0.0012));
}

// Rows on scales of 320 to 120 to 40: no supposition about X, Y, Z holds, and none is made.
TEST(ChooseEvidence, RawChannelsAreJudgedAsWhatTheirCorrectionMakesOfThem) {
    const Panel own = panel_of("oled-rgb");
    const std::vector<Panel> panels = {own, panel_of("lcd-white-led"), panel_of("oled-white")};
    const Sensitivities meter = meter_on(own);
    const std::vector<CandidateCorrection> known = {raw_on(meter, own)};
    const Choices choices = choose_corrections(panels, known);
    EXPECT_TRUE(choices.believable);
    EXPECT_EQ(choices.panels[0].verdict, Choice::safe);
    EXPECT_LT(choices.panels[0].with[0].error->white_xy, 0.001);
    for (const PanelChoice& c : choices.panels) {
        EXPECT_FALSE(c.none_possible);
        EXPECT_NE(c.verdict, Choice::use_none);
        EXPECT_FALSE(c.with[0].worse_than_none);
        ASSERT_TRUE(c.with[0].error) << code_of(*c.with[0].why_not);
    }
    // With the channels' own rows it is what the matrix does, the same as for the meter's X, Y, Z: the scales cancel.
    ChooseOptions by_rows;
    by_rows.meter = raw(meter);
    const Choices judged = choose_corrections(panels, known, by_rows);
    EXPECT_TRUE(judged.believable);
    ChooseOptions plain;
    plain.meter = meter;
    const Choices expected =
        choose_corrections(panels, std::vector<CandidateCorrection>{known_from(meter, own)}, plain);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        EXPECT_NEAR(judged.panels[i].with[0].error->white_xy,
                    expected.panels[i].with[0].error->white_xy, 1e-9);
    }
    // Beside a correction of X, Y, Z it says nothing of that one's meter.
    const std::vector<CandidateCorrection> mixed = {known_from(meter, own), known[0]};
    const Choices both = choose_corrections(panels, mixed);
    const Choices one = choose_corrections(panels, std::vector<CandidateCorrection>{mixed[0]});
    EXPECT_EQ(both.panels[1].none.white_uv, one.panels[1].none.white_uv);
    EXPECT_TRUE(both.panels[1].none_possible);
    const Choices rows = choose_corrections(panels, mixed, plain);
    EXPECT_EQ(rows.panels[0].with[1].why_not, CannotJudge::raw_beside_rows) << "rows of X, Y, Z";
}

// What is expected of a white raw channels were never read on must be what happens, on average over meters and panels, as for X, Y, Z.
TEST(ChooseEvidence, ExpectsOfRawChannelsTheErrorsThatHappen) {
    double happened = 0.0;
    double expected = 0.0;
    std::vector<Panel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
    }
    for (std::size_t m = 0; m < test::invented_meters().size(); ++m) {
        const Sensitivities meter = raw(meter_on(panels[0], m));
        for (const std::size_t j : {0U, 2U, 5U}) {
            const std::vector<CandidateCorrection> known = {
                raw_on(meter_on(panels[0], m), panels[j])};
            ChooseOptions by_rows;
            by_rows.meter = meter;
            const Choices truth = choose_corrections(panels, known, by_rows);
            const Choices guess = choose_corrections(panels, known);
            for (std::size_t i = 0; i < panels.size(); ++i) {
                if (i != j) {
                    happened += std::pow(truth.panels[i].with[0].error->white_xy, 2.0);
                    expected += std::pow(guess.panels[i].with[0].error->white_xy, 2.0);
                }
            }
        }
    }
    EXPECT_GT(std::sqrt(happened / expected), 0.6);
    EXPECT_LT(std::sqrt(happened / expected), 1.6);
}

/// A correction of an OLED judged on a white-LED LCD, where the meter's white was read with it, `off` in x from the reference's.
PanelChoice read_on_another(double off, bool with_none, int readings = 20) {
    const Panel own = panel_of("oled-rgb");
    const Panel other = panel_of("lcd-white-led");
    CandidateCorrection known = known_from(meter_on(own, 1), own);
    const PairedWhite white{{0.3127, 0.3290}, {0.3127 + off, 0.3290}, 0.0005, readings};
    known.read = read_white(known.correction, known.correction, white);
    known.keep = keep_or_refit(known.correction, white).verdict == Keep::keep;
    ChooseOptions options;
    if (with_none) {
        options.none_read = read_white(Correction{}, known.correction, white);
    }
    return choose_corrections({&other, 1}, std::vector<CandidateCorrection>{known}, options)
        .panels[0];
}

// Figures by hand: the distance of the typed readings.
TEST(ChooseEvidence, WhatWasReadHasTheLastWord) {
    const PanelChoice expected = read_on_another(0.0006, false);
    const PanelChoice read = read_on_another(0.0006, true);
    ASSERT_TRUE(read.with[0].error);
    EXPECT_NEAR(read.with[0].error->white_xy, 0.0006, 1e-12);
    EXPECT_TRUE(read.with[0].error->white_read);
    EXPECT_TRUE(read.settled_by_white);
    EXPECT_EQ(read.verdict, Choice::safe);
    EXPECT_EQ(read.best, 0U);
    EXPECT_NEAR(read.chosen().white_xy, 0.0006, 1e-12);
    EXPECT_FALSE(read.with[0].worse_than_none);
    EXPECT_FALSE(expected.none.white_read);
    EXPECT_TRUE(read.none.white_read);
    EXPECT_NE(read.none.white_xy, expected.none.white_xy);
    // Colours were not read: what is expected of them stands.
    EXPECT_EQ(read.none.primaries_xy, expected.none.primaries_xy);
    // Off by .0045 (.0031 u'v'): nothing calls it safe, however good it was expected to be.
    const PanelChoice off = read_on_another(0.0045, true);
    EXPECT_FALSE(off.settled_by_white);
    EXPECT_NE(off.verdict, Choice::safe);
    EXPECT_EQ(off.with[0].not_safe, NotSafe::white_not_settled);
    EXPECT_NEAR(off.with[0].error->white_xy, 0.0045, 1e-12);
    // The bare meter is judged by the same reading: good enough only where that settles it.
    const Correction none;
    const PairedWhite right{{0.3127, 0.3290}, {0.3129, 0.3291}, 0.0005, 20};
    EXPECT_TRUE(read_white(none, none, right)->settled);
    const PairedWhite once{{0.3127, 0.3290}, {0.3129, 0.3291}, 0.002, 1};
    EXPECT_FALSE(read_white(none, none, once)->settled);
}

// Without spectra nothing is expected, but the white that was read is known all the same; of colours nothing is.
TEST(ChooseEvidence, AReadWhiteNeedsNoSpectra) {
    const Panel own = panel_of("oled-rgb");
    CandidateCorrection known = known_from(meter_on(own), own);
    known.panel = {};
    known.read = ReadWhite{0.0007, 0.0005, 0.5, true};
    known.keep = true;
    const PanelChoice c =
        choose_corrections({&own, 1}, std::vector<CandidateCorrection>{known}).panels[0];
    ASSERT_TRUE(c.with[0].error);
    EXPECT_EQ(c.with[0].error->white_xy, 0.0007);
    EXPECT_TRUE(std::isnan(c.with[0].error->primaries_xy));
    EXPECT_EQ(c.verdict, Choice::safe);
}

}  // namespace
}  // namespace samelight
