#include "accuracy/ledger.hpp"

#include <cstdlib>
#include <fstream>
#include <locale>
#include <sstream>
#include <utility>

#include <gtest/gtest.h>

#include "samelight/numeric/form.hpp"

namespace samelight::test {
namespace {

/// The lines written so far; the program has one thread.
std::vector<std::string>& lines() {
    static std::vector<std::string> all;
    return all;
}

std::string in_quotes(const std::string& text) {
    std::string result = "\"";
    for (const char letter : text) {
        if (letter == '"' || letter == '\\') {
            result += '\\';
        }
        result += letter;
    }
    return result + '"';
}

std::string two_digits(Exact value) {
    std::ostringstream out;
    out.imbue(std::locale::classic());
    out.precision(2);
    // Rounded up: what the table says was not exceeded.
    if (std::isfinite(value) && value > 0.0L) {
        const Exact step = std::pow(10.0L, std::floor(std::log10(value)) - 1.0L);
        value = std::ceil(value / step * (1.0L - 1e-12L)) * step;
    }
    out << static_cast<double>(value);
    return out.str();
}

/// Writes the ledger at the end of the program's run.
class Writer : public testing::Environment {
  public:
    void TearDown() override {
        const char* path = std::getenv("SAMELIGHT_ACCURACY_OUT");
        if (path == nullptr) {
            return;
        }
        std::ofstream out(path);
        out << "{\"draws\": " << draws() << ", \"compiled_for\": " << in_quotes(compiled_for())
            << ",\n \"figures\": [\n";
        for (std::size_t i = 0; i < lines().size(); ++i) {
            out << "  " << lines()[i] << (i + 1 < lines().size() ? ",\n" : "\n");
        }
        out << " ]}\n";
        if (!out.flush()) {
            ADD_FAILURE() << path << ": could not be written";
        }
    }

  private:
#define SAMELIGHT_TEXT_(x) #x
#define SAMELIGHT_TEXT(x) SAMELIGHT_TEXT_(x)
    static std::string compiled_for() {
#if defined(__clang__)
        const std::string compiler = "clang++ " SAMELIGHT_TEXT(__clang_major__);
#elif defined(__GNUC__)
        const std::string compiler = "g++ " SAMELIGHT_TEXT(__GNUC__);
#else
        const std::string compiler = "another compiler";
#endif
#if defined(__x86_64__)
        return compiler + ", x86-64, " SAMELIGHT_TEXT(SAMELIGHT_PROCESSOR);
#elif defined(__aarch64__)
        return compiler + ", arm64, " SAMELIGHT_TEXT(SAMELIGHT_PROCESSOR);
#else
        return compiler + ", " SAMELIGHT_TEXT(SAMELIGHT_PROCESSOR);
#endif
    }
};

const testing::Environment* const writer = testing::AddGlobalTestEnvironment(new Writer);

}  // namespace

std::size_t draws() {
    static const std::size_t count = [] {
        const char* said = std::getenv("SAMELIGHT_ACCURACY_DRAWS");
        const long wanted = said == nullptr ? 0 : std::strtol(said, nullptr, 10);
        return wanted > 0 ? static_cast<std::size_t>(wanted) : std::size_t{10000};
    }();
    return count;
}

Figure::Figure(Stated stated, std::string type)
    : stated_(std::move(stated)), type_(std::move(type)) {}

Figure::~Figure() {
    const std::string name =
        stated_.operation + (stated_.part.empty() ? "" : ", " + stated_.part) + ", " + type_;
    EXPECT_LE(static_cast<double>(largest_), std::strtod(stated_.bound.c_str(), nullptr)) << name;
    EXPECT_GE(seen_, draws() / 2) << name << ": too few of the draws were compared";
    std::string line = "{";
    const auto add = [&](const char* key, const std::string& value) {
        line += (line.size() > 1 ? ", " : "") + in_quotes(key) + ": " + value;
    };
    add("operation", in_quotes(stated_.operation));
    add("part", in_quotes(stated_.part));
    add("type", in_quotes(type_));
    add("header", in_quotes(stated_.header));
    add("range", in_quotes(stated_.range));
    add("bound", in_quotes(stated_.bound));
    add("unit", in_quotes(stated_.unit));
    add("reference", in_quotes(stated_.reference));
    add("largest", two_digits(largest_));
    lines().push_back(line + "}");
}

}  // namespace samelight::test
