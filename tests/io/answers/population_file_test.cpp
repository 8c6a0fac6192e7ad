// Populations kept and read back: the same people, to the bit.
#include <gtest/gtest.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <limits>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/scratch_folder.hpp"
#include "samelight/io/answers/panel_answer.hpp"
#include "samelight/io/answers/patch_targets.hpp"
#include "samelight/io/answers/population_file.hpp"
#include "samelight/io/answers/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::io {
namespace {

using PeopleJson = nlohmann::ordered_json;

void expect_same_people(const PopulationParameters& a, const PopulationParameters& b) {
    const Population one(a);
    const Population other(b);
    ASSERT_EQ(one.size(), other.size());
    EXPECT_EQ(one.describe(), other.describe());
    for (std::size_t i = 0; i < one.size(); ++i) {
        const Individual x = one.individual(i);
        const Individual y = other.individual(i);
        EXPECT_EQ(x.conditions.age_years, y.conditions.age_years) << i;
        EXPECT_EQ(x.conditions.field_deg, y.conditions.field_deg) << i;
        EXPECT_EQ(x.conditions.pupil, y.conditions.pupil) << i;
        EXPECT_EQ(x.conditions.peak_densities, y.conditions.peak_densities) << i;
        EXPECT_EQ(x.deviations, y.deviations) << i;
    }
}

std::vector<PopulationParameters> several() {
    PopulationParameters plain;
    plain.count = 40;
    PopulationParameters odd;
    odd.ages = Ages::counted({{20.5, 3.0}, {64.0, 4503599627370000.0}, {33.1, 7.0}, {64.0, 0.0}});
    odd.field_deg = 4.3;
    odd.pupil = Pupil::open;
    odd.peak_densities = PeakDensities::unrounded;
    odd.spread = literature_spread;
    odd.below_minus_100 = BelowMinus100::reject;
    odd.count = 33;
    odd.sampler = Sampler::pseudo_random;
    odd.seed = std::numeric_limits<std::uint64_t>::max();
    PopulationParameters range = plain;
    range.ages = Ages::range(20.1, 79.9);
    range.seed = 7;
    return {plain, odd, range};
}

TEST(KeptFiles, AreReadUpTo16MiB) {
    // As stated of each: 16 MiB are looked into, a byte more is refused for its size.
    const std::string most(std::size_t{16} * 1024 * 1024, ' ');
    const auto said = [](const auto& parse, const std::string& bytes) -> std::string {
        try {
            static_cast<void>(parse(bytes));
        } catch (const Error& error) {
            return error.what();
        }
        return {};
    };
    const auto check = [&](const auto& parse) {
        const std::string looked_into = said(parse, most);
        EXPECT_NE(looked_into, "");
        EXPECT_EQ(looked_into.find("16777216"), std::string::npos) << looked_into;
        const std::string refused = said(parse, most + ' ');
        EXPECT_NE(refused.find("16777217 bytes; wanted"), std::string::npos) << refused;
        EXPECT_NE(refused.find("at most 16777216 bytes (16 MiB)"), std::string::npos) << refused;
    };
    check([](const std::string& bytes) { return parse_population(bytes, "file"); });
    check([](const std::string& bytes) { return parse_white_answer(bytes, "file"); });
    check([](const std::string& bytes) { return parse_panel_answer(bytes, "file"); });
    check([](const std::string& bytes) { return parse_patch_targets(bytes, "file"); });
}

TEST(PopulationFile, GivesTheSamePeopleBack) {
    for (const PopulationParameters& parameters : several()) {
        const std::string text = population_text(parameters);
        const PopulationParameters back = parse_population(text, "people");
        expect_same_people(parameters, back);
        EXPECT_EQ(back.seed, parameters.seed);
        EXPECT_EQ(back.spread, parameters.spread);
        EXPECT_EQ(population_text(back), text);
    }
}

using PopulationFiles = test::ScratchFolder;

TEST_F(PopulationFiles, AreWrittenAndRead) {
    const auto file = folder_ / "people.json";
    write_population(file, several()[1]);
    expect_same_people(read_population(file), several()[1]);
    EXPECT_THROW(static_cast<void>(read_population(folder_ / "none.json")), Error);
}

// The files that tests/schemas check against the schema are what is written.
TEST(PopulationFile, IsAsTheKeptFilesAre) {
    const std::array<const char*, 2> names = {"counts.json", "range.json"};
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string file = std::string(SAMELIGHT_TEST_DATA) + "/populations/" + names.at(i);
        const PopulationParameters kept = read_population(file);
        expect_same_people(kept, several().at(i + 1));
        std::ifstream stream(file);
        PeopleJson json = PeopleJson::parse(stream);
        PeopleJson written = PeopleJson::parse(population_text(several().at(i + 1)));
        json.erase("version");
        written.erase("version");
        EXPECT_EQ(json.dump(), written.dump()) << names.at(i);
    }
}

TEST(PopulationFile, RefusesByTheKey) {
    const PeopleJson whole = PeopleJson::parse(population_text(several()[1]));
    const auto said = [](const PeopleJson& json) {
        try {
            static_cast<void>(parse_population(json.dump(), "people"));
        } catch (const Error& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    EXPECT_EQ(said(whole), "");
    const std::vector<std::array<const char*, 2>> bent = {
        {"/ages/counts/1/people", "people: ages.counts[1].people"},
        {"/field_deg", "people: field_deg"},
        {"/pupil", "people: pupil"},
        {"/peak_densities", "people: peak_densities"},
        {"/spread/l_shift_nm", "people: spread.l_shift_nm"},
        {"/below_minus_100", "people: below_minus_100"},
        {"/people", "people: people"},
        {"/sampler", "people: sampler"},
        {"/seed", "people: seed"},
    };
    for (const auto& [path, where] : bent) {
        PeopleJson json = whole;
        json[PeopleJson::json_pointer(path)] = PeopleJson::array({"odd"});
        EXPECT_EQ(said(json).find(where), 0U) << path << said(json);
    }
    for (const char* path : {"/a_later_key", "/ages/oldest_years", "/spread/rod_percent"}) {
        PeopleJson json = whole;
        json[PeopleJson::json_pointer(path)] = 1.0;
        EXPECT_NE(said(json).find("isn't known"), std::string::npos) << path;
    }
    for (const char* key : {"ages", "field_deg", "pupil", "spread", "people", "sampler", "seed"}) {
        PeopleJson json = whole;
        json.erase(key);
        EXPECT_NE(said(json).find("missing"), std::string::npos) << key;
    }
    PeopleJson young = whole;
    young["ages"]["counts"][0]["age_years"] = 12.0;
    EXPECT_NE(said(young).find("20 to 80"), std::string::npos);
    PeopleJson negative = whole;
    negative["seed"] = -1;
    EXPECT_EQ(said(negative).find("people: seed"), 0U);
}

}  // namespace
}  // namespace samelight::io
