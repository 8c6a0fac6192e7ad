// Which correction, where something speaks against it: a verdict, a white read now, noise of its own, or rows that cannot be.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "meter/invented_meter.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

Correction exact_on(const Sensitivities& meter, const Panel& panel) {
    return correction_from_spectra(meter, panel, standard_observer<Cie1931_2deg>());
}

/// What is known of one correction of the panel itself, as the fit's verdict and the paired white leave it.
PanelChoice chosen_with(const Panel& panel, CandidateCorrection known) {
    const Sensitivities meter = test::invented_meters()[0].on(panel.sampling());
    known.correction.reference_from_meter = exact_on(meter, panel).reference_from_meter;
    known.correction.observer = "cie1931-2deg";
    known.panel = panel;
    const std::vector<CandidateCorrection> all = {std::move(known)};
    return choose_corrections({&panel, 1}, all).panels[0];
}

TEST(ChooseCorrections, NeverCallsSafeWhatTheFitDidNot) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    CandidateCorrection known;
    EXPECT_EQ(chosen_with(panel, known).verdict, Choice::safe);
    for (const FitVerdict verdict :
         {FitVerdict::use, FitVerdict::use_unproven, FitVerdict::not_needed}) {
        known.correction.verdict = verdict;
        EXPECT_EQ(chosen_with(panel, known).verdict, Choice::safe) << code_of(verdict);
    }
    known.correction.verdict = FitVerdict::read_again;
    const PanelChoice again = chosen_with(panel, known);
    EXPECT_EQ(again.verdict, Choice::measure_panel);
    EXPECT_FALSE(again.good_enough);
    EXPECT_EQ(again.best, 0U);
    EXPECT_EQ(again.with[0].not_safe, NotSafe::read_again_first);
    known.correction.verdict = FitVerdict::do_not_use;
    const PanelChoice rejected = chosen_with(panel, known);
    EXPECT_EQ(rejected.verdict, Choice::measure_panel);
    EXPECT_FALSE(rejected.best);
    EXPECT_EQ(rejected.with[0].not_at_all, NotAtAll::do_not_use);
    // What the paired white says counts alike.
    known.correction.verdict = {};
    known.not_safe = NotSafe::not_settled;
    EXPECT_EQ(chosen_with(panel, known).verdict, Choice::measure_panel);
    EXPECT_EQ(chosen_with(panel, known).best, 0U);
    known.not_at_all = NotAtAll::no_longer_holds;
    EXPECT_FALSE(chosen_with(panel, known).best);
}

// A correction's own scatter is part of what is to be expected: mean squares add.
TEST(ChooseCorrections, AddsTheCorrectionsOwnNoise) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    CandidateCorrection known;
    const double without = chosen_with(panel, known).with[0].error->white_xy;
    known.correction.covariance = ParameterCovariance{};
    for (std::size_t k = 0; k < 9; ++k) {
        known.correction.covariance->elements[10 * k] = 1e-5;
    }
    known.correction.degrees_of_freedom = 10.0;
    const PanelChoice noisy = chosen_with(panel, known);
    CandidateCorrection same = known;
    const Sensitivities meter = test::invented_meters()[0].on(panel.sampling());
    same.correction.reference_from_meter = exact_on(meter, panel).reference_from_meter;
    const Eigen::Vector3d read = meter.rows() * panel.white();
    const auto own = certainty(same.correction, detail::as_array(read)).covariance;
    EXPECT_NEAR(noisy.with[0].error->white_xy, std::sqrt(without * without + own[0] + own[4]),
                1e-4 * noisy.with[0].error->white_xy);
    EXPECT_GT(noisy.with[0].error->white_xy, 0.002);
    EXPECT_EQ(noisy.verdict, Choice::measure_panel);
}

// A panel with a white emitter that was measured a minute ago: its white is as sure as its readings were.
TEST(ChooseCorrections, TrustsWhiteWhereItWasKeptExact) {
    const Panel panel = generic_panel(generic_model("oled-white"));
    ASSERT_TRUE(panel.white_is_base());
    CandidateCorrection known;
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::white_exact_least_squares}) {
        known.correction.method = method;
        EXPECT_EQ(chosen_with(panel, known).verdict, Choice::safe) << code_of(method);
    }
    known.correction.method = CorrectionMethod::least_squares;
    const double not_kept = chosen_with(panel, known).with[0].error->white_xy;
    known.correction.method = CorrectionMethod::four_colour;
    EXPECT_LT(chosen_with(panel, known).with[0].error->white_xy, 0.5 * not_kept);
    // One white makes a correction for whites, and says so.
    known.correction.method = CorrectionMethod::white_only;
    known.correction.valid_near = ChromaticityDisc{0.31, 0.33, 0.05};
    const PanelChoice whites = chosen_with(panel, known);
    EXPECT_EQ(whites.verdict, Choice::safe);
    EXPECT_TRUE(whites.with[0].whites_only);
}

// Rows in the wrong order, or of scales that have nothing to do with each other: no filter meter, and no word of use.
TEST(ChooseCorrections, DoesNotBelieveMetersThatCannotBe) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Sensitivities right = test::invented_meters()[0].on(panel.sampling());
    const auto n = static_cast<std::ptrdiff_t>(right.values.size() / 3);
    Sensitivities swapped = right;
    std::swap_ranges(swapped.values.begin(), swapped.values.begin() + n,
                     swapped.values.begin() + 2 * n);
    Sensitivities per_cent = right;
    std::for_each(per_cent.values.begin(), per_cent.values.begin() + n,
                  [](double& v) { v *= 100.0; });
    for (const Sensitivities& meter : {swapped, per_cent}) {
        const std::vector<CandidateCorrection> known = {{"its own", exact_on(meter, panel), panel}};
        ChooseOptions with_rows;
        with_rows.meter = meter;
        for (const ChooseOptions& options : {with_rows, ChooseOptions{}}) {
            const Choices choices = choose_corrections({&panel, 1}, known, options);
            EXPECT_FALSE(choices.believable);
            ASSERT_FALSE(choices.warnings.empty());
            EXPECT_EQ(choices.warnings.front().code, "no_such_meter");
            EXPECT_EQ(choices.panels[0].verdict, Choice::measure_panel);
            EXPECT_FALSE(choices.panels[0].best);
        }
    }
    for (const test::InventedMeter& invented : test::invented_meters()) {
        EXPECT_FALSE(rows_flag(
            meter_mismatch(invented.on(panel.sampling()), standard_observer<Cie1931_2deg>())));
    }
}

}  // namespace
}  // namespace samelight
