#pragma once
// What tests of the meter commands share: a meter's file, an answer as JSON, a page that fits.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/numeric/text.hpp"
#include "tools/run.hpp"

namespace samelight::test {

/// CIE 1931's rows, 3 nm too far to the red, in an order and on scales of their own.
inline std::string rows_in_order(const std::array<int, 3>& order,
                                 const std::array<double, 3>& scale) {
    std::istringstream rows(run("observer cie1931-2deg").out);
    std::string csv = "wavelength_nm,a,b,c\n";
    for (std::string line; std::getline(rows, line);) {
        double nm = 0.0;
        std::array<double, 3> v{};
        if (std::sscanf(line.c_str(), "%lf,%lf,%lf,%lf", &nm, &v[0], &v[1], &v[2]) == 4) {
            csv += to_text(nm + 3.0);
            for (std::size_t k = 0; k < 3; ++k) {
                csv += "," + to_text(scale.at(k) * v.at(static_cast<std::size_t>(order.at(k))));
            }
            csv += "\n";
        }
    }
    return csv;
}

/// Lines of at most 100 characters, and no number that says nothing.
inline void expect_narrow(const std::string& page) {
    std::istringstream text(page);
    for (std::string line; std::getline(text, line);) {
        const auto characters = std::count_if(line.begin(), line.end(), [](char c) {
            return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        });
        EXPECT_LE(characters, 100) << line;
    }
    for (const char* word : {" nan", "-nan", " inf ", "within 0.0000"}) {
        EXPECT_EQ(page.find(word), std::string::npos) << word << "\n" << page;
    }
}

inline nlohmann::json answer_of(const std::string& arguments) {
    const Said said = run(arguments + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return nlohmann::json::parse(said.out);
}

}  // namespace samelight::test
