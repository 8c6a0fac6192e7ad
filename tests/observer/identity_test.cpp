// The observer as part of a value: nothing but a type for the standard ones, a name for the rest.
#include <string>
#include <string_view>
#include <type_traits>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

TEST(Identity, AStandardObserversIsItsTypeAlone) {
    static_assert(std::is_empty_v<OfObserver<Cie1931_2deg>>);
    EXPECT_EQ(OfObserver<Cie1931_2deg>::observer_id(), "cie1931-2deg");
    EXPECT_EQ(OfObserver<JuddVos1978>::observer_id(), "judd-vos-1978");
    EXPECT_NO_THROW(require_same_observer<Cie1931_2deg>("anywhere", {}, {}));
}

TEST(Identity, AnyKeepsACopyOfItsName) {
    std::string name = "viewer-b-20s";
    const OfObserver<Any> observer{std::string_view(name)};
    name = "someone else";
    EXPECT_EQ(observer.observer_id(), "viewer-b-20s");
    EXPECT_EQ(observer, OfObserver<Any>("viewer-b-20s"));
    EXPECT_NE(observer, OfObserver<Any>("viewer-b-30s"));
}

TEST(Identity, TwoNamesAreRefusedAndBothTold) {
    const OfObserver<Any> a("first");
    const OfObserver<Any> b("second");
    const std::string text =
        refusal(ErrorKind::observer, [&] { require_same_observer("the place", a, b); });
    EXPECT_EQ(text, "the place: values of first and of second; wanted values of one observer");
    EXPECT_NO_THROW(require_same_observer("the place", a, OfObserver<Any>("first")));
}

TEST(Identity, OfAResultIsCheckedForATagAndKeptForAny) {
    EXPECT_EQ(detail::identity_of<Any>("here", "first").observer_id(), "first");
    EXPECT_NO_THROW(detail::identity_of<Cie1931_2deg>("here", "cie1931-2deg"));
    const std::string text =
        refusal(ErrorKind::observer, [] { detail::identity_of<Cie1931_2deg>("here", "first"); });
    EXPECT_TRUE(contains(text, "first")) << text;
    EXPECT_TRUE(contains(text, "cie1931-2deg")) << text;
}

}  // namespace
}  // namespace samelight
