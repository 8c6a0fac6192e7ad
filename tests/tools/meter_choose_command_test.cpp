// `samelight meter choose`: what can be judged of a correction, and what its display's spectra must be for it.
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "meter_files.hpp"
#include "run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string lantern_room = SAMELIGHT_DATA "/demo/";
const std::string readings = quoted(lantern_room + "client-set-readings.csv");
const std::string client_set = quoted(lantern_room + "client-set.csv");

/// A correction of the client's set, kept with the spectra that `panel` asks for.
std::string kept(const Scratch& scratch, const std::string& panel) {
    const std::string file = quoted((scratch.path() / "kept.json").string());
    const Said said = run("meter fit " + readings + panel + " --write " + file);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return file;
}

// A correction without spectra says nothing of its meter, so nothing but the meter's rows can judge it elsewhere.
TEST(MeterChoose, WithoutSpectraNothingIsSaidAgainstACorrection) {
    const Scratch scratch;
    const std::string file = kept(scratch, "");
    const json answer = answer_of("meter choose " + client_set + " --correction " + file);
    const json with = answer["panels"][0]["with"][0];
    EXPECT_TRUE(with["expected_error"].is_null()) << with;
    EXPECT_TRUE(with["worse_than_none"].is_null());
    EXPECT_NE(with["why_not"].get<std::string>().find("keeps no spectra"), std::string::npos);
    const std::string page = run("meter choose " + client_set + " --correction " + file).out;
    EXPECT_EQ(page.find("worse than none"), std::string::npos) << page;
    EXPECT_NE(page.find("--panel"), std::string::npos) << page;
    expect_narrow(page);
}

// A white that was just read outranks any expectation: one page, one answer.
TEST(MeterChoose, AWhiteJustReadSettlesIt) {
    const Scratch scratch;
    const std::string file = kept(scratch, "");
    const std::string page = run("meter choose oled-white --correction " + file +
                                 " --reference-white 0.3126,0.3291 --meter-white 0.3126,0.3291"
                                 " --readings 3")
                                 .out;
    EXPECT_EQ(page.rfind("Keep ", 0), 0U) << page;
    EXPECT_EQ(page.find("Don't use"), std::string::npos) << page;
    EXPECT_EQ(page.find("measure this panel"), std::string::npos) << page;
}

TEST(MeterChoose, WithItsOwnSpectraItIsSafeAtHome) {
    const Scratch scratch;
    const std::string file = kept(scratch, " --panel " + client_set);
    const json answer = answer_of("meter choose " + client_set + " --correction " + file);
    EXPECT_EQ(answer["panels"][0]["verdict"], "safe");
}

// Spectra of another display than the one that was read would make the correction safe just where it harms.
TEST(MeterChoose, SpectraOfAnotherDisplayAreNoticed) {
    const Scratch scratch;
    const std::string foyer = quoted(lantern_room + "foyer-display.csv");
    const json fitted = answer_of("meter fit " + readings + " --panel " + foyer);
    EXPECT_EQ(fitted["warnings"][0]["code"], "panel_spectra_differ");
    const std::string file = kept(scratch, " --panel " + foyer);
    const json answer = answer_of("meter choose " + foyer + " --correction " + file);
    EXPECT_NE(answer["panels"][0]["verdict"], "safe");
    EXPECT_TRUE(answer["panels"][0]["with"][0]["expected_error"].is_null());
    EXPECT_NE(run("meter choose " + foyer + " --correction " + file)
                  .out.find("aren't of the display that was read"),
              std::string::npos);
}

}  // namespace
}  // namespace samelight::test
