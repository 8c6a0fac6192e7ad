// An observer standing in for a meter: as it is, and with nothing to be scaled.
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

TEST(OpenMeter, AnObserverIsTakenAsItIs) {
    const io::NamedMeter meter = io::open_meter("cie1964-10deg");
    EXPECT_TRUE(meter.observer);
    EXPECT_EQ(meter.scale, RowScale::as_given);
    EXPECT_TRUE(meter.understood.empty());
    const Sensitivities own = standard_observer<Cie1964_10deg>().on(Sampling{});
    EXPECT_TRUE(meter.rows.rows() == own.rows());
}

TEST(OpenMeter, AnObserverHasNoRowsToBeScaled) {
    const std::string said = test::refusal(ErrorKind::input, [] {
        static_cast<void>(io::open_meter("cie1964-10deg", RowScale::illuminant_a));
    });
    EXPECT_TRUE(test::contains(said, "cie1964-10deg")) << said;
    EXPECT_TRUE(test::contains(said, "an observer, and rows to be scaled")) << said;
}

}  // namespace
}  // namespace samelight
