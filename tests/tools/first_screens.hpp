#pragma once
// What tests of first screens and reports share: lines, widths, figures of the JSON on a page.
#include <algorithm>
#include <cstddef>
#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {

inline std::vector<std::string> rows_of(const std::string& page) {
    std::istringstream stream(page);
    std::vector<std::string> rows;
    for (std::string row; std::getline(stream, row);) {
        rows.push_back(row);
    }
    return rows;
}

inline std::size_t characters_of(const std::string& row) {
    return static_cast<std::size_t>(std::count_if(row.begin(), row.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

/// Runs the command in the folder of the demo, whose files then have short names wherever the tests are built.
inline Said run_in_demo(const std::string& asked) {
    return run(asked, "cd '" SAMELIGHT_DATA "/demo' &&");
}

/// A first screen: so many lines at most, none blank, none longer than 100 characters, the last of which says how to see more.
inline void expect_first_screen(const std::string& page, std::size_t most_lines) {
    const std::vector<std::string> rows = rows_of(page);
    EXPECT_LE(rows.size(), most_lines) << page;
    for (const std::string& row : rows) {
        EXPECT_LE(characters_of(row), 100U) << row;
        EXPECT_FALSE(row.empty()) << page;
    }
    ASSERT_FALSE(rows.empty());
    EXPECT_NE(rows.back().find("--details"), std::string::npos) << page;
}

inline std::string figure(double value, int decimals) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

/// What was asked with a report, which holds each of the figures as its own words, and pictures with titles.
inline std::string expect_report(const std::string& asked,
                                 const std::vector<std::string>& figures) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "report.html").string();
    const Said said =
        run_in_demo(asked + " --report " + quoted(file) + " --title 'Lantern Room <1>'");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out, run_in_demo(asked).out) << "a report changes nothing on the page";
    std::string page = slurp(file);
    EXPECT_NE(page.find("<h1>Lantern Room &lt;1&gt;</h1>"), std::string::npos);
    EXPECT_NE(page.find("<figure"), std::string::npos) << "no picture";
    EXPECT_EQ(page.find("<script"), std::string::npos);
    for (const std::string& words : figures) {
        EXPECT_TRUE(page.find(">" + words + "<") != std::string::npos ||
                    page.find(" " + words) != std::string::npos)
            << words << " isn't in the report of " << asked;
    }
    return page;
}

inline nlohmann::json json_in_demo(const std::string& asked) {
    const Said said = run_in_demo(asked + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return nlohmann::json::parse(said.out, nullptr, false);
}

}  // namespace samelight::test
