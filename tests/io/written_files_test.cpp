// Sixty files in the dress of instruments and people: each is read to what was written, or refused for the reason that was foreseen.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"
#include "io/written_files.hpp"

namespace samelight::io::test {
namespace {

using samelight::test::Random;

constexpr std::size_t files_written = 60;

/// The wavelengths are the same doubles; values go through one division or product more than the reader's own, and a mean of two.
void expect_as_written(const SpectralFile& file, const Written& wanted, const std::string& what) {
    const std::vector<std::string> names{"red", "green", "blue", "white", "black"};
    std::size_t lights = 0;
    for (std::size_t which = 0; which < names.size(); ++which) {
        const LightColumn* column = file.find(names[which]);
        ASSERT_EQ(column != nullptr, !wanted.lights[which].empty())
            << what << ": " << names[which] << joined(file.understood);
        if (column == nullptr) continue;
        ++lights;
        double largest = 0.0;
        for (const double value : wanted.lights[which]) {
            largest = std::max(largest, std::abs(value));
        }
        ASSERT_EQ(column->light.size(), wanted.nm.size()) << what;
        for (std::size_t i = 0; i < wanted.nm.size(); ++i) {
            ASSERT_EQ(column->light.wavelengths_nm()[i], wanted.nm[i]) << what;
            const double value = wanted.lights[which][i];
            ASSERT_NEAR(column->light.values()[i], value, 1e-14 * largest)
                << what << ": " << names[which] << " at " << wanted.nm[i] << " nm";
        }
    }
    EXPECT_EQ(file.lights.size(), lights) << what;
}

TEST(WrittenFiles, AreReadToWhatWasWrittenOrRefusedAsForeseen) {
    Random random(2028);
    std::size_t read = 0;
    std::size_t refused = 0;
    for (std::size_t k = 0; k < files_written; ++k) {
        const Dress dress = drawn_dress(k, random);
        const Written wanted = written::Writer(dress, random).write();
        const std::string what = "file " + std::to_string(k) + "\n" + wanted.bytes.substr(0, 300);
        try {
            const SpectralFile file = parse_spectral_csv(wanted.bytes, "file.csv", wanted.choices);
            EXPECT_EQ(wanted.refusal, "") << "accepted: " << what;
            expect_as_written(file, wanted, what);
            EXPECT_EQ(file.unit == LightUnit::spectral_radiance, dress.unit_power <= 0) << what;
            ++read;
        } catch (const Error& error) {
            EXPECT_NE(wanted.refusal, "") << error.what() << "\n" << what;
            EXPECT_NE(std::string(error.what()).find(wanted.refusal), std::string::npos)
                << error.what() << "\nwanted: " << wanted.refusal << "\n"
                << what;
            ++refused;
        }
    }
    EXPECT_EQ(read + refused, files_written);
    EXPECT_GE(read, 45U);
    EXPECT_GE(refused, 8U);
}

TEST(WrittenFiles, EveryFeatureComesUpInSomeThatAreRead) {
    Random random(2028);
    std::vector<std::size_t> seen(20);
    for (std::size_t k = 0; k < files_written; ++k) {
        const Dress dress = drawn_dress(k, random);
        const Written wanted = written::Writer(dress, random).write();
        if (!wanted.refusal.empty()) continue;
        std::size_t at = 0;
        for (const bool has : {dress.delimiter == ',',
                               dress.delimiter == ';',
                               dress.delimiter == '\t',
                               dress.mark == ',',
                               dress.across,
                               dress.descending,
                               dress.trailing,
                               dress.quotes,
                               dress.exponents,
                               dress.comments,
                               dress.blank_lines,
                               dress.repeats,
                               dress.noise,
                               dress.uneven,
                               dress.form == Form::numbered,
                               dress.form == Form::generic,
                               dress.form == Form::single,
                               dress.encoding == Encoding::latin1,
                               dress.encoding == Encoding::utf16_big,
                               dress.unit_power == -6}) {
            seen[at++] += has ? 1U : 0U;
        }
    }
    for (std::size_t at = 0; at < seen.size(); ++at) {
        EXPECT_GE(seen[at], 3U) << "feature " << at;
    }
}

// What the first test holds against the reader, it must be able to see.
TEST(WrittenFiles, AWrongValueWouldBeSeen) {
    Random random(2029);
    Dress dress;
    Written wanted = written::Writer(dress, random).write();
    const SpectralFile file = parse_spectral_csv(wanted.bytes, "file.csv");
    expect_as_written(file, wanted, "as it is");
    const double right = wanted.lights[1][40];
    EXPECT_GT(std::abs(right), 0.0);
    EXPECT_NE(file.find("green")->light.values()[40], std::nextafter(right * (1.0 + 1e-12), 1.0));
    EXPECT_NE(file.find("green")->light.values()[40], file.find("red")->light.values()[40]);
}

}  // namespace
}  // namespace samelight::io::test
