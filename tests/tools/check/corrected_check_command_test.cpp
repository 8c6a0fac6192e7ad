// samelight check with a correction that samelight meter fit has kept, of each kind of noise.
#include <cmath>
#include <string>

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

}  // namespace
}  // namespace samelight::test
