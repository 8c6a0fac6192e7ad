// samelight check with a correction that samelight meter fit has kept, of each kind of noise.
#include <cmath>
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

// Of stated noise the degrees of freedom are infinite, which a check must take as it takes very many: JCGM 100:2008, G.3.2.
TEST(CorrectedCheck, ACorrectionOfStatedNoise) {
    const Scratch scratch;
    const std::string kept = (scratch.path() / "kept.json").string();
    const Said fit = run_in_demo("meter fit client-set-readings.csv --noise 0.001,0.0005 --write " +
                                 quoted(kept));
    ASSERT_EQ(fit.exit_code, 0) << fit.err;
    json correction = json::parse(slurp(kept));
    ASSERT_EQ(correction["degrees_of_freedom"], "infinite");
    correction["degrees_of_freedom"] = 1e12;
    const std::string many = scratch.file("many.json", correction.dump());
    const auto answer_with = [](const std::string& file) {
        return json_in_demo("check proof/client-set-proof.csv --correction " +
                            quoted(file))["now"]["chosen"]["gate"];
    };
    const json infinite = answer_with(kept);
    const json large = answer_with(many);
    for (const char* figure : {"largest_de00", "standard_uncertainty_de00"}) {
        ASSERT_TRUE(infinite[figure].is_number()) << infinite;
        EXPECT_NEAR(infinite[figure].get<double>(), large[figure].get<double>(), 1e-5) << figure;
    }
    EXPECT_EQ(infinite["verdict"], large["verdict"]);
}

// A correction of one white holds near it alone. The first reading outside its disc is told of, once. Second route: x, y by their definition (CIE
// 15:2018, 7.1) from the file as it stands.
TEST(CorrectedCheck, AReadingThatACorrectionDoesNotHoldForIsToldOf) {
    const Scratch scratch;
    const std::string kept = (scratch.path() / "white.json").string();
    const Said fit = run_in_demo("meter fit client-set-readings.csv --method white-only --write " +
                                 quoted(kept));
    ASSERT_EQ(fit.exit_code, 0) << fit.err;
    const json near = json::parse(slurp(kept))["valid_near"];
    const auto distance = [&near](double x, double y) {
        return std::hypot(x - near["x"].get<double>(), y - near["y"].get<double>());
    };
    // Rows are patch,r,g,b,bits,range,X,Y,Z and more, behind a remark and the headings.
    const std::vector<std::string> rows =
        rows_of(slurp(SAMELIGHT_DATA "/demo/proof/client-set-proof.csv"));
    double first_outside = 0.0;
    for (std::size_t i = 2; i < rows.size() && first_outside == 0.0; ++i) {
        std::istringstream row(rows[i]);
        std::vector<std::string> cells;
        for (std::string cell; std::getline(row, cell, ',');) {
            cells.push_back(cell);
        }
        const double X = std::stod(cells.at(6));
        const double Y = std::stod(cells.at(7));
        const double sum = X + Y + std::stod(cells.at(8));
        const double off = distance(X / sum, Y / sum);
        first_outside = off > near["radius"].get<double>() ? off : 0.0;
    }
    ASSERT_GT(first_outside, 0.0);
    const json warnings =
        json_in_demo("check proof/client-set-proof.csv --correction " + quoted(kept))["warnings"];
    std::vector<double> told;
    for (const json& warning : warnings) {
        if (warning["code"] == "outside_validity") {
            told.push_back(warning["facts"]["distance_xy"].get<double>());
        }
    }
    ASSERT_EQ(told.size(), 1U) << warnings;
    EXPECT_NEAR(told[0], first_outside, 1e-9);
}

}  // namespace
}  // namespace samelight::test
