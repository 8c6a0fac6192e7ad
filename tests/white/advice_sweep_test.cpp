// The verdict is a decision under what isn't known: steady where little changes, and humble where little is known.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

std::vector<Individual> everyone() {
    PopulationParameters parameters;
    parameters.count = 64;
    return Population(parameters).individuals();
}

/// What a measured panel's spectra and a good field instrument leave open: about .0006 in x and in y.
constexpr CovarianceMatrix<2> usual_uncertainty = {3.6e-7, 0.0, 0.0, 3.6e-7};

/// What is weighed for everyone: the two fields of view, a white set to the reference's own x, y.
AdviceRequest request_for(const Panel& panel, const Reference& reference,
                          const CovarianceMatrix<2>& uncertainty) {
    AdviceRequest request{white_target(panel, reference, standard_observer<Cie2015_2deg>()).xy,
                          reference.xy(), 0.0005};
    for (const Observer* observer :
         {&standard_observer<Cie2015_2deg>(), &standard_observer<Cie2015_10deg>()}) {
        request.right.pulls.push_back(
            {observer->title(), white_target(panel, reference, *observer).xy});
    }
    request.right.shared = uncertainty;
    return request;
}

Advice advice_on(const Panel& panel, const Xy& reference_xy, const std::vector<Individual>& people,
                 const CovarianceMatrix<2>& uncertainty = usual_uncertainty) {
    static const Panel tube = generic_panel(generic_model("crt"));
    const Reference reference = display_reference(tube, reference_xy);
    return advise(WhiteJudge(panel, reference, people), request_for(panel, reference, uncertainty));
}

int changes(const std::vector<Verdict>& verdicts) {
    int count = 0;
    for (std::size_t i = 1; i < verdicts.size(); ++i) {
        count += verdicts[i] != verdicts[i - 1] ? 1 : 0;
    }
    return count;
}

// The reference moved by .0001 a time, along x, along y, along both, by .01 in all.
TEST(AdviceSweep, ChangesAtMostOnceAsTheReferenceMoves) {
    const std::vector<Individual> people = everyone();
    int lines_with_a_change = 0;
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        for (const auto& [dx, dy] : {std::pair{1.0, 0.0}, {0.0, 1.0}, {-0.6, 0.8}}) {
            std::vector<Verdict> verdicts;
            for (int i = -50; i <= 50; ++i) {
                verdicts.push_back(
                    advice_on(panel, {0.3127 + 1e-4 * i * dx, 0.3290 + 1e-4 * i * dy}, people)
                        .verdict);
            }
            EXPECT_LE(changes(verdicts), 1) << model.name() << " along " << dx << ", " << dy;
            lines_with_a_change += changes(verdicts);
        }
    }
    std::printf("%d of 27 lines have a change of verdict\n", lines_with_a_change);
}

// The panel moved: each parameter of the model through its plausible range, so slowly that the target moves by about .0001 a time.
TEST(AdviceSweep, ChangesAtMostOnceAsThePanelMoves) {
    const std::vector<Individual> people = everyone();
    for (const char* name : {"oled-rgb", "lcd-white-led", "lcd-quantum-dot", "oled-quantum-dot"}) {
        const GenericModel& model = generic_model(name);
        for (std::size_t k = 0; k < 2; ++k) {
            const ModelParameter& parameter = model.parameters()[k];
            std::vector<Verdict> verdicts;
            for (int i = 0; i <= 60; ++i) {
                std::vector<double> values = model.default_values();
                values[k] = parameter.low + (parameter.high - parameter.low) * i / 60.0;
                verdicts.push_back(
                    advice_on(generic_panel(model, values), {0.3127, 0.3290}, people).verdict);
            }
            EXPECT_LE(changes(verdicts), 1) << name << ": " << parameter.name;
        }
    }
}

// The readings' noise alone, .0005 in x and y, changes no verdict that isn't within that noise of its edge: where it changes the figure
// that decides has crossed what can be seen by less than the noise makes it move.
TEST(AdviceSweep, NoiseOfTheReadingsChangesOnlyWhatStandsAtItsEdge) {
    const std::vector<Individual> people = everyone();
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        const Advice centre = advice_on(panel, {0.3127, 0.3290}, people);
        for (const auto& [dx, dy] : {std::pair{5e-4, 0.0}, {-5e-4, 8e-4}, {-5e-4, -5e-4}}) {
            const Advice near = advice_on(panel, {0.3127 + dx, 0.3290 + dy}, people);
            EXPECT_EQ(near.verdict, centre.verdict) << model.name();
            EXPECT_LT(std::abs(near.sight.gain() - centre.sight.gain()), 0.0004) << model.name();
        }
    }
}

// A white as it stands, from the target outwards: from LEAVE on, each verdict once and over the noise of the readings at least.
TEST(AdviceSweep, FromTheTargetOutwardsNoVerdictComesTwice) {
    const std::vector<Individual> people = everyone();
    const Reference reference =
        display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    int moves = 0;
    for (const char* name : {"oled-rgb", "oled-white", "lcd-white-led", "lcd-quantum-dot"}) {
        const Panel panel = generic_panel(generic_model(name));
        AdviceRequest request = request_for(panel, reference, usual_uncertainty);
        const WhiteJudge judge(panel, reference, people);
        for (const auto& [dx, dy] :
             {std::pair{1.0, 0.0}, {-1.0, 0.0}, {0.0, 1.0}, {0.0, -1.0}, {0.6, 0.8}, {0.6, -0.8}}) {
            std::vector<std::pair<Verdict, int>> stretches;
            for (int i = 0; i <= 250; ++i) {
                request.as_it_is = {request.target.x() + 1e-4 * i * dx,
                                    request.target.y() + 1e-4 * i * dy};
                const Verdict verdict = advise(judge, request).verdict;
                if (stretches.empty() || stretches.back().first != verdict) {
                    for (const auto& [earlier, length] : stretches) {
                        EXPECT_NE(earlier, verdict) << name << " " << dx << " " << dy << " " << i;
                    }
                    stretches.emplace_back(verdict, 0);
                }
                ++stretches.back().second;
            }
            EXPECT_EQ(stretches.front().first, Verdict::leave);
            for (const auto& [verdict, length] : stretches) {
                EXPECT_GE(length, 5) << name << " " << dx << " " << dy;
            }
            moves += stretches.back().first == Verdict::move ? 1 : 0;
        }
    }
    EXPECT_EQ(moves, 24);  // far enough off, every white is moved
}

// The same target, and a white that stands a reading's noise away: the same verdict.
TEST(AdviceSweep, TheSameTargetFromWhitesANoiseApart) {
    const std::vector<Individual> people = everyone();
    const Reference reference =
        display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    for (const char* name : {"lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot", "oled-rgb",
                             "oled-white", "oled-quantum-dot", "laser-rgb"}) {
        const Panel panel = generic_panel(generic_model(name));
        AdviceRequest request = request_for(panel, reference, usual_uncertainty);
        const WhiteJudge judge(panel, reference, people);
        const Verdict at_d65 = advise(judge, request).verdict;
        request.as_it_is = {0.3122, 0.3298};
        EXPECT_EQ(advise(judge, request).verdict, at_d65) << name;
    }
}

// An offset that its own uncertainty drowns isn't moved by.
TEST(Advice, DoesNotMoveByWhatItsDoubtDrowns) {
    const std::vector<Individual> people = everyone();
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    EXPECT_EQ(advice_on(panel, {0.3127, 0.3290}, people).verdict, Verdict::move);
    // "Within .0386": a standard deviation of half that.
    const double sd = 0.0193;
    const Advice unsure = advice_on(panel, {0.3127, 0.3290}, people, {sd * sd, 0.0, 0.0, sd * sd});
    EXPECT_EQ(unsure.verdict, Verdict::ask_the_eyes);
    EXPECT_LT(unsure.sight.gain(), uv_step_radius);
    EXPECT_GT(unsure.sight.further, 0.25);
}

// Second route to what is expected: a grid over the uncertainty in place of draws.
TEST(Advice, ExpectsWhatAGridOverTheDoubtDoes) {
    const Xy as_it_is(0.3127, 0.3290);
    const Xy target(0.3070, 0.3200);
    RightWhite known;
    known.pulls = {{"one", target}, {"another", {0.3120, 0.3230}}};
    known.shared = {4e-6, 2e-6, 2e-6, 9e-6};
    const ExpectedSight drawn = expect_sight(as_it_is, target, known);
    double before = 0.0;
    double after = 0.0;
    double visible = 0.0;
    double weights = 0.0;
    for (double u = 0.0125; u < 1.0; u += 0.025) {
        for (double a = -4.0; a <= 4.0; a += 0.2) {
            for (double b = -4.0; b <= 4.0; b += 0.2) {
                const double weight = std::exp(-0.5 * (a * a + b * b));
                // Cholesky's factor of the covariance: .002, .001 and sqrt(9e-6 - 1e-6).
                const Xy right(target.x() + u * 0.0050 + 0.002 * a,
                               target.y() + u * 0.0030 + 0.001 * a + std::sqrt(8e-6) * b);
                const double d = (uv1976(right) - uv1976(as_it_is)).distance();
                before += weight * d;
                after += weight * (uv1976(right) - uv1976(target)).distance();
                visible += d > uv_step_radius ? weight : 0.0;
                weights += weight;
            }
        }
    }
    // Standard errors: spread of some .002 over 64.
    EXPECT_NEAR(drawn.before, before / weights, 1.5e-4);
    EXPECT_NEAR(drawn.after, after / weights, 1.5e-4);
    EXPECT_NEAR(drawn.visible_before, visible / weights, 0.02);
    EXPECT_EQ(drawn.by_eye, 0.0);  // one eye: its own white
}

// Of several viewers the best white lies in the middle of the smallest circle about theirs.
TEST(Advice, TheBestWhiteForSeveralIsTheMiddleOfTheirCircle) {
    const std::vector<detail::Place> triangle = {{0.2, 0.47}, {0.202, 0.47}, {0.201, 0.4705}};
    EXPECT_NEAR(detail::circle_radius(triangle), 0.001, 1.5e-5);
    const double side = 0.002;
    const std::vector<detail::Place> even = {
        {0.2, 0.47}, {0.2 + side, 0.47}, {0.2 + side / 2.0, 0.47 + side * std::sqrt(3.0) / 2.0}};
    EXPECT_NEAR(detail::circle_radius(even), side / std::sqrt(3.0), 1.5e-5);
}

}  // namespace
}  // namespace samelight
