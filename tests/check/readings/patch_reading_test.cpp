// What is a reading, and that every door which takes readings refuses what is none. Own rule throughout; the bounds are those of the header.
#include "samelight/check/readings/patch_reading.hpp"

#include <array>
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/check/hdr/window_whites.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

PatchReading grey_of(double level) {
    PatchReading reading;
    reading.signal = {level, level, level};
    const double light = 100.0 * level * level;
    reading.xyz = {0.9505 * light, light, 1.0891 * light};
    return reading;
}

std::vector<PatchReading> ladder() {
    std::vector<PatchReading> readings;
    for (int i = 0; i <= 16; ++i) {
        readings.push_back(grey_of(i / 16.0));
    }
    return readings;
}

std::string refusal_of(const PatchReading& odd) {
    std::vector<PatchReading> readings = ladder();
    readings[7] = odd;
    try {
        require_readings("here", readings);
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::domain);
        return error.what();
    }
    return "";
}

TEST(PatchReadings, AreFiniteInWindowsThatThereAre) {
    EXPECT_NO_THROW(require_readings("here", ladder()));
    PatchReading good = grey_of(0.5);
    good.xyz = {-0.001, -0.002, -0.001};  // noise around a black
    good.window_pct = 100.0;
    good.time_s = 0.0;
    EXPECT_EQ(refusal_of(good), "");

    PatchReading odd = grey_of(0.5);
    odd.xyz[2] = no_number;
    EXPECT_NE(refusal_of(odd).find("here: reading 8 with X, Y, Z of"), std::string::npos)
        << refusal_of(odd);
    odd = grey_of(0.5);
    odd.line = 12;
    odd.signal = {0.5, infinity, 0.5};
    EXPECT_NE(refusal_of(odd).find("line 12 with signals of"), std::string::npos);
    for (const double window : {0.0, -10.0, 100.001, infinity, -infinity, no_number}) {
        odd = grey_of(0.5);
        odd.patch = "grey-50";
        odd.window_pct = window;
        EXPECT_NE(refusal_of(odd).find("patch grey-50 with a window of"), std::string::npos)
            << window;
    }
    odd = grey_of(0.5);
    odd.time_s = infinity;
    EXPECT_NE(refusal_of(odd).find("a time of"), std::string::npos);
}

TEST(PatchReadings, AreAskedForByWhatTakesThem) {
    using Readings = std::vector<PatchReading>;
    const std::vector<std::function<void(const Readings&)>> doors = {
        [](const Readings& r) { whites_by_window(r); }, [](const Readings& r) { pq_ladder(r); },
        [](const Readings& r) { grey_levels(r); }, [](const Readings& r) { measured_ramps(r); },
        [](const Readings& r) {
            sort_readings(r, SignalNames({}, Quantisation(8, SignalRange::full)),
                          {95.05, 100.0, 108.91}, {"visit"});
        }};
    for (std::size_t i = 0; i < doors.size(); ++i) {
        Readings readings = ladder();
        EXPECT_NO_THROW(doors[i](readings)) << i;
        readings[3].xyz[0] = no_number;
        EXPECT_THROW(doors[i](readings), Error) << i;
        readings = ladder();
        readings[3].window_pct = infinity;
        EXPECT_THROW(doors[i](readings), Error) << i;
    }
}

}  // namespace
}  // namespace samelight
