// `samelight white` where files are of different steps, only white can be read, or a column was misread.

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "display/coarse_files.hpp"
#include "numeric/test_random.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "tools/run.hpp"

namespace samelight {
namespace {

using nlohmann::json;
using test::at_step;
using test::Coarse;
using test::run;

const std::string tube = " --reference crt@0.3127,0.3290 ";

using Columns = std::vector<std::pair<std::string, Spectrum>>;

/// A plain file of these columns, all on the wavelengths of the first.
std::string csv(const Columns& columns) {
    std::string text = "wavelength_nm";
    for (const auto& [name, light] : columns) {
        text += "," + name;
    }
    text += "\n";
    const Spectrum& first = columns.front().second;
    for (std::size_t i = 0; i < first.size(); ++i) {
        text += to_text(first.wavelengths_nm()[i]);
        for (const auto& [name, light] : columns) {
            text += "," + to_text(light.values()[i]);
        }
        text += "\n";
    }
    return text;
}

Columns columns_of(const PanelSpectra& spectra) {
    Columns columns = {{"red", spectra.red}, {"green", spectra.green}, {"blue", spectra.blue}};
    if (spectra.white) {
        columns.emplace_back("white", *spectra.white);
    }
    return columns;
}

json panel_json(const std::string& arguments) {
    const test::Said said = run("white " + arguments + " --people 64 --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out).at("panels").at(0);
}

bool has(const json& panel, const std::string& code) {
    for (const json& warning : panel["warnings"]) {
        if (warning["code"] == code) {
            return true;
        }
    }
    return false;
}

// The white that a set stands at, at other steps than its panel's file: of a built-in type in the place of a measurement, and of the demo's
// own files, each as it was exported.
TEST(WhiteEdges, AWhiteAtAnotherStepIsOfItsDisplay) {
    const test::Scratch scratch;
    for (const char* type : {"oled-rgb", "lcd-narrow-red", "lcd-ccfl"}) {
        const PanelSpectra fine = test::fine_spectra(generic_model(type));
        for (const int panel_step : {1, 4, 10}) {
            const std::string panel = scratch.file(
                "panel.csv", csv(columns_of(at_step(fine, panel_step, Coarse::thinned))));
            for (const int white_step : {1, 2, 5, 10}) {
                const std::string now = scratch.file(
                    "now.csv",
                    csv({{"white", at_step(test::some_white(fine), white_step, Coarse::thinned)}}));
                const json answer = panel_json(panel + tube + "--now " + now);
                EXPECT_FALSE(has(answer, "now_of_another_display"))
                    << type << " by " << panel_step << ", white by " << white_step;
            }
        }
    }
    for (const char* display : {"grading-monitor", "client-set", "desk-display", "foyer-display"}) {
        const std::string file = std::string(SAMELIGHT_DATA) + "/demo/" + display + ".csv";
        const io::SpectralFile read = io::read_spectral_csv(file);
        const Spectrum& white = read.find("white")->light;
        for (const std::size_t every : {1U, 2U, 5U}) {
            std::vector<double> nm;
            std::vector<double> values;
            for (std::size_t i = 0; i < white.size(); i += every) {
                nm.push_back(white.wavelengths_nm()[i]);
                values.push_back(white.values()[i]);
            }
            const double step = nm[1] - nm[0];
            if (step > 10.5) {
                continue;
            }
            const std::string now = scratch.file("now.csv", csv({{"white", {nm, values}}}));
            const json answer = panel_json(test::quoted(file) + tube + "--now " + now);
            EXPECT_FALSE(has(answer, "now_of_another_display")) << display << " by " << step;
        }
        for (const char* other :
             {"grading-monitor", "client-set", "desk-display", "foyer-display"}) {
            if (std::string(other) == display) {
                continue;
            }
            const json answer =
                panel_json(test::quoted(file) + tube + "--now " +
                           test::quoted(std::string(SAMELIGHT_DATA) + "/demo/" + other + ".csv"));
            EXPECT_TRUE(has(answer, "now_of_another_display")) << display << " " << other;
            EXPECT_EQ(answer["advice"]["verdict"], "LEAVE");
        }
    }
}

/// A unit of a type, a quarter of the way into every plausible range, and its white set by an instrument without faults.
struct OnSite {
    const GenericModel& model;
    PanelSpectra spectra;
    Panel unit;

    explicit OnSite(const char* type)
        : model(generic_model(type)),
          spectra(test::fine_spectra(model, values())),
          unit("unit", spectra) {}

    [[nodiscard]] std::vector<double> values() const {
        std::vector<double> result;
        for (const ModelParameter& p : model.parameters()) {
            result.push_back(p.low + 0.25 * (p.high - p.low));
        }
        return result;
    }
    /// The file of a reading of the white set to x, y: by 4 nm, with noise of a two-thousandth of the peak.
    [[nodiscard]] std::string reading(const Chromaticity<Cie1931_2deg>& xy,
                                      std::uint64_t seed) const {
        ReadingInstrument instrument;
        instrument.step_nm = 4.0;
        instrument.bandwidth_nm = 4.0;
        instrument.noise = 5e-4;
        return csv({{"white",
                     read_by(instrument, Spectrum(Sampling{}, set_white(unit, xy).light), seed)}});
    }
};

// The README's route on site: only white can be measured, and the type is known. The target, what is left to go, and after two passes it
// is done, at the white that the unit's own spectra would have given.
TEST(WhiteEdges, OnSiteWithAWhiteAndATypeTwoPassesLand) {
    const test::Scratch scratch;
    const Panel crt = generic_panel(generic_model("crt"));
    const Chromaticity<Cie1931_2deg> d65(0.3127, 0.3290);
    for (const char* type :
         {"oled-rgb", "oled-white", "oled-quantum-dot", "lcd-white-led", "lcd-narrow-red"}) {
        const OnSite site(type);
        const Target right =
            white_target(site.unit, display_reference(crt, d65), standard_observer<Cie2015_2deg>());
        Chromaticity<Cie1931_2deg> white = d65;
        json answer;
        for (int pass = 0; pass < 3; ++pass) {
            const std::string now =
                scratch.file("now.csv", site.reading(white, static_cast<std::uint64_t>(pass + 1)));
            answer = panel_json(type + tube + "--now " + now);
            EXPECT_FALSE(has(answer, "now_of_another_display")) << type << " pass " << pass;
            const json& target = answer["targets"][0];
            ASSERT_TRUE(target.contains("left_to_go")) << target.dump();
            if (pass < 2) {
                white = {target["x"].get<double>(), target["y"].get<double>()};
            }
            if (pass == 0 && std::string(type) == "oled-rgb") {
                EXPECT_EQ(answer["advice"]["verdict"], "MOVE");
            }
        }
        EXPECT_TRUE(answer["targets"][0]["left_to_go"]["matched"].get<bool>()) << type;
        EXPECT_EQ(answer["advice"]["verdict"], "LEAVE") << type;
        std::printf("%s: set to %.4f %.4f, by the unit's own spectra %.4f %.4f\n", type, white.x(),
                    white.y(), right.xy.x(), right.xy.y());
        EXPECT_NEAR(white.x(), right.xy.x(), 0.0008) << type;
        EXPECT_NEAR(white.y(), right.xy.y(), 0.0008) << type;
    }
}

// Red read 30 % low: the white lies in the span of the columns, so there is no white emitter; red is named, with how much, and the
// verdict is to read it again. The target doesn't rest on a column's amount.
TEST(WhiteEdges, AMisreadColumnIsNamedAndNotMovedBy) {
    const test::Scratch scratch;
    PanelSpectra spectra = test::fine_spectra(generic_model("oled-rgb"));
    const auto whole = [&](const Spectrum& white) {
        PanelSpectra with = spectra;
        with.white = white;
        return with;
    };
    std::vector<double> sum(401);
    for (std::size_t i = 0; i < 401; ++i) {
        sum[i] = spectra.red.values()[i] + spectra.green.values()[i] + spectra.blue.values()[i];
    }
    const Spectrum white(Sampling{}, sum);
    const json right = panel_json(scratch.file("right.csv", csv(columns_of(whole(white)))) + tube);
    EXPECT_EQ(right["advice"]["verdict"], "MOVE");
    spectra.red = spectra.red.scaled(0.7);
    const std::string file = scratch.file("low.csv", csv(columns_of(whole(white))));
    const json low = panel_json(file + tube);
    EXPECT_EQ(low["advice"]["verdict"], "LEAVE");
    EXPECT_TRUE(has(low, "column_misread")) << low["warnings"].dump();
    EXPECT_FALSE(has(low, "white_is_base"));
    EXPECT_NEAR(low["red_green_blue_against_white"]["amounts_in_white"]["red"], 1.0 / 0.7, 1e-6);
    EXPECT_NEAR(low["targets"][0]["x"], right["targets"][0]["x"].get<double>(), 1e-9);
    EXPECT_NEAR(low["targets"][0]["luminance_ratio"],
                right["targets"][0]["luminance_ratio"].get<double>(), 1e-9);
    const std::string page = run("white " + file + tube + "--people 64").out;
    EXPECT_TRUE(test::page_says(page, "red was read 30 % too low beside the others")) << page;
    EXPECT_TRUE(test::page_says(page, "LEAVE: red was misread, it seems")) << page;
    // A limiter dims all three alike: said, and no reason not to move.
    spectra.red = spectra.red.scaled(1.0 / 0.7);
    const json limited =
        panel_json(scratch.file("limited.csv", csv(columns_of(whole(white.scaled(0.6))))) + tube);
    EXPECT_TRUE(has(limited, "white_of_other_level")) << limited["warnings"].dump();
    EXPECT_EQ(limited["advice"]["verdict"], "MOVE");
}

// Black's noise has no share outside the range, whatever its sums come to.
TEST(WhiteEdges, NoiseOfBlackIsNoLightOutside) {
    const test::Scratch scratch;
    const PanelSpectra fine = test::fine_spectra(generic_model("oled-rgb"));
    test::Random random(2);
    std::vector<double> nm;
    std::map<std::string, std::vector<double>> values;
    for (int i = 360; i <= 800; ++i) {
        nm.push_back(i);
        values["black"].push_back(1e-5 * random.normal());
        for (const auto& [name, light] : columns_of(fine)) {
            values[name].push_back(light.at(i));
        }
    }
    Columns columns;
    for (const char* name : {"red", "green", "blue", "black"}) {
        columns.emplace_back(name, Spectrum(nm, values[name]));
    }
    const json answer = panel_json(scratch.file("dark.csv", csv(columns)) + tube);
    EXPECT_FALSE(has(answer, "light_outside_range")) << answer["warnings"].dump();
}

}  // namespace
}  // namespace samelight
