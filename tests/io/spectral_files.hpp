#pragma once
// What the tests of spectral files share.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::test {

inline std::string data_file(const std::string& name) {
    return std::string(SAMELIGHT_TEST_DATA) + "/spectra/" + name;
}

inline std::string bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// True where one of the sentences holds the part.
inline bool says(const std::vector<std::string>& sentences, std::string_view part) {
    return std::any_of(sentences.begin(), sentences.end(), [&](const std::string& sentence) {
        return sentence.find(part) != std::string::npos;
    });
}

inline std::string joined(const std::vector<std::string>& sentences) {
    std::string text;
    for (const std::string& sentence : sentences) {
        text += "\n  " + sentence;
    }
    return text;
}

inline bool warns(const SpectralFile& file, std::string_view code) {
    return std::any_of(file.warnings.begin(), file.warnings.end(),
                       [&](const Warning& warning) { return warning.code == code; });
}

/// Demands that `text` is refused at `place` ("line:column") in one line that holds all the parts.
inline void expect_refusal(const std::string& text, const std::string& place,
                           const std::vector<std::string>& parts) {
    try {
        const SpectralFile file = parse_spectral_csv(text, "file.csv");
        ADD_FAILURE() << "accepted:" << joined(file.understood) << "\n" << text.substr(0, 400);
    } catch (const Error& error) {
        const std::string message = error.what();
        EXPECT_EQ(error.kind(), ErrorKind::input) << message;
        EXPECT_EQ(message.rfind("file.csv:" + place + ": ", 0), 0U)
            << message << "\nnot at " << place;
        EXPECT_NE(message.find("; wanted "), std::string::npos) << message;
        EXPECT_EQ(message.find_first_of("\r\n"), std::string::npos) << message;
        for (const std::string& part : parts) {
            EXPECT_NE(message.find(part), std::string::npos) << message << "\nlacks " << part;
        }
    }
}

/// Demands the same spectra to the bit, by name.
inline void expect_same_lights(const std::vector<LightColumn>& found,
                               const std::vector<LightColumn>& wanted) {
    ASSERT_EQ(found.size(), wanted.size());
    for (std::size_t k = 0; k < wanted.size(); ++k) {
        EXPECT_EQ(found[k].name, wanted[k].name);
        EXPECT_EQ(found[k].light, wanted[k].light) << wanted[k].name;
    }
}

inline SpectralFile parsed(const std::string& text) { return parse_spectral_csv(text, "file.csv"); }

}  // namespace samelight::io::test
