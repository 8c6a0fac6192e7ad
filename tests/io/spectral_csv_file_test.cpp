// Files that are none, are too large, or are made to take long.
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <random>

#include "scratch_folder.hpp"
#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::test {
namespace {

namespace fs = std::filesystem;

/// A folder of its own for each test, gone afterwards.
class SpectralCsvFile : public ScratchFolder {
  protected:
    static void expect_error(const fs::path& file, ErrorKind kind, const std::string& rest) {
        try {
            (void)read_spectral_csv(file);
            ADD_FAILURE() << "accepted " << file;
        } catch (const Error& error) {
            EXPECT_EQ(error.kind(), kind) << error.what();
            EXPECT_EQ(std::string(error.what()).rfind(file.string() + ":" + rest, 0), 0U)
                << error.what() << "\nnot " << rest;
            EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
        }
    }
};

TEST_F(SpectralCsvFile, MustBeThere) {
    expect_error(folder_ / "none.csv", ErrorKind::system,
                 " no such file; wanted a file of spectra");
    expect_error(folder_ / "no" / "none.csv", ErrorKind::system, " no such file");
}

TEST_F(SpectralCsvFile, MustBeARegularFile) {
    expect_error(folder_, ErrorKind::input, " a folder; wanted a file of spectra");
    expect_error("/dev/zero", ErrorKind::input,
                 " neither a file nor a folder; wanted a file of spectra");
    const fs::path pipe = folder_ / "pipe.csv";
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    expect_error(pipe, ErrorKind::input, " neither a file nor a folder; wanted a file of spectra");
    const fs::path link = folder_ / "link.csv";
    fs::create_symlink(data_file("plain.csv"), link);
    EXPECT_EQ(read_spectral_csv(link).lights.size(), 3U);
    EXPECT_EQ(read_spectral_csv(link).source, link.string());
}

TEST_F(SpectralCsvFile, MustNotBeEmpty) {
    const fs::path file = folder_ / "empty.csv";
    std::ofstream(file).close();
    expect_error(file, ErrorKind::input, "1:1: an empty file; wanted a table");
}

TEST_F(SpectralCsvFile, TooLargeIsSaidBeforeItIsRead) {
    const fs::path file = folder_ / "huge.csv";
    std::ofstream(file).close();
    // 1 TB of nothing: whoever tried to read it would be seen to.
    fs::resize_file(file, std::uintmax_t{1} << 40U);
    expect_error(file, ErrorKind::input,
                 " 1099511627776 bytes; wanted a file of spectra, at most 16777216 bytes (16 MiB)");
}

TEST_F(SpectralCsvFile, NoiseIsRefusedAtItsFirstControlCharacter) {
    const fs::path file = folder_ / "noise.csv";
    std::mt19937 random(7);
    std::string noise(1U << 20U, '\0');
    for (char& c : noise) {
        c = static_cast<char>(random() & 0xffU);
    }
    noise[0] = 'a';
    noise[1] = '\x02';
    std::ofstream(file, std::ios::binary) << noise;
    expect_error(file, ErrorKind::input, "1:2: the control character 0x02, so this is no text");
}

std::string repeated(const std::string& part, std::size_t bytes) {
    std::string text;
    text.reserve(bytes);
    while (text.size() + part.size() <= bytes) {
        text += part;
    }
    return text;
}

// A quadratic step anywhere would take hours for these, beyond the limit of any test; they take some hundredths of a second each.
TEST(SpectralCsvTime, IsLinearWhateverTheBytes) {
    constexpr std::size_t bytes = std::size_t{1} << 20U;
    for (const std::string part : {"\n",
                                   ",",
                                   "\"",
                                   " ",
                                   "1",
                                   "#",
                                   "380,",
                                   "380\n",
                                   "380,1\n",
                                   "\",",
                                   ",\"",
                                   "\"a,",
                                   "\"a,\"\"",
                                   "\"\"\"a,",
                                   "\"a\n",
                                   "x,\"a\n",
                                   "W ",
                                   "W/m2,",
                                   "\u00a0",
                                   "\r",
                                   "x,380,480,580,680,780\n",
                                   "wavelength,a\n",
                                   "380;1,2\t3\n",
                                   "380,\"1,5\"\n"}) {
        for (const std::string before : {"", "# ", "nm,a\n380,"}) {
            std::string text = before;
            text += repeated(part, bytes);
            try {
                (void)parse_spectral_csv(text, "file.csv");
            } catch (const Error& error) {
                EXPECT_EQ(std::string(error.what()).rfind("file.csv:", 0), 0U) << error.what();
                EXPECT_LT(std::string(error.what()).size(), 400U) << error.what();
            }
        }
    }
}

TEST(SpectralCsvTime, LargeTablesAreRead) {
    std::string text = "nm";
    for (int light = 0; light < 500; ++light) {
        text += ",light " + std::to_string(light) + 'x';
    }
    text += '\n';
    for (int nm = 380; nm <= 780; ++nm) {
        text += std::to_string(nm);
        for (int light = 0; light < 500; ++light) {
            text += ",0." + std::to_string(1000 + (nm * 7 + light * 13) % 997);
        }
        text += '\n';
    }
    const SpectralFile file = parse_spectral_csv(text, "file.csv");
    EXPECT_EQ(file.lights.size(), 500U);
    EXPECT_EQ(file.lights[499].light.at(780.0),
              std::stod("0." + std::to_string(1000 + (780 * 7 + 499 * 13) % 997)));
}

}  // namespace
}  // namespace samelight::io::test
