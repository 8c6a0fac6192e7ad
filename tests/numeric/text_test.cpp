// Numbers as text: shortest or with fixed decimals, the same in every locale.
#include <bit>
#include <clocale>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <locale>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "numeric/number_read.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {
namespace {

using test::Random;

double read_back(const std::string& text) {
    const auto value = test::number_read(text);
    EXPECT_TRUE(value) << text;
    return value.value_or(0.0);
}

template <class... Numbers>
std::string printed(const char* format, Numbers... numbers) {
    std::string text(400, ' ');
    const int size = std::snprintf(text.data(), text.size(), format, numbers...);
    text.resize(static_cast<std::size_t>(size));
    return text;
}

TEST(ToText, KnownValues) {
    // Second route: by hand.
    EXPECT_EQ(to_text(0.0), "0");
    EXPECT_EQ(to_text(0.1), "0.1");
    EXPECT_EQ(to_text(-0.25), "-0.25");
    EXPECT_EQ(to_text(380.3), "380.3");
    EXPECT_EQ(to_text(6500.0), "6500");
    EXPECT_EQ(to_text(2.0 / 3.0, 3), "0.667");
    EXPECT_EQ(to_text(-2.0 / 3.0, 0), "-1");
    EXPECT_EQ(to_text(12.0, 2), "12.00");
}

TEST(ToText, ReadsBackAsExactlyTheSameNumber) {
    Random random(1);
    int tried = 0;
    while (tried < 100000) {
        const auto value = std::bit_cast<double>(random.bits());  // every size, subnormal too
        if (!std::isfinite(value)) {
            continue;
        }
        ++tried;
        ASSERT_EQ(std::bit_cast<std::uint64_t>(read_back(to_text(value))),
                  std::bit_cast<std::uint64_t>(value));
    }
}

TEST(ToText, HasNoMoreDigitsThanNeeded) {
    // Second route: the least number of digits with which the C library's text reads back.
    Random random(2);
    for (int k = 0; k < 5000; ++k) {
        const double value = random.between(-1.0, 1.0) * std::pow(10.0, random.whole(-12, 12));
        int least = 1;
        while (std::strtod(printed("%.*e", least - 1, value).c_str(), nullptr) != value) {
            ++least;
        }
        const std::string text = to_text(value);
        int digits = 0;
        bool leading = true;
        for (const char c : text.substr(0, text.find('e'))) {
            leading = leading && (c == '0' || c == '.' || c == '-');
            digits += (c >= '0' && c <= '9' && !leading) ? 1 : 0;
        }
        // Whole numbers may be written out with the zeros that an exponent would save.
        if (text.find('.') != std::string::npos) {
            EXPECT_EQ(digits, least) << text;
        } else {
            EXPECT_GE(digits, least) << text;
        }
    }
}

TEST(ToText, FixedDecimalsAreRoundedToNearest) {
    // Second route: the C library's own rounding.
    Random random(3);
    const auto expect_same = [](double value, int decimals) {
        const std::string expected = printed("%.*f", decimals, value);
        const bool signed_zero =
            std::signbit(value) && std::strtod(expected.c_str(), nullptr) == 0.0;
        ASSERT_EQ(to_text(value, decimals), signed_zero ? expected.substr(1) : expected);
    };
    for (int k = 0; k < 20000; ++k) {
        expect_same(random.between(-1.0, 1.0) * std::pow(10.0, random.whole(-8, 29)),
                    random.whole(0, 17));
    }
    for (int tried = 0; tried < 100000;) {
        const auto value = std::bit_cast<double>(random.bits());  // every size, subnormal too
        if (!std::isfinite(value)) {
            continue;
        }
        ++tried;
        expect_same(value, random.whole(0, 17));
    }
}

TEST(ToText, NothingHasNoSign) {
    EXPECT_EQ(to_text(-0.0, 2), "0.00");
    EXPECT_EQ(to_text(-0.004, 2), "0.00");
    EXPECT_EQ(to_text(-0.4, 0), "0");
    EXPECT_EQ(to_text(-0.006, 2), "-0.01");
    EXPECT_EQ(to_text(-0.0), "-0") << "which has to read back as it was";
}

TEST(ToText, TheWholeStatedRangeFits) {
    const double largest = std::numeric_limits<double>::max();
    EXPECT_EQ(to_text(-largest, 17), printed("%.17f", -largest));
    EXPECT_EQ(to_text(-largest, 17).size(), 1U + 309U + 1U + 17U);
    for (const double value : {1e30, 1e45, 1e46, 1e47, 1e62, 1e63, 1e64, 1e100, 1e308}) {
        EXPECT_EQ(to_text(value, 17), printed("%.17f", value));
        EXPECT_EQ(to_text(value, 0), printed("%.0f", value));
    }
    EXPECT_EQ(to_text(2.0 / 3.0, 18), to_text(2.0 / 3.0, 17));
    EXPECT_EQ(to_text(2.0 / 3.0, 1000), to_text(2.0 / 3.0, 17));
    EXPECT_EQ(to_text(2.0 / 3.0, -1), "1");
    EXPECT_EQ(read_back(to_text(-std::numeric_limits<double>::max())),
              -std::numeric_limits<double>::max());
    EXPECT_EQ(read_back(to_text(-std::numeric_limits<double>::denorm_min())),
              -std::numeric_limits<double>::denorm_min());
}

TEST(ToText, WhatIsNotFiniteHasAWord) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    EXPECT_EQ(to_text(std::copysign(nan, 1.0)), "nan");
    EXPECT_EQ(to_text(std::copysign(nan, -1.0)), "-nan");
    EXPECT_EQ(to_text(inf), "inf");
    EXPECT_EQ(to_text(-inf), "-inf");
    EXPECT_EQ(to_text(std::copysign(nan, 1.0), 3), "nan");
    EXPECT_EQ(to_text(-inf, 3), "-inf");
}

// ---- Locale --------------------------------------------------------------------------------------

class DecimalComma : public std::numpunct<char> {
  protected:
    [[nodiscard]] char do_decimal_point() const override { return ','; }
    [[nodiscard]] char do_thousands_sep() const override { return '.'; }
    [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

// Puts both locales back as they were, whatever happens in between.
class LocaleGuard {
  public:
    LocaleGuard() : c_(std::setlocale(LC_ALL, nullptr)) {}
    ~LocaleGuard() {
        std::locale::global(cpp_);
        std::setlocale(LC_ALL, c_.c_str());
    }
    LocaleGuard(const LocaleGuard&) = delete;
    LocaleGuard& operator=(const LocaleGuard&) = delete;

  private:
    std::string c_;
    std::locale cpp_;
};

TEST(ToText, ADecimalCommaOfTheCppLocaleHasNoSay) {
    const LocaleGuard guard;
    std::locale::global(std::locale(std::locale::classic(), new DecimalComma));
    std::ostringstream other;
    other << 1234.5;
    ASSERT_EQ(other.str(), "1.234,5") << "the locale is not in force: nothing would be tested";
    EXPECT_EQ(to_text(1234.5), "1234.5");
    EXPECT_EQ(to_text(1234.5, 2), "1234.50");
}

TEST(ToText, ADecimalCommaOfTheCLocaleHasNoSay) {
    const LocaleGuard guard;
    bool in_force = false;
    for (const char* name : {"de_DE.utf8", "de_DE.UTF-8", "fr_FR.utf8", "nl_NL.utf8"}) {
        in_force = in_force || std::setlocale(LC_ALL, name) != nullptr;
    }
    if (!in_force) {
        GTEST_SKIP()
            << "no locale with a decimal comma is installed (package locales, de_DE.UTF-8)";
    }
    ASSERT_EQ(printed("%.1f", 0.5), "0,5") << "the locale is not in force";
    EXPECT_EQ(to_text(1234.5), "1234.5");
    EXPECT_EQ(to_text(1234.5, 2), "1234.50");
}

}  // namespace
}  // namespace samelight
