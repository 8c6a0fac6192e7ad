// The one exception type: what it says and what kind it is.
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

TEST(Error, SaysWhereWhatAndWhatWasWantedInOneLine) {
    const Error error(ErrorKind::domain, "daylight_series", "temperature 3000 K",
                      "4000 to 25000 K");
    EXPECT_STREQ(error.what(), "daylight_series: temperature 3000 K; wanted 4000 to 25000 K");
}

TEST(Error, KeepsItsKindThroughACatchAsRuntimeError) {
    for (const ErrorKind kind : {ErrorKind::domain, ErrorKind::shape, ErrorKind::singular,
                                 ErrorKind::observer, ErrorKind::input, ErrorKind::system}) {
        bool caught = false;
        try {
            throw Error(kind, "here", "this", "that");
        } catch (const std::runtime_error& error) {
            caught = true;
            const auto* own = dynamic_cast<const Error*>(&error);
            ASSERT_NE(own, nullptr);
            EXPECT_EQ(own->kind(), kind);
            EXPECT_EQ(std::string(own->what()), "here: this; wanted that");
        }
        EXPECT_TRUE(caught);
    }
}

TEST(Warning, AreEqualWhereCodeAndMessageAre) {
    const Warning warning{"noisy", "red: noise of 2 %"};
    EXPECT_EQ(warning, (Warning{"noisy", "red: noise of 2 %"}));
    EXPECT_NE(warning, (Warning{"clipped", "red: noise of 2 %"}));
    EXPECT_NE(warning, (Warning{"noisy", "red: noise of 3 %"}));
}

}  // namespace
}  // namespace samelight
