// Names of displays and lights: what stands behind an @, files that hold too many lights, models by their own words; what can't be meant is refused in one
// line that says what could.
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/scratch_folder.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::io::in_named_lights {
namespace {

class NamedLights : public test::ScratchFolder {
  protected:
    /// Columns of hills at so many nm, the first at full height.
    [[nodiscard]] std::string file(const std::string& name, const std::string& heading,
                                   const std::vector<double>& peaks) const {
        std::ofstream out(folder_ / name, std::ios::binary);
        out << "wavelength_nm," << heading << "\n";
        for (int nm = 380; nm <= 780; nm += 2) {
            out << nm;
            for (std::size_t k = 0; k < peaks.size(); ++k) {
                const double from = (nm - peaks[k]) / 20.0;
                out << ',' << std::exp(-from * from) * (1.0 - 0.1 * static_cast<double>(k));
            }
            out << "\n";
        }
        return (folder_ / name).string();
    }
    template <class Opening>
    static std::string refused(const Opening& opening) {
        try {
            static_cast<void>(opening());
        } catch (const Error& error) {
            EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
            return error.what();
        }
        return {};
    }
    static bool says(const std::string& text, const std::string& words) {
        return text.find(words) != std::string::npos;
    }
};

TEST_F(NamedLights, WhatStandsBehindAnAtIsAWhiteOrPartOfAName) {
    EXPECT_NEAR(open_panel("crt@0.31,0.32", Sampling{}).set_to->x(), 0.31, 1e-12);
    EXPECT_NEAR(open_panel("crt@0.31,0.32", Sampling{}).set_to->y(), 0.32, 1e-12);
    EXPECT_FALSE(open_panel("crt", Sampling{}).set_to.has_value());
    for (const char* wrong : {"crt@", "crt@0.31", "crt@0.7,0.6", "crt@0.31,0", "crt@white"}) {
        EXPECT_TRUE(says(refused([&] { return open_panel(wrong, Sampling{}); }),
                         "@x,y with a CIE 1931 chromaticity"))
            << wrong;
    }
    const std::string name = file("hall@home.csv", "red,green,blue", {620.0, 540.0, 460.0});
    EXPECT_EQ(refused([&] { return open_panel(name, Sampling{}); }), "");
    EXPECT_TRUE(says(refused([&] { return open_panel(name + "@0.31", Sampling{}); }), "@x,y"));
    EXPECT_TRUE(says(refused([] { return open_panel("plasma", Sampling{}); }),
                     "no built-in panel of that name"));
}

TEST_F(NamedLights, AReferenceIsOneLight) {
    const std::string two = file("two.csv", "lamp,candle", {500.0, 600.0});
    const std::string said = refused([&] { return open_reference(two, Sampling{}); });
    EXPECT_TRUE(says(said, "lamp, candle")) << said;
    EXPECT_TRUE(says(said, "one light, or a column white")) << said;
    EXPECT_TRUE(says(refused([&] { return open_light(two, Sampling{}); }), "one light"));
    const std::string one = file("one.csv", "lamp", {560.0});
    EXPECT_EQ(refused([&] { return open_reference(one, Sampling{}); }), "");
    EXPECT_TRUE(says(refused([] { return open_reference("D65@0.3,0.3", Sampling{}); }),
                     "no display of that name to set to an x, y"));
    EXPECT_TRUE(says(refused([] { return open_reference("moonlight", Sampling{}); }),
                     "no light of that name"));
    // d65 is D65.
    EXPECT_NEAR((open_reference("d65", Sampling{}).reference.xy() -
                 open_reference("D65", Sampling{}).reference.xy())
                    .distance(),
                0.0, 1e-15);
}

TEST_F(NamedLights, ADisplayNeedsItsWhiteOrAllLightsOnOneScale) {
    // Three columns each up to 1 are normalised, so that nobody knows their sum.
    std::ofstream out(folder_ / "peaks.csv", std::ios::binary);
    out << "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; nm += 2) {
        out << nm;
        for (const double peak : {620.0, 540.0, 460.0}) {
            const double from = (nm - peak) / 20.0;
            out << ',' << std::exp(-from * from);
        }
        out << "\n";
    }
    out.close();
    const std::string peaks = (folder_ / "peaks.csv").string();
    EXPECT_TRUE(
        says(refused([&] { return open_reference(peaks, Sampling{}); }), "a white column, or"));
    EXPECT_EQ(refused([&] { return open_reference(peaks + "@0.31,0.32", Sampling{}); }), "");
    const std::string no_green = file("no.csv", "red,blue,lamp", {620.0, 460.0, 560.0});
    const std::string said = refused([&] { return open_panel(no_green, Sampling{}); });
    EXPECT_TRUE(says(said, "no column green (columns: red, blue, lamp)")) << said;
}

}  // namespace
}  // namespace samelight::io::in_named_lights
