// What is said of a column besides its sampling, and that it reaches whoever opens a file by name.
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "numeric/facts.hpp"
#include "numeric/test_random.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/quality_flags.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "scratch_folder.hpp"
#include "spectral_files.hpp"

namespace samelight::io::test {
namespace {

namespace fs = std::filesystem;

/// Files in a folder of the test's own, gone afterwards.
class NamedFiles : public ScratchFolder {
  protected:
    [[nodiscard]] std::string file(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
        return (folder_ / name).string();
    }
};

double gaussian(double nm, double centre, double width) {
    const double t = (nm - centre) / width;
    return std::exp2(-4.0 * t * t);
}

/// An invented display, its columns times `scale`, each cut off at `ceiling`.
std::string display(double ceiling, const std::array<double, 4>& scale = {1.0, 1.0, 1.0, 1.0},
                    bool with_white = false) {
    std::string text =
        with_white ? "wavelength_nm,red,green,blue,white\n" : "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; ++nm) {
        const std::array<double, 3> light = {0.7 * gaussian(nm, 625.3, 25.0),
                                             0.6 * gaussian(nm, 532.7, 40.0),
                                             1.1 * gaussian(nm, 450.4, 22.0)};
        text += std::to_string(nm);
        for (std::size_t k = 0; k < 3; ++k) {
            text += "," + to_text(std::fmin(ceiling, light[k]) * scale[k]);
        }
        if (with_white) {
            text += "," + to_text(std::fmin(ceiling, light[0] + light[1] + light[2]) * scale[3]);
        }
        text += "\n";
    }
    return text;
}

const Warning* find(const std::vector<Warning>& warnings, const std::string& code) {
    const auto found = std::find_if(warnings.begin(), warnings.end(),
                                    [&](const Warning& warning) { return warning.code == code; });
    return found == warnings.end() ? nullptr : &*found;
}

TEST(QualityFlags, SayWhereAColumnWasCutOff) {
    const SpectralFile file = parse_spectral_csv(display(0.65), "file.csv");
    for (const LightColumn& column : file.lights) {
        const std::vector<Warning> flags = quality_flags(column);
        const Warning* clipped = find(flags, clipped_code);
        ASSERT_EQ(clipped != nullptr, column.name != "green") << column.name;
    }
    // Above 0.65 / 1.1 of its height a Gaussian of 22 nm is for 22 sqrt(log2(1.1 / 0.65)) = 19.2 nm: from 440.8 to 460.0.
    const Warning blue = quality_flags(*file.find("blue")).front();
    EXPECT_EQ(samelight::test::text_of(blue, "column"), "blue");
    EXPECT_EQ(samelight::test::numbers_of(blue, "from_nm"), std::vector<double>{441.0});
    EXPECT_EQ(samelight::test::numbers_of(blue, "to_nm"), std::vector<double>{460.0});
    EXPECT_EQ(samelight::test::numbers_of(blue, "samples"), std::vector<double>{20.0});
}

TEST_F(NamedFiles, CutOffAtTheTopAreDoubtedWhateverTheyAreOpenedFor) {
    EXPECT_STREQ(clipped_code, "clipped");
    const std::string panel = file("panel.csv", display(0.65));
    const NamedPanel opened = open_panel(panel);
    const Warning* clipped = find(opened.warnings, clipped_code);
    ASSERT_NE(clipped, nullptr);
    EXPECT_TRUE(opened.clipped) << "what verdicts go by";
    EXPECT_TRUE(open_reference(panel).clipped);
    EXPECT_TRUE(samelight::test::text_of(*clipped, "source").ends_with("panel.csv"));
    EXPECT_EQ(samelight::test::text_of(*clipped, "column"), "red");
    EXPECT_NE(find(open_reference(panel + "@0.3127,0.3290").reference.warnings, clipped_code),
              nullptr);
    EXPECT_NE(find(open_reference(panel).reference.warnings, clipped_code), nullptr);
    const std::string white = file("white.csv", display(0.65, {1, 1, 1, 1}, true));
    EXPECT_NE(find(open_light(white).warnings, clipped_code), nullptr);
    EXPECT_TRUE(open_light(white).clipped);
    EXPECT_NE(find(open_reference(white).reference.warnings, clipped_code), nullptr);
    const std::string whole = file("whole.csv", display(9.0));
    EXPECT_EQ(find(open_panel(whole).warnings, clipped_code), nullptr);
    EXPECT_FALSE(open_panel(whole).clipped);
    EXPECT_FALSE(open_reference(whole).clipped);
    EXPECT_EQ(find(open_reference(whole).reference.warnings, clipped_code), nullptr);
}

// The generic panels' columns, as files of every step and rounding have them: none is cut off.
TEST(QualityFlags, NoGenericPanelLooksCutOff) {
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        for (Eigen::Index k = 0; k < 4; ++k) {
            const Eigen::VectorXd light =
                k < 3 ? Eigen::VectorXd(panel.emitters().col(k)) : Eigen::VectorXd(panel.white());
            for (const int step : {1, 2, 4, 5, 10}) {
                for (const double rungs : {50.0, 99.0, 105.0, 999.0, 1047.0, 1e4, 1e6, 0.0}) {
                    std::vector<double> nm;
                    std::vector<double> values;
                    for (Eigen::Index i = step / 2; i < light.size(); i += step) {
                        nm.push_back(380.0 + static_cast<double>(i));
                        const double share = light[i] / light.maxCoeff();
                        values.push_back(rungs > 0.0 ? std::round(rungs * share) : share);
                    }
                    EXPECT_TRUE(flat_tops(Spectrum(nm, values)).empty())
                        << model.name() << " " << k << " by " << step << " in " << rungs;
                }
            }
        }
    }
}

TEST_F(NamedFiles, WithNoiseHaveNoLinesThatAreSampledTooCoarsely) {
    // Noise of 5 % of a dim blue's peak: its maxima are narrower than 1.5 steps.
    samelight::test::Random random(105);
    std::string text = "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; ++nm) {
        text += std::to_string(nm) + "," + to_text(gaussian(nm, 625.0, 25.0)) + "," +
                to_text(gaussian(nm, 530.0, 40.0)) + "," +
                to_text(0.02 * gaussian(nm, 450.0, 22.0) + 0.001 * random.normal()) + "\n";
    }
    const NamedPanel panel = open_panel(file("dim.csv", text));
    EXPECT_EQ(find(panel.warnings, "sampling_coarse"), nullptr);
    EXPECT_NE(find(panel.warnings, "noisy"), nullptr);
}

TEST_F(NamedFiles, WithColumnsInDifferentUnitsHaveNoScaleAndSaySo) {
    const SpectralFile read = parse_spectral_csv(display(9.0, {1.0, 1.0, 1e-12, 1.0}), "file.csv");
    ASSERT_TRUE(warns(read, "scales_differ"));
    const Warning& differ = *find(read.warnings, "scales_differ");
    ASSERT_TRUE(read.scales_differ);
    EXPECT_EQ(read.scales_differ->weakest, "blue");
    EXPECT_EQ(samelight::test::text_of(differ, "weakest"), "blue");
    EXPECT_EQ(samelight::test::text_of(differ, "strongest"), "green");
    EXPECT_NEAR(samelight::test::number_of(differ, "share"), 1.01e-12, 0.005e-12);
    const NamedPanel panel = open_panel(file("pw.csv", display(9.0, {1.0, 1.0, 1e-12, 1.0})));
    EXPECT_FALSE(panel.panel.scale_known());
    EXPECT_NE(find(panel.warnings, "scales_differ"), nullptr);
    // Blues of LCDs have a few per cent of the light; a hundredth is odd, but may be.
    EXPECT_FALSE(warns(parse_spectral_csv(display(9.0, {1.0, 1.0, 0.01, 1.0}), "file.csv"),
                       "scales_differ"));
}

TEST_F(NamedFiles, WithColumnsInDifferentUnitsGetTheirScaleFromWhite) {
    const Panel right = open_panel(file("w.csv", display(9.0, {1, 1, 1, 1}, true))).panel;
    for (const std::array<double, 4>& scale :
         {std::array{1.0, 1.0, 1e-12, 1.0}, std::array{1.0, 1.0, 1.0, 1e-6}}) {
        const NamedPanel odd = open_panel(file("odd.csv", display(9.0, scale, true)));
        EXPECT_NE(find(odd.warnings, "scales_differ"), nullptr);
        EXPECT_TRUE(odd.panel.scale_known()) << "by fitting to white";
        const Eigen::VectorXd share =
            odd.panel.emitters().colwise().sum().transpose() / odd.panel.emitters().sum();
        const Eigen::VectorXd wanted =
            right.emitters().colwise().sum().transpose() / right.emitters().sum();
        EXPECT_LT((share - wanted).cwiseAbs().maxCoeff(), 1e-6);
    }
}

}  // namespace
}  // namespace samelight::io::test
