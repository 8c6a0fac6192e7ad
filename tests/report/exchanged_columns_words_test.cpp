// Where a fit fails on readings whose columns look exchanged, the error, which the core words itself, finds what the warning says.
#include <algorithm>
#include <array>
#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/warning_words.hpp"

using namespace samelight;

namespace {

// Second route: the sentence, made from the warning's facts in another room.
TEST(ExchangedColumnsWords, TheErrorFindsWhatTheWarningSays) {
    using Order = std::array<std::size_t, 3>;
    std::set<std::string> forms;
    for (const char* panel : {"oled-rgb", "lcd-white-led", "laser-rgb"}) {
        test::Random random(72);
        const std::vector<PairedReading> right =
            test::SimulatedCalibration(generic_panel(generic_model(panel)),
                                       test::invented_meters().front())
                .read(random, 4, {0.0002, 0.004});
        for (const std::string patch : {"", "red", "green", "blue", "white"}) {
            for (const Order& order :
                 {Order{1, 0, 2}, Order{2, 1, 0}, Order{0, 2, 1}, Order{1, 2, 0}, Order{2, 0, 1}}) {
                std::vector<PairedReading> wrong = right;
                for (PairedReading& pair : wrong) {
                    for (auto* xyz : {&pair.reference, &pair.meter}) {
                        if (patch.empty() || pair.patch == patch) {
                            *xyz = {(*xyz)[order[0]], std::max((*xyz)[order[1]], 1e-3),
                                    (*xyz)[order[2]]};
                        }
                    }
                }
                const ReadingSet set(wrong);
                const auto exchanged = check_columns(set);
                try {
                    static_cast<void>(fit_correction(set));
                } catch (const Error& error) {
                    if (exchanged &&
                        error.wanted().rfind("X, Y, Z (or x, y, Y) in this order", 0) == 0) {
                        EXPECT_EQ(error.found() + ".",
                                  report::sentence(exchange_warning(*exchanged)))
                            << panel << patch;
                        forms.insert(std::string(code_of(exchanged->columns)) +
                                     code_of(exchanged->shown_by));
                    }
                }
            }
        }
    }
    EXPECT_GE(forms.size(), 3U);  // one alone would prove little
}

}  // namespace
