#pragma once
// Pictures read back from a page as somebody with a ruler would: places of marks are turned into values by the figures along the axes.
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <pugixml.hpp>

#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::test {

/// One axis: value = from + per_unit * place, by its first and last figure.
struct DrawnAxis {
    double from = 0.0, per_unit = 0.0;
    std::vector<double> figures, places;

    [[nodiscard]] double value(double place) const { return from + per_unit * place; }
};

struct DrawnLine {
    double x1, y1, x2, y2;

    [[nodiscard]] double length() const { return std::hypot(x2 - x1, y2 - y1); }
};

/// What stands in a page's body, as XML, which a page of ours is there.
inline std::shared_ptr<pugi::xml_document> body_of(const std::string& page) {
    auto body = std::make_shared<pugi::xml_document>();
    const std::size_t begin = page.find("<main>");
    EXPECT_TRUE(body->load_string(page.substr(begin, page.find("</main>") + 7 - begin).c_str()));
    return body;
}

/// The picture of a chart, as html_of() draws it.
class Picture {
  public:
    explicit Picture(report::Chart chart) {
        report::Section section{"s", "Heading"};
        section.add("chart", report::Level::essential, std::move(chart));
        body_ = body_of(report::html_of({"Title", {section}}));
        figure_ = body_->select_node("//figure").node();
        svg_ = figure_.child("svg");
    }
    /// That of a page's body, by its id.
    Picture(const std::shared_ptr<pugi::xml_document>& body, const std::string& id) : body_(body) {
        figure_ = body_->select_node(("//figure[@id='" + id + "']").c_str()).node();
        svg_ = figure_.child("svg");
        EXPECT_TRUE(svg_) << "no picture " << id;
    }

    [[nodiscard]] std::string title() const { return svg_.child("title").text().get(); }
    [[nodiscard]] std::string description() const { return svg_.child("desc").text().get(); }
    [[nodiscard]] double width() const { return view()[2]; }
    [[nodiscard]] double height() const { return view()[3]; }

    /// Elements of a kind whose class holds the word.
    [[nodiscard]] std::vector<pugi::xml_node> all(const char* kind, const std::string& word) const {
        std::vector<pugi::xml_node> found;
        for (const pugi::xpath_node& node :
             svg_.select_nodes((std::string(".//") + kind).c_str())) {
            const std::string classes =
                " " + std::string(node.node().attribute("class").value()) + " ";
            if (word.empty() || classes.find(" " + word + " ") != std::string::npos) {
                found.push_back(node.node());
            }
        }
        return found;
    }
    [[nodiscard]] std::vector<DrawnLine> lines(const std::string& word) const {
        std::vector<DrawnLine> found;
        for (const pugi::xml_node& node : all("line", word)) {
            found.push_back(
                {number(node, "x1"), number(node, "y1"), number(node, "x2"), number(node, "y2")});
        }
        return found;
    }
    /// Words at a place, by what they say; fails where there are none.
    [[nodiscard]] pugi::xml_node words(const std::string& said) const {
        for (const pugi::xml_node& node : all("text", "")) {
            if (said == node.text().get()) {
                return node;
            }
        }
        ADD_FAILURE() << said << " isn't in the picture " << title();
        return {};
    }
    [[nodiscard]] std::vector<std::string> key() const {
        std::vector<std::string> found;
        for (const pugi::xpath_node& node : figure_.select_nodes(".//ul[@class='key']/li")) {
            std::string words;
            for (const pugi::xml_node& child : node.node().children()) {
                words += child.value();
            }
            found.push_back(words.substr(words.find_first_not_of(' ')));
        }
        return found;
    }

    /// 0: along x, 1: along y.
    [[nodiscard]] DrawnAxis axis(int which) const {
        DrawnAxis axis;
        for (const DrawnLine& line : lines("grid")) {
            const bool upright = line.x1 == line.x2;
            if (upright == (which == 0)) {
                axis.places.push_back(which == 0 ? line.x1 : line.y1);
            }
        }
        for (const pugi::xml_node& node : all("text", "")) {
            const std::string anchor = node.attribute("text-anchor").value();
            char* end = nullptr;
            const double figure = std::strtod(node.text().get(), &end);
            if (*end == '\0' && anchor == (which == 0 ? "middle" : "end")) {
                axis.figures.push_back(figure);
            }
        }
        EXPECT_EQ(axis.figures.size(), axis.places.size());
        EXPECT_GE(axis.figures.size(), 2U);
        if (axis.figures.size() < 2U || axis.figures.size() != axis.places.size()) {
            return axis;
        }
        axis.per_unit =
            (axis.figures.back() - axis.figures[0]) / (axis.places.back() - axis.places[0]);
        axis.from = axis.figures[0] - axis.per_unit * axis.places[0];
        return axis;
    }

    /// The points of a path, in values of the axes.
    [[nodiscard]] std::vector<report::Point> path(const std::string& word,
                                                  std::size_t which = 0) const {
        const DrawnAxis x = axis(0);
        const DrawnAxis y = axis(1);
        const std::vector<pugi::xml_node> paths = all("path", word);
        std::vector<report::Point> points;
        if (which >= paths.size()) {
            ADD_FAILURE() << "no path " << word << " " << which << " in " << title();
            return points;
        }
        std::string text = paths[which].attribute("d").value();
        for (char& c : text) {
            c = c == 'M' || c == 'L' || c == 'Z' ? ' ' : c;
        }
        std::istringstream numbers(text);
        for (double px = 0.0, py = 0.0; numbers >> px >> py;) {
            points.push_back({x.value(px), y.value(py)});
        }
        return points;
    }

    static double number(const pugi::xml_node& node, const char* name) {
        return node.attribute(name).as_double(std::nan(""));
    }

  private:
    [[nodiscard]] std::vector<double> view() const {
        std::istringstream numbers(svg_.attribute("viewBox").value());
        std::vector<double> found;
        for (double v = 0.0; numbers >> v;) {
            found.push_back(v);
        }
        found.resize(4);
        return found;
    }

    std::shared_ptr<pugi::xml_document> body_;
    pugi::xml_node figure_, svg_;
};

}  // namespace samelight::test
