#pragma once
// A report read back: its tables, figures, sentences and pictures by their ids, to be held against the numbers of the JSON.
#include <cmath>
#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "report/pictures.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"

namespace samelight::test {

using nlohmann::json;

/// Headings and rows of a table.
struct ReadTable {
    std::vector<std::string> headings;
    std::vector<std::vector<std::string>> rows;
    /// The row that is marked, or -1.
    int marked = -1;
    std::string about;
};

/// A page's body.
class ReportPage {
  public:
    explicit ReportPage(const std::string& page) : body_(body_of(page)) {}

    [[nodiscard]] bool has(const std::string& id) const { return bool(node(id)); }

    /// All words of a piece, without its markup.
    [[nodiscard]] std::string words(const std::string& id) const {
        const pugi::xml_node piece = node(id);
        EXPECT_TRUE(piece) << "no piece " << id;
        return words_of(piece);
    }
    /// Class of a piece: "verdict stop".
    [[nodiscard]] std::string classes(const std::string& id) const {
        return node(id).attribute("class").value();
    }
    /// A figure with what goes with it, by its label.
    [[nodiscard]] std::string figure(const std::string& id, const std::string& label) const {
        for (const pugi::xml_node& term : node(id).children("dt")) {
            if (label == term.text().get()) {
                return words_of(term.next_sibling("dd"));
            }
        }
        ADD_FAILURE() << "no figure " << label << " in " << id;
        return {};
    }
    [[nodiscard]] ReadTable table(const std::string& id) const {
        ReadTable table;
        const pugi::xml_node part = node(id).child("table");
        EXPECT_TRUE(part) << "no table " << id;
        for (const pugi::xml_node& cell : part.child("thead").child("tr").children("th")) {
            table.headings.push_back(words_of(cell));
        }
        for (const pugi::xml_node& row : part.child("tbody").children("tr")) {
            if (std::string(row.attribute("class").value()) == "marked") {
                table.marked = static_cast<int>(table.rows.size());
            }
            table.rows.emplace_back();
            for (const pugi::xml_node& cell : row.children("td")) {
                table.rows.back().push_back(words_of(cell));
            }
        }
        table.about = words_of(node(id + "-about"));
        return table;
    }
    [[nodiscard]] Picture picture(const std::string& id) const { return Picture(body_, id); }

  private:
    [[nodiscard]] pugi::xml_node node(const std::string& id) const {
        return body_->select_node(("//*[@id='" + id + "']").c_str()).node();
    }
    static std::string words_of(const pugi::xml_node& piece) {
        std::string words;
        for (const pugi::xpath_node& text : piece.select_nodes(".//text()")) {
            words += text.node().value();
        }
        const std::size_t begin = words.find_first_not_of(" \n");
        return begin == std::string::npos
                   ? ""
                   : words.substr(begin, words.find_last_not_of(" \n") + 1 - begin);
    }

    std::shared_ptr<pugi::xml_document> body_;
};

inline bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

inline double number(const json& value) { return value.get<double>(); }

/// A number of the JSON as it is to stand on a page.
inline std::string shown(const json& number, int decimals, const std::string& unit = "") {
    return to_text(number.get<double>() + 0.0, decimals) + unit;
}

/// The same with its sign; nothing is "0.0000".
inline std::string moved(const json& number, int decimals, const std::string& unit = "") {
    std::string text = shown(number, decimals);
    if (text[0] == '-' && text.find_first_of("123456789") == std::string::npos) {
        text.erase(0, 1);
    }
    return (text[0] == '-' || text.find_first_of("123456789") == std::string::npos ? "" : "+") +
           text + unit;
}

inline void expect_row(const std::vector<std::string>& row,
                       const std::vector<std::string>& expected) {
    EXPECT_EQ(row, expected);
}

/// The marks lie at these values, one each, to a fiftieth of a unit as drawn.
inline void expect_marks(const Picture& picture, const std::vector<pugi::xml_node>& marks,
                         const std::vector<report::Point>& values) {
    ASSERT_EQ(marks.size(), values.size()) << picture.title();
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    for (std::size_t i = 0; i < values.size(); ++i) {
        EXPECT_NEAR(x.value(Picture::number(marks[i], "cx")), values[i][0],
                    0.02 * std::abs(x.per_unit))
            << picture.title();
        EXPECT_NEAR(y.value(Picture::number(marks[i], "cy")), values[i][1],
                    0.02 * std::abs(y.per_unit))
            << picture.title();
    }
}

}  // namespace samelight::test
