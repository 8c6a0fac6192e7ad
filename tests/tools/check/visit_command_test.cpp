// `samelight visit`, as a person or a program calls it.
#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/readings_csv.hpp"
#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

constexpr const char* safety =
    "Follow the display's and the site's safety rules; opening a set is for licensed "
    "service people.";

TEST(VisitCommand, TheFirstScreenIsTheOrderInTwelveLines) {
    for (const char* asked :
         {"visit lounge --minutes 120", "visit lounge:cinema,game hall --minutes 100 --hdr",
          "visit lounge --minutes 30 --instruments meter", "visit lounge --minutes 30",
          "visit a b c:cinema,game --minutes 60", "visit a:x,y,z b:x,y,z c:x,y,z d:q --minutes 600",
          "visit lounge:cinema --minutes 120 --hdr --warm-up " SAMELIGHT_DATA
          "/demo/proof/client-set-warming-up.csv",
          "visit lounge:cinema --minutes 50 --warm-up " SAMELIGHT_DATA
          "/demo/proof/client-set-warming-up.csv",
          "visit a b --minutes 90 --warm-up a=" SAMELIGHT_DATA
          "/demo/proof/client-set-warming-up.csv --warm-up b=" SAMELIGHT_DATA
          "/demo/proof/client-set-warming-up.csv"}) {
        const Said said = run(asked);
        EXPECT_EQ(said.exit_code, 0) << said.err;
        expect_first_screen(said.out, 12);
        EXPECT_TRUE(page_says(said.out, safety)) << said.out;
    }
    const std::string page = run("visit lounge --minutes 120").out;
    EXPECT_EQ(page.rfind("Enough time", 0), 0U) << page;
    EXPECT_NE(page.find("on a lamp"), std::string::npos) << page;
    EXPECT_TRUE(page_says(run("visit lounge --minutes 120 --details").out,
                          "spectrum LAMP.csv --lines mercury"));
    EXPECT_EQ(run("visit lounge --minutes 30").out.rfind("Too short", 0), 0U);
}

TEST(VisitCommand, ThePageEndsWithSafety) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "visit.html").string();
    const Said said = run("visit lounge --minutes 120 --details --report " + quoted(file));
    EXPECT_EQ(said.exit_code, 0) << said.err;
    const std::string page = unwrapped(said.out);
    EXPECT_GT(page.rfind("licensed service people"), page.rfind("Rests on"));
    const std::string html = slurp(file);
    EXPECT_NE(html.find("licensed service people"), std::string::npos);
    EXPECT_EQ(html.find("<script"), std::string::npos);
}

TEST(VisitCommand, JsonAddsUp) {
    const json answer =
        json::parse(run("visit lounge:cinema,hdr hall --minutes 150 --hdr --json").out);
    EXPECT_EQ(answer["schema"], "samelight/visit/1");
    double end = 0.0;
    for (const json& step : answer["steps"]) {
        EXPECT_GE(step["start_min"].get<double>(), end - 1e-9);
        end = step["start_min"].get<double>() + step["minutes"].get<double>();
        EXPECT_EQ(step["meter_readings"].get<std::size_t>(),
                  step["patches"].size() * step["rounds"].get<std::size_t>());
    }
    EXPECT_NEAR(answer["total_min"].get<double>(), end, 1e-9);
    EXPECT_LE(answer["total_min"].get<double>(), 150.0);
    EXPECT_FALSE(answer["left_out"].empty());
}

/// A list of patches with numbers where there were none.
std::string filled(const std::string& list) {
    std::istringstream lines(list);
    std::string text;
    for (std::string line; std::getline(lines, line);) {
        text += line.ends_with(",,,") ? line.substr(0, line.size() - 2) + "10.5,11.25,12.75\n"
                                      : line + "\n";
    }
    return text;
}

TEST(VisitCommand, ListsAreWhatTheReadersTake) {
    for (const char* range : {"full", "limited"}) {
        const Said said =
            run(std::string("visit 'the, hall:cinema' --minutes 300 --write - --range ") + range);
        ASSERT_EQ(said.exit_code, 0) << said.err;
        const io::PatchReadingsFile file = io::parse_patch_readings_csv(filled(said.out), "list");
        // 2 whites, 2 x 7 primaries and mixtures, 3 blacks, 13 greys, 120 colours.
        ASSERT_EQ(file.rows.size(), 2U + 14U + 3U + 13U + 120U);
        EXPECT_EQ(visit_light_of(file.rows[0]), VisitLight::white);
        EXPECT_EQ(visit_light_of(file.rows[2]), VisitLight::red);
        EXPECT_EQ(file.rows[0].mode, "cinema");
        EXPECT_EQ(file.rows[0].window_pct, 10.0);
        EXPECT_EQ(file.rows[0].xyz[1], 11.25);
        EXPECT_EQ(lights_places(file.rows).size(), 1U) << "what compare needs is in it";
        EXPECT_NE(said.err.find("Enough time"), std::string::npos);
    }
    const Said pairs = run("visit hall --minutes 300 --write-pairs -");
    ASSERT_EQ(pairs.exit_code, 0) << pairs.err;
    const auto readings = io::parse_readings_csv(filled(pairs.out), "list");
    EXPECT_EQ(readings.readings().size(), 2U * (3U + 2U + 2U * 4U + 3U));
}

TEST(VisitCommand, ReadingsSayWhetherToBegin) {
    const Said cold =
        run_in_demo("visit client --minutes 90 --warm-up proof/client-set-warming-up.csv");
    EXPECT_EQ(cold.exit_code, 0) << cold.err;
    EXPECT_EQ(cold.out.rfind("Not steady: wait.", 0), 0U) << cold.out;
    // The demo's white approaches its end with 12 minutes: steady from minute 33, by hand; the last reading is of minute 26.
    const json answer = json::parse(
        run_in_demo("visit client --minutes 90 --warm-up proof/client-set-warming-up.csv --json")
            .out);
    const json& wait = answer["displays"][0]["warm_up"]["steady_in_min"];
    EXPECT_LE(wait["least"].get<double>(), 7.0);
    EXPECT_GE(wait["most"].get<double>(), 7.0);
    const Scratch scratch;
    std::string still = "patch,time_s,X,Y,Z\n";
    for (int t = 0; t <= 11; ++t) {
        still += "white," + std::to_string(60 * t) + ",95.0" + std::to_string(t % 3) + ",100.0" +
                 std::to_string(t % 2) + ",108.9\n";
    }
    const std::string file = scratch.file("still.csv", still);
    const Said warm = run("visit a b --minutes 90 --warm-up b=" + quoted(file));
    EXPECT_EQ(warm.out.rfind("b: Steady: begin.", 0), 0U) << warm.out << warm.err;
}

TEST(VisitCommand, BadInputIsOneLine) {
    const Scratch scratch;
    const std::string short_file =
        scratch.file("w.csv", "patch,time_s,X,Y,Z\nwhite,0,95,100,108\n");
    const std::string no_time = scratch.file("n.csv", "patch,X,Y,Z\nwhite,95,100,108\n");
    const std::string dark = scratch.file("d.csv", "patch,time_s,X,Y,Z\nwhite,0,0,0,0\n");
    expect_refusal(run("visit hall --minutes 0"), 1, "--minutes");
    expect_refusal(run("visit hall:a,a --minutes 60"), 1, "hall:a,a");
    expect_refusal(run("visit :a --minutes 60"), 1, ":a");
    expect_refusal(run("visit hall hall --minutes 60"), 1, "twice");
    expect_refusal(run("visit hall --minutes 60 --instruments all"), 1, "both or meter");
    expect_refusal(run("visit hall --minutes 60 --meter-seconds 1,2"), 1, "--meter-seconds");
    expect_refusal(run("visit hall --minutes 60 --bits 20"), 1, "8 to 16");
    expect_refusal(run("visit hall --minutes 60 --range wide"), 1, "full or limited");
    expect_refusal(run("visit hall --minutes 60 --on-for -1"), 1, "--on-for");
    expect_refusal(run("visit hall --minutes 60 --warm-up-minutes -1"), 1, "--warm-up-minutes");
    expect_refusal(run("visit hall --minutes 60 --warm-up " + short_file), 1, "4 or more");
    expect_refusal(run("visit hall --minutes 60 --warm-up " + no_time), 1, "time_s");
    expect_refusal(run("visit hall --minutes 60 --warm-up " + dark), 1, "above 0");
    expect_refusal(run("visit a b --minutes 60 --warm-up " + short_file), 1, "DISPLAY=FILE");
    expect_refusal(run("visit hall --minutes 60 --warm-up /nowhere.csv"), 1, "/nowhere.csv");
    expect_refusal(run("visit a b --minutes 600 --write -"), 1, "--write-for");
    expect_refusal(run("visit a b --minutes 600 --write - --write-for c"), 1, "\"c\"");
    expect_refusal(run("visit hall --minutes 60 --json --write -"), 2, "--write");
    expect_refusal(run("visit hall"), 2, "--minutes");
    expect_refusal(run("visit hall --minutes 0 --json"), 1, "--minutes");
}

}  // namespace
}  // namespace samelight::test
