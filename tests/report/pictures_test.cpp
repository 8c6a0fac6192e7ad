// What a picture shows lies where its axes say, and names stand where they can be read. Measured with the ruler of pictures.hpp: a place has
// two decimals of a unit, so values are known to 0.01 units by the scale.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <pugixml.hpp>

#include "report/pictures.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report::in_pictures {
namespace {

using samelight::test::DrawnAxis;
using samelight::test::DrawnLine;
using samelight::test::Picture;

constexpr double half_a_place = 0.02;

Series marks_at(std::vector<Point> points, Mark mark = Mark::disc) {
    Series series{"marks", std::move(points), Ink::text, Stroke::solid, mark};
    series.shape = Series::Shape::points;
    return series;
}

double number(const pugi::xml_node& node, const char* name) { return Picture::number(node, name); }

TEST(Pictures, MarksLieWhereTheAxesSay) {
    const std::vector<Point> points = {{0.301, 12.0}, {0.3178, 71.5}, {0.32, 80.0}, {0.3, 0.0}};
    Plot plot{"x of it", "y of it", {0.3, 0.32}, {0.0, 80.0}};
    plot.series = {marks_at(points), marks_at({{0.3201, 40.0}, {0.31, 80.1}, {0.31, -0.1}})};
    const Picture picture({"Chart", "Description", plot});
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    const auto discs = picture.all("circle", "solid");
    ASSERT_EQ(discs.size(), points.size()) << "what lies outside isn't drawn";
    for (std::size_t i = 0; i < points.size(); ++i) {
        EXPECT_NEAR(x.value(number(discs[i], "cx")), points[i][0],
                    std::abs(x.per_unit) * half_a_place);
        EXPECT_NEAR(y.value(number(discs[i], "cy")), points[i][1],
                    std::abs(y.per_unit) * half_a_place);
    }
    // More of x is to the right, more of y is further up, and the figures stand at their lines.
    EXPECT_GT(x.per_unit, 0.0);
    EXPECT_LT(y.per_unit, 0.0);
    for (std::size_t k = 0; k < x.figures.size(); ++k) {
        EXPECT_NEAR(x.value(x.places[k]), x.figures[k], std::abs(x.per_unit) * half_a_place);
    }
    for (std::size_t k = 0; k < y.figures.size(); ++k) {
        EXPECT_NEAR(y.value(y.places[k]), y.figures[k], std::abs(y.per_unit) * half_a_place);
    }
    // Titles: of y above, at the left; of x below, at the right.
    EXPECT_LT(number(picture.words("y of it"), "y"), number(picture.all("rect", "frame")[0], "y"));
    EXPECT_GT(number(picture.words("x of it"), "y"), y.places.front());
}

TEST(Pictures, AFigureNeverLeavesThePicture) {
    Plot plot{"x", "y", {0.0, 100000.0}, {0.0, 1e6}};
    const Picture picture({"Chart", "Description", plot});
    for (const pugi::xml_node& node : picture.all("text", "")) {
        const std::string words = node.text().get();
        const std::string anchor = node.attribute("text-anchor").value();
        // A figure is about 0.5 of its 14 units wide, and no less.
        const double length = 0.5 * 14.0 * static_cast<double>(words.size());
        const double left = number(node, "x") - (anchor == "end"      ? length
                                                 : anchor == "middle" ? 0.5 * length
                                                                      : 0.0);
        EXPECT_GE(left, 0.0) << words;
        EXPECT_LE(left + length, picture.width()) << words;
        EXPECT_LE(number(node, "y"), picture.height()) << words;
    }
}

TEST(Pictures, OneUnitIsAsLongUpAsAcrossWhereThatIsAsked) {
    // Wide; and taller than a picture may be, which then shows more of x on both sides alike.
    for (const Point& tall : {Point{0.0, 0.05}, Point{0.2, 0.9}}) {
        Plot plot{"x", "y", {0.30, 0.40}, tall, true};
        plot.series = {marks_at({{0.35, 0.5 * (tall[0] + tall[1])}})};
        const Picture picture({"Chart", "Description", plot});
        const DrawnAxis x = picture.axis(0);
        const DrawnAxis y = picture.axis(1);
        EXPECT_NEAR(-y.per_unit / x.per_unit, 1.0, 1e-3);
        const pugi::xml_node frame = picture.all("rect", "frame")[0];
        const double left = number(frame, "x");
        const double right = left + number(frame, "width");
        EXPECT_NEAR(0.5 * (x.value(left) + x.value(right)), 0.35, x.per_unit * half_a_place);
        EXPECT_LE(x.value(left), 0.30 + 1e-9 + x.per_unit * half_a_place);
        EXPECT_NEAR(number(picture.all("circle", "solid")[0], "cx"), 0.5 * (left + right),
                    half_a_place);
        EXPECT_LE(number(frame, "height"), 400.0);
    }
}

TEST(Pictures, LinesPauseWhereThereIsNoValueAndAreasClose) {
    const double none = std::numeric_limits<double>::quiet_NaN();
    Plot plot{"x", "y", {0.0, 10.0}, {0.0, 1.0}};
    plot.series.push_back({"line",
                           {{0.0, 0.0},
                            {2.0, 0.5},
                            {3.0, none},
                            {4.0, 1.0},
                            {none, 0.5},
                            {6.0, 0.0},
                            {6.001, 0.0},
                            {8.0, 0.25}}});
    Series area{"area", {{1.0, 0.0}, {2.0, 0.5}, {2.001, 0.5}, {3.0, 0.0}}};
    area.shape = Series::Shape::closed;
    plot.series.push_back(area);
    const Picture picture({"Chart", "Description", plot});
    const std::string line = picture.all("path", "curve").at(0).attribute("d").value();
    EXPECT_EQ(std::count(line.begin(), line.end(), 'M'), 3);
    EXPECT_EQ(std::count(line.begin(), line.end(), 'L'), 2) << "a step of no length is left out";
    EXPECT_EQ(line.find('Z'), std::string::npos);
    const auto points = picture.path("curve");
    ASSERT_EQ(points.size(), 5U);
    EXPECT_NEAR(points[1][0], 2.0, 1e-3);
    EXPECT_NEAR(points[1][1], 0.5, 1e-3);
    EXPECT_NEAR(points[4][1], 0.25, 1e-3);
    const std::string closed = picture.all("path", "area").at(0).attribute("d").value();
    EXPECT_EQ(closed.back(), 'Z');
    EXPECT_EQ(picture.path("area").size(), 4U) << "an area keeps all its corners";
}

TEST(Pictures, ArrowsPointFromTheFirstToTheSecond) {
    Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
    Series arrows{"moves", {{0.2, 0.3}, {0.8, 0.6}, {0.5, 0.5}, {0.5001, 0.5}}, Ink::accent};
    arrows.shape = Series::Shape::arrows;
    plot.series.push_back(arrows);
    const Picture picture({"Chart", "Description", plot});
    const std::vector<DrawnLine> drawn = picture.lines("ink-accent");
    ASSERT_EQ(drawn.size(), 4U) << "an arrow of no length has no head";
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    const DrawnLine& shaft = drawn[0];
    EXPECT_NEAR(x.value(shaft.x1), 0.2, 1e-3);
    EXPECT_NEAR(y.value(shaft.y1), 0.3, 1e-3);
    EXPECT_NEAR(x.value(shaft.x2), 0.8, 1e-3);
    EXPECT_NEAR(y.value(shaft.y2), 0.6, 1e-3);
    const double ux = (shaft.x2 - shaft.x1) / shaft.length();
    const double uy = (shaft.y2 - shaft.y1) / shaft.length();
    std::vector<double> sides;
    for (const std::size_t k : {1U, 2U}) {
        const DrawnLine& head = drawn[k];
        EXPECT_NEAR(std::hypot(head.x1 - shaft.x2, head.y1 - shaft.y2), 0.0, half_a_place)
            << "the head is at the end";
        const double dx = head.x2 - head.x1;
        const double dy = head.y2 - head.y1;
        // 7 units back along the shaft, half as far to the side.
        EXPECT_NEAR(dx * ux + dy * uy, -7.0, 2 * half_a_place);
        sides.push_back(dy * ux - dx * uy);
    }
    EXPECT_NEAR(std::abs(sides[0]), 3.5, 2 * half_a_place);
    EXPECT_NEAR(sides[0] + sides[1], 0.0, 2 * half_a_place) << "one on each side";
}

TEST(Pictures, CellsOfADensityLieInTheirRowsAndColumns) {
    Plot plot{"x", "y", {0.0, 4.0}, {0.0, 3.0}};
    // Three columns, two rows from the lowest y.
    plot.densities.push_back(
        {"people", {1.0, 0.5}, {0.5, 1.0}, 3, {1.0, 0.01, 0.5, 0.0, 0.25, 0.02}});
    const Picture picture({"Chart", "Description", plot});
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    const auto cells = picture.all("rect", "density");
    ASSERT_EQ(cells.size(), 3U) << "up to a fiftieth of the densest isn't shown";
    const std::vector<Point> corners = {{1.0, 0.5}, {2.0, 0.5}, {1.5, 1.5}};
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double left = number(cells[i], "x");
        const double bottom = number(cells[i], "y") + number(cells[i], "height");
        EXPECT_NEAR(x.value(left), corners[i][0], 1e-3);
        EXPECT_NEAR(y.value(bottom), corners[i][1], 1e-3);
        EXPECT_NEAR(x.value(left + number(cells[i], "width")), corners[i][0] + 0.5, 1e-3);
        EXPECT_NEAR(y.value(number(cells[i], "y")), corners[i][1] + 1.0, 1e-3);
    }
    EXPECT_GT(number(cells[0], "opacity"), number(cells[1], "opacity"));
    EXPECT_GT(number(cells[1], "opacity"), number(cells[2], "opacity"));
    EXPECT_EQ(picture.key(), std::vector<std::string>{"people"});
}

/// Where words stand, as wide as a usual face has them: half of 14 units a character.
DrawnLine box_of(const pugi::xml_node& words) {
    const double x = number(words, "x");
    const double y = number(words, "y");
    return {x, y - 10.0,
            x + 0.5 * 14.0 * static_cast<double>(std::string(words.text().get()).size()), y};
}

bool meet(const DrawnLine& a, const DrawnLine& b) {
    return a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2;
}

TEST(Pictures, NamesStandBesideTheirPointsAndOnNothingElse) {
    Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
    Series series = marks_at({{0.5, 0.5},
                              {0.52, 0.5},
                              {0.98, 0.5},
                              {0.02, 0.98},
                              {0.5, 0.02},
                              {0.5, 0.47},
                              {0.48, 0.5},
                              {0.5, 0.53},
                              {1.5, 0.5}});
    series.notes = {"one", "two", "three", "four", "five", "six", "seven", "eight", "nowhere"};
    plot.series.push_back(series);
    const Picture picture({"Chart", "Description", plot});
    const auto discs = picture.all("circle", "solid");
    const auto notes = picture.all("text", "note");
    ASSERT_EQ(discs.size(), 8U);
    ASSERT_EQ(notes.size(), 8U);
    const pugi::xml_node frame = picture.all("rect", "frame")[0];
    const DrawnLine inside = {number(frame, "x"), number(frame, "y"),
                              number(frame, "x") + number(frame, "width"),
                              number(frame, "y") + number(frame, "height")};
    for (std::size_t i = 0; i < notes.size(); ++i) {
        EXPECT_EQ(series.notes[i], notes[i].text().get());
        const DrawnLine box = box_of(notes[i]);
        EXPECT_GE(box.x1, inside.x1) << series.notes[i];
        EXPECT_LE(box.x2, inside.x2) << series.notes[i];
        EXPECT_GE(box.y1, inside.y1) << series.notes[i];
        EXPECT_LE(box.y2, inside.y2) << series.notes[i];
        for (std::size_t k = 0; k < discs.size(); ++k) {
            const double x = number(discs[k], "cx");
            const double y = number(discs[k], "cy");
            EXPECT_FALSE(meet(box, {x - 4.0, y - 4.0, x + 4.0, y + 4.0}))
                << series.notes[i] << " on the mark of " << series.notes[k];
            EXPECT_FALSE(k != i && meet(box, box_of(notes[k])))
                << series.notes[i] << " on " << series.notes[k];
        }
        // No further off than the longest leads are.
        const double x = number(discs[i], "cx");
        const double y = number(discs[i], "cy");
        const double dx = std::max({box.x1 - x, x - box.x2, 0.0});
        const double dy = std::max({box.y1 - y, y - box.y2, 0.0});
        EXPECT_LE(std::hypot(dx, dy), 70.0) << series.notes[i];
    }
    // A point with nothing near it has its name at its right, without a line.
    EXPECT_EQ(picture.key(), std::vector<std::string>{"marks"});
    for (const DrawnLine& lead : picture.lines("lead")) {
        EXPECT_TRUE(std::any_of(discs.begin(), discs.end(), [&](const pugi::xml_node& disc) {
            return std::hypot(number(disc, "cx") - lead.x1, number(disc, "cy") - lead.y1) < 0.05;
        })) << "a lead begins at its point";
        EXPECT_LE(lead.length(), 70.0);
    }
}

TEST(Pictures, ALonelyPointHasItsNameAtItsRightAndOneAtTheEdgeAtItsLeft) {
    for (const double x : {0.3, 0.99}) {
        Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
        Series series = marks_at({{x, 0.5}});
        series.notes = {"name"};
        plot.series.push_back(series);
        const Picture picture({"Chart", "Description", plot});
        const pugi::xml_node disc = picture.all("circle", "solid").at(0);
        const DrawnLine box = box_of(picture.words("name"));
        const double at = number(disc, "cx");
        EXPECT_NEAR(0.5 * (box.y1 + box.y2), number(disc, "cy"), 4.0) << "on a level";
        if (x < 0.5) {
            EXPECT_GT(box.x1, at + 4.0);
            EXPECT_LT(box.x1, at + 15.0);
        } else {
            EXPECT_LT(box.x2, at - 4.0);
            EXPECT_GT(box.x2, at - 30.0);
        }
        EXPECT_TRUE(picture.lines("lead").empty());
    }
}

TEST(Pictures, NamesWithoutRoomAreToldBelow) {
    Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
    Series series = marks_at({{0.5, 0.5}, {0.4, 0.4}});
    series.notes = {std::string(90, 'w'), std::string(80, 'v')};
    plot.series.push_back(series);
    const Picture picture({"Chart", "Description", plot});
    EXPECT_TRUE(picture.all("text", "note").empty());
    const std::vector<std::string> key = {
        "marks", "Without a name for want of room: " + series.notes[0] + ", " + series.notes[1]};
    EXPECT_EQ(picture.key(), key);
}

TEST(Pictures, EachMarkIsDrawnAboutItsPoint) {
    for (const Mark mark : {Mark::dot, Mark::disc, Mark::ring, Mark::square, Mark::diamond,
                            Mark::triangle, Mark::cross}) {
        Plot plot{"x", "y", {0.0, 1.0}, {0.0, 1.0}};
        plot.series.push_back(marks_at({{0.25, 0.75}}, mark));
        const Picture picture({"Chart", "Description", plot});
        const double x = (0.25 - picture.axis(0).from) / picture.axis(0).per_unit;
        const double y = (0.75 - picture.axis(1).from) / picture.axis(1).per_unit;
        std::vector<double> xs;
        std::vector<double> ys;
        for (const pugi::xml_node& circle : picture.all("circle", "")) {
            xs.push_back(number(circle, "cx"));
            ys.push_back(number(circle, "cy"));
        }
        for (const DrawnLine& line : picture.lines("ink-text")) {
            xs.insert(xs.end(), {line.x1, line.x2});
            ys.insert(ys.end(), {line.y1, line.y2});
        }
        for (const pugi::xml_node& polygon : picture.all("polygon", "")) {
            std::string text = polygon.attribute("points").value();
            std::replace(text.begin(), text.end(), ',', ' ');
            std::istringstream numbers(text);
            for (double px = 0.0, py = 0.0; numbers >> px >> py;) {
                xs.push_back(px);
                ys.push_back(py);
            }
        }
        ASSERT_FALSE(xs.empty()) << static_cast<int>(mark);
        const auto [left, right] = std::minmax_element(xs.begin(), xs.end());
        const auto [top, bottom] = std::minmax_element(ys.begin(), ys.end());
        EXPECT_NEAR(0.5 * (*left + *right), x, 0.1) << static_cast<int>(mark);
        EXPECT_NEAR(0.5 * (*top + *bottom), y, 0.6) << static_cast<int>(mark);
        EXPECT_LE(*right - *left, 14.0) << static_cast<int>(mark);
    }
}

}  // namespace
}  // namespace samelight::report::in_pictures
