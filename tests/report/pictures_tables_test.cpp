// Bars are as long, and cells shaded as deep, as their values are, each with its figure and name.
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <pugixml.hpp>

#include "report/pictures.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report::in_pictures_tables {
namespace {

using samelight::test::Picture;

double number(const pugi::xml_node& node, const char* name) { return Picture::number(node, name); }

TEST(Pictures, BarsAreAsLongAsTheirValues) {
    const double none = std::numeric_limits<double>::quiet_NaN();
    const Bars bars{{"before", "after"},
                    {{"first", {4.0, 1.0}, {"4.0", "1.0"}},
                     {"second", {2.0, none}, {"2.0", ""}},
                     {"third", {-1.0, 0.0}, {"-1.0", "0.0"}}}};
    const Picture picture({"Bars", "Description", bars});
    const auto drawn = picture.all("rect", "bar");
    ASSERT_EQ(drawn.size(), 6U);
    std::vector<double> lengths;
    for (const pugi::xml_node& bar : drawn) {
        lengths.push_back(number(bar, "width"));
        EXPECT_EQ(number(bar, "x"), 0.0);
    }
    EXPECT_NEAR(lengths[1] / lengths[0], 1.0 / 4.0, 1e-3);
    EXPECT_NEAR(lengths[2] / lengths[0], 2.0 / 4.0, 1e-3);
    for (const std::size_t k : {3U, 4U, 5U}) {
        EXPECT_EQ(lengths[k], 1.0) << "nothing, or less, is a sliver";
    }
    // The longest and its figure fit the picture, and leave no more than a figure's room unused.
    const pugi::xml_node figure = picture.words("4.0");
    EXPECT_GT(number(figure, "x"), lengths[0]);
    EXPECT_LE(number(figure, "x") + 3 * 7.0, picture.width());
    EXPECT_GT(lengths[0], 0.85 * picture.width());
    // A row's words stand above its bars, and rows one below the other.
    const std::vector<double> tops = {number(drawn[0], "y"), number(drawn[1], "y"),
                                      number(drawn[2], "y")};
    EXPECT_LT(number(picture.words("first"), "y"), tops[0]);
    EXPECT_LT(tops[0] + number(drawn[0], "height"), tops[1]);
    EXPECT_GT(number(picture.words("second"), "y"), tops[1] + number(drawn[1], "height"));
    EXPECT_LT(number(picture.words("second"), "y"), tops[2]);
    EXPECT_LE(number(drawn[5], "y") + number(drawn[5], "height"), picture.height());
    EXPECT_EQ(picture.key(), (std::vector<std::string>{"before", "after"}));
    EXPECT_EQ(picture.all("rect", "second-bar").size(), 3U);
}

TEST(Pictures, CellsOfAMatrixAreShadedByTheirValues) {
    const double none = std::numeric_limits<double>::quiet_NaN();
    const Matrix matrix{{"alpha", "beta"},
                        {{none, ""}, {4.0, "4.0"}, {1.0, "1.0"}, {-2.0, "-2.0"}}};
    const Picture picture({"Matrix", "Description", matrix});
    const auto cells = picture.all("rect", "cell");
    ASSERT_EQ(cells.size(), 3U);
    const auto shade = [&](std::size_t k) { return number(cells[k], "fill-opacity"); };
    EXPECT_NEAR((shade(1) - shade(2)) / (shade(0) - shade(2)), 1.0 / 4.0, 0.02);
    EXPECT_GT(shade(2), 0.0);
    // Row by row: the first cell stands in row 1, column 2, the second in row 2, column 1.
    EXPECT_GT(number(cells[0], "x"), number(cells[1], "x"));
    EXPECT_LT(number(cells[0], "y"), number(cells[1], "y"));
    EXPECT_EQ(number(cells[0], "x"), number(cells[2], "x"));
    EXPECT_EQ(number(cells[1], "y"), number(cells[2], "y"));
    for (const auto& [figure, k] : {std::pair{"4.0", 0U}, {"1.0", 1U}, {"-2.0", 2U}}) {
        const pugi::xml_node words = picture.words(figure);
        EXPECT_NEAR(number(words, "x"), number(cells[k], "x") + 0.5 * number(cells[k], "width"),
                    0.05);
        EXPECT_GT(number(words, "y"), number(cells[k], "y"));
        EXPECT_LT(number(words, "y"), number(cells[k], "y") + number(cells[k], "height"));
    }
    EXPECT_EQ(picture.key(), (std::vector<std::string>{"1: alpha", "2: beta"}));
    EXPECT_GE(picture.height(), number(cells[2], "y") + number(cells[2], "height"));
}

TEST(Pictures, AMatrixOfManyKeepsToThePictureAndLeavesOutFiguresWithoutRoom) {
    Matrix matrix;
    for (std::size_t i = 0; i < 20; ++i) {
        matrix.names.push_back("display " + std::to_string(i));
        for (std::size_t k = 0; k < 20; ++k) {
            matrix.cells.push_back({1.0, "12.34"});
        }
    }
    const Picture picture({"Matrix", "Description", matrix});
    const auto cells = picture.all("rect", "cell");
    ASSERT_EQ(cells.size(), 400U);
    EXPECT_LE(number(cells.back(), "x") + number(cells.back(), "width"), picture.width());
    for (const pugi::xml_node& words : picture.all("text", "")) {
        EXPECT_STRNE(words.text().get(), "12.34");
    }
}

}  // namespace
}  // namespace samelight::report::in_pictures_tables
