// The answer about whites from values in memory is the one that files of the same spectra give: verdicts, warnings, targets.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "display/coarse_files.hpp"
#include "io/scratch_folder.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::test {
namespace {

constexpr std::size_t few_people = 64;
const std::string tube_text = "crt@0.3127,0.3290";

assess::WhiteReference tube_in_memory() {
    assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
    tube.white = {WhiteSetTo{{0.3127, 0.3290}}};
    return assess::display_as_reference(tube);
}

Spectrum white_sum(const PanelSpectra& spectra) {
    std::vector<double> values(spectra.red.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = spectra.red.values()[i] + spectra.green.values()[i] + spectra.blue.values()[i];
    }
    const auto nm = spectra.red.wavelengths_nm();
    return {{nm.begin(), nm.end()}, std::move(values)};
}

/// A unit of a type as it was measured: no model is known, and white is red + green + blue.
PanelSpectra unit_spectra(const char* type) {
    PanelSpectra spectra = fine_spectra(generic_model(type));
    spectra.white = white_sum(spectra);
    return spectra;
}

/// Cut off at a share of its peak, as by a saturated instrument.
Spectrum saturated(const Spectrum& light, double share) {
    std::vector<double> values(light.values().begin(), light.values().end());
    const double ceiling = share * light.peak();
    for (double& value : values) {
        value = std::min(value, ceiling);
    }
    const auto nm = light.wavelengths_nm();
    return {{nm.begin(), nm.end()}, std::move(values)};
}

std::vector<std::string> white_codes(const std::vector<Warning>& warnings) {
    std::vector<std::string> result;
    for (const Warning& warning : warnings) {
        result.push_back(warning.code);
    }
    return result;
}

bool white_warned(const std::vector<Warning>& warnings, const std::string& code) {
    const std::vector<std::string> all = white_codes(warnings);
    return std::find(all.begin(), all.end(), code) != all.end();
}

void expect_same_panel(const assess::PanelPart& memory, const assess::PanelPart& file) {
    EXPECT_EQ(white_codes(memory.targets.warnings), white_codes(file.targets.warnings));
    ASSERT_EQ(memory.advice.has_value(), file.advice.has_value());
    if (memory.advice) {
        EXPECT_EQ(memory.advice->verdict, file.advice->verdict);
        EXPECT_EQ(memory.advice->reason, file.advice->reason);
    }
    EXPECT_EQ(memory.dialled().xy.x(), file.dialled().xy.x());
    EXPECT_EQ(memory.dialled().xy.y(), file.dialled().xy.y());
    EXPECT_EQ(memory.step_nm, file.step_nm);
    EXPECT_EQ(memory.black, file.black);
    ASSERT_EQ(memory.budget.has_value(), file.budget.has_value());
    if (memory.budget) {
        EXPECT_EQ(memory.budget->half_width_x(), file.budget->half_width_x());
        EXPECT_EQ(memory.budget->dominant().code, file.budget->dominant().code);
    }
}

void expect_same_answer(const assess::WhiteAnswer& memory, const assess::WhiteAnswer& file) {
    EXPECT_EQ(white_codes(memory.reference.warnings), white_codes(file.reference.warnings));
    EXPECT_EQ(white_codes(memory.viewer_notes), white_codes(file.viewer_notes));
    EXPECT_EQ(white_codes(memory.display_group_notes), white_codes(file.display_group_notes));
    EXPECT_EQ(memory.display_group.size(), file.display_group.size());
    ASSERT_EQ(memory.panels.size(), file.panels.size());
    for (std::size_t p = 0; p < memory.panels.size(); ++p) {
        expect_same_panel(memory.panels[p], file.panels[p]);
    }
}

/// The same question in memory and as the command puts it.
class WhiteFromMemory : public io::test::ScratchFolder {
  protected:
    [[nodiscard]] std::string written(const std::string& name,
                                      const std::vector<io::LightColumn>& columns) const {
        const std::string path = (folder_ / name).string();
        std::ofstream(path, std::ios::binary) << io::spectral_csv_text({}, columns);
        return path;
    }
    [[nodiscard]] std::string written(const std::string& name, const PanelSpectra& spectra) const {
        std::vector<io::LightColumn> columns = {
            {"red", spectra.red}, {"green", spectra.green}, {"blue", spectra.blue}};
        if (spectra.white) {
            columns.push_back({"white", *spectra.white});
        }
        if (spectra.black) {
            columns.push_back({"black", *spectra.black});
        }
        return written(name, columns);
    }
    /// Both ask about this display; the file is the one that its spectra were written to.
    void ask(const PanelSpectra& spectra) {
        texts.panels.push_back(
            written("panel" + std::to_string(texts.panels.size()) + ".csv", spectra));
        values.panels.push_back(assess::measured_panel(texts.panels.back(), spectra));
    }
    void ask(const char* type) {
        texts.panels.emplace_back(type);
        values.panels.push_back(assess::generic_display(generic_model(type)));
    }
    void stands_at(const Spectrum& white) {
        texts.now = written("now.csv", {{"white", white}});
        values.panels.back().white = assess::measured_white(texts.now, white);
    }
    void watched_by(double age_years) {
        texts.viewers.push_back(std::to_string(age_years));
        values.viewers.push_back({age_years});
    }
    void set_by_eye(double x, double y) {
        texts.eyes.push_back("A=" + std::to_string(x) + "," + std::to_string(y));
        values.by_eye.push_back({0, {x, y}});
    }
    /// Both answers, compared; the one from memory is handed back.
    [[nodiscard]] assess::WhiteAnswer answered() {
        texts.people = few_people;
        PopulationParameters people;
        people.count = few_people;
        values.population = Population(people);
        assess::WhiteAnswer memory = assess::answer_white(values);
        expect_same_answer(memory, report::answer_white(texts));
        return memory;
    }

    report::WhiteRequest texts = [] {
        report::WhiteRequest request;
        request.reference = tube_text;
        return request;
    }();
    assess::WhiteRequest values{tube_in_memory()};
};

TEST_F(WhiteFromMemory, AWholeUnitIsMoved) {
    ask(unit_spectra("oled-rgb"));
    const assess::WhiteAnswer answer = answered();
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::move);
    EXPECT_EQ(white_codes(answer.reference.warnings),
              std::vector<std::string>{"reference_generic"});
}

TEST_F(WhiteFromMemory, ACutOffColumnIsFoundInTheSpectra) {
    PanelSpectra spectra = unit_spectra("oled-rgb");
    spectra.blue = saturated(spectra.blue, 0.7);
    spectra.white.reset();
    ask(spectra);
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "clipped"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
    EXPECT_EQ(answer.panels[0].advice->reason, AdviceReason::clipped);
}

TEST_F(WhiteFromMemory, ACutOffReferenceIsFoundInTheSpectra) {
    PanelSpectra spectra = unit_spectra("lcd-white-led");
    spectra.blue = saturated(spectra.blue, 0.7);
    spectra.white.reset();
    texts.reference = written("reference.csv", spectra) + "@0.3127,0.3290";
    assess::WhitePanel display = assess::measured_panel("reference", spectra);
    display.white = {WhiteSetTo{{0.3127, 0.3290}}};
    values.reference = assess::display_as_reference(display);
    ask(unit_spectra("oled-rgb"));
    EXPECT_EQ(answered().panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, ACutOffLightAsReferenceIsFound) {
    const Spectrum lamp = saturated(*unit_spectra("oled-rgb").white, 0.6);
    texts.reference = written("lamp.csv", {{"lamp", lamp}});
    values.reference = assess::measured_reference(texts.reference, lamp);
    ask(unit_spectra("lcd-white-led"));
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.reference.warnings, "clipped"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, ACutOffWhiteAsItStandsIsFound) {
    const PanelSpectra spectra = unit_spectra("oled-rgb");
    ask(spectra);
    stands_at(saturated(some_white(spectra), 0.8));
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "clipped"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, AMisreadColumnOverridesTheFigures) {
    PanelSpectra spectra = unit_spectra("oled-rgb");
    spectra.red = spectra.red.scaled(0.7);
    ask(spectra);
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "column_misread"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, ALimitersWhiteIsSaidAndNoReason) {
    PanelSpectra spectra = unit_spectra("oled-rgb");
    spectra.white = spectra.white->scaled(0.6);
    ask(spectra);
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "white_of_other_level"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::move);
}

TEST_F(WhiteFromMemory, TheWhiteOfTheVeryDisplayIsItsOwn) {
    const PanelSpectra spectra = unit_spectra("oled-rgb");
    ask(spectra);
    stands_at(some_white(spectra));
    const assess::WhiteAnswer answer = answered();
    EXPECT_FALSE(white_warned(answer.panels[0].targets.warnings, "now_of_another_display"));
    EXPECT_TRUE(answer.panels[0].white_measured);
    EXPECT_TRUE(answer.panels[0].dialled().left.has_value());
}

TEST_F(WhiteFromMemory, TheWhiteOfAnotherDisplayOverridesTheFigures) {
    ask(unit_spectra("oled-rgb"));
    stands_at(some_white(unit_spectra("lcd-white-led")));
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "now_of_another_display"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, TheWhiteOfAnotherTypeIsSaidWithoutAnyCommand) {
    ask("oled-rgb");
    stands_at(some_white(unit_spectra("lcd-narrow-red")));
    const assess::WhiteAnswer answer = answered();
    const std::vector<Warning>& warnings = answer.panels[0].targets.warnings;
    ASSERT_TRUE(white_warned(warnings, "now_of_another_display"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
    for (const Warning& warning : warnings) {
        EXPECT_EQ(report::sentence(warning).find("samelight"), std::string::npos)
            << report::sentence(warning);
    }
}

TEST_F(WhiteFromMemory, ANowThatIsNoWhiteOverridesTheFigures) {
    const PanelSpectra spectra = unit_spectra("oled-rgb");
    ask(spectra);
    PanelSpectra greenish = spectra;
    greenish.red = greenish.red.scaled(0.3);
    greenish.blue = greenish.blue.scaled(0.3);
    stands_at(white_sum(greenish));
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "now_is_no_white"));
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
    EXPECT_TRUE(answer.panels[0].now_is_no_white);
    EXPECT_EQ(answer.panels[0].advice->reason, AdviceReason::now_is_no_white);
}

TEST_F(WhiteFromMemory, ViewersWhoPullOppositeWaysAskTheEyes) {
    ask("oled-rgb");
    watched_by(25.0);
    watched_by(65.0);
    const assess::WhiteAnswer answer = answered();
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::ask_the_eyes);
    ASSERT_TRUE(answer.panels[0].budget.has_value());
    for (const BudgetPart& part : answer.panels[0].budget->parts) {
        EXPECT_EQ(report::remedy_of(part).find("--"), std::string::npos) << part.code;
        if (part.code == "viewers_eyes") {
            EXPECT_EQ(part.remedy, BudgetRemedy::match_by_viewer);
            EXPECT_EQ(part.viewer, "A");
        }
    }
}

TEST_F(WhiteFromMemory, AMatchThatNoEyeWouldSetOverridesTheFigures) {
    ask("oled-rgb");
    watched_by(30.0);
    set_by_eye(0.25, 0.4);
    const assess::WhiteAnswer answer = answered();
    EXPECT_EQ(white_codes(answer.viewer_notes), std::vector<std::string>{"eye_far_from_normal"});
    EXPECT_EQ(answer.panels[0].advice->verdict, Verdict::leave);
}

TEST_F(WhiteFromMemory, AnAgeBeyondTheFormulaIsMovedWithANote) {
    ask("oled-rgb");
    watched_by(15.0);
    EXPECT_EQ(white_codes(answered().viewer_notes), std::vector<std::string>{"viewer_age_moved"});
}

TEST_F(WhiteFromMemory, AWhiteAsSetIsTheBase) {
    ask("oled-rgb");
    texts.panels.back() += "@0.3063,0.3249";
    values.panels.back().white = {WhiteSetTo{{0.3063, 0.3249}}};
    const assess::WhiteAnswer answer = answered();
    EXPECT_TRUE(answer.panels[0].as_it_stands);
    EXPECT_FALSE(answer.panels[0].white_measured);
}

TEST_F(WhiteFromMemory, WhatNoDisplayCanShowIsNotJudged) {
    std::vector<double> values_of_cyan(401, 0.0);
    std::fill(values_of_cyan.begin() + 100, values_of_cyan.begin() + 141, 1.0);
    const Spectrum cyan(Sampling{}, values_of_cyan);
    texts.reference = written("cyan.csv", {{"white", cyan}});
    values.reference = assess::measured_reference(texts.reference, cyan);
    ask("lcd-white-led");
    ask("oled-rgb");
    const assess::WhiteAnswer answer = answered();
    EXPECT_FALSE(answer.panels[0].advice.has_value());
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "not_judged"));
    EXPECT_EQ(white_codes(answer.display_group_notes), std::vector<std::string>{"room_left_out"});
}

TEST_F(WhiteFromMemory, ACoarseUnitBringsItsStep) {
    ask(at_step(unit_spectra("lcd-narrow-red"), 10, Coarse::thinned));
    const assess::WhiteAnswer answer = answered();
    EXPECT_EQ(answer.panels[0].step_nm, 10.0);
    EXPECT_TRUE(white_warned(answer.panels[0].targets.warnings, "sampling_coarse"));
}

TEST_F(WhiteFromMemory, SeveralDisplaysAreSetTogether) {
    ask(unit_spectra("oled-rgb"));
    ask("lcd-narrow-red");
    EXPECT_EQ(answered().display_group.size(), 4U);
}

// What a file would refuse or never hold.
TEST(WhiteFromValues, RefusalsNameValuesNotOptions) {
    assess::WhiteRequest request{tube_in_memory()};
    const auto refusal = [&] {
        try {
            static_cast<void>(assess::answer_white(request));
        } catch (const Error& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    EXPECT_EQ(refusal(), "panels: none; wanted at least one");
    request.panels.push_back(assess::generic_display(generic_model("oled-rgb")));
    request.additivity_floor_xy = 0.2;
    EXPECT_EQ(refusal(), "additivity floor: 0.2; wanted 0 to 0.1, in x and y");
    request.additivity_floor_xy = 0.0;
    request.by_eye.push_back({0, {0.31, 0.32}});
    EXPECT_EQ(refusal(), "white by eye: viewer 0 of 0; wanted one of the viewers, counted from 0");
    request.viewers.push_back({300.0});
    EXPECT_EQ(refusal().rfind("viewer A: 300 years", 0), 0U) << refusal();
}

TEST(WatchingEyes, AreTakenUpToTheEndsOfTheirRanges) {
    for (const double good : {1.0, 2.0, 10.0}) {
        EXPECT_NO_THROW(detail::require_viewer({{}, good}, "here")) << good;
    }
    for (const double bad : {0.99, 10.01, 10.5, -2.0}) {
        EXPECT_THROW(detail::require_viewer({{}, bad}, "here"), Error) << bad;
    }
    for (const double good : {1.0, 120.0}) {
        EXPECT_NO_THROW(detail::require_viewer({good, 2.0}, "here")) << good;
    }
    for (const double bad : {0.5, 120.5}) {
        EXPECT_THROW(detail::require_viewer({bad, 2.0}, "here"), Error) << bad;
    }
}

}  // namespace
}  // namespace samelight::test
