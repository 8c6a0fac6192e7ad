// The command with spectra in the forms of standards: read wherever spectra are, written by `samelight spectrum`.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/io/spectral_csv.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

TEST(ExchangeCommand, WritesAndReadsEachForm) {
    const Scratch scratch;
    const std::string csv = scratch.file("display.csv", as_measured("oled-rgb"));
    const std::string text = (scratch.path() / "display.txt").string();
    const Said written =
        run("spectrum " + csv + " --write " + text + " --as CGATS.17 --date 2026-11-28");
    ASSERT_EQ(written.exit_code, 0) << written.err;
    EXPECT_NE(slurp(text).find("CREATED \"2026-11-28\""), std::string::npos);
    const std::string again = (scratch.path() / "again.csv").string();
    ASSERT_EQ(run("spectrum " + text + " --write " + again).exit_code, 0);
    EXPECT_EQ(io::read_spectral_csv(again).lights.size(), 3U);
    EXPECT_EQ(slurp(again), slurp(csv));
    // The white that matches is the same to the last digit, whatever the display came in.
    std::string lights;
    for (const std::string role : {"red", "green", "blue"}) {
        const std::string file = (scratch.path() / (role + ".spdx")).string();
        const Said one = run("spectrum " + role + "=" + csv + " --write " + file);
        ASSERT_EQ(one.exit_code, 0) << one.err;
        EXPECT_NE(slurp(file).find("<Description>" + role + "<"), std::string::npos);
        lights += (lights.empty() ? "" : ",") + role + "=" + file;
    }
    const auto target = [](const std::string& display) {
        const Said said = run("white " + display + " --people 16 --json");
        EXPECT_EQ(said.exit_code, 0) << said.err;
        return json::parse(said.out).at("panels").at(0).at("targets").dump();
    };
    EXPECT_EQ(target(text), target(csv));
    EXPECT_EQ(target(lights), target(csv));
    const std::string alone = (scratch.path() / "red.spdx").string() + " " +
                              (scratch.path() / "green.spdx").string() + " " +
                              (scratch.path() / "blue.spdx").string();
    EXPECT_EQ(target(alone), target(csv));
    EXPECT_EQ(run("metamerism " + text + " crt --people 20").exit_code, 0);
    EXPECT_EQ(run("meter model " + text + " crt").exit_code, 0);
}

TEST(ExchangeCommand, SaysThatAModelIsOne) {
    const Scratch scratch;
    const std::string model = scratch.file("model.csv", run("panel crt").out);
    const std::string text = (scratch.path() / "model.txt").string();
    ASSERT_EQ(run("spectrum " + model + " --write " + text + " --as cgats.17").exit_code, 0);
    EXPECT_EQ(io::read_spectral_csv(text).model_title, io::read_spectral_csv(model).model_title);
    EXPECT_NE(io::read_spectral_csv(text).model_title, "");
    EXPECT_EQ(io::read_spectral_csv(text).unit, io::read_spectral_csv(model).unit);
}

TEST(ExchangeCommand, WritesCorrectedSpectraInAForm) {
    const Scratch scratch;
    const std::string csv = scratch.file("display.csv", as_measured("oled-rgb"));
    const Said said = run("spectrum " + csv + " --shift 0.5 --corrected - --as cgats.17");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.rfind("CGATS.17\n", 0), 0U) << said.out.substr(0, 200);
}

TEST(ExchangeCommand, RefusesWhatItCannotWrite) {
    const Scratch scratch;
    const std::string csv = scratch.file("display.csv", as_measured("oled-rgb"));
    const std::string out = (scratch.path() / "out.spdx").string();
    const auto refused = [&](const std::string& arguments, const std::string& part) {
        const Said said = run("spectrum " + csv + " " + arguments);
        EXPECT_NE(said.exit_code, 0) << arguments;
        EXPECT_NE(said.err.find(part), std::string::npos) << said.err;
        EXPECT_FALSE(std::filesystem::exists(out)) << arguments;
    };
    refused("--write " + out, "--as tm-27: 3 lights; wanted one");
    refused("--write " + out + " --as xml", "tm-27, cgats.17 or csv");
    refused("--as csv", "--write or --corrected");
    refused("--date 2026-11-28", "--write or --corrected");
    refused("--write " + out + " --as cgats.17 --date 2026-02-30",
            "--date: the date \"2026-02-30\"");
    refused("--write " + csv, "a file that was read");
    refused("--write " + out + " --corrected " + out + " --shift 1 --as csv", "--corrected");
}

}  // namespace
}  // namespace samelight::test
