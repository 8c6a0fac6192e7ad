#pragma once
// What a refusal says: for tests of errors, which have to name what was found and what was wanted.
#include <string>

#include <gtest/gtest.h>

#include "samelight/numeric/error.hpp"

namespace samelight::test {

/// The text of the samelight::Error that `action` throws; a failure of the test where it throws none, or one of another kind.
template <class Action>
std::string refusal(ErrorKind kind, Action&& action) {
    try {
        action();
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), kind) << error.what();
        const std::string text = error.what();
        EXPECT_EQ(text.find('\n'), std::string::npos) << "more than one line: " << text;
        EXPECT_NE(text.find("; wanted "), std::string::npos) << text;
        return text;
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
}

inline bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace samelight::test
