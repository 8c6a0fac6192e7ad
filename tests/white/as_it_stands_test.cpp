// The set as it stands: its own white is the base, another panel's primaries give directions, and a second pass lands.
#include <array>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/unit_variation.hpp"

namespace samelight {
namespace {

/// The light of a set whose white was dialled to read `xy`.
SampledLight dialled(const Panel& set, const Chromaticity<Cie1931_2deg>& xy) {
    return {set.sampling(), set_white(set, xy).light, 0.0};
}

/// From `start`: measure the white, ask with another type's primaries, dial in what the answer says; twice.
double distance_after_two_passes(const Panel& set, const Panel& directions,
                                 const Reference& reference, const Observer& observer,
                                 const Chromaticity<Cie1931_2deg>& start,
                                 const Chromaticity<Cie1931_2deg>& truth) {
    Chromaticity<Cie1931_2deg> xy = start;
    for (int pass = 0; pass < 2; ++pass) {
        TargetOptions options;
        options.base = WhiteAsItStands{dialled(set, xy)};
        xy = white_target(directions, reference, observer, options).xy;
    }
    return (xy - truth).distance();
}

TEST(AsItStands, TwoPassesLandWithAnyOtherTypesPrimaries) {
    const Reference reference =
        display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    double worst = 0.0;
    std::string where;
    for (const Observer* observer :
         {&standard_observer<Cie2015_2deg>(), &standard_observer<Cie2015_10deg>()}) {
        for (const GenericModel& own : generic_models()) {
            const Panel set = generic_panel(own);
            const auto truth = white_target(set, reference, *observer).xy;
            for (const GenericModel& other : generic_models()) {
                if (other.name() == "laser-rgb") {
                    continue;
                }
                const Panel directions = generic_panel(other);
                for (int k = 0; k < 8; ++k) {  // all round, .003 away
                    const double angle = k * 3.14159265358979 / 4;
                    const Chromaticity<Cie1931_2deg> start(truth.x() + 0.003 * std::cos(angle),
                                                           truth.y() + 0.003 * std::sin(angle));
                    const double left = distance_after_two_passes(set, directions, reference,
                                                                  *observer, start, truth);
                    if (left > worst) {
                        worst = left;
                        where = std::string(own.name()) + " with " + std::string(other.name()) +
                                ", " + observer->id();
                    }
                }
            }
        }
    }
    EXPECT_LT(worst, 0.0002) << where;
    RecordProperty("worst", std::to_string(worst));
    std::printf("two passes: worst %.6f, %s\n", worst, where.c_str());
}

TEST(UnitVariation, HoldsAgainstMonteCarlo) {
    // Second route: all parameters drawn at once from their rectangles (JCGM 101), 400 draws, fixed seed.
    const Reference reference = illuminant_reference("D65");
    const Observer& observer = standard_observer<Cie2015_2deg>();
    for (const GenericModel& model : generic_models()) {
        std::uint64_t state = 0x9E3779B97F4A7C15U;
        const auto uniform =
            [&] {  // xorshift64*: a test's own, so that no library's change moves it
                state ^= state >> 12;
                state ^= state << 25;
                state ^= state >> 27;
                return static_cast<double>((state * 0x2545F4914F6CDD1DU) >> 11) * 0x1.0p-53;
            };
        const UnitVariation range = unit_variation(model, reference, observer);
        const auto centre = white_target(generic_panel(model), reference, observer).xy;
        double xx = 0.0;
        double yy = 0.0;
        constexpr int draws = 400;
        for (int i = 0; i < draws; ++i) {
            std::vector<double> values;
            for (const ModelParameter& p : model.parameters()) {
                values.push_back(p.low + (p.high - p.low) * uniform());
            }
            const auto moved =
                white_target(generic_panel(model, values), reference, observer).xy - centre;
            xx += moved.first() * moved.first() / draws;
            yy += moved.second() * moved.second() / draws;
        }
        EXPECT_NEAR(2.0 * std::sqrt(xx) / range.x, 1.0, 0.25) << model.name();
        EXPECT_NEAR(2.0 * std::sqrt(yy) / range.y, 1.0, 0.25) << model.name();
    }
}

}  // namespace
}  // namespace samelight
