// Errors of the command name the file, the display or the option, never a function inside.
#include <cmath>
#include <functional>
#include <regex>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using Shape = std::function<double(double)>;

Shape error_band(double centre, double width) {
    return [=](double nm) { return std::exp(-0.5 * std::pow((nm - centre) / width, 2.0)); };
}

/// A spectral file by 5 nm.
std::string error_file(const Scratch& scratch, const std::string& name,
                       const std::vector<std::pair<std::string, Shape>>& columns,
                       double step_nm = 5.0) {
    std::ostringstream text;
    text << "wavelength_nm";
    for (const auto& column : columns) {
        text << ',' << column.first;
    }
    text << '\n';
    for (double nm = 380.0; nm <= 780.0; nm += step_nm) {
        text << nm;
        for (const auto& column : columns) {
            text << ',' << column.second(nm);
        }
        text << '\n';
    }
    return scratch.file(name, text.str());
}

const Shape error_red = error_band(630.0, 15.0);
const Shape error_green = error_band(530.0, 15.0);
const Shape error_blue = error_band(455.0, 10.0);

/// One line that names `subject` first, and no function.
void expect_said_of(const std::string& arguments, const std::string& subject) {
    const Said said = run(arguments);
    expect_refusal(said, 1, "samelight: " + subject + ": ");
    EXPECT_FALSE(std::regex_search(
        said.err,
        std::regex("(^|: )([a-z0-9]+_[a-z0-9_]+|[A-Z][a-z]+::[a-z]+|match|reproduce|deconvolve|lab|"
                   "luv|learn|chromaticity|tristimulus|simulate|Spectrum)( \\([^)]*\\))?: ")))
        << said.err;
}

TEST(ErrorWords, ABuiltInPanelThatThereIsntIsNamed) {
    for (const char* how : {"", " --json"}) {
        expect_said_of(std::string("panel nobody") + how, "panel nobody");
    }
}

TEST(ErrorWords, AWhiteNowThatIsNoneIsBlamedOnNow) {
    const Scratch scratch;
    const std::string dark = error_file(
        scratch, "dark.csv", {{"white", [](double nm) { return nm < 381.0 ? 1e-9 : 0.0; }}});
    const std::string below = error_file(
        scratch, "below.csv", {{"white", [](double nm) { return error_red(nm) - 0.004; }}});
    const std::string red = error_file(scratch, "red.csv", {{"white", error_band(640.0, 5.0)}});
    for (const std::string& file : {below, red}) {
        const Said said = run("white oled-rgb --now " + quoted(file));
        EXPECT_EQ(said.exit_code, 1) << file;
        EXPECT_NE(said.err.find(file), std::string::npos) << said.err;
        EXPECT_EQ(said.err.find("oled-rgb:"), std::string::npos) << said.err;
        EXPECT_EQ(said.err.find("match ("), std::string::npos) << said.err;
        EXPECT_EQ(said.err.find("chromaticity:"), std::string::npos) << said.err;
    }
    EXPECT_NE(run("white oled-rgb --now " + quoted(dark)).err.find(dark), std::string::npos);
    expect_said_of("white oled-rgb --now " + quoted(red), "--now " + red);
}

TEST(ErrorWords, ABandwidthThatCantBeTakenOutIsSaidOfTheFile) {
    const Scratch scratch;
    const std::string fine = error_file(scratch, "fine.csv", {{"light", error_green}}, 1.0);
    expect_said_of("spectrum " + quoted(fine) + " --bandwidth 99", fine);
    const std::string coarse = error_file(scratch, "coarse.csv", {{"light", error_green}}, 20.0);
    expect_said_of("spectrum " + quoted(coarse) + " --bandwidth 10", coarse);
}

TEST(ErrorWords, AMeterThatTellsNothingApartIsNamed) {
    const Scratch scratch;
    const std::string meter =
        error_file(scratch, "meter.csv",
                   {{"x", error_green}, {"y", error_green}, {"z", error_band(531.0, 15.0)}});
    expect_said_of("meter model " + quoted(meter) + " crt", meter + " with crt");
    expect_said_of("meter choose --table --meter " + quoted(meter), meter);
    // The display that can't be opened is what is said, not that there is none.
    const std::string good =
        error_file(scratch, "good.csv", {{"x", error_red}, {"y", error_green}, {"z", error_blue}});
    const Said said = run("meter choose --table --meter " + quoted(good) + " no/such.csv crt");
    expect_refusal(said, 1, "no/such.csv");
}

TEST(ErrorWords, ADisplayThatCantMakeTheWhiteIsNamed) {
    expect_said_of("metamerism crt@0.6,0.33 crt@0.6,0.33 --people 64", "crt@0.6,0.33");
}

TEST(ErrorWords, ReadingsThatDontPairAreSaidOfTheFile) {
    const Scratch scratch;
    const std::string file = scratch.file(
        "readings.csv",
        "patch,instrument,repeat,X,Y,Z\nred,reference,1,40,20,2\nred,meter,1,41,21,2\n"
        "green,reference,1,30,70,10\ngreen,meter,1,31,71,10\nblue,reference,1,18,7,95\n"
        "blue,meter,1,19,8,96\nwhite,reference,1,88,97,107\nwhite,reference,2,88,97,107\n"
        "white,meter,1,89,98,108\n");
    expect_said_of("meter fit " + quoted(file), file);
}

TEST(ErrorWords, ADisplayLeftOutIsSaidWithoutAFunction) {
    const std::string page =
        run("metamerism crt oled-rgb lcd-white-led@0.6,0.35 --people 64 --details").out;
    EXPECT_EQ(page.find("reproduce ("), std::string::npos) << page;
}

}  // namespace
}  // namespace samelight::test
