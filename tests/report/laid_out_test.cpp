// What gives way where there is little room: of a table's columns a name, never a figure; of the ways from a point to its name those that would leave the picture.
#include <cstddef>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <pugixml.hpp>

#include "report/pictures.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report::in_laid_out {
namespace {

using samelight::test::Picture;

/// The lines of a page that hold the words.
std::vector<std::string> lines_with(const std::string& page, const std::string& words) {
    std::istringstream text(page);
    std::vector<std::string> found;
    for (std::string line; std::getline(text, line);) {
        if (line.find(words) != std::string::npos) {
            found.push_back(line);
        }
    }
    return found;
}

// Widths by hand: 4, 20 and 70 letters with two between them are 98 and more; without 40 letters of the name they fit 60, and 30 of it are left.
TEST(LaidOut, ANameGivesWayAndAFigureStaysWhole) {
    const std::string figure = "12345678901234567890";
    const std::string name = std::string(60, 'n') + "the-ending";
    Section section{"s", "Heading"};
    section.add("t", Level::essential,
                Table{"",
                      {{"no", Align::left}, {"figure"}, {"name", Align::left}},
                      {{"four", figure, name}}});
    const std::string page = text_of({"Title", {section}}, {60, Level::detail});
    const std::vector<std::string> headings = lines_with(page, "figure");
    ASSERT_EQ(headings.size(), 1U) << page;
    EXPECT_NE(headings[0].find("name"), std::string::npos) << "beside it, not below: " << page;
    const std::vector<std::string> rows = lines_with(page, figure);
    ASSERT_EQ(rows.size(), 1U) << page;
    EXPECT_LE(rows[0].size(), 60U);
    EXPECT_NE(rows[0].find("four"), std::string::npos);
    // As much of the name as there is room for: a name says more the longer it is.
    const std::size_t behind = rows[0].find(figure) + figure.size();
    EXPECT_GE(rows[0].size() - behind, 26U) << rows[0];
    EXPECT_EQ(page.find(name), std::string::npos) << page;
}

// At a corner only one of eight ways leads inwards: words right and left of the point would stick out above or below, words above and below it at the side.
TEST(LaidOut, APointAtEachCornerHasItsNameOnTheInside) {
    for (const double x : {0.0, 1.0}) {
        for (const double y : {0.0, 1.0}) {
            Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
            Series series{"marks", {{x, y}}, Ink::text, Stroke::solid, Mark::disc};
            series.shape = Series::Shape::points;
            series.notes = {"corner"};
            plot.series.push_back(series);
            const Picture picture({"Chart", "Description", plot});
            EXPECT_EQ(picture.key(), std::vector<std::string>{"marks"}) << x << " " << y;
            const auto notes = picture.all("text", "note");
            ASSERT_EQ(notes.size(), 1U) << x << " " << y;
            const pugi::xml_node frame = picture.all("rect", "frame").at(0);
            const pugi::xml_node disc = picture.all("circle", "solid").at(0);
            const auto of = [](const pugi::xml_node& node, const char* what) {
                return Picture::number(node, what);
            };
            // A letter is 14 units high and about half as wide; words begin at their x and stand on their y.
            const double middle_x = of(notes[0], "x") + 0.5 * 6 * 7.0;
            const double middle_y = of(notes[0], "y") - 5.0;
            EXPECT_EQ(middle_x > of(disc, "cx"), x < 0.5) << x << " " << y;
            // Places go down, values up.
            EXPECT_EQ(middle_y < of(disc, "cy"), y < 0.5) << x << " " << y;
            EXPECT_GE(of(notes[0], "x"), of(frame, "x"));
            EXPECT_LE(of(notes[0], "x") + 6 * 7.0, of(frame, "x") + of(frame, "width"));
            EXPECT_GE(of(notes[0], "y") - 10.0, of(frame, "y"));
            EXPECT_LE(of(notes[0], "y"), of(frame, "y") + of(frame, "height"));
        }
    }
}

}  // namespace
}  // namespace samelight::report::in_laid_out
