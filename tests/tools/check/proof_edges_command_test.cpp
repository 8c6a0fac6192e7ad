// What the commands of a proof refuse and in which words, lists that are filled in only partly, and very many readings.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string edges_demo = SAMELIGHT_DATA "/demo/proof/";

/// Refused in one line that begins with this place and says what was wanted.
void expect_refused(const std::string& asked, const std::string& place) {
    const Said said = run(asked);
    EXPECT_NE(said.exit_code, 0) << asked;
    EXPECT_EQ(said.err.rfind("samelight: " + place, 0), 0U) << asked << "\n" << said.err;
    EXPECT_NE(said.err.find("wanted"), std::string::npos) << said.err;
    EXPECT_EQ(lines(said.err), 1U) << said.err;
    for (const char* name : {"SignalCurve", "HlgDisplay", "RgbEncoding", "Ictcp", "CodedDisplay"}) {
        EXPECT_EQ(said.err.find(name), std::string::npos) << said.err;
    }
}

TEST(ProofEdges, OutOfRangeNamesTheOption) {
    const std::vector<std::string> commands = {
        "check " + quoted(edges_demo + "client-set-proof.csv"),
        "adjust " + quoted(edges_demo + "client-set-greys.csv"),
        "targets",
        "gradient --bits 8 --adjustment " + quoted(edges_demo + "client-set-adjustment.csv"),
        "gradient " + quoted(edges_demo + "client-set-reds.csv"),
    };
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"--peak 0", "--peak"},
        {"--peak 1e9", "--peak"},
        {"--peak 30000", "--peak"},
        {"--black 1e9", "--black"},
        {"--black -1", "--black"},
        {"--peak 500 --black 50", "--black"},
        {"--curve power:99", "--curve"},
        {"--curve pq --peak 20000 --black 0", "--peak"},
        {"--curve pq:0.1 --peak 500 --black 0", "--curve"},
        {"--curve pq --peak 500 --black 40", "--black"},
        {"--curve hlg --peak 0.1 --black 0", "--peak"},
        {"--white 0.7,0.2", "--white"},
        {"--white 0.01,0.9", "--white"},
    };
    for (const std::string& command : commands) {
        for (const auto& [options, place] : wrong) {
            expect_refused(command + " " + options, place);
        }
    }
    expect_refused("hdr " + quoted(edges_demo + "client-set-hdr.csv") + " --white 0.7,0.2",
                   "--white");
    expect_refused(commands[0] + " --peak 0.001", "--peak: 0.001 cd/m2 above a black of");
}

TEST(ProofEdges, MoreLightThanAnyDisplayHasNamesFileAndLine) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "bright.csv").string();
    std::ofstream(file) << "patch,X,Y,Z\nwhite,95,100,108\ngrey-50,20,1e6,20\n";
    for (const char* command : {"check ", "adjust ", "hdr "}) {
        expect_refused(command + quoted(file), file + ":3: ");
    }
}

/// The list of a visit, of which every third row is left empty: what the demo's set reads is put into the others by their codes.
std::string list_filled(const std::string& list, bool partly) {
    std::istringstream rows(list);
    std::string text;
    int number = 0;
    for (std::string row; std::getline(rows, row); ++number) {
        const bool fill = number > 0 && partly && number % 3 != 0 && row.ends_with(",,,");
        text += (fill ? row.substr(0, row.size() - 3) + ",9.5,10,10.9" : row) + "\n";
    }
    return text;
}

TEST(ProofEdges, ListsOfAVisitAreTakenAsFarAsTheyAreRead) {
    const Scratch scratch;
    const std::string list = (scratch.path() / "list.csv").string();
    ASSERT_EQ(run("visit lounge:cinema --minutes 120 --write " + quoted(list)).exit_code, 0);
    const std::string empty = slurp(list);
    for (const char* command : {"check ", "adjust ", "hdr "}) {
        const Said none = run(command + quoted(list));
        EXPECT_NE(none.exit_code, 0);
        EXPECT_NE(none.err.find("of which none is read"), std::string::npos) << none.err;
        EXPECT_EQ(lines(none.err), 1U) << none.err;
    }
    const std::string partly = (scratch.path() / "partly.csv").string();
    std::ofstream(partly) << list_filled(empty, true);
    const Said said = run("check " + quoted(partly) + " --black 0 --peak 100");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_NE(said.out.find("of the list not read yet"), std::string::npos) << said.out;
    const json answer =
        json::parse(run("check " + quoted(partly) + " --black 0 --peak 100 --json").out);
    EXPECT_GT(answer["now"]["patches"].size(), 50U);
}

TEST(ProofEdges, RowsNotReadAreCounted) {
    const Scratch scratch;
    std::string text = slurp(edges_demo + "client-set-greys.csv");
    const std::size_t end = text.find_last_not_of('\n');
    const std::size_t row = text.rfind('\n', end) + 1;
    std::string last = text.substr(row, end + 1 - row);
    const std::string file = (scratch.path() / "greys.csv").string();
    std::ofstream(file) << text << "grey-45"
                        << std::string(std::count(last.begin(), last.end(), ','), ',') << "\n";
    const std::string asked = " --white 0.3091,0.3199 --curve power:2.4";
    const Said said = run("adjust " + quoted(file) + asked);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_NE(said.out.find("1 row of the list not read yet"), std::string::npos) << said.out;
}

TEST(ProofEdges, AHundredThousandReadingsAreAnsweredAndTwiceAsManyAreRefusedAsReadings) {
    const Scratch scratch;
    const std::string proof = slurp(edges_demo + "client-set-proof.csv");
    std::istringstream rows(proof);
    std::vector<std::string> readings;
    std::string heading;
    for (std::string row; std::getline(rows, row);) {
        if (!row.starts_with('#')) {
            (heading.empty() ? heading : readings.emplace_back()) = row;
        }
    }
    const auto write = [&](std::size_t count) {
        const std::string file = (scratch.path() / "many.csv").string();
        std::ofstream out(file);
        out << heading << "\n";
        for (std::size_t i = 0; i < count; ++i) {
            out << readings[i % readings.size()] << "\n";
        }
        return file;
    };
    const std::string asked = " --white 0.3091,0.3199 --curve power:2.4 --json";
    const json answer = json::parse(run("check " + quoted(write(100000)) + asked).out);
    const json one =
        json::parse(run("check " + quoted(edges_demo + "client-set-proof.csv") + asked).out);
    EXPECT_EQ(answer["now"]["patches"].size(), one["now"]["patches"].size());
    EXPECT_EQ(answer["verdict"], one["verdict"]);
    const std::string file = write(200001);
    const Said said = run("check " + quoted(file));
    EXPECT_NE(said.err.find("a file of readings of 200000 lines at most"), std::string::npos)
        << said.err;
    EXPECT_EQ(said.err.find("spectra"), std::string::npos) << said.err;
}

TEST(ProofEdges, TargetsSayWhereTheyWereWrittenAndQuoteNames) {
    const Scratch scratch;
    const std::string patches = (scratch.path() / "patches.csv").string();
    std::ofstream(patches) << "patch,level_pct\n\"grey; the \"\"middle\"\"\",50\nwhite,100\n";
    const std::string file = (scratch.path() / "targets.csv").string();
    const std::string asked = "targets --white 0.31,0.32 --patches " + quoted(patches);
    const std::string plain = unwrapped(run(asked).out);
    EXPECT_NE(plain.find("--write FILE"), std::string::npos) << plain;
    const std::string page = unwrapped(run(asked + " --write " + quoted(file)).out);
    EXPECT_EQ(page.find("--write FILE"), std::string::npos) << page;
    EXPECT_NE(page.find("Written to"), std::string::npos) << page;
    EXPECT_NE(slurp(file).find("\"grey; the \"\"middle\"\"\","), std::string::npos) << slurp(file);
}

/// The visit of the demo, as tools/demo goes through it: about two viewers' white, each reading corrected.
TEST(ProofEdges, TheHouseholdsVisitLandsAndPasses) {
    const Scratch scratch;
    const std::string demo = SAMELIGHT_DATA "/demo/";
    const std::string kept = (scratch.path() / "correction.json").string();
    ASSERT_EQ(run("meter fit " + quoted(demo + "client-set-readings.csv") + " --panel " +
                  quoted(demo + "client-set.csv") + " --write " + quoted(kept))
                  .exit_code,
              0);
    const std::string white =
        scratch.file("white.json", run("white " + quoted(demo + "client-set.csv") +
                                       " --reference crt@0.3127,0.3290 --viewer 45:4 --viewer "
                                       "62:10 --json")
                                       .out);
    const std::string asked = " --curve power:2.4 --json --white " + quoted(white);
    const std::string corrected = asked + " --correction " + quoted(kept);
    const std::string home = demo + "household/";
    EXPECT_EQ(json::parse(run("check " + quoted(home + "proof.csv") + corrected).out)["verdict"],
              "pass");
    EXPECT_EQ(
        json::parse(run("check " + quoted(home + "proof-before.csv") + corrected).out)["verdict"],
        "fail");
    // Without its correction the meter would have the same work fail, or be off by most of the gate.
    const json bare = json::parse(run("check " + quoted(home + "proof.csv") + asked).out);
    EXPECT_NE(bare["verdict"], "pass");
    const std::string controls = " --controls " + quoted(home + "controls.csv");
    const json first =
        json::parse(run("adjust " + quoted(home + "greys.csv") + corrected + controls).out);
    EXPECT_EQ(
        first["moved_then"],
        "red gain 1, green gain 1, blue gain -6, red offset -3, green offset 2, blue offset 3")
        << "the demo's second greys were read with these steps";
    // Half a step of the gains, .0014 in x, y, is as near as a menu gets.
    const json second = json::parse(run("adjust " + quoted(home + "greys-2.csv") + corrected +
                                        controls + " --moved " + quoted(first["moved_then"]))
                                        .out);
    const double x = second["white"]["read"]["x"].get<double>() - 0.3106;
    const double y = second["white"]["read"]["y"].get<double>() - 0.3291;
    EXPECT_LT(std::hypot(x, y), 0.0014);
}

TEST(ProofEdges, GradientTakesANoteAndHasAPageForTheOwner) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "page.html").string();
    const std::string asked = "gradient --bits 8 --adjustment " +
                              quoted(edges_demo + "client-set-adjustment.csv") + " --report " +
                              quoted(file) + " --title Lounge --note 'Read in the dark.'";
    ASSERT_EQ(run(asked).exit_code, 0);
    EXPECT_NE(slurp(file).find("Read in the dark."), std::string::npos);
    ASSERT_EQ(run(asked + " --for client").exit_code, 0);
    const std::string page = slurp(file);
    EXPECT_NE(page.find("Read in the dark."), std::string::npos);
    EXPECT_NE(page.find("such as skies"), std::string::npos);
    EXPECT_EQ(page.find("DE ITP"), std::string::npos);
}

}  // namespace
}  // namespace samelight::test
