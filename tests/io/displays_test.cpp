// Displays from single files, from numbered columns and from lists of words. Wanted values are those that the files were written from.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/scratch_folder.hpp"
#include "io/spectral_files.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::test {
namespace {

const std::vector<std::string> roles{"red", "green", "blue", "white", "black"};

/// Light number `light` at wavelength number i: each light has its own values, and red, green and blue their own part of the spectrum.
double value_of(std::size_t light, std::size_t i) {
    const double ripple = 1.0 + static_cast<double>(i % 7);
    if (light == 3) return 12.0 + ripple;
    if (light == 4) return 1e-3 * ripple;
    const std::size_t band = i < 12 ? 2 : i < 21 ? 1 : 0;  // up to 490, 580, 780 nm
    return (band == light ? 10.0 : 1.0) + 0.125 * ripple;
}

constexpr std::size_t count = 41;

std::string table(const std::vector<std::string>& headings, const std::vector<std::size_t>& lights,
                  double step_nm = 10.0) {
    std::string text = "nm";
    for (const std::string& heading : headings) {
        text += "," + heading;
    }
    text += "\n";
    for (std::size_t i = 0; i < count; ++i) {
        text += to_text(380.0 + step_nm * static_cast<double>(i));
        for (const std::size_t light : lights) {
            text += "," + to_text(value_of(light, i));
        }
        text += "\n";
    }
    return text;
}

void expect_light(const SpectralFile& file, std::size_t light) {
    const LightColumn* column = file.find(roles[light]);
    ASSERT_NE(column, nullptr) << roles[light] << joined(file.understood);
    ASSERT_EQ(column->light.size(), count);
    for (std::size_t i = 0; i < count; ++i) {
        EXPECT_EQ(column->light.values()[i], value_of(light, i)) << roles[light] << ' ' << i;
    }
}

/// All but the error's text, which must hold the parts.
template <class F>
void expect_error(F&& f, const std::vector<std::string>& parts) {
    try {
        f();
        ADD_FAILURE() << "accepted, though wanted: " << parts.front();
    } catch (const Error& error) {
        for (const std::string& part : parts) {
            EXPECT_NE(std::string(error.what()).find(part), std::string::npos)
                << error.what() << "\nlacks " << part;
        }
    }
}

SpectralFile chosen(const std::string& text, const std::vector<LightChoice>& choices) {
    return parse_spectral_csv(text, "file.csv", choices);
}

const std::vector<LightChoice> by_number{
    {"red", "1"}, {"green", "2"}, {"blue", "3"}, {"white", "4"}, {"black", "5"}};

TEST(LightChoices, TakeColumnsByNumberWhateverTheirHeadings) {
    for (const char* word : {"Measurement ", "", "Messung Nr. ", "#"}) {
        std::vector<std::string> headings;
        for (std::size_t k = 1; k <= 5; ++k) {
            headings.push_back(word + std::to_string(k));
        }
        const SpectralFile file = chosen(table(headings, {0, 1, 2, 3, 4}), by_number);
        for (std::size_t light = 0; light < 5; ++light) {
            expect_light(file, light);
        }
        EXPECT_TRUE(says(file.understood, "red is column 1")) << joined(file.understood);
        EXPECT_TRUE(says(file.understood, "black is column 5")) << joined(file.understood);
        EXPECT_EQ(file.left_out, 0U);
    }
    const SpectralFile alike =
        chosen(table(std::vector<std::string>(5, "Radiance"), {0, 1, 2, 3, 4}), by_number);
    expect_light(alike, 2);
    const SpectralFile mixed = chosen(table({"a", "b", "c", "d", "e"}, {4, 3, 2, 1, 0}),
                                      {{"red", "5"}, {"green", "D"}, {"blue", "c"}});
    expect_light(mixed, 0);
    expect_light(mixed, 1);
    expect_light(mixed, 2);
    EXPECT_EQ(mixed.find("white"), nullptr);
    EXPECT_EQ(mixed.left_out, 2U);
}

TEST(LightChoices, LookAtNothingThatIsntAskedFor) {
    const std::string text =
        "nm,red,note,green,blue\n400,1,bad cell,3,4\n550,2,,3,9\n700,1,?,3,5\n";
    EXPECT_THROW(static_cast<void>(parsed(text)), Error);
    const SpectralFile file = chosen(text, {{"red", ""}, {"green", ""}, {"blue", "4"}});
    EXPECT_EQ(file.lights[2].light.values()[1], 9.0);
    EXPECT_EQ(file.left_out, 1U);
}

TEST(LightChoices, AHeadingThatSeveralColumnsBearMeansTheirMean) {
    const std::string text = "nm,A,B,A\n400,1,3,1.1\n550,2,3,2.1\n700,1,3,1.1\n";
    const SpectralFile file = chosen(text, {{"red", "a"}, {"green", "2"}});
    EXPECT_DOUBLE_EQ(file.lights[0].light.values()[1], 2.05);
    EXPECT_EQ(file.lights[0].repeats, 2);
    EXPECT_EQ(chosen(text, {{"red", "3"}}).lights[0].light.values()[1], 2.1);
}

TEST(LightChoices, ListUpToTwelveHeadingsAndCountTheRest) {
    for (const std::size_t columns : {12U, 14U}) {
        std::vector<std::string> headings;
        std::vector<std::size_t> shown_light;
        for (std::size_t k = 0; k < columns; ++k) {
            headings.push_back("M" + std::to_string(k));
            shown_light.push_back(k % 5);
        }
        try {
            chosen(table(headings, shown_light), {{"red", "none of them"}});
            ADD_FAILURE();
        } catch (const Error& error) {
            const std::string said = error.what();
            EXPECT_NE(said.find("12 \"M11\""), std::string::npos) << said;
            EXPECT_EQ(said.find(" and 2 more") != std::string::npos, columns == 14U) << said;
            EXPECT_EQ(said.find(" more") != std::string::npos, columns == 14U) << said;
        }
    }
}

TEST(LightChoices, RefuseWhatIsntThereOrMayMeanTwoColumns) {
    const std::string down = table({"M 3", "M 2", "M 1"}, {0, 1, 2});
    expect_error(
        [&] {
            chosen(down, {{"red", "1"}});
        },
        {"may mean column 1, \"M 3\", or \"M 1\", which is column 3", "wanted a heading"});
    EXPECT_EQ(chosen(down, {{"red", "2"}}).lights[0].light.values()[0], value_of(1, 0));
    EXPECT_EQ(chosen(down, {{"red", "M 1"}}).lights[0].light.values()[0], value_of(2, 0));
    expect_error(
        [&] {
            chosen(down, {{"red", "4"}});
        },
        {"no column 4 for red", "1 \"M 3\", 2 \"M 2\", 3 \"M 1\"", "to 3"});
    expect_error([&] { chosen(down, {{"red", "Rot"}}); }, {"no column \"Rot\" for red", "\"M 2\""});
    expect_error(
        [&] {
            chosen(down, {{"red", "2"}, {"green", "m 2"}});
        },
        {"column 2 (\"M 2\") for red and for green"});
    expect_error([&] { chosen(down, {{"red", ""}}); }, {"no column red", "FILE#1"});
}

TEST(LightPlaces, AreTakenFromAWord) {
    const std::vector<LightPlace> places =
        light_places("red=a,b.csv#2,grün=./g,Blue=-,weiss=w.csv#Messung 3");
    ASSERT_EQ(places.size(), 4U);
    EXPECT_EQ(places[0].file, "a,b.csv");
    EXPECT_EQ(places[0].column, "2");
    EXPECT_EQ(places[1].role, "green");
    EXPECT_EQ(places[1].file, "./g");
    EXPECT_EQ(places[2].file, "-");
    EXPECT_EQ(places[3].column, "Messung 3");
    EXPECT_TRUE(light_places("oled-rgb").empty());
    EXPECT_TRUE(light_places("./red=a.csv").empty());
    expect_error([] { light_places("red=a.csv,red=b.csv"); }, {"red twice"});
    expect_error([] { light_places("red=a.csv,green="); }, {"nothing for green"});
    expect_error([] { light_places("red=oled-rgb"); }, {"no file's name", "./NAME"});
}

TEST(LightPlaces, OptionsAreFilesOrColumns) {
    LightOptions options;
    options.red = "r.csv";
    options.green = "Messung 2";
    options.columns = "blue=3,white=W 1.0";
    EXPECT_EQ(places_in_options(options).size(), 1U);
    const std::vector<LightChoice> columns = columns_in_options(options);
    ASSERT_EQ(columns.size(), 3U);
    EXPECT_EQ(columns[1].column, "W 1.0");  // a dot makes no file here
    EXPECT_EQ(columns[2].role, "green");
    options.blue = "4";
    expect_error([&] { columns_in_options(options); }, {"blue twice"});
    options.columns = "1,2,3";
    expect_error([&] { columns_in_options(options); }, {"columns: ", "red=1,green=2,blue=3"});
    options.mark = "--";
    expect_error([&] { columns_in_options(options); }, {"--columns: ", "red=1,green=2,blue=3"});
}

class Displays : public ScratchFolder {
  protected:
    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
        return (folder_ / name).string();
    }
    /// One light each, under a heading that says nothing.
    [[nodiscard]] std::vector<std::string> singles(const std::vector<std::string>& names) const {
        std::vector<std::string> files;
        for (std::size_t light = 0; light < names.size(); ++light) {
            files.push_back(write(names[light], table({"Sample"}, {light})));
        }
        return files;
    }
};

TEST_F(Displays, AreMadeOfSingleFiles) {
    const std::vector<std::string> files = singles({"1.csv", "2.csv", "3.csv", "4.csv", "5.csv"});
    std::vector<LightPlace> places;
    for (std::size_t light = 0; light < 5; ++light) {
        places.push_back({roles[light], files[light]});
    }
    const SpectralFile display = read_display_files(places);
    for (std::size_t light = 0; light < 5; ++light) {
        expect_light(display, light);
    }
    EXPECT_EQ(display.source, files.front() + " and 4 more");
    EXPECT_TRUE(says(display.understood, "white from " + files[3])) << joined(display.understood);
}

TEST_F(Displays, TakeLightsFromFilesOfSeveralAndOfOtherSteps) {
    const std::string many = write("many.csv", table({"x", "y", "z"}, {2, 0, 1}));
    const std::string fine = write("fine.csv", table({"any"}, {3}, 8.0));
    const SpectralFile display = read_display_files(
        light_places("red=" + many + "#2,green=" + many + "#z,blue=" + many + "#1,white=" + fine));
    for (std::size_t light = 0; light < 4; ++light) {
        expect_light(display, light);
    }
    EXPECT_EQ(display.find("white")->light.last_nm(), 700.0);
    EXPECT_EQ(display.find("red")->light.last_nm(), 780.0);
    EXPECT_NO_THROW(static_cast<void>(open_panel("red=" + many + "#2,green=" + many + "#z,blue=" +
                                                 many + "#1,white=" + fine + "@0.31,0.32")));
}

TEST_F(Displays, OfDifferentUnitsOrWithABlackBelowZeroAreRefused) {
    std::vector<std::string> files = singles({"r.csv", "g.csv", "b.csv"});
    const std::string unit = write("u.csv", "# W/(sr m2 nm)\n" + table({"Sample"}, {2}));
    expect_error([&] { open_panel("red=" + files[0] + ",green=" + files[1] + ",blue=" + unit); },
                 {"in W/(sr m2 nm), but in no stated unit in", "one unit in all files"});
    std::string below = "nm,Sample\n";
    for (std::size_t i = 0; i < count; ++i) {
        below += to_text(380.0 + 10.0 * static_cast<double>(i)) + ",-0.5\n";
    }
    const std::string black = write("k.csv", below);
    expect_error(
        [&] {
            open_panel("red=" + files[0] + ",green=" + files[1] + ",blue=" + files[2] +
                       ",black=" + black);
        },
        {"\"black\" lies 0.5 below zero", "no noise around zero"});
}

TEST_F(Displays, EachNormalisedToItsOwnPeakHaveNoCommonScale) {
    std::vector<LightPlace> places;
    for (std::size_t light = 0; light < 3; ++light) {
        std::string text = "nm,Sample\n";
        for (std::size_t i = 0; i < count; ++i) {
            text += to_text(380.0 + 10.0 * static_cast<double>(i)) + "," +
                    (i % 3 == light ? "1" : "0.1") + "\n";
        }
        places.push_back({roles[light], write(roles[light] + ".csv", text)});
    }
    EXPECT_TRUE(warns(read_display_files(places), "scale_unknown"));
}

TEST_F(Displays, SingleFilesInAListAreOneDisplayByHeadingOrName) {
    std::vector<std::string> files =
        singles({"set-red.csv", "set_G.csv", "Lantern blau.csv", "weiß.csv"});
    files.insert(files.begin(), write("whole.csv", table(roles, {0, 1, 2, 3, 4})));
    files.push_back(write("z.csv", table({"black"}, {4})));
    const OpenedDisplays opened = open_displays(files, {});
    ASSERT_EQ(opened.errors.size(), 0U) << opened.errors.front().what();
    ASSERT_EQ(opened.displays.size(), 2U);
    EXPECT_EQ(opened.displays[0].name, files[0]);
    EXPECT_EQ(opened.displays[1].name, files[1] + " and 4 more");
    const NamedPanel whole = open_panel(files[0]);
    const Panel& made = opened.displays[1].display.panel;
    EXPECT_EQ(made.emitters(), whole.panel.emitters());
}

TEST_F(Displays, WhatALeavesOpenOrSaysTwiceIsAnError) {
    const std::vector<std::string> files = singles({"a.csv", "green.csv", "blue.csv"});
    OpenedDisplays opened = open_displays(files, {});
    ASSERT_EQ(opened.errors.size(), 1U);
    EXPECT_TRUE(opened.displays.empty());
    EXPECT_NE(std::string(opened.errors[0].what()).find("neither its heading nor the file's name"),
              std::string::npos);
    const std::string other = write("red.csv", table({"green"}, {0}));
    opened = open_displays({other, files[1], files[2]}, {});
    ASSERT_EQ(opened.errors.size(), 1U);
    EXPECT_NE(std::string(opened.errors[0].what()).find("green by its heading, red by its name"),
              std::string::npos);
    const std::string twice = write("green 2.csv", table({"Sample"}, {0}));
    opened = open_displays({twice, files[1], files[2]}, {});
    ASSERT_EQ(opened.errors.size(), 1U);
    EXPECT_NE(std::string(opened.errors[0].what()).find("a second light for green"),
              std::string::npos);
}

TEST_F(Displays, ABadFileLeavesTheOthersButNotADisplayThatItMayBePartOf) {
    const std::string whole = write("whole.csv", table(roles, {0, 1, 2, 3, 4}));
    const std::string bad = write("bad.csv", "no table\n");
    OpenedDisplays opened = open_displays({bad, whole, "crt", folder_.string()}, {});
    ASSERT_EQ(opened.displays.size(), 2U);
    EXPECT_EQ(opened.displays[0].name, whole);
    EXPECT_EQ(opened.errors.size(), 2U);
    // A slip in what was typed isn't one of a file's.
    expect_error([&] { open_displays({whole, "no-such-type"}, {}); }, {"no built-in panel"});
    expect_error([&] { open_displays({whole, "crt@0.9,0.9"}, {}); }, {"@x,y"});
    std::vector<std::string> files = singles({"red.csv", "green.csv", "blue.csv"});
    files.push_back(bad);
    opened = open_displays(files, {});
    EXPECT_TRUE(opened.displays.empty());
    // One failure, said once: of the file, and of what is left out with it.
    ASSERT_EQ(opened.errors.size(), 1U);
    EXPECT_EQ(opened.errors[0].place().name, bad);
    EXPECT_NE(opened.errors[0].found().find(files[0] + " and 2 more"), std::string::npos);
    EXPECT_NE(opened.errors[0].found().find("may be of the same display"), std::string::npos);
}

TEST_F(Displays, ABlackOfNoiseIsKnownByItsFilesName) {
    std::vector<std::string> files = singles({"red.csv", "green.csv", "blue.csv", "white.csv"});
    std::string noise = "nm,Sample\n";
    for (std::size_t i = 0; i < count; ++i) {
        noise += to_text(380.0 + 10.0 * static_cast<double>(i)) + (i % 3 == 1   ? ",-0.01\n"
                                                                   : i % 2 == 0 ? ",0.012\n"
                                                                                : ",-0.011\n");
    }
    files.push_back(write("black.csv", noise));
    OpenedDisplays opened = open_displays(files, {});
    ASSERT_TRUE(opened.errors.empty()) << opened.errors.front().what();
    EXPECT_EQ(opened.displays.size(), 1U);
    files.back() = write("white too.csv", noise);
    opened = open_displays(files, {});
    EXPECT_FALSE(opened.errors.empty());
}

TEST_F(Displays, OptionsThatNameFilesMakeOneMore) {
    const std::vector<std::string> files = singles({"a.csv", "b.csv", "c.csv"});
    LightOptions options;
    options.red = files[0];
    options.green = files[1];
    options.blue = files[2];
    const OpenedDisplays opened = open_displays({"crt"}, options);
    ASSERT_TRUE(opened.errors.empty()) << opened.errors.front().what();
    ASSERT_EQ(opened.displays.size(), 2U);
    EXPECT_EQ(opened.displays[1].name, files[0] + " and 2 more");
    EXPECT_EQ(files_named({"crt", "x.csv@0.3,0.3", "red=y.csv"}, options),
              (std::vector<std::string>{"x.csv", "y.csv", files[0], files[1], files[2]}));
}

}  // namespace
}  // namespace samelight::io::test
