// What is refused: each in one line that says where, what and what was wanted.
#include "numeric/facts.hpp"
#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::test {
namespace {

TEST(SpectralCsvRefusals, NoTable) {
    expect_refusal("", "1:1", {"an empty file", "wavelengths in nm"});
    expect_refusal("\n \n,,,\n", "1:1", {"an empty file"});
    expect_refusal("# nothing but\n# comments\n", "1:1", {"no table", "2 lines"});
    expect_refusal("Dear reader,\nthis is a letter; it holds no table.\n", "1:1",
                   {"no table of wavelengths in 2 lines"});
    expect_refusal("0.1\n0.2\n0.3\n", "1:1", {"no table"});
    expect_refusal("Date: today\n380 0.1 0.2\n390 0.3 0.4\n", "2:1",
                   {"only spaces between", "commas, semicolons or tabs"});
    expect_refusal("name,380,480,580,680,780\n", "1:1", {"no table"});
}

TEST(SpectralCsvRefusals, NoText) {
    expect_refusal("Zq\xd0\xb3\x03\x9c\xf1P\x7fK\x88\x12", "1:4",
                   {"control character 0x03", "no text"});
    expect_refusal("nm,red\n380,0.1\x01\n", "2:8", {"control character 0x01"});
    expect_refusal(std::string("nm,red\n380,\0", 12), "2:5", {"control character 0x00"});
    expect_refusal("n\u00b5,\u0085", "1:4", {"control character 0x85"});
}

TEST(SpectralCsvRefusals, BrokenEncodings) {
    const auto text = [](const char* bytes, std::size_t count) {
        return std::string(bytes, count);
    };
    expect_refusal(text("\xff\xfe\x00\x00n\x00\x00\x00", 8), "1:1", {"UTF-32", "UTF-8, UTF-16"});
    expect_refusal(text("\xff\xfen\x00\x00\xd8m\x00", 8), "1:2",
                   {"half a character (0xd800) in UTF-16"});
    expect_refusal(text("\xff\xfen\x00m", 5), "1:2", {"half a character at the end"});
    expect_refusal("\xef\xbb\xbfnm,\xb5\n", "1:4", {"0xb5", "no UTF-8"});
    expect_refusal("# \u00b5\nnm,\xb5\n", "2:4", {"0xb5", "Latin-1 in part", "one encoding"});
    expect_refusal("nm,\xb5\x81\n", "1:5", {"0x81", "no character"});
}

TEST(SpectralCsvRefusals, CellsThatAreNoNumbers) {
    const std::string head = "wavelength_nm,red,green\n380,0.1,0.2\n";
    const std::string tail = "680,0.1,0.2\n780,0.1,0.2\n";
    expect_refusal(head + "480,0.1,abc\n" + tail, "3:9",
                   {"\"abc\" for \"green\" at 480 nm", "a number"});
    expect_refusal(head + "480,0.1x,0.2\n" + tail, "3:5", {"\"0.1x\" for \"red\" at 480 nm"});
    expect_refusal(head + "480,0x1p3,0.2\n" + tail, "3:5", {"\"0x1p3\""});
    expect_refusal(head + "480,0.1,nan\n" + tail, "3:9", {"\"nan\"", "a finite number"});
    expect_refusal(head + "480,-inf,0.2\n" + tail, "3:5", {"\"-inf\"", "a finite number"});
    expect_refusal(head + "480,#DIV/0!,0.2\n" + tail, "3:5", {"\"#DIV/0!\"", "a finite number"});
    expect_refusal(head + "480,0.1,1e999\n" + tail, "3:9", {"\"1e999\"", "beyond the range"});
    expect_refusal(head + "480,1e-999,0.2\n" + tail, "3:5", {"\"1e-999\"", "beyond the range"});
    expect_refusal(head + "480,0.1,2e30\n" + tail, "3:9",
                   {"magnitude above 1e30", "\"green\" at 480 nm"});
    EXPECT_NO_THROW(parsed("nm,red\n380,1e30\n580,1e30\n780,1e30\n"));
    expect_refusal(head + "480,,0.2\n" + tail, "3:5",
                   {"no value for \"red\" at 480 nm", "each cell"});
    expect_refusal(head + "480,0.1,\n" + tail, "3:9", {"no value for \"green\" at 480 nm"});
    expect_refusal(head + "480,0.1\n" + tail, "3:8", {"no value for \"green\" at 480 nm"});
    expect_refusal(head + "480\n" + tail, "3:4", {"no value for \"red\" at 480 nm"});
    expect_refusal(head + "480,,\n" + tail, "3:5", {"no value for \"red\" at 480 nm"});
    expect_refusal("wavelength_nm,red,green\n380,,\n480,0.1,0.2\n" + tail, "2:5",
                   {"no value for \"red\""});
    expect_refusal(head + "480,0.1,0.2,0.3\n" + tail, "3:13", {"4 cells", "1 more", "wanted 3"});
}

TEST(SpectralCsvRefusals, ShortRowsWithoutAHeading) {
    expect_refusal("380,1.5,200\n580,1\n780,1,300\n", "2:6",
                   {"no value for \"light 2\" at 580 nm"});
    expect_refusal("380\n480,1.5,2\n780,1.5,3\n", "1:4", {"no value for \"light 1\" at 380 nm"});
    expect_refusal("nm,a,b\n380\n480,1.5,2\n780,1.5,3\n", "2:4", {"no value for \"a\" at 380 nm"});
}

TEST(SpectralCsvRefusals, PlacesCountCharactersNotBytes) {
    expect_refusal("# µ\r\n\r\nλ,\u00c4,b\r\n380,1,2\r\n480,\"x\",2\r\n780,1,2\r\n", "5:6",
                   {"\"x\""});
    expect_refusal("λ [nm],\"first\nname\",b\n380,1,2\n780,1,?\n", "4:7", {"\"?\" for \"b\""});
}

TEST(SpectralCsvRefusals, Wavelengths) {
    const std::string head = "wavelength_nm,red\n380,0.1\n";
    const std::string tail = "680,0.1\n780,0.1\n";
    const std::string no_wavelength = "where a wavelength should stand";
    expect_refusal(head + "48o,0.1\n" + tail, "3:1", {"\"48o\"", no_wavelength});
    expect_refusal(head + tail + "79o,0.1\n", "5:1", {"\"79o\"", no_wavelength});
    for (const std::string last :
         {"o80", "x780", ";80", "\"80", "x 780", "€80", "78O nm", "o\"780\""}) {
        expect_refusal(head + tail + last + ",0.1\n", "5:1", {no_wavelength});
    }
    expect_refusal(head + tail + "790;0.1\n", "5:1", {"\"790;0.1\"", no_wavelength});
    for (const std::string word :
         {"Y10,0.1", "Y,0.1", "Δu'v',0.1", "2 degree observer", "2024-03-01"}) {
        EXPECT_TRUE(says(parse_spectral_csv(head + tail + word + "\n", "file.csv").understood,
                         "The table ends before line 5; 1 line behind it left out."));
    }
    expect_refusal("wavelength_nm,red\n38o,0.1\n480,.1\n" + tail, "2:1",
                   {"\"38o\"", no_wavelength});
    expect_refusal("38o,0.1\n480,.1\n" + tail, "1:1", {"\"38o\"", no_wavelength});
    expect_refusal("380,.1\n39o,0.1\n480,.1\n" + tail, "2:1", {"\"39o\"", no_wavelength});
    expect_refusal(head + ",0.1\n" + tail, "3:1", {"nothing where a wavelength should stand"});
    expect_refusal("wavelength_nm,red\n,0.1\n380,.1\n" + tail, "2:1", {"nothing", no_wavelength});
    expect_refusal(head + tail + "NaN,0.1\n", "5:1", {"\"NaN\"", no_wavelength});
    expect_refusal(head + "-480,0.1\n" + tail, "3:1", {"-480", "above 0 nm"});
    expect_refusal(head + "380.0,0.1\n" + tail, "3:1",
                   {"380 a second time", "line 2, column 1", "each wavelength once"});
    expect_refusal(head + "480,0.1\n580,0.1\n480,0.1\n" + tail, "5:1",
                   {"480 a second time", "line 3"});
    expect_refusal(head + "580,0.1\n480,0.1\n" + tail, "4:1",
                   {"480 after 580", "ascend", "in order"});
    expect_refusal("nm,red\n780,.1\n480,.1\n580,.1\n380,.1\n", "4:1", {"580 after 480", "descend"});
    expect_refusal("wavelength_nm,red\n380,0.1\n", "2:1", {"a single wavelength", "at least 2"});
    expect_refusal("name,380,480,480,680,780\nred,1,2,3,4,5\n", "1:14",
                   {"480 a second time", "line 1"});
}

TEST(SpectralCsvRefusals, RangesAndUnitsOfLength) {
    expect_refusal("nm,red\n410,1\n550,1\n780,1\n", "2:1",
                   {"from 410 to 780 nm", "at least 400-700 nm"});
    expect_refusal("nm,red\n380,1\n550,1\n690,1\n", "4:1",
                   {"from 380 to 690 nm", "at least 400-700 nm"});
    expect_refusal("nm,red\n690,1\n550,1\n380,1\n", "2:1", {"from 380 to 690 nm"});
    expect_refusal("pixel,red\n0.5,1.5\n400,1\n1023,1\n", "2:1", {"from 0.5 to 1023", "too low"});
    expect_refusal("wavelength,red\n0.38,1\n0.55,1\n0.78,1\n", "2:1",
                   {"from 0.38 to 0.78", "look like micrometres", "wavelengths in nm"});
    expect_refusal("wavelength,red\n3.8e-7,1\n5.5e-7,1\n7.8e-7,1\n", "2:1", {"look like metres"});
    expect_refusal("wavelength,red\n3800,1\n5500,1\n7800,1\n", "2:1", {"look like angstroms"});
    expect_refusal("wavelength [\u00b5m],red\n380,1\n550,1\n780,1\n", "1:1",
                   {"\"wavelength [\u00b5m]\"", "wavelengths in nm"});
    expect_refusal("name,.38,.42,.46,.5,.54,.58,.62,.66,.7,.74,.78\nred,1,1,1,1,1,1,1,1,1,1,1\n",
                   "1:6", {"look like micrometres"});
}

TEST(SpectralCsvRefusals, RowsOfWavelengths) {
    const std::string head = "name,380,420,460,500,540,580,620,660,700\n";
    const std::string red = "red,1,2,3,4,5,6,7,8,9\n";
    expect_refusal("name,380,420,4x0,500,540,580,620,660,700\n" + red, "1:14",
                   {"\"4x0\"", "row of wavelengths"});
    expect_refusal("name,380,420,,500,540,580,620,660,700\n" + red, "1:14",
                   {"an empty cell", "row of wavelengths"});
    expect_refusal("name,380,420,460,500,540,580,620,660,70o\n" + red, "1:38",
                   {"\"70o\"", "row of wavelengths"});
    expect_refusal("name,38o,420,460,500,540,580,620,660,700\n" + red, "1:6", {"\"38o\""});
    expect_refusal("name,o80,420,460,500,540,580,620,660,700\n" + red, "1:6", {"\"o80\""});
    expect_refusal("name,380,420,460,500,540,580,620,660,o00 nm\n" + red, "1:38", {"\"o00 nm\""});
    expect_refusal(head + "red,1,2,3,4,5,6,7,8\n", "2:20", {"no value for \"red\" at 700 nm"});
    expect_refusal(head + "red,1,2,3,4,5,6,7,8,9,10\n", "2:23", {"1 more"});
    expect_refusal(head + red + ",1,2,3,4,5,6,7,8,9\n", "3:1", {"a row of values without a name"});
    expect_refusal("380,420,460,500,540,580,620,660,700\n1,2,3,4,5,6,7,8,9\n", "2:1",
                   {"a row of values without a name"});
    expect_refusal(head + red + "green,,,,,,,,,\n", "3:7", {"no value for \"green\" at 380 nm"});
    expect_refusal("id,date" + head.substr(4) + "a,b,1,2,3,4,5,6,7,8,9\n", "1:1",
                   {"2 columns in front of the wavelengths", "headed \"name\""});
}

TEST(SpectralCsvRefusals, LightsWithoutLight) {
    expect_refusal("nm,red,white\n380,0.1,0\n580,0.2,0\n780,0.1,0\n", "1:8",
                   {"zeros in \"white\""});
    expect_refusal("nm,red,w\n380,1,-.001\n580,2,-.001\n780,1,0\n", "1:8",
                   {"no value above 0 in \"w\""});
    expect_refusal("380,0.0\n580,0.0\n780,0.0\n", "1:1", {"nothing but zeros in \"light\""});
    expect_refusal("n,380,480,580,680,780\nred,1,2,3,4,5\nblue,0,0,0,0,0\n", "3:1",
                   {"zeros in \"blue\""});
    // Values that vanish when they are converted.
    expect_refusal("nm,red [uW/sr/m2/nm]\n380,1e-322\n780,1e-322\n", "1:4", {"nothing but zeros"});
}

TEST(SpectralCsvRefusals, NegativeValues) {
    const std::string head = "nm,red,green,black\n380,0.1,0.2,0.001\n580,1,2,0.001\n";
    const std::string tail = "780,0.1,0.2,0.001\n";
    expect_refusal(head + "680,0.1,-0.0101,0.001\n" + tail, "4:9",
                   {"-0.0101 for \"green\" at 680 nm", "-0.5 %", "brightest peak, 2"});
    // Descending and across, the place is still the file's.
    expect_refusal("nm,red\n780,1\n680,-0.1\n380,2\n", "3:5", {"-0.1 for \"red\" at 680 nm"});
    expect_refusal("n,780,680,580,480,380\nred,1,2,-1,4,5\n", "2:9", {"-1 for \"red\" at 580 nm"});
    // The bound itself is inside.
    const SpectralFile file = parse_spectral_csv(head + "680,0.1,-0.01,0.001\n" + tail, "file.csv");
    ASSERT_TRUE(warns(file, "negative_noise"));
    EXPECT_EQ(samelight::test::texts_of(file.warnings.front(), "columns"),
              std::vector<std::string>{"green"});
    EXPECT_EQ(samelight::test::numbers_of(file.warnings.front(), "lowest"),
              std::vector<double>{-0.01});
    EXPECT_EQ(file.lights[1].light.at(680.0), -0.01);
    // Black may be noise around zero, of a size that noise has beside a light.
    const SpectralFile dark = parse_spectral_csv(head + "680,0.1,0.2,-0.05\n" + tail, "file.csv");
    EXPECT_FALSE(warns(dark, "negative_noise"));
    EXPECT_TRUE(says(dark.understood, "\"black\" holds noise around zero, down to -0.05."));
    expect_refusal(head + "680,0.1,0.2,-0.5\n" + tail, "4:13",
                   {"\"black\" lies 0.5 below zero at 680 nm, 25 % of the brightest peak beside it",
                    "no noise around zero", "wanted a black"});
}

TEST(SpectralCsvRefusals, Names) {
    expect_refusal("nm,red,\n380,1,2\n580,1,2\n780,1,2\n", "1:1",
                   {"2 cells in the heading, 3 in the rows"});
    expect_refusal("nm,red,,blue\n380,1,2,3\n580,1,2,4\n780,1,2,1\n", "1:8",
                   {"a column without a name"});
    expect_refusal("nm,red,green\n380,1\n580,1\n780,1\n", "1:1",
                   {"3 cells in the heading, 2 in the rows", "a name for each column"});
    expect_refusal("nm,R,red\n380,1,2\n580,1,2\n780,1,2\n", "1:6",
                   {"\"red\" and \"R\" both mean red"});
    expect_refusal("nm," + std::string(1001, 'n') + "\n380,1\n780,2\n", "1:4",
                   {"a name of 1001 bytes"});
}

TEST(SpectralCsvRefusals, TwoTables) {
    const std::string table = "wavelength_nm,red\n380,1\n480,1\n580,1\n680,1\n780,1\n";
    expect_refusal(table + table, "7:1", {"a second table begins", "one table"});
    expect_refusal("380,.1\n480,.1\n780,.1\nnext\n380,.1\n480,.1\n780,.1\n", "4:1", {"\"next\""});
    expect_refusal(table + "Y,12\n6500\n", "8:1", {"a number without a name behind the table"});
}

TEST(SpectralCsvRefusals, TooMuch) {
    std::string lines;
    for (int i = 0; i < 200001; ++i) {
        lines += "a\n";
    }
    expect_refusal(lines, "200001:1", {"more than 200000 lines"});
    expect_refusal(std::string(100000, ',') + "1", "1:100001", {"more than 100000 cells"});
    try {
        (void)parse_spectral_csv(std::string(largest_spectral_file_bytes + 1, 'a'), "file.csv");
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        EXPECT_STREQ(
            error.what(),
            "file.csv: 16777217 bytes; wanted a file of spectra, at most 16777216 bytes (16 MiB)");
    }
}

TEST(SpectralCsvRefusals, StayOneLineWhateverTheCellHolds) {
    const std::string cell = "\"" + std::string(3000, 'x') + "\n y\"";
    expect_refusal("nm,red\n380,1\n480," + cell + "\n780,1\n", "3:6", {"xxx...\"", "a number"});
    try {
        (void)parse_spectral_csv("", "a\nb.csv");
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        EXPECT_EQ(std::string(error.what()).rfind("a\\u000ab.csv:1:1: ", 0), 0U) << error.what();
    }
}

}  // namespace
}  // namespace samelight::io::test
