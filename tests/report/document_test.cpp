// Documents shown: what is essential, wide and marked in text; what is text, named and whole on a page; what pictures are drawn of.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <limits>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>
#include <pugixml.hpp>

#include "io/scratch_folder.hpp"
#include "report/document/axis_ticks.hpp"
#include "report/spectrum/page/spectrum_chart.hpp"
#include "report/spectrum/page/spectrum_client.hpp"
#include "report/white/page/white_charts.hpp"
#include "report/words/light_drawn.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {
namespace {

const std::string hostile = "<script>alert(1)</script> & \"quoted\" 'x' \x1b[31m";

Chart small_plot() {
    Plot plot{"x", "y", {0.0, 1.0}, {0.0, 2.0}};
    plot.series.push_back({hostile, {{0.1, 0.2}, {0.9, 1.8}}});
    return {"Chart " + hostile, "What it shows " + hostile, plot};
}

Document small_document() {
    Document document{"Title " + hostile, {}};
    Section section{"one", "Heading " + hostile, {}};
    section.add(
        "v", Level::essential,
        VerdictLine{"MOVE", "it looks " + std::string(150, 'n') + " and " + hostile, Mood::act});
    section.add("f", Level::essential, KeyFigures{{{"Light", "-3 %", "against the native white"}}});
    section.add("c", Level::essential, Caution{"code", "beware of " + hostile});
    section.add("t", Level::reason,
                Table{"", {{"name", Align::left}, {"x"}}, {{hostile, "0.3127"}, {"b", "0.3"}}, 1});
    section.add("p", Level::reason, Paragraph{"why, said in a sentence"});
    section.add("d", Level::detail, Paragraph{"a detail"});
    section.add("plot", Level::reason, small_plot());
    section.add(
        "bars", Level::reason,
        Chart{"Bars", "two", Bars{{"before", "after"}, {{"A", {3.0, 1.0}, {"3.0", "1.0"}}}}});
    section.add("matrix", Level::reason,
                Chart{"Matrix", "pairs",
                      Matrix{{"a", "b"},
                             {{std::numeric_limits<double>::quiet_NaN(), ""},
                              {1.0, "1.0"},
                              {1.0, "1.0"},
                              {std::numeric_limits<double>::quiet_NaN(), ""}}}});
    document.sections.push_back(section);
    return document;
}

TEST(DocumentText, ShowsNoMoreThanWasAskedFor) {
    const Document document = small_document();
    const std::string essential = text_of(document);
    const std::string reason = text_of(document, {100, Level::reason});
    const std::string all = text_of(document, {100, Level::detail});
    for (const std::string* page : {&essential, &reason, &all}) {
        EXPECT_NE(page->find("MOVE: it looks"), std::string::npos);
        EXPECT_NE(page->find("! beware"), std::string::npos);
    }
    EXPECT_EQ(essential.find("why, said"), std::string::npos);
    EXPECT_NE(reason.find("why, said"), std::string::npos);
    EXPECT_EQ(reason.find("a detail"), std::string::npos);
    EXPECT_NE(all.find("a detail"), std::string::npos);
    EXPECT_NE(reason.find("> b"), std::string::npos) << "the marked row";
}

TEST(DocumentText, KeepsToItsWidthAndMarksOnlyOnATerminal) {
    Document document = small_document();
    for (const std::size_t width : {40U, 80U, 100U}) {
        std::istringstream lines(text_of(document, {width, Level::detail}));
        for (std::string line; std::getline(lines, line);) {
            // Also the word of the verdict that is longer than any line.
            EXPECT_LE(line.size(), width) << line;
        }
    }
    document.sections[0].blocks.resize(2);
    EXPECT_EQ(text_of(document).find("\x1b[1m"), std::string::npos);
    EXPECT_NE(text_of(document, {100, Level::essential, Emphasis::terminal}).find("\x1b[1mMOVE"),
              std::string::npos);
}

// A word longer than a line is broken, never lost; wide characters take two columns each, and marks that combine none.
TEST(DocumentText, LongWordsAndWideCharactersKeepToTheWidth) {
    const std::string long_word = std::string(70, 'a') + std::string(70, 'b');
    const std::string wide_word = [] {
        std::string word;
        for (int i = 0; i < 60; ++i) {
            word += "\xe7\x99\xbd";  // U+767D, wide by UAX 11
        }
        return word;
    }();
    for (const std::string* word : {&long_word, &wide_word}) {
        Section section{"s", *word};
        section.add("p", Level::essential, Paragraph{"before " + *word + " after"});
        const std::string page = text_of({"Title", {section}}, {80, Level::detail});
        std::istringstream lines(page);
        std::string joined;
        for (std::string line; std::getline(lines, line); joined += line) {
            const std::size_t columns =
                word == &wide_word && line.find('\xe7') != std::string::npos
                    ? 2 * (static_cast<std::size_t>(std::count(line.begin(), line.end(), '\xe7'))) +
                          static_cast<std::size_t>(std::count_if(
                              line.begin(), line.end(),
                              [](char c) { return static_cast<unsigned char>(c) < 0x80U; }))
                    : line.size();
            EXPECT_LE(columns, 80U) << line;
        }
        const std::size_t first = joined.find(*word);
        EXPECT_NE(first, std::string::npos) << page;
        EXPECT_NE(joined.find(*word, first + 1), std::string::npos) << page;
    }
    const std::string accents = "e\xcc\x81" + std::string(39, 'x');  // U+0301 combines
    Section plain{"s", ""};
    plain.add("p", Level::essential, Paragraph{accents});
    EXPECT_EQ(text_of({"T", {plain}}, {40, Level::detail}), accents + "\n");
}

// What has no room beside the others stands below, behind the first column again; where no heading is shown, what is said names its subject.
TEST(DocumentText, ColumnsWithoutRoomStandBelowAndHeadlessSectionsNameTheirSubject) {
    Section section{"s", "Heading"};
    section.heading_level = Level::reason;
    section.subject = "subject";
    section.add("v", Level::essential, VerdictLine{"MOVE", "reason"});
    section.add("c", Level::essential, Caution{"code", "beware"});
    const std::string cell(18, 'c');
    section.add("t", Level::reason,
                Table{"",
                      {{"row", Align::left}, {"first"}, {"second"}, {"third"}},
                      {{"a", cell, cell, cell}}});
    section.add("l", Level::reason, List{{"item"}});
    const Document document{"Title", {section}, "foot"};
    const std::string first = text_of(document);
    EXPECT_EQ(first, "subject: MOVE: reason\n! subject: beware\n\nfoot\n");
    const std::string all = text_of(document, {50, Level::detail});
    EXPECT_EQ(all.rfind("Heading\nMOVE: reason\n! beware\n", 0), 0U) << all;
    const std::string space(15, ' ');
    EXPECT_NE(all.find("  row" + space + "first" + std::string(14, ' ') + "second\n  a    " + cell +
                       "  " + cell + "\n  row" + space + "third\n  a    " + cell + "\n"),
              std::string::npos)
        << all;
    EXPECT_NE(all.find("  - item\n"), std::string::npos);
}

/// The body as XML, which a page of ours is inside its body.
std::string body_of(const std::string& page) {
    const std::size_t begin = page.find("<main>");
    return page.substr(begin, page.find("</main>") + 7 - begin);
}

TEST(DocumentPage, WhateverIsInItStaysText) {
    const std::string page = html_of(small_document(), {"en-GB", hostile});
    EXPECT_EQ(page.find("<script"), std::string::npos);
    EXPECT_EQ(page.find('\x1b'), std::string::npos);
    pugi::xml_document body;
    ASSERT_TRUE(body.load_string(body_of(page).c_str()));
    EXPECT_NE(std::string(body.select_node("//h2").node().text().get())
                  .find("<script>alert(1)</script> & \"quoted\""),
              std::string::npos);
}

TEST(DocumentPage, EveryPieceHasAnIdAndEveryPictureATitleAndADescription) {
    pugi::xml_document body;
    ASSERT_TRUE(body.load_string(body_of(html_of(small_document())).c_str()));
    std::set<std::string> ids;
    for (const pugi::xpath_node& node : body.select_nodes("//@id")) {
        EXPECT_TRUE(ids.insert(node.attribute().value()).second) << node.attribute().value();
    }
    for (const char* id : {"one", "one-v", "one-f", "one-c", "one-t", "one-p", "one-d", "one-plot",
                           "one-bars", "one-matrix"}) {
        EXPECT_EQ(ids.count(id), 1U) << id;
    }
    const auto pictures = body.select_nodes("//figure/svg");
    ASSERT_EQ(pictures.size(), 3U);
    for (const pugi::xpath_node& picture : pictures) {
        EXPECT_STRNE(picture.node().child("title").text().get(), "");
        EXPECT_STRNE(picture.node().child("desc").text().get(), "");
        EXPECT_EQ(std::string(picture.node().attribute("role").value()), "img");
    }
    EXPECT_TRUE(body.select_node("//details//p[@id='one-d']"));
    EXPECT_FALSE(body.select_node("//details//p[@id='one-p']"));
}

// Any range has a few round numbers on it: also those just above or below a power of ten, where a step of the wrong decade was taken.
TEST(AxisTicks, AreFewAndRoundOnEveryRange) {
    for (double range = 1e-4; range < 1e4; range *= 1.013) {
        for (const double low : {0.0, 0.3, -0.37 * range}) {
            const auto ticks = svg::ticks_of(low, low + range, 6);
            EXPECT_GE(ticks.size(), 2U) << low << " " << range;
            EXPECT_LE(ticks.size(), 6U) << low << " " << range;
            for (const svg::Tick& tick : ticks) {
                EXPECT_NEAR(std::stod(tick.label), tick.value, 1e-9 * std::max(1.0, range));
            }
        }
    }
}

TEST(DrawnLights, AreMeansOfTheirBins) {
    Eigen::MatrixXd lights(7, 2);
    lights << 1, 10, 2, 20, 6, 60, 3, 30, 5, 50, 10, 100, 99, 990;
    // Bins of three; what is left over at the end makes none.
    const Eigen::MatrixXd means = averaged(lights, 3);
    ASSERT_EQ(means.rows(), 2);
    for (Eigen::Index k = 0; k < 2; ++k) {
        const double unit = k == 0 ? 1.0 : 10.0;
        EXPECT_NEAR(means(0, k), 3.0 * unit, 1e-12);
        EXPECT_NEAR(means(1, k), 6.0 * unit, 1e-12);
    }
    EXPECT_TRUE(averaged(lights, 1) == lights);
    // Read at every third sample: two of three are empty.
    Eigen::VectorXd thinned = Eigen::VectorXd::Zero(13);
    for (Eigen::Index i = 1; i < 13; i += 3) {
        thinned[i] = 1.0 + static_cast<double>(i);
    }
    EXPECT_EQ(step_of(thinned), 3);
    EXPECT_EQ(step_of(Eigen::VectorXd::Ones(13)), 1);
    EXPECT_EQ(step_of(Eigen::VectorXd::Zero(13)), 1);
}

class DrawnFiles : public io::test::ScratchFolder {
  protected:
    /// Bells of height 2 at 400, 410, ... nm; the first with a dip below zero where a dark level was taken off.
    [[nodiscard]] std::string written(std::size_t columns) const {
        const std::string path = (folder_ / "lights.csv").string();
        std::ofstream file(path);
        file << "wavelength_nm";
        for (std::size_t k = 0; k < columns; ++k) {
            file << ",light " << k;
        }
        for (int nm = 380; nm <= 780; nm += 5) {
            file << '\n' << nm;
            for (std::size_t k = 0; k < columns; ++k) {
                const double t = (nm - 400.0 - 10.0 * static_cast<double>(k)) / 20.0;
                file << ',' << 2.0 * std::exp(-t * t) - (k == 0 && nm == 700 ? 0.004 : 0.0);
            }
        }
        file << '\n';
        return path;
    }
};

TEST_F(DrawnFiles, AllThatWasReadLiesWithinTheLimits) {
    const SpectrumAnswer answer = answer_spectrum({written(3), {}, {}, ""});
    const auto chart = file_chart(answer);
    ASSERT_TRUE(chart);
    const Plot& plot = std::get<Plot>(chart->drawing);
    ASSERT_EQ(plot.series.size(), 3U);
    double lowest = 1.0;
    double highest = 0.0;
    for (const Series& series : plot.series) {
        ASSERT_EQ(series.points.size(), 81U);
        for (const Point& point : series.points) {
            EXPECT_GE(point[0], plot.x_limits[0]);
            EXPECT_LE(point[0], plot.x_limits[1]);
            EXPECT_GE(point[1], plot.y_limits[0]);
            EXPECT_LE(point[1], plot.y_limits[1]);
            lowest = std::min(lowest, point[1]);
            highest = std::max(highest, point[1]);
        }
    }
    // As shares of the brightest, from as low as they go.
    EXPECT_EQ(highest, 1.0);
    EXPECT_EQ(plot.y_limits[0], lowest);
    EXPECT_LT(lowest, 0.0);
    EXPECT_EQ(plot.x_limits, (Point{380.0, 780.0}));
}

TEST_F(DrawnFiles, OfManyLightsAnOwnerIsToldHowManyMoreThereAre) {
    constexpr std::size_t columns = 31;
    const std::vector<SpectrumAnswer> answers = {answer_spectrum({written(columns), {}, {}, ""})};
    const Document document = spectra_client_document(answers);
    std::size_t told = 0;
    std::size_t more = 0;
    for (const Section& section : document.sections) {
        for (const Block& block : section.blocks) {
            if (const List* list = std::get_if<List>(&block.content)) {
                for (const std::string& item : list->items) {
                    if (item.rfind("And ", 0) == 0) {
                        more += std::stoul(item.substr(4));
                    } else {
                        ++told;
                    }
                }
            }
        }
    }
    EXPECT_GT(more, 0U);
    EXPECT_EQ(told + more, columns);
}

TEST(NearWhite, EveryWhiteLiesWithinASquareAboutThem) {
    WhiteRequest request;
    request.panels = {"oled-white", "lcd-white-led"};
    request.reference = "crt@0.3127,0.3290";
    request.people = 64;
    const WhiteAnswer answer = answer_white(request);
    for (const auto& part : answer.panels) {
        const auto chart = chromaticity_chart(answer, part);
        ASSERT_TRUE(chart);
        const Plot& plot = std::get<Plot>(chart->drawing);
        EXPECT_TRUE(plot.same_scale);
        const double across = plot.x_limits[1] - plot.x_limits[0];
        EXPECT_NEAR(plot.y_limits[1] - plot.y_limits[0], across, 1e-12);
        // No less than 0.02 of x and y, and no more than what is near white.
        EXPECT_GE(across, 0.02 - 1e-12);
        EXPECT_LT(across, 0.2);
        std::vector<Point> whites = {{answer.reference.xy().x(), answer.reference.xy().y()},
                                     {part.dialled().xy.x(), part.dialled().xy.y()}};
        if (part.targets.native_white) {
            whites.push_back({part.targets.native_white->x(), part.targets.native_white->y()});
        }
        for (const Point& white : whites) {
            for (const auto& [at, limits] :
                 {std::pair{white[0], plot.x_limits}, std::pair{white[1], plot.y_limits}}) {
                // With a margin: a tenth of what the whites themselves take.
                EXPECT_GT(at, limits[0] + 0.05 * across);
                EXPECT_LT(at, limits[1] - 0.05 * across);
            }
        }
    }
}

}  // namespace
}  // namespace samelight::report
