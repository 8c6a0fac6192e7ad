// Code values: published anchors, every code of every depth there and back, and what is cut.
#include "samelight/colour/signals/quantisation.hpp"
#include "numeric/exactly.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/error.hpp"

#include <array>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using enum SignalRange;
using enum SignalComponent;

struct Anchor {
    int bits;
    SignalRange range;
    SignalComponent component;
    double signal;
    int code;
};

TEST(Quantisation, HasThePublishedAnchors) {
    const std::array<Anchor, 24> anchors = {{
        // ITU-R BT.709-6, 4.6, and BT.2020-2, Table 5: black 16, white 235, differences 128, 16 and 240 at 8 bits, times 4 at 10
        // bits and 16 at 12 bits.
        {8, limited, value, 0.0, 16},
        {8, limited, value, 1.0, 235},
        {8, limited, difference, 0.0, 128},
        {8, limited, difference, -0.5, 16},
        {8, limited, difference, 0.5, 240},
        {10, limited, value, 0.0, 64},
        {10, limited, value, 1.0, 940},
        {10, limited, difference, 0.0, 512},
        {10, limited, difference, -0.5, 64},
        {10, limited, difference, 0.5, 960},
        {12, limited, value, 0.0, 256},
        {12, limited, value, 1.0, 3760},
        {12, limited, difference, 0.0, 2048},
        {12, limited, difference, 0.5, 3840},
        // ITU-R BT.2100-2, Table 9: full range, nominal peak 1023 and 4095, achromatic 512 and 2048.
        {10, full, value, 0.0, 0},
        {10, full, value, 1.0, 1023},
        {10, full, difference, 0.0, 512},
        {12, full, value, 1.0, 4095},
        {12, full, difference, 0.0, 2048},
        // The same formulas at the depths that the table leaves out.
        {8, full, value, 1.0, 255},
        {16, limited, value, 0.0, 4096},
        {16, limited, value, 1.0, 60160},
        {16, full, value, 1.0, 65535},
        {16, full, difference, 0.0, 32768},
    }};
    for (const Anchor& a : anchors) {
        const CodeValue got = Quantisation(a.bits, a.range).code(Signal(a.signal), a.component);
        EXPECT_EQ(got, (CodeValue{a.code, false})) << a.bits << " bits, signal " << a.signal;
    }
}

// ITU-R BT.2100-2, Tables 4 and 9: codes of PQ signals.
TEST(Quantisation, MeetsTheCodesOfPqSignals) {
    const test::CheckRows rows("checks/pq_st2084.csv");
    for (const auto& row : rows) {
        const Signal s(row.number("E_prime"));
        EXPECT_EQ(Quantisation(10, limited).code(s).code, row.number("narrow10_code"));
        EXPECT_EQ(Quantisation(12, limited).code(s).code, row.number("narrow12_code"));
        EXPECT_NEAR(Quantisation(10, full).exact_code(s), row.number("full10_exact"), 1.1e-6);
    }
    EXPECT_EQ(rows.size(), 32U);
}

// ITU-R BT.2100-2, Table 9: video data 4 to 1019 at 10 bits, 16 to 4079 at 12 bits; BT.709-6: 1 to 254 at 8 bits.
TEST(Quantisation, KeepsTheTimingCodesFree) {
    EXPECT_EQ(Quantisation(8, limited).lowest_code(), 1);
    EXPECT_EQ(Quantisation(8, limited).highest_code(), 254);
    EXPECT_EQ(Quantisation(10, limited).lowest_code(), 4);
    EXPECT_EQ(Quantisation(10, limited).highest_code(), 1019);
    EXPECT_EQ(Quantisation(12, limited).lowest_code(), 16);
    EXPECT_EQ(Quantisation(12, limited).highest_code(), 4079);
    EXPECT_EQ(Quantisation(12, full).lowest_code(), 0);
    EXPECT_EQ(Quantisation(12, full).highest_code(), 4095);
}

TEST(Quantisation, GivesEveryCodeBackAtEveryDepth) {
    for (int bits = 8; bits <= 16; ++bits) {
        for (const SignalRange range : {limited, full}) {
            const Quantisation q(bits, range);
            for (const SignalComponent component : {value, difference}) {
                double before = -std::numeric_limits<double>::infinity();
                for (int code = q.lowest_code(); code <= q.highest_code(); ++code) {
                    const Signal s = q.signal(code, component);
                    ASSERT_EQ(q.code(s, component), (CodeValue{code, false})) << bits;
                    ASSERT_GT(s.value(), before);
                    ASSERT_NEAR(q.exact_code(s, component), code, 1e-10);
                    before = s.value();
                }
            }
        }
    }
}

// BT.2100-2, Table 9: Round(x) = Sign(x) Floor(|x| + 0.5).
TEST(Quantisation, RoundsToTheNearestCode) {
    for (int bits = 8; bits <= 16; ++bits) {
        for (const SignalRange range : {limited, full}) {
            const Quantisation q(bits, range);
            for (int i = 0; i <= 1000; ++i) {
                const Signal s(i / 1000.0);
                const CodeValue got = q.code(s);
                const double exact = q.exact_code(s);
                EXPECT_LE(std::abs(got.code - exact), 0.5 + test::exactly * exact);
                EXPECT_FALSE(got.clipped);
            }
        }
    }
    EXPECT_EQ(Quantisation(8, full).code(Signal(127.5 / 255.0)).code, 128);
}

TEST(Quantisation, SaysWhatItCuts) {
    const Quantisation q(10, limited);
    EXPECT_EQ(q.code(Signal(2.0)), (CodeValue{1019, true}));
    EXPECT_EQ(q.code(Signal(-1.0)), (CodeValue{4, true}));
    EXPECT_EQ(q.code(Signal(1e300)), (CodeValue{1019, true}));
    EXPECT_EQ(q.code(Signal(1.09)),
              (CodeValue{1019, false}));  // 1018.84: above white, still a code
    EXPECT_EQ(Quantisation(10, full).code(Signal(-0.001)), (CodeValue{0, true}));
    EXPECT_EQ(Quantisation(10, full).code(Signal(-0.0004)), (CodeValue{0, false}));
    // The formula's 1024 for the largest difference is one code too many (BT.2100-2, Table 9).
    EXPECT_EQ(Quantisation(10, full).code(Signal(0.5), difference), (CodeValue{1023, true}));
}

TEST(Quantisation, RefusesOtherDepthsAndCodes) {
    EXPECT_THROW(Quantisation(7, full), Error);
    EXPECT_THROW(Quantisation(17, limited), Error);
    EXPECT_THROW(static_cast<void>(Quantisation(8, full).signal(256)), Error);
    EXPECT_THROW(static_cast<void>(Quantisation(8, full).signal(-1)), Error);
    EXPECT_NO_THROW(static_cast<void>(Quantisation(8, limited).signal(255)));
    EXPECT_THROW(Signal{std::numeric_limits<double>::quiet_NaN()}, Error);
}

}  // namespace
}  // namespace samelight
