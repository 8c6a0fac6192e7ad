// What is said at once of a file of spectra: how far apart its wavelengths are, and of each light what is known of it. Files are written here.
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/scratch_folder.hpp"
#include "report/pages/report_page.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report::in_spectrum_heading {
namespace {

using samelight::test::ReadTable;
using samelight::test::ReportPage;
using samelight::test::says;

/// Files of a bell at 550 nm, 60 nm wide, and of a light that is the same everywhere.
class SpectrumHeading : public io::test::ScratchFolder {
  protected:
    /// At 380 nm and as far as 780 nm, each step the next of `steps_nm`, over and over; written to six decimals.
    [[nodiscard]] SpectraAnswer read(const std::vector<double>& steps_nm) const {
        const std::string path = (folder_ / "lights.csv").string();
        std::ofstream file(path);
        file << "wavelength_nm,bell,even\n";
        double nm = 380.0;
        for (std::size_t i = 0; nm < 780.0 + 1e-9; nm += steps_nm[i++ % steps_nm.size()]) {
            const double t = (nm - 550.0) / 36.0;
            file << to_text(nm, 6) << ',' << to_text(std::exp(-t * t), 9) << ",1\n";
        }
        file.close();
        SpectraRequest request;
        request.files = {path};
        return answer_spectra(request);
    }
    [[nodiscard]] std::string heading(const std::vector<double>& steps_nm) const {
        return ReportPage(spectra_report(read(steps_nm))).words("file-1");
    }
};

TEST_F(SpectrumHeading, StepsAreSaidAsTheyAre) {
    EXPECT_TRUE(says(heading({5.0}), ": 2 lights, 380-780 nm by 5 nm, unit "));
    EXPECT_TRUE(says(heading({1.0}), "380-780 nm by 1 nm, unit "));
    EXPECT_TRUE(says(heading({0.5}), "380-780 nm by 0.5 nm, unit "));
    // Neither 2 nor 3.
    EXPECT_TRUE(says(heading({2.5}), "380-780 nm by 2.5 nm, unit "));
    // Thirds with six decimals are 3.333333 and 3.333334 apart, which is even but for rounding.
    EXPECT_TRUE(says(heading({10.0 / 3.0}), "380-780 nm by 3.33 nm, unit "));
}

// A prism's wavelengths: the shortest step and the longest, in hundredths of a nanometre both.
TEST_F(SpectrumHeading, UnevenStepsAreSaidFromTheShortestToTheLongest) {
    EXPECT_TRUE(says(heading({4.126, 5.874}), "380-780 nm by 4.13 to 5.87 nm, unit "));
}

TEST_F(SpectrumHeading, NoiseHasNoPeakAndNoLightIsNamedByOne) {
    SpectraAnswer answer = read({5.0});
    const auto rows = [&] {
        return ReportPage(spectra_report(answer)).table("file-1-lights").rows;
    };
    ASSERT_EQ(rows().size(), 2U);
    const ReadTable table = ReportPage(spectra_report(answer)).table("file-1-lights");
    ASSERT_EQ(table.headings[4], "PEAK nm");
    EXPECT_NEAR(std::stod(table.rows[0][4]), 550.0, 0.5);
    EXPECT_EQ(table.rows[1][4], "") << "none higher than the rest";
    // The same peaks, found in what is nothing but noise.
    answer.files[0].columns[0].noise_alone = true;
    ASSERT_FALSE(answer.files[0].columns[0].sampling.peaks.empty());
    const std::vector<std::string> noise = {"bell", "", "", "", "", "", "noise around zero"};
    EXPECT_EQ(rows()[0], noise);
}

}  // namespace
}  // namespace samelight::report::in_spectrum_heading
