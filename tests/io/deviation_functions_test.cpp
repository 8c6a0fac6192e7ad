// Deviation functions as users supply them: what is read, what is refused, and the CIE's own where there is a file of them.
#include <cstdlib>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/io/deviation_functions.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

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

// What is worked out from them is tested where it is worked out, in metamerism/special_index_test.
TEST(DeviationFunctions, TheUsersFileIsRead) {
    const char* path = std::getenv("SAMELIGHT_CIE80_CSV");
    if (path == nullptr) {
        GTEST_SKIP() << "the first deviation functions of CIE 80-1989 are the user's to supply: "
                        "set SAMELIGHT_CIE80_CSV";
    }
    const auto rows = io::read_deviation_functions(path).rows;
    ASSERT_GE(rows.size(), 2U);
    EXPECT_LE(rows.front().wavelength_nm, 400.0);
    EXPECT_GE(rows.back().wavelength_nm, 700.0);
}

// A display's file has four columns, too; and swapped columns would go unnoticed.
TEST(DeviationFunctions, AHeadingMustNameThem) {
    const std::string rows = "\n380,0.1,-0.2,0\n780,0,0,0\n";
    for (const char* heading : {"wavelength_nm,x,y,z", "nm,dx1,dy1,dz1", "nm,deviation_x,dY,z-bar",
                                "nm,\xCE\x94x,\xCE\x94y,\xCE\x94z"}) {
        EXPECT_EQ(io::parse_deviation_functions(heading + rows, "user.csv").rows.size(), 2U)
            << heading;
    }
    EXPECT_TRUE(contains(refused("wavelength_nm,red,green,blue" + rows), "user.csv:1:15"));
    EXPECT_TRUE(contains(refused("nm,y,x,z" + rows), "names x here"));
    EXPECT_TRUE(contains(refused("nm,x,z,y" + rows), "names y here"));
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
    EXPECT_TRUE(contains(refused("380,0,0,1.1\n780,0,0,0\n"), "-1 to 1"));
    EXPECT_TRUE(
        contains(refused("0,0,0,0\n780,0,0,0\n"), "user.csv:1:1: \"0\"; wanted a wavelength"));
    EXPECT_TRUE(contains(refused(".38,0,0,0\n.78,0,0,0\n"), "100 to 5000"));
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
