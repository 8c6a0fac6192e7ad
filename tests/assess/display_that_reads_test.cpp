// Displays of which only readings are known: units drawn from all types, read with noise, and what is then said of their whites.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include "assess/memory_and_files.hpp"
#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/units_that_read.hpp"

namespace samelight {
namespace {

/// A unit of a type and what an instrument reads of it.
struct DrawnUnit {
    Panel panel;
    PrimaryReadings readings;
};

/// Units of all types by turns, every parameter quasi-random within its range, read with noise of .0005 in x and y.
class DrawnUnits {
  public:
    [[nodiscard]] static const GenericModel& model(std::size_t unit) {
        return generic_models()[unit % generic_models().size()];
    }

    [[nodiscard]] DrawnUnit at(std::size_t unit) const {
        std::vector<double> values;
        for (const ModelParameter& p : model(unit).parameters()) {
            const double share = points_.unit(1 + unit, static_cast<int>(values.size()));
            values.push_back(p.low + share * (p.high - p.low));
        }
        const PanelSpectra spectra = generic_spectra(model(unit), values);
        const std::array<const Spectrum*, 3> columns = {&spectra.red, &spectra.green,
                                                        &spectra.blue};
        PrimaryReadings readings{{{{{0.3, 0.3}}, {{0.3, 0.3}}, {{0.3, 0.3}}}},
                                 {{generic_native_white_xy[0], generic_native_white_xy[1]}, 1.0}};
        for (std::size_t k = 0; k < 3; ++k) {
            const auto seen = tristimulus<Cie1931_2deg>(*columns.at(k));
            const auto xy = chromaticity(seen);
            readings.primaries.at(k) = {
                {xy.x() + noise(8 * unit + 2 * k), xy.y() + noise(8 * unit + 2 * k + 1)}, seen.Y()};
        }
        return {generic_panel(model(unit), values), readings};
    }

  private:
    [[nodiscard]] double noise(std::uint64_t number) const {
        return 0.0005 * normal_quantile(random_.unit(number));
    }

    LowDiscrepancy points_{20240607};
    PseudoRandom random_{99};
};

/// 504 units by hand (SAMELIGHT_ALL_UNITS=1, six minutes); in CI a share of them, for which the bounds are three standard errors wider.
bool all_units() { return std::getenv("SAMELIGHT_ALL_UNITS") != nullptr; }

/// How often something was so, type after type.
class Tally {
  public:
    void add(std::size_t unit, bool so) {
        held_.at(unit % 9) += so ? 1.0 : 0.0;
        of_.at(unit % 9) += 1.0;
    }
    [[nodiscard]] double share() const {
        double held = 0.0;
        double of = 0.0;
        for (std::size_t m = 0; m < 9; ++m) {
            held += held_.at(m);
            of += of_.at(m);
        }
        return held / of;
    }
    void print(const char* what) const {
        std::printf("%s: %.3f;", what, share());
        for (std::size_t m = 0; m < 9; ++m) {
            std::printf(" %s %.2f", std::string(generic_models()[m].name()).c_str(),
                        held_.at(m) / of_.at(m));
        }
        std::printf("\n");
    }

  private:
    std::array<double, 9> held_{};
    std::array<double, 9> of_{};
};

// Second route: the target from the drawn unit's own spectra. A range stated for 95 of 100 units must hold it in 93 to 97.
TEST(DisplayThatReads, ItsRangeHoldsTheTargetFromTheUnitsOwnSpectra) {
    const Reference tube = display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    const std::array<Observer, 2> observers = {standard_observer<Cie2015_2deg>(),
                                               standard_observer<Cie2015_10deg>()};
    const DrawnUnits drawn;
    std::array<Tally, 4> held;
    double within = 0.0;
    const std::size_t count = all_units() ? 504 : 108;
    for (std::size_t u = 0; u < count; ++u) {
        const DrawnUnit unit = drawn.at(u);
        const BentUnit bent = bend_to(DrawnUnits::model(u), unit.readings);
        const Panel panel("read", spectra_that_read(bent, unit.readings));
        const UnitsThatRead units(bent, unit.readings, {}, {all_units() ? 512U : 256U});
        for (std::size_t o = 0; o < 2; ++o) {
            const auto truth = white_target(unit.panel, tube, observers.at(o)).xy;
            const auto said = white_target(panel, tube, observers.at(o)).xy;
            const TargetsThatRead range = targets_that_read(units, {tube, observers.at(o)}, said);
            held.at(2 * o).add(u, std::abs(truth.x() - said.x()) <= range.within.x);
            held.at(2 * o + 1).add(u, std::abs(truth.y() - said.y()) <= range.within.y);
            within += (range.within.x + range.within.y) / static_cast<double>(4 * count);
        }
    }
    constexpr std::array<const char*, 4> names = {"x, 2 degrees", "y, 2 degrees", "x, 10 degrees",
                                                  "y, 10 degrees"};
    double all = 0.0;
    for (std::size_t k = 0; k < 4; ++k) {
        held.at(k).print(names.at(k));
        all += 0.25 * held.at(k).share();
    }
    // Of 108 units a share has a standard error of .021.
    const double wider = all_units() ? 0.0 : 0.05;
    EXPECT_GE(all, 0.93 - wider);
    EXPECT_LE(all, 0.97 + (all_units() ? 0.0 : 0.025));
    // It must be worth something: well within what units of the types differ by, .0033 on average (unit_variation()).
    EXPECT_LT(within, 0.0014);
}

TEST(DisplayThatReads, OfTheTypesOfferedOneIsTheUnits) {
    const DrawnUnits drawn;
    Tally offered;
    double types = 0.0;
    const std::size_t count = all_units() ? 504 : 27;
    for (std::size_t u = 0; u < count; ++u) {
        const auto displays = assess::displays_that_read("display", drawn.at(u).readings);
        offered.add(u, std::any_of(displays.begin(), displays.end(), [&](const auto& display) {
                        return display.model == &DrawnUnits::model(u);
                    }));
        types += static_cast<double>(displays.size()) / static_cast<double>(count);
    }
    offered.print("the true type is offered");
    std::printf("types offered: %.2f\n", types);
    EXPECT_GE(offered.share(), 0.95);
    EXPECT_LT(types, 2.0);
}

// Second route: the readings of the panel's spectra, by the plain sum.
TEST(DisplayThatReads, TheBentSpectraReadAsWasRead) {
    const DrawnUnits drawn;
    for (std::size_t u = 0; u < 18; ++u) {
        const DrawnUnit unit = drawn.at(u);
        const PanelSpectra spectra =
            spectra_that_read(bend_to(DrawnUnits::model(u), unit.readings), unit.readings);
        const std::array<const Spectrum*, 4> columns = {&spectra.red, &spectra.green, &spectra.blue,
                                                        &*spectra.white};
        for (std::size_t k = 0; k < 4; ++k) {
            const LightReading& read = k < 3 ? unit.readings.primaries.at(k) : unit.readings.white;
            const auto seen = tristimulus<Cie1931_2deg>(*columns.at(k));
            EXPECT_NEAR(seen.Y(), *read.luminance, 1e-9) << u << " " << k;
            EXPECT_LT((chromaticity(seen) - read.xy).distance(), k < 3 ? 0.0025 : 1e-9)
                << u << " " << k;
        }
    }
}

assess::WhiteRequest asked_of(std::vector<assess::WhitePanel> panels) {
    assess::WhiteRequest request{assess::display_as_reference(
        {generic_panel(generic_model("crt")), nullptr, {WhiteSetTo{{0.3127, 0.3290}}}, {}})};
    request.panels = std::move(panels);
    request.population = Population([] {
        PopulationParameters few;
        few.count = 64;
        return few;
    }());
    return request;
}

bool warned_of_code(const std::vector<Warning>& warnings, const std::string& code) {
    return std::any_of(warnings.begin(), warnings.end(),
                       [&](const Warning& warning) { return warning.code == code; });
}

// The budget's first line is what the readings leave open, less than what the type does.
TEST(DisplayThatReads, TheWholeAnswerTakesTheReadingsIntoAccount) {
    const DrawnUnit unit = DrawnUnits().at(5);
    const GenericModel& model = DrawnUnits::model(5);
    const auto read = assess::answer_white(
        asked_of({assess::display_that_reads("display", unit.readings, model)}));
    const auto type = assess::answer_white(asked_of({assess::generic_display(model)}));
    ASSERT_TRUE(read.panels[0].budget && type.panels[0].budget);
    EXPECT_EQ(read.panels[0].budget->parts[0].code, "panel_spectrum");
    EXPECT_LT(read.panels[0].budget->parts[0].size(), 0.6 * type.panels[0].budget->parts[0].size());
    EXPECT_LT(read.panels[0].ranges[0]->y, 0.6 * type.panels[0].ranges[0]->y);
    EXPECT_TRUE(read.panels[0].bent);
    EXPECT_FALSE(read.types_apart);
}

using DisplayThatReadsInAFile = test::MemoryAndFiles;

std::string readings_csv(const PrimaryReadings& readings) {
    const auto row = [](const char* name, const LightReading& light) {
        return std::string("\n") + name + "," + to_text(light.xy.x()) + "," +
               to_text(light.xy.y()) + "," + to_text(*light.luminance);
    };
    return "name,x,y,Y" + row("red", readings.primaries[0]) + row("green", readings.primaries[1]) +
           row("blue", readings.primaries[2]) + row("white", readings.white) + "\n";
}

// Second route: the same readings in a file, as the command is asked about them.
TEST_F(DisplayThatReadsInAFile, TheCommandSaysTheSame) {
    const PrimaryReadings readings = DrawnUnits().at(5).readings;
    report::WhiteRequest texts;
    texts.panels = {written("read.csv", readings_csv(readings))};
    texts.reference = "crt@0.3127,0.3290";
    texts.people = 64;
    for (const char* type : {"oled-rgb", "lcd-white-led", ""}) {
        texts.type = type;
        const std::string& name = texts.panels.front();
        assess::WhiteRequest asked = asked_of(
            texts.type.empty() ? assess::displays_that_read(name, readings)
                               : std::vector<assess::WhitePanel>{assess::display_that_reads(
                                     name, readings, generic_model(type))});
        if (texts.type.empty()) asked.panels_are = assess::PanelsAre::types_of_one_display;
        const assess::WhiteAnswer memory = assess::answer_white(asked);
        const report::WhiteAnswer file = report::answer_white(texts);
        EXPECT_TRUE(file.errors.empty());
        ASSERT_EQ(memory.panels.size(), file.panels.size()) << type;
        ASSERT_EQ(memory.types_apart.has_value(), file.types_apart.has_value()) << type;
        if (memory.types_apart) {
            EXPECT_EQ(test::warning_codes(memory.types_apart->warnings),
                      test::warning_codes(file.types_apart->warnings));
        }
        for (std::size_t p = 0; p < memory.panels.size(); ++p) {
            const assess::PanelPart& one = memory.panels[p];
            const assess::PanelPart& other = file.panels[p];
            EXPECT_EQ(test::warning_codes(one.targets.warnings),
                      test::warning_codes(other.targets.warnings));
            ASSERT_TRUE(one.advice && other.advice && one.budget && other.budget) << type;
            EXPECT_EQ(one.advice->verdict, other.advice->verdict) << type;
            EXPECT_EQ(one.advice->reason, other.advice->reason) << type;
            // A file's x, y, Y go by way of X, Y, Z: the search for the unit, which ends where a thousandth is gained, may multiply the rounding.
            EXPECT_LT((one.dialled().xy - other.dialled().xy).distance(), 1e-5) << type;
            EXPECT_NEAR(one.budget->half_width_x() / other.budget->half_width_x(), 1.0, 2e-3)
                << type;
        }
    }
}

TEST(DisplayThatReads, ReadingsUnlikeTheTypeNamedAreSaidAndLeaveTheWhite) {
    const DrawnUnit unit = DrawnUnits().at(5);  // separate emitters
    ASSERT_EQ(DrawnUnits::model(5).name(), "oled-rgb");
    const auto far = assess::answer_white(asked_of(
        {assess::display_that_reads("display", unit.readings, generic_model("lcd-white-led"))}));
    EXPECT_TRUE(warned_of_code(far.panels[0].targets.warnings, "readings_of_another_type"));
    EXPECT_EQ(far.panels[0].advice->verdict, Verdict::leave);
    // A little outside its ranges a unit is believed less, and its range is wider.
    PrimaryReadings moved = unit.readings;
    moved.primaries[0].xy = {moved.primaries[0].xy.x() - 0.012, moved.primaries[0].xy.y()};
    const auto near = assess::display_that_reads("display", moved, DrawnUnits::model(5));
    EXPECT_TRUE(warned_of_code(near.notes.warnings, "readings_unlike_type"));
    EXPECT_GT(near.units->readings().noise_xy, moved.noise_xy);
    EXPECT_FALSE(assess::displays_that_read("display", moved).empty());
}

// The primaries of EBU Tech. 3213-E and of SMPTE RP 145, as printed there: tubes have them, and any panel in a mode that holds it to them.
TEST(DisplayThatReads, PrimariesOfAStandardTellNothingOfTheType) {
    struct Standard {
        std::array<LightReading, 3> primaries;
        std::string_view title;
    };
    const std::array<Standard, 2> standards = {
        {{{{{{0.64, 0.33}}, {{0.29, 0.60}}, {{0.15, 0.06}}}}, "EBU Tech. 3213"},
         {{{{{0.63, 0.34}}, {{0.31, 0.595}}, {{0.155, 0.07}}}}, "SMPTE C"}}};
    for (const Standard& standard : standards) {
        PrimaryReadings read{standard.primaries, {{0.3127, 0.3290}}};
        read.primaries[1].xy = {read.primaries[1].xy.x() + 0.003, read.primaries[1].xy.y() - 0.004};
        const auto answer = assess::answer_white([&] {
            auto asked = asked_of(assess::displays_that_read("display", read));
            asked.panels_are = assess::PanelsAre::types_of_one_display;
            return asked;
        }());
        ASSERT_TRUE(answer.types_apart);
        ASSERT_EQ(answer.types_apart->warnings.size(), 1U);
        const Warning& warning = answer.types_apart->warnings.front();
        EXPECT_EQ(warning.code, "primaries_of_standard");
        EXPECT_EQ(std::get<std::string>(warning.facts.at(0).value).substr(0, standard.title.size()),
                  standard.title);
        EXPECT_NEAR(std::get<double>(warning.facts.at(1).value), 0.005, 1e-12);
        // Further away it is nobody's, and of a type that was named its own part says it.
        read.primaries[1].xy = {read.primaries[1].xy.x(), read.primaries[1].xy.y() - 0.003};
        EXPECT_TRUE(warned_of_code(
            assess::display_that_reads("display", {standard.primaries, {{0.3127, 0.3290}}},
                                       generic_model("lcd-ccfl"))
                .notes.warnings,
            "primaries_of_standard"));
        EXPECT_FALSE(warned_of_code(
            assess::display_that_reads("display", read, generic_model("lcd-ccfl")).notes.warnings,
            "primaries_of_standard"));
    }
}

TEST(DisplayThatReads, WhatIsNoDisplayIsRefused) {
    const PrimaryReadings good = DrawnUnits().at(5).readings;
    PrimaryReadings swapped = good;
    std::swap(swapped.primaries[0], swapped.primaries[1]);
    PrimaryReadings outside = good;
    outside.white.xy = {0.7, 0.25};
    PrimaryReadings dark = good;
    dark.primaries[2].luminance = 0.0;
    for (const PrimaryReadings& bad : {swapped, outside, dark}) {
        EXPECT_THROW(static_cast<void>(assess::displays_that_read("display", bad)), Error);
    }
    PrimaryReadings odd = good;  // no pure lights at all
    odd.primaries = {{{{0.45, 0.32}}, {{0.32, 0.40}}, {{0.28, 0.25}}}};
    EXPECT_THROW(static_cast<void>(assess::displays_that_read("display", odd)), Error);
}

// A white much brighter than its three colours together has an emitter of its own.
TEST(DisplayThatReads, ABrighterWhiteNeedsAnEmitter) {
    DrawnUnit unit = DrawnUnits().at(6);
    ASSERT_EQ(DrawnUnits::model(6).name(), "oled-white");
    for (const auto& display : assess::displays_that_read("display", unit.readings)) {
        EXPECT_EQ(display.model->name(), "oled-white");
    }
}

}  // namespace
}  // namespace samelight
