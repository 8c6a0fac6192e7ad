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

std::string at(double nm) { return " at " + to_text(nm) + " nm"; }

/// The first thing in which a light isn't what was written; empty where there is none. The wavelengths are the same doubles; values go
/// through one division or product more than the reader's own, and a mean of two.
std::string difference(const LightColumn& column, const Written& wanted,
                       const std::vector<double>& values) {
    if (column.light.size() != wanted.nm.size()) return column.name + ": other wavelengths";
    double largest = 0.0;
    for (const double value : values) {
        largest = std::max(largest, std::abs(value));
    }
    for (std::size_t i = 0; i < wanted.nm.size(); ++i) {
        if (column.light.wavelengths_nm()[i] != wanted.nm[i]) {
            return column.name + at(wanted.nm[i]) + ": " +
                   to_text(column.light.wavelengths_nm()[i]);
        }
        if (!(std::abs(column.light.values()[i] - values[i]) <= 1e-14 * largest)) {
            return column.name + at(wanted.nm[i]) + ": " + to_text(column.light.values()[i]) +
                   ", not " + to_text(values[i]);
        }
    }
    return "";
}

/// The same of a file.
std::string difference(const SpectralFile& file, const Written& wanted) {
    const std::vector<std::string> names{"red", "green", "blue", "white", "black"};
    std::size_t lights = 0;
    for (std::size_t which = 0; which < names.size(); ++which) {
        const LightColumn* column = file.find(names[which]);
        if ((column != nullptr) != !wanted.lights[which].empty()) return names[which];
        if (column == nullptr) continue;
        ++lights;
        const std::string found = difference(*column, wanted, wanted.lights[which]);
        if (!found.empty()) return found;
    }
    return file.lights.size() == lights ? "" : "other lights";
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
            EXPECT_EQ(difference(file, wanted), "") << what;
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

// What the first test holds against the reader, it must be able to see: one digit that is another one than was meant.
TEST(WrittenFiles, AWrongDigitIsSeen) {
    Random random(2029);
    std::size_t seen = 0;
    for (std::size_t k = 0; k < files_written; ++k) {
        Dress dress = drawn_dress(k, random);
        dress.encoding = Encoding::utf8;
        Written wanted = written::Writer(dress, random).write();
        if (!wanted.refusal.empty()) continue;
        const std::size_t middle = wanted.bytes.size() / 2;
        const std::size_t digit = wanted.bytes.find_first_of("123456789", middle);
        ASSERT_NE(digit, std::string::npos);
        wanted.bytes[digit] =
            wanted.bytes[digit] == '9' ? '8' : static_cast<char>(wanted.bytes[digit] + 1);
        try {
            EXPECT_NE(
                difference(parse_spectral_csv(wanted.bytes, "file.csv", wanted.choices), wanted),
                "")
                << wanted.bytes.substr(middle, 40);
            ++seen;
        } catch (const Error&) {
            ++seen;  // a wavelength that is there twice, say
        }
    }
    EXPECT_GE(seen, 40U);
}

}  // namespace
}  // namespace samelight::io::test
