// `samelight meter choose --table`: what a correction made on one display does on the others.
#include <cstddef>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/display/types/generic_model.hpp"
#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

// The matrix of wrong corrections, against the same figures worked out one by one: a meter's own reading of each white through each matrix.
TEST(MeterTable, IsTheMatrixOfExpectedErrors) {
    const Scratch scratch;
    const std::string meter =
        quoted(scratch.file("meter.csv", rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0})));
    const json answer = answer_of("meter choose --table --meter " + meter);
    EXPECT_EQ(answer["schema"], "samelight/meter-table/1");
    const std::size_t n = generic_models().size();
    ASSERT_EQ(answer["panels"].size(), n);
    int worse = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const json& row = answer["panels"][i];
        EXPECT_EQ(row["name"], std::string(generic_models()[i].name()));
        ASSERT_EQ(row["with"].size(), n);
        EXPECT_NEAR(row["with"][i]["white_xy"], 0.0, 1e-9);
        for (std::size_t j = 0; j < n; ++j) {
            worse += i != j && row["with"][j]["white_uv"].get<double>() >
                                   row["without_correction"]["white_uv"].get<double>() + 0.0001;
        }
    }
    EXPECT_EQ(answer["pairs_worse_than_none"], worse);
    EXPECT_GT(worse, 0);
    // One cell by `meter model` and `meter choose`, the other way to it.
    const std::string kept = quoted((scratch.path() / "crt.json").string());
    ASSERT_EQ(run("meter model " + meter + " crt --write " + kept).exit_code, 0);
    const json one =
        answer_of("meter choose lcd-white-led --correction " + kept + " --meter " + meter);
    const json two = answer_of("meter choose --table --meter " + meter + " crt lcd-white-led");
    EXPECT_NEAR(two["panels"][1]["with"][0]["white_xy"],
                one["panels"][0]["with"][0]["expected_error"]["white_xy"], 1e-12);
    EXPECT_NEAR(two["panels"][1]["without_correction"]["white_de00"],
                one["panels"][0]["without_correction"]["white_de00"], 1e-12);
    const Said page = run("meter choose --table --details --meter " + meter);
    EXPECT_EQ(page.exit_code, 0) << page.err;
    EXPECT_EQ(page.out.rfind("Use each correction on the display that it was made on.", 0), 0U)
        << page.out;
    expect_narrow(page.out);
    expect_refusal(run("meter choose --table"), 1, "--meter");
    EXPECT_EQ(run("meter choose --table --meter " + meter + " --correction " + kept).exit_code, 2);
}

// What is right needs no correction, and none harms it: differences below the last digit that anybody reads are none.
TEST(MeterTable, APerfectMeterIsWorseWithNone) {
    const Scratch scratch;
    const std::string meter = quoted(scratch.file("right.csv", run("observer cie1931-2deg").out));
    const json answer = answer_of("meter choose --table --meter " + meter);
    EXPECT_EQ(answer["pairs_worse_than_none"], 0);
    const Said page = run("meter choose --table --details --meter " + meter);
    EXPECT_EQ(page.out.rfind("On none of the other displays is a correction worse than none", 0),
              0U)
        << page.out;
}

}  // namespace
}  // namespace samelight::test
