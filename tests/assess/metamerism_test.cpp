// The answer about pairs of displays: from memory the same as from names and files.
#include "samelight/assess/metamerism.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "memory_and_files.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::test {
namespace {

using PairsFromBoth = MemoryAndFiles;

Population people_of_pairs() {
    PopulationParameters parameters;
    parameters.count = 64;
    return Population(parameters);
}

assess::MetamerismRequest pairs_of(const std::vector<std::string>& names) {
    assess::MetamerismRequest request{illuminant_reference("D65"), {}};
    request.population = people_of_pairs();
    for (const std::string& name : names) {
        request.panels.push_back(generic_listed(name));
    }
    return request;
}

report::MetamerismRequest typed_pairs(const std::vector<std::string>& names) {
    report::MetamerismRequest request{names};
    request.people = 64;
    return request;
}

void expect_same_pairs(const assess::MetamerismAnswer& memory,
                       const assess::MetamerismAnswer& file) {
    EXPECT_EQ(memory.left_out, file.left_out);
    EXPECT_EQ(warning_codes(assess::metamerism_left_out(memory)),
              warning_codes(assess::metamerism_left_out(file)));
    EXPECT_EQ(memory.viewer_notes, file.viewer_notes);
    ASSERT_EQ(memory.panels.size(), file.panels.size());
    for (std::size_t i = 0; i < memory.panels.size(); ++i) {
        EXPECT_EQ(warning_codes(memory.panels[i].warnings), warning_codes(file.panels[i].warnings));
    }
    ASSERT_EQ(memory.rankings.size(), file.rankings.size());
    for (std::size_t i = 0; i < memory.rankings.size(); ++i) {
        EXPECT_EQ(memory.rankings[i].basis, file.rankings[i].basis);
        EXPECT_EQ(memory.rankings[i].pairs, file.rankings[i].pairs);
    }
    ASSERT_EQ(memory.pairs.size(), file.pairs.size());
    for (std::size_t i = 0; i < memory.pairs.size(); ++i) {
        const assess::MetamerismPair& a = memory.pairs[i];
        const assess::MetamerismPair& b = file.pairs[i];
        EXPECT_EQ(a.basis, b.basis);
        EXPECT_EQ(a.look_alike, b.look_alike);
        EXPECT_EQ(a.worst_colour_lab, b.worst_colour_lab);
        EXPECT_EQ(a.units.has_value(), b.units.has_value());
        ASSERT_EQ(a.deviate.has_value(), b.deviate.has_value());
        if (a.deviate) {
            EXPECT_EQ(a.deviate->de_ab, b.deviate->de_ab);
        }
        ASSERT_EQ(a.viewers.size(), b.viewers.size());
        for (std::size_t k = 0; k < a.viewers.size(); ++k) {
            EXPECT_EQ(a.viewers[k].as_set, b.viewers[k].as_set);
        }
        EXPECT_EQ(memory.matrix.pairs[i].figures[1].white_de00.mean,
                  file.matrix.pairs[i].figures[1].white_de00.mean);
    }
}

TEST_F(PairsFromBoth, RankingsViewersAndNotes) {
    assess::MetamerismRequest memory = pairs_of({"lcd-narrow-red", "oled-rgb", "laser-rgb"});
    memory.viewers = {{25.0}, {85.0, 4.0}};
    report::MetamerismRequest typed = typed_pairs({"lcd-narrow-red", "oled-rgb", "laser-rgb"});
    typed.viewers = {"25", "85:4"};
    const auto answer = assess::answer_metamerism(memory);
    expect_same_pairs(answer, report::answer_metamerism(typed));
    ASSERT_EQ(answer.viewer_notes.size(), 1U);
    EXPECT_EQ(answer.viewer_notes.front().code, "viewer_age_moved");
    EXPECT_EQ(answer.viewers[1].age_years, 80.0);
}

TEST_F(PairsFromBoth, APanelThatCannotMakeTheWhiteIsLeftOut) {
    assess::MetamerismRequest memory = pairs_of({"crt", "oled-rgb", "oled-rgb"});
    memory.panels[1].set_to = Chromaticity<Cie1931_2deg>(0.1, 0.8);
    memory.panels[1].name = "oled-rgb@0.1,0.8";
    const auto answer = assess::answer_metamerism(memory);
    expect_same_pairs(
        answer, report::answer_metamerism(typed_pairs({"crt", "oled-rgb@0.1,0.8", "oled-rgb"})));
    ASSERT_EQ(answer.left_out.size(), 1U);
    EXPECT_EQ(answer.left_out.front().code, "panel_left_out");
}

TEST_F(PairsFromBoth, MeasuredAndGenericAreRankedApart) {
    const PanelSpectra spectra = generic_spectra(generic_models().front());
    const std::string set = written("set.csv", panel_csv(spectra));
    assess::MetamerismRequest memory = pairs_of({"crt", "laser-rgb"});
    memory.panels.push_back({set, Panel(set, spectra)});
    const auto answer = assess::answer_metamerism(memory);
    expect_same_pairs(answer, report::answer_metamerism(typed_pairs({"crt", "laser-rgb", set})));
    EXPECT_EQ(answer.rankings.size(), 2U);
}

TEST_F(PairsFromBoth, DeviationFunctions) {
    assess::MetamerismRequest memory = pairs_of({"crt", "oled-rgb"});
    memory.deviations = {
        {380.0, 0, 0, 0}, {450.0, -0.03, 0, -0.2}, {500.0, 0, 0, 0}, {780.0, 0, 0, 0}};
    report::MetamerismRequest typed = typed_pairs({"crt", "oled-rgb"});
    typed.deviations = written(
        "some.csv", "wavelength_nm,x,y,z\n380,0,0,0\n450,-0.03,0,-0.2\n500,0,0,0\n780,0,0,0\n");
    const auto answer = assess::answer_metamerism(memory);
    expect_same_pairs(answer, report::answer_metamerism(typed));
    EXPECT_GT(answer.pairs.front().deviate->de_ab, 0.1);
}

TEST_F(PairsFromBoth, RefusesWhatCannotBe) {
    EXPECT_THROW(assess::answer_metamerism(pairs_of({"crt"})), Error);
    assess::MetamerismRequest old = pairs_of({"crt", "oled-rgb"});
    old.viewers = {{130.0}};
    EXPECT_THROW(assess::answer_metamerism(old), Error);
    assess::MetamerismRequest lonely = pairs_of({"crt", "oled-rgb"});
    PopulationParameters parameters;
    parameters.count = 19;
    lonely.population = Population(parameters);
    EXPECT_THROW(assess::answer_metamerism(lonely), Error);
}

}  // namespace
}  // namespace samelight::test
