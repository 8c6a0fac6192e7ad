// The locale has no say in reading or writing.
#include <clocale>
#include <cstdio>
#include <locale>
#include <string>

#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"

namespace samelight::io::test {
namespace {

/// Puts both locales of the process back.
class LocaleGuard {
  public:
    LocaleGuard() : c_(std::setlocale(LC_ALL, nullptr)) {}
    LocaleGuard(const LocaleGuard&) = delete;
    LocaleGuard& operator=(const LocaleGuard&) = delete;
    LocaleGuard(LocaleGuard&&) = delete;
    LocaleGuard& operator=(LocaleGuard&&) = delete;
    ~LocaleGuard() {
        std::locale::global(cpp_);
        std::setlocale(LC_ALL, c_.c_str());
    }

  private:
    std::string c_;
    std::locale cpp_;
};

/// Numbers as in much of Europe: decimal commas, points between thousands.
class CommaNumbers : public std::numpunct<char> {
  protected:
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

/// Reads and writes points and commas, and compares with what was read and written before.
class ReadAndWritten {
  public:
    ReadAndWritten() : points_(read_spectral_csv(data_file("plain.csv"))), text_(text()) {}

    void expect_unchanged() const {
        expect_same_lights(read_spectral_csv(data_file("plain.csv")).lights, points_.lights);
        expect_same_lights(read_spectral_csv(data_file("semicolons_commas.csv")).lights,
                           points_.lights);
        EXPECT_EQ(text(), text_);
        EXPECT_EQ(parse_spectral_csv(text_, "again").understood,
                  parse_spectral_csv(bytes_of(data_file("plain.csv")), "again").understood);
        expect_refusal("nm,red\n410.5,1\n780,2.5\n", "2:1", {"from 410.5 to 780 nm"});
    }

  private:
    static std::string text() {
        return spectral_csv_text({}, read_spectral_csv(data_file("plain.csv")).lights);
    }

    SpectralFile points_;
    std::string text_;
};

TEST(SpectralCsvLocale, OfTheLanguageHasNoSay) {
    const LocaleGuard guard;
    const ReadAndWritten before;
    std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
    before.expect_unchanged();
}

TEST(SpectralCsvLocale, OfTheSystemHasNoSay) {
    const LocaleGuard guard;
    const ReadAndWritten before;
    if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr) {
        GTEST_SKIP() << "no locale de_DE.UTF-8 on this system";
    }
    std::locale::global(std::locale("de_DE.UTF-8"));
    char text[16];
    std::snprintf(text, sizeof text, "%.1f", 0.5);
    ASSERT_STREQ(text, "0,5");  // it is in force
    before.expect_unchanged();
}

}  // namespace
}  // namespace samelight::io::test
