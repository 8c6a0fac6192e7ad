// Reports for whoever owns a display: of every command, in plain words.
#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

/// What stands on the page, without its pictures and style.
std::string words_on(const std::string& page) {
    std::string words = page.substr(page.find("<main>"));
    for (const char* part : {"svg", "style"}) {
        const std::string begin = std::string("<") + part;
        const std::string end = std::string("</") + part + ">";
        for (std::size_t from = words.find(begin); from != std::string::npos;
             from = words.find(begin, from)) {
            words.erase(from, words.find(end, from) + end.size() - from);
        }
    }
    return words;
}

/// The words of a client's page of what was asked about the demo's files.
/// @param exit_code  1 where something asked about couldn't be read
std::string told_to_client(const std::string& asked, int exit_code = 0) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "client.html").string();
    const Said said = run_in_demo(asked + " --for client --report " + quoted(file));
    EXPECT_EQ(said.exit_code, exit_code) << said.err;
    return words_on(slurp(file));
}

void expect_plain(const std::string& page) {
    // Words of the trade that an owner of a display has no use for.
    for (const char* words :
         {"DE00", "u'v'", "19 times in 20", "condition number", "luminance factor", "matrix",
          ".csv", "as_set", "verdict", "residual"}) {
        EXPECT_EQ(page.find(words), std::string::npos) << words << "\n" << page;
    }
}

TEST(ClientReports, EveryCommandHasOneInPlainWords) {
    struct Asked {
        std::string words;
        std::vector<std::string> says;
    };
    const std::vector<Asked> all = {
        {"white client-set.csv --viewer 45", {"in their forties", "Left alone"}},
        {"metamerism client-set.csv grading-monitor.csv lcd-narrow-red",
         {"client-set and grading-monitor", "Set to the same number on the meter", "no setting"}},
        {"spectrum client-set.csv tablet.csv", {"client-set", "tablet", "parts of the rainbow"}},
        {"meter fit client-set-readings.csv",
         {"was compared with a more exact instrument", "used"}},
        {"meter model cie1964-10deg client-set.csv", {"client-set", "correction"}},
        {"meter choose client-set.csv oled-rgb --meter cie1964-10deg", {"client-set", "meter"}},
        {"adjust proof/client-set-greys.csv --controls proof/client-set-controls.csv",
         {"Your screen", "colour controls are set it is off"}},
        {"hdr proof/client-set-hdr.csv --white 0.3127,0.3290",
         {"about 1,040 cd/m2", "holds its light back", "leave that to it"}},
        {"visit lounge:cinema bar --minutes 240 --on-for 0",
         {"The visit takes about", "lounge, bar", "switch them on 45 min before"}}};
    for (const Asked& asked : all) {
        const std::string page = told_to_client(asked.words);
        for (const std::string& words : asked.says) {
            EXPECT_NE(page.find(words), std::string::npos) << words << "\n" << page;
        }
        expect_plain(page);
    }
}

// A meter that misreads a white by DE00 of several is told otherwise than one whose readings are the reference's own.
TEST(ClientReports, AFitSaysWhatWasWrongAndWhetherTheMeterIsUsed) {
    const std::string good = told_to_client("meter fit client-set-readings.csv");
    EXPECT_NE(good.find("misread the white by what can"), std::string::npos) << good;
    EXPECT_NE(good.find("used with a correction"), std::string::npos) << good;
    const Scratch scratch;
    std::string same = "patch,instrument,repeat,X,Y,Z\n";
    const std::array<const char*, 4> lights = {"red,", "green,", "blue,", "white,"};
    const std::array<const char*, 4> values = {"41.2,21.3,1.9\n", "35.8,71.5,11.9\n",
                                               "18.0,7.2,95.0\n", "95.0,100.0,108.9\n"};
    for (const char* instrument : {"reference,", "meter,"}) {
        for (const char* repeat : {"1,", "2,", "3,"}) {
            for (std::size_t i = 0; i < lights.size(); ++i) {
                same += std::string(lights.at(i)) + instrument + repeat + values.at(i);
            }
        }
    }
    const std::string exact = told_to_client("meter fit " + quoted(scratch.file("same.csv", same)));
    EXPECT_NE(exact.find("less than can be seen"), std::string::npos) << exact;
}

TEST(ClientReports, DoubtAboutTheMeasurementIsTold) {
    const std::string plain = told_to_client("white client-set.csv");
    EXPECT_EQ(plain.find("read all of this screen"), std::string::npos);
    // The lines of lasers by 10 nm.
    const Scratch scratch;
    std::string text = "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; nm += 10) {
        text += std::to_string(nm) + "," + (nm == 640 ? "1" : "0") + "," + (nm == 530 ? "1" : "0") +
                "," + (nm == 460 ? "1" : "0") + "\n";
    }
    const std::string page = told_to_client("white " + quoted(scratch.file("laser.csv", text)));
    EXPECT_NE(page.find("read all of this screen"), std::string::npos) << page;
    const std::string spectra =
        told_to_client("spectrum " + quoted((scratch.path() / "laser.csv").string()));
    EXPECT_NE(spectra.find("is doubtful; it is to be looked at"), std::string::npos) << spectra;
}

TEST(ClientReports, WhatCouldNotBeReadIsOnThePage) {
    const std::string page = told_to_client("spectrum client-set.csv none-such.csv", 1);
    EXPECT_NE(page.find("Could not be read, and is not in this: none-such."), std::string::npos)
        << page;
    EXPECT_EQ(page.find("wanted a file"), std::string::npos) << page;
    const Scratch scratch;
    const std::string file = (scratch.path() / "all.html").string();
    for (const char* asked : {"spectrum client-set.csv none-such.csv",
                              "metamerism client-set.csv oled-rgb none-such.csv",
                              "meter choose client-set.csv none-such.csv --meter cie1964-10deg"}) {
        EXPECT_EQ(run_in_demo(std::string(asked) + " --report " + quoted(file)).exit_code, 1)
            << asked;
        EXPECT_NE(slurp(file).find("none-such.csv"), std::string::npos) << asked;
    }
}

TEST(ClientReports, NobodyElseIsAReader) {
    for (const char* asked : {"white crt", "metamerism crt oled-rgb", "spectrum client-set.csv",
                              "meter fit client-set-readings.csv", "meter model cie1964-10deg crt",
                              "meter choose crt --meter cie1964-10deg"}) {
        expect_refusal(run_in_demo(std::string(asked) + " --report x.html --for nobody"), 1,
                       "practitioner or client");
        EXPECT_EQ(run_in_demo(std::string(asked) + " --for client").exit_code, 2)
            << "without a page nobody reads one";
    }
    EXPECT_EQ(run_in_demo("meter choose --table --meter cie1964-10deg --report x.html --for client")
                  .exit_code,
              2);
}

// Help is read where the answers are.
TEST(Help, IsNoWiderThanAHundredColumns) {
    for (const char* command : {"", "white", "metamerism", "meter", "meter fit", "meter model",
                                "meter choose", "panel", "observer", "spectrum"}) {
        for (const std::string& row : rows_of(run(std::string(command) + " --help").out)) {
            EXPECT_LE(characters_of(row), 100U) << command << ": " << row;
        }
    }
}

}  // namespace
}  // namespace samelight::test
