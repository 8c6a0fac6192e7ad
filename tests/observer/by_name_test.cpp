// Observers by what people type.
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

TEST(ObserverNamed, KnowsEveryStandardObserver) {
    for (const Observer* observer : named_observers()) {
        const Observer found = observer_named(observer->id());
        EXPECT_EQ(found.id(), observer->id());
        EXPECT_EQ(found.row(1), observer->row(1));
    }
}

TEST(ObserverNamed, MakesConeFundamentalsOfAnAgeAndAField) {
    EXPECT_EQ(observer_named("cie2006:45:2").row(2), cone_fundamentals({45.0, 2.0}).row(2));
    EXPECT_EQ(observer_named("cie2006:32.5:4").row(0), cone_fundamentals({32.5, 4.0}).row(0));
    // However it is written, the identity is the shortest text, so values of the two may mix.
    EXPECT_EQ(observer_named("cie2006:45.0:2.00").id(), "cie2006:45:2");
    EXPECT_EQ(observer_named("cie2006:4.5e1:2").id(), "cie2006:45:2");
}

TEST(ObserverNamed, GivesBackWhatConeFundamentalsAreCalled) {
    for (const double age : {20.0, 20.1, 33.333333333333336, 80.0}) {
        const ConeConditions conditions{age, 2.7};
        EXPECT_EQ(cone_conditions_named(cone_fundamentals_id(conditions)), conditions);
    }
}

TEST(ObserverNamed, LeavesOtherNamesToOthers) {
    EXPECT_FALSE(cone_conditions_named("cie2006-2deg"));
    EXPECT_FALSE(cone_conditions_named(""));
}

TEST(ObserverNamed, RefusesWithWhatThereIs) {
    const std::string text = refusal(ErrorKind::domain, [] { (void)observer_named("cie1931"); });
    EXPECT_TRUE(contains(text, "\"cie1931\"")) << text;
    for (const Observer* observer : named_observers()) {
        EXPECT_TRUE(contains(text, observer->id())) << text;
    }
    EXPECT_TRUE(contains(text, "cie2006:AGE:FIELD")) << text;
    refusal(ErrorKind::domain, [] { (void)observer_named(""); });
    refusal(ErrorKind::domain, [] { (void)observer_named("CIE1931-2DEG"); });
}

TEST(ObserverNamed, RefusesWhatIsNoAgeOrField) {
    for (const char* name :
         {"cie2006:", "cie2006:45", "cie2006:45:", "cie2006::2", "cie2006:45:2:3", "cie2006:+45:2",
          "cie2006: 45:2", "cie2006:45:2 ", "cie2006:45,5:2", "cie2006:0x2d:2", "cie2006:old:2"}) {
        const std::string text = refusal(ErrorKind::domain, [&] { (void)observer_named(name); });
        EXPECT_TRUE(contains(text, std::string("\"") + name + "\"")) << text;
        EXPECT_TRUE(contains(text, "like cie2006:45:2")) << text;
    }
    for (const char* name : {"cie2006:19:2", "cie2006:81:2", "cie2006:45:0.5", "cie2006:45:11",
                             "cie2006:nan:2", "cie2006:45:inf", "cie2006:-45:2"}) {
        const std::string text = refusal(ErrorKind::domain, [&] { (void)observer_named(name); });
        EXPECT_TRUE(contains(text, std::string("\"") + name + "\"")) << text;
    }
}

}  // namespace
}  // namespace samelight
