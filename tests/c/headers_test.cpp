// The headers of the C interface: each function is described, and refusals_test.cpp tries it.
#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <regex>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "c/world.hpp"

namespace c_interface {
namespace {

/// All of them, one after the other.
std::string text_of_headers() {
    std::set<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(SAMELIGHT_C_HEADERS)) {
        files.insert(entry.path());
    }
    std::string text;
    for (const auto& file : files) {
        text += bytes_of(file.string());
    }
    return text;
}

/// The functions that the headers declare.
std::set<std::string> functions_declared() {
    const std::string header = text_of_headers();
    const std::regex function(
        "SAMELIGHT_C_API\\s+[a-z0-9_]+[\\s\\*a-z0-9_]*?(samelight_[a-z0-9_]+)\\(");
    std::set<std::string> names;
    for (std::sregex_iterator at(header.begin(), header.end(), function), end; at != end; ++at) {
        names.insert((*at)[1]);
    }
    return names;
}

// What is tried is read from the source that tries it.
TEST(CRefusals, NoFunctionIsForgotten) {
    const std::string source =
        bytes_of((std::filesystem::path(__FILE__).parent_path() / "refusals_test.cpp").string());
    const std::set<std::string> declared = functions_declared();
    EXPECT_GT(declared.size(), 70U);
    for (const std::string& name : declared) {
        const bool probed = source.find("PROBE(" + name + ",") != std::string::npos;
        const bool takes_null = source.find("TAKES_NULL(" + name + ")") != std::string::npos;
        const bool by_name = source.find("EXPECT_STREQ(" + name + "(") != std::string::npos ||
                             source.find("EXPECT_EQ(" + name + "(") != std::string::npos;
        EXPECT_TRUE(probed || takes_null || by_name || name == "samelight_version") << name;
    }
}

// Each stands under a sentence that says what it does.
TEST(CRefusals, EveryFunctionIsDescribed) {
    const std::string header = text_of_headers();
    std::string before;
    std::size_t count = 0;
    for (std::size_t at = 0, end = 0; at < header.size(); at = end + 1) {
        end = std::min(header.find('\n', at), header.size());
        const std::string line = header.substr(at, end - at);
        if (line.rfind("SAMELIGHT_C_API ", 0) == 0) {
            EXPECT_EQ(before.rfind("///", 0), 0U) << line;
            ++count;
        }
        before = line;
    }
    EXPECT_EQ(count, functions_declared().size());
}

}  // namespace
}  // namespace c_interface
