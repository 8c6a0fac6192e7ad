// What is drawn by several threads: corrections again, budgets, units that read alike.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "samelight/assess/display_that_reads.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/budget_simulation.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/units_that_read.hpp"
#include "threads/same_for_threads.hpp"

namespace samelight {
namespace {

using test::Bits;

test::SimulatedCalibration drawn_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

Bits bits_of(const Bootstrap& bootstrap) {
    Bits bits;
    bits.add(bootstrap.dependent);
    for (const std::array<double, 9>& matrix : bootstrap.xyz_from_meter) {
        bits.add_all(matrix);
    }
    return bits;
}

TEST(ThreadsOfDraws, PatchesDrawnAgainAreTheSame) {
    // Three pairs, so that some resamples depend on each other; an odd number of patches beside an even one.
    test::Random random(4);
    for (const int count : {3, 24}) {
        std::vector<std::array<double, 3>> meter;
        std::vector<std::array<double, 3>> reference;
        for (int i = 0; i < count; ++i) {
            const std::array<double, 3> drive = {random.between(0.1, 1), random.between(0.1, 1),
                                                 random.between(0.1, 1)};
            meter.push_back(drawn_display().meter(drive));
            reference.push_back(drawn_display().reference(drive));
        }
        test::expect_same_for_threads([&](std::size_t threads) {
            return bits_of(bootstrap_patches(PairColumns(meter, reference), {1003, 7, threads}));
        });
    }
}

TEST(ThreadsOfDraws, RepeatsDrawnAgainAreTheSame) {
    test::Random random(5);
    const ReadingSet set(drawn_display().read(random, 5, {0.0005, 0.005}));
    test::expect_same_for_threads([&](std::size_t threads) {
        return bits_of(bootstrap_repeats(set, {}, {605, 7, threads}));
    });
}

TEST(ThreadsOfDraws, BudgetsAreTheSame) {
    for (const char* name : {"oled-rgb", "oled-white"}) {
        const Panel panel = generic_panel(generic_model(name));
        const Reference tube =
            display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
        const Observer& eye = standard_observer<Cie2015_2deg>();
        const Target target = white_target(panel, tube, eye);
        BudgetOptions options;
        options.model = &generic_model(name);
        options.viewers_covariance = {9e-6, 3e-6, 3e-6, 2.5e-5};
        test::expect_same_for_threads([&](std::size_t threads) {
            const SimulatedBudget found =
                simulate_budget({panel, tube}, eye, target, {options, 100, 3, threads});
            Bits bits;
            bits.add_all(found.mean_square).add_all(found.covariance).add_all(found.mean);
            return bits;
        });
    }
}

TEST(ThreadsOfDraws, DisplaysOfUnknownTypeAreTheSame) {
    const PrimaryReadings readings{
        {LightReading{{0.675, 0.324}, 27.2}, LightReading{{0.157, 0.770}, 57.0},
         LightReading{{0.143, 0.035}, 3.72}},
        {{0.315, 0.332}, 88.0}};
    test::expect_same_for_threads([&](std::size_t threads) {
        Bits bits;
        for (const assess::WhitePanel& display :
             assess::displays_that_read("display", readings, {}, threads)) {
            bits.add(display.probability).add_all(display.panel.white());
            bits.add(display.units->without_white());
            for (std::size_t i = 0; i < display.units->size(); i += 37) {
                bits.add_all(display.units->lights(i).reshaped());
            }
        }
        return bits;
    });
}

}  // namespace
}  // namespace samelight
