// Numbers as text where the standard library has neither from_chars nor to_chars for them: the same digits, by the C library, in any locale.
#define SAMELIGHT_HAS_CHARCONV 0
#undef SAMELIGHT_COMPILED
#define SAMELIGHT_COMPILED \
    0  // this file's own bodies; they stand in another inline namespace than the library's
#include "samelight/numeric/text.hpp"

#include <charconv>
#include <clocale>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <string>

#include <gtest/gtest.h>

#include "samelight/numeric/pseudo_random.hpp"

namespace samelight {
namespace {

std::string by_charconv(double value) {
    char buffer[40];
    return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

void expect_the_same(double value) {
    const std::string expected = by_charconv(value);
    EXPECT_EQ(to_text(value), expected);
    const auto back = detail::decimal_number(expected);
    ASSERT_TRUE(back) << expected;
    EXPECT_TRUE(*back == value || std::isnan(value)) << expected;
}

void expect_the_same_of_many() {
    for (const double value : {0.0, -0.0, 1.0, 0.1, 100.0, 1e5, 1e22, 1e300, 5e-324, 2.5, -0.001,
                               123456.0, 1.7976931348623157e308}) {
        expect_the_same(value);
    }
    PseudoRandom random(7);
    for (int i = 0; i < 20000; ++i) {
        const std::uint64_t bits = random.next();
        double any = 0.0;
        std::memcpy(&any, &bits, sizeof any);
        expect_the_same(std::isnan(any) ? 0.5 : any);
        expect_the_same(std::floor(random.next_unit() * 1e6) / 1000.0);
    }
}

TEST(TextWithoutCharconv, HasTheSameDigits) { expect_the_same_of_many(); }

TEST(TextWithoutCharconv, TakesOnlyWhatFromCharsTakes) {
    // C++20 [charconv.from.chars]: no space, no plus, no base, no other mark; a number out of range is none.
    for (const char* text : {"", " 1", "1 ", "+1", "0x1p3", "1,5", "1e", "--1", "e5", "1e999",
                             "1e-999", "1.2.3", "nanx"}) {
        EXPECT_FALSE(detail::decimal_number(text)) << text;
    }
    EXPECT_EQ(to_text(1234.5678, 2), "1234.57");
    EXPECT_EQ(to_text(-0.0001, 2), "0.00");
}

TEST(TextWithoutCharconv, DoesNotAskTheLocale) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr &&
        std::setlocale(LC_ALL, "fr_FR.UTF-8") == nullptr) {
        GTEST_SKIP() << "no locale with a decimal comma here";
    }
    expect_the_same_of_many();
    std::setlocale(LC_ALL, before.c_str());
}

}  // namespace
}  // namespace samelight
