// Deviation functions as users supply them: what is read, what is refused, and the CIE's own where there is a file of them.
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/io/deviation_functions.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

const Sampling five_nm(380.0, 5.0, 81);

SampledLight light(const char* name) { return enter(cie_illuminant(name), five_nm); }

/// A Gaussian over wavelength, 1 at its peak.
double bell(double nm, double peak_nm, double full_width_nm) {
    const double t = (nm - peak_nm) / full_width_nm;
    return std::exp2(-4.0 * t * t);
}

/// A display's white, matched to D65 for the CIE 1931 observer: three bells.
SampledLight bells_white() {
    const Sensitivities t = standard_observer<Cie1931_2deg>().on(five_nm);
    Eigen::MatrixXd emitters(five_nm.count(), 3);
    for (int i = 0; i < five_nm.count(); ++i) {
        const double nm = five_nm.wavelength_nm(i);
        emitters.row(i) << bell(nm, 630.0, 30.0), bell(nm, 530.0, 40.0), bell(nm, 455.0, 22.0);
    }
    const Eigen::Vector3d drive =
        solve_drive(t.rows() * emitters, t.rows() * light("D65").column());
    const Eigen::VectorXd made = emitters * drive;
    return {five_nm, {made.begin(), made.end()}, 0.0};
}

class DeviateObserver : public testing::Test {
  protected:
    void SetUp() override {
        const char* path = std::getenv("SAMELIGHT_CIE80_CSV");
        if (path == nullptr) {
            GTEST_SKIP()
                << "the first deviation functions of CIE 80-1989 are the user's to supply: "
                   "set SAMELIGHT_CIE80_CSV";
        }
        rows_ = io::read_deviation_functions(path).rows;
    }
    Observer deviate(const Observer& base) { return deviate_observer(base, rows_, "cie80"); }
    std::vector<ObserverDeviation> rows_;
};

// Second route for this and the next: computed by independent code from the first deviation functions, 5 nm.
TEST_F(DeviateObserver, WhitesOfTheUsersFile) {
    const auto xy = [](const Observer& o, const char* name) {
        return chromaticity(tristimulus(o, light(name)));
    };
    const auto from_1931 = xy(deviate(standard_observer<Cie1931_2deg>()), "D65");
    EXPECT_NEAR(from_1931.x(), 0.307264, 1e-6);
    EXPECT_NEAR(from_1931.y(), 0.328869, 1e-6);
    const auto from_1964 = xy(deviate(standard_observer<Cie1964_10deg>()), "D65");
    EXPECT_NEAR(from_1964.x(), 0.308830, 1e-6);
    EXPECT_NEAR(from_1964.y(), 0.330849, 1e-6);
    const auto equal_energy = xy(deviate(standard_observer<Cie1931_2deg>()), "E");
    EXPECT_NEAR(equal_energy.x(), 0.327917, 1e-6);
    EXPECT_NEAR(equal_energy.y(), 0.334449, 1e-6);
}

TEST_F(DeviateObserver, ADisplaysWhiteBesideD65) {
    const Observer test = deviate(standard_observer<Cie1931_2deg>());
    const SampledLight white = bells_white();
    const SpecialIndex index = observer_metamerism(light("D65"), white, light("D65"),
                                                   standard_observer<Cie1931_2deg>(), test);
    EXPECT_NEAR(index.de_ab, 3.05714, 1e-5);
    EXPECT_NEAR(index.de00, 3.86665, 1e-5);
    const auto uv = [&](const SampledLight& l) {
        return uv1976(chromaticity(tristimulus(test, l)));
    };
    EXPECT_NEAR((uv(white) - uv(light("D65"))).distance(), 0.003087, 1e-6);
}

const char* const plain =
    "# made up\nwavelength_nm,x,y,z\n380,0.1,-0.2,0\n550,-0.01,0.002,1e-3\n780,0,0,0\n";

std::string refused(const std::string& text) {
    return refusal(ErrorKind::input,
                   [&] { static_cast<void>(io::parse_deviation_functions(text, "user.csv")); });
}

void expect_plain_rows(const std::vector<ObserverDeviation>& rows) {
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_EQ(rows[0].wavelength_nm, 380.0);
    EXPECT_EQ(rows[0].x, 0.1);
    EXPECT_EQ(rows[0].y, -0.2);
    EXPECT_EQ(rows[1].z, 0.001);
    EXPECT_EQ(rows[2].wavelength_nm, 780.0);
}

TEST(DeviationFunctions, AreReadHoweverTheyAreSeparated) {
    expect_plain_rows(io::parse_deviation_functions(plain, "user.csv").rows);
    expect_plain_rows(io::parse_deviation_functions(
                          "380;0,1;-0,2;0\r\n550;-0,01;0,002;1e-3\r\n780;0;0;0\r\n", "user.csv")
                          .rows);
    expect_plain_rows(
        io::parse_deviation_functions(
            "nm\tx\ty\tz\n380\t0.1\t-0.2\t0\n550\t-0.01\t0.002\t0.001\n780\t0\t0\t0", "user.csv")
            .rows);
    const auto read = io::parse_deviation_functions(plain, "user.csv");
    EXPECT_EQ(read.understood.back(), "Deviation functions, 380-780 nm, 3 rows.");
}

TEST(DeviationFunctions, AreRefusedWithTheLine) {
    EXPECT_TRUE(
        contains(refused("wavelength_nm,x,y\n380,0,0\n780,0,0\n"), "user.csv:1:1: 3 columns"));
    EXPECT_TRUE(contains(refused("380,0,0,0\n400,0,0\n780,0,0,0\n"), "user.csv:2:1: 3 columns"));
    EXPECT_TRUE(contains(refused("380,0,0,0,0\n780,0,0,0,0\n"), "5 columns"));
    EXPECT_TRUE(contains(refused("380,0,0,0\n400,0,word,0\n780,0,0,0\n"), "\"word\""));
    EXPECT_TRUE(contains(refused("380,0,0,0\n400,0,,0\n780,0,0,0\n"), "user.csv:2"));
    EXPECT_TRUE(contains(refused("380,0,0,0\n780,0,0,0\n500,0,0,0\n"), "500 nm after 780 nm"));
    EXPECT_TRUE(contains(refused("380,0,0,0\n380,0,0,0\n780,0,0,0\n"), "ascending"));
    EXPECT_TRUE(contains(refused("450,0,0,0\n780,0,0,0\n"), "400-700 nm"));
    EXPECT_TRUE(contains(refused("380,0,0,0\n650,0,0,0\n"), "400-700 nm"));
    EXPECT_TRUE(contains(refused("380,0,0,11\n780,0,0,0\n"), "-10 to 10"));
    EXPECT_TRUE(contains(refused("380,nan,0,0\n780,0,0,0\n"), "a number"));
    EXPECT_TRUE(contains(refused(""), "two rows"));
    EXPECT_TRUE(contains(refused("# nothing\n"), "two rows"));
    EXPECT_TRUE(contains(refused("wavelength_nm,x,y,z\n380,0,0,0\n"), "1 row"));
    refusal(ErrorKind::system,
            [] { static_cast<void>(io::read_deviation_functions("no/such/file.csv")); });
    refusal(ErrorKind::input, [] { static_cast<void>(io::read_deviation_functions(".")); });
}

}  // namespace
}  // namespace samelight
