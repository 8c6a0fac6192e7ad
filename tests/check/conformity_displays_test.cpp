// Whether stated probabilities come true on whole displays, of every kind of error: of cases stated at 0.85 to 0.95, 0.8 to 0.97 conform.
#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <utility>

#include <gtest/gtest.h>

#include "check/judged_displays.hpp"

namespace samelight::test {
namespace {

constexpr std::array<std::pair<JudgedKind, const char*>, 6> judged_kinds = {
    {{JudgedKind::small_everywhere, "small errors everywhere"},
     {JudgedKind::outliers, "one to five outliers"},
     {JudgedKind::white, "white off"},
     {JudgedKind::gamma, "gamma off"},
     {JudgedKind::saturation, "saturation off"},
     {JudgedKind::correction, "correction off"}}};

struct Stated {
    int count = 0, conform = 0;
    void add(bool conforms) {
        ++count;
        conform += conforms ? 1 : 0;
    }
    void add(const Stated& other) {
        count += other.count;
        conform += other.conform;
    }
    [[nodiscard]] double share() const { return static_cast<double>(conform) / count; }
    [[nodiscard]] std::string said() const {
        return std::to_string(conform) + " of " + std::to_string(count);
    }
};

void expect_calibrated(const Stated& stated, const char* what) {
    testing::Test::RecordProperty(what, stated.said());
    EXPECT_GE(stated.share(), 0.8) << what << ": " << stated.said();
    EXPECT_LE(stated.share(), 0.97) << what << ": " << stated.said();
}

// Each display is judged by the gate at which its stated probability is one drawn from 0.85 to 0.95; in the larger draw also by a gate that was there before, 2, 3 or 5, of which but few are
// stated so. A kind's share of 0.9 scatters by 0.017 in 300 and by 0.06 in 24, so that few tell of all together alone.
TEST(ConformityOfDisplays, OfThoseStatedAtNineTenthsNineInTenConform) {
    const bool many = std::getenv("SAMELIGHT_ALL_CASES") != nullptr;
    const int each = many ? 100 : 6;
    Stated all;
    Stated all_at_gate;
    std::uint64_t seed = 4000;
    for (const auto& [kind, name] : judged_kinds) {
        Stated stated;
        for (const double noise : {0.002, 0.005, 0.01}) {
            JudgedDisplays displays(kind, noise, ++seed);
            PseudoRandom level(seed);
            for (int i = 0; i < each; ++i) {
                const JudgedDisplay one = displays.next();
                stated.add(one.place <= 0.85 + 0.1 * level.next_unit());
                if (one.probability >= 0.85 && one.probability <= 0.95) {
                    all_at_gate.add(one.conforms);
                }
            }
        }
        if (many) {
            expect_calibrated(stated, name);
        }
        all.add(stated);
    }
    expect_calibrated(all, "all");
    if (many) {
        ASSERT_GE(all_at_gate.count, 60);
        expect_calibrated(all_at_gate, "all, at gates of 2, 3 and 5");
    }
}

}  // namespace
}  // namespace samelight::test
