// Whether a white may be of a type: units drawn from the type's plausible ranges are, other types' whites aren't.
#include "samelight/display/white_origin.hpp"
#include "samelight/display/left_over.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <cstdio>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "display/coarse_files.hpp"
#include "numeric/test_random.hpp"

namespace samelight {
namespace {

using test::at_step;
using test::Coarse;

WhiteOriginJudgement judge(const char* panel, const Spectrum& white) {
    const GenericModel& model = generic_model(panel);
    return judge_white_origin(generic_panel(model), &model, rebin(white, {}));
}

std::vector<double> a_unit(const GenericModel& model, test::Random& random) {
    std::vector<double> values;
    for (const ModelParameter& p : model.parameters()) {
        values.push_back(random.between(p.low, p.high));
    }
    return values;
}

// Three units of every type, their whites read at every step: none is taken for another panel's, and none even flagged but at 10 nm.
TEST(WhiteOrigin, NoUnitOfATypeIsTakenForAnotherPanel) {
    test::Random random(17);
    double furthest = 0.0;
    for (const GenericModel& model : generic_models()) {
        for (int unit = 0; unit < 3; ++unit) {
            const Spectrum white =
                test::some_white(test::fine_spectra(model, a_unit(model, random)));
            for (const int step : test::all_steps) {
                const WhiteOriginJudgement judged =
                    judge(std::string(model.name()).c_str(), at_step(white, step, Coarse::read));
                EXPECT_NE(judged.origin, WhiteOrigin::another_panel)
                    << model.name() << " unit " << unit << " by " << step << " nm";
                if (step < 10) {
                    EXPECT_EQ(judged.origin, WhiteOrigin::this_panel)
                        << model.name() << " unit " << unit << " by " << step << " nm";
                    furthest = std::max(furthest, judged.own_type_nm);
                }
            }
        }
    }
    std::printf("units' whites by 1 to 5 nm: at most %.2f nm from their own type\n", furthest);
}

// The usual white of every type against every other type's model, at every step, is noticed. One pair can't be told apart by a white
// read at 10 nm: quantum dots before LEDs and before blue OLEDs, where a unit of the one makes the other's white within .3 nm.
TEST(WhiteOrigin, WhitesOfOtherTypesAreNoticed) {
    for (const GenericModel& other : generic_models()) {
        const Spectrum white = test::some_white(test::fine_spectra(other));
        for (const GenericModel& model : generic_models()) {
            for (const int step : test::all_steps) {
                const bool dots =
                    model.name() == "oled-quantum-dot" && other.name() == "lcd-quantum-dot";
                if (model.name() == other.name() || (dots && step == 10)) {
                    continue;
                }
                // All pairs at the ends; between them one model a white, in turn.
                const auto turn = static_cast<std::size_t>(&model - &other) % 9 == 1;
                if (step != 1 && step != 10 && !turn) {
                    continue;
                }
                const WhiteOriginJudgement judged =
                    judge(std::string(model.name()).c_str(), at_step(white, step, Coarse::read));
                EXPECT_NE(judged.origin, WhiteOrigin::this_panel)
                    << other.name() << " as " << model.name() << " by " << step << " nm";
                ASSERT_NE(judged.nearest, nullptr);
                EXPECT_EQ(judged.nearest->name(), other.name());
            }
        }
    }
}

// A lamp, or two types mixed, is no type's white, whichever type is named, though one of them is the nearest.
TEST(WhiteOrigin, AStrangerIsNoticedUnderAnyName) {
    const Spectrum lamp = cie_illuminant("A");
    std::vector<double> sum(401);
    const Spectrum laser = test::some_white(test::fine_spectra(generic_model("laser-rgb")));
    const Spectrum led = test::some_white(test::fine_spectra(generic_model("lcd-white-led")));
    for (std::size_t i = 0; i < sum.size(); ++i) {
        sum[i] = laser.values()[i] + led.values()[i];
    }
    for (const Spectrum& stranger : {lamp, Spectrum(Sampling{}, sum)}) {
        for (const GenericModel& model : generic_models()) {
            const WhiteOriginJudgement judged = judge(std::string(model.name()).c_str(), stranger);
            EXPECT_NE(judged.origin, WhiteOrigin::this_panel)
                << model.name() << ": " << judged.own_type_nm << " nm";
        }
    }
}

// A measured panel's limit is its own: the same white of another unit of the type is another display's.
TEST(WhiteOrigin, AMeasuredPanelStandsForItselfAlone) {
    const GenericModel& model = generic_model("oled-quantum-dot");
    std::vector<double> values = model.default_values();
    const Panel measured("unit", test::fine_spectra(model, values));
    EXPECT_EQ(judge_white_origin(measured, nullptr,
                                 rebin(test::some_white(test::fine_spectra(model, values)), {}))
                  .origin,
              WhiteOrigin::this_panel);
    values.front() = model.parameters().front().high;
    const SampledLight unlike = rebin(test::some_white(test::fine_spectra(model, values)), {});
    ASSERT_GT(left_over_share(measured, unlike), 0.1);
    EXPECT_EQ(judge_white_origin(measured, nullptr, unlike).origin, WhiteOrigin::another_panel);
}

}  // namespace
}  // namespace samelight
