// Faults that a simulated display has are found and named, alone and in pairs, and a clean one has none.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "check/hdr_display.hpp"
#include "check/injected_faults.hpp"
#include "check/looked_at.hpp"
#include "check/simulated_display.hpp"
#include "samelight/check/faults/find_faults.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/proof/uniformity.hpp"

namespace samelight::test {
namespace {

TEST(FaultInjection, EachIsFoundAndNothingElse) {
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_list(intended);
    const auto cases = sdr_faults();
    ASSERT_GE(cases.size(), 25U);
    for (const FaultCase& wanted : cases) {
        Injected faults;
        wanted.inject(faults);
        Visit visit;
        visit.seed = 7;
        const FoundFaults found =
            look_at(intended, list, simulated_visit(intended, list, faults, visit));
        EXPECT_TRUE(names_it(found, wanted)) << wanted.name << ":" << said(found);
        EXPECT_EQ(found.faults.size(), 1U) << wanted.name << ":" << said(found);
    }
}

TEST(FaultInjection, PairsAreBothFound) {
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_list(intended);
    const auto cases = sdr_faults();
    const int every = all_cases() ? 1 : 15;
    int number = 0;
    int tried = 0;
    for (std::size_t a = 0; a < cases.size(); ++a) {
        for (std::size_t b = a + 1; b < cases.size(); ++b) {
            if (!apart(cases[a], cases[b]) || number++ % every != 0) {
                continue;
            }
            Injected faults;
            cases[a].inject(faults);
            cases[b].inject(faults);
            Visit visit;
            visit.seed = 1000 + static_cast<std::uint64_t>(number);
            const FoundFaults found =
                look_at(intended, list, simulated_visit(intended, list, faults, visit));
            EXPECT_TRUE(names_it(found, cases[a]) && names_it(found, cases[b]))
                << cases[a].name << " and " << cases[b].name << ":" << said(found);
            ++tried;
        }
    }
    EXPECT_GE(tried, 30);
}

TEST(FaultInjection, CleanDisplaysHaveNone) {
    // The rule of three: none of 500 is below 0.6 %, 19 times in 20.
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_list(intended);
    const std::uint64_t count = all_cases() ? 2000 : 500;
    for (std::uint64_t i = 0; i < count; ++i) {
        Visit visit;
        visit.seed = 5000 + i;
        const FoundFaults found =
            look_at(intended, list, simulated_visit(intended, list, {}, visit));
        EXPECT_TRUE(found.faults.empty()) << i << said(found);
        EXPECT_EQ(found.unexplained, 0U) << i;
    }
}

std::vector<FaultCase> hdr_faults() {
    using K = FaultKind;
    using C = FaultChannel;
    return {
        {"white emitter", [](Injected& f) { f.emitter = 0.3; }, K::white_emitter, C::none,
         "emitter"},
        {"white off", [](Injected& f) { f.gains[2] *= 1.06; }, K::white_off, C::none, "white"},
        {"limiter at 30 %", [](Injected& f) { f.limit = 0.3; }, K::limiter, C::none, "ends"},
        {"gamma instead", [](Injected& f) { f.curve = [](double v) { return std::pow(v, 2.4); }; },
         K::wrong_curve, C::none, "curve"},
        {"rolled off from 4000 cd/m2",
         [](Injected& f) {
             f.curve = [](double v) {
                 HdrDisplay display;
                 display.peak = 800.0;
                 display.programme = 4000.0;
                 return display.grey(v) / 800.0;
             };
         },
         K::other_roll_off, C::none, "curve"},
        {"hue turned", [](Injected& f) { f.hue_deg = 4.0; }, K::hue_off, C::none, "colour"}};
}

TEST(FaultInjection, HighDynamicRangeAloneAndInPairs) {
    const IntendedDisplay intended = hdr_intent();
    const auto list = proof_list(intended);
    const auto cases = hdr_faults();
    for (std::size_t a = 0; a < cases.size(); ++a) {
        for (std::size_t b = a; b < cases.size(); ++b) {
            if (a != b && !apart(cases[a], cases[b])) {
                continue;
            }
            Injected faults;
            cases[a].inject(faults);
            if (a != b) {
                cases[b].inject(faults);
            }
            const FoundFaults found =
                look_beside_peak(intended, list, simulated_visit(intended, list, faults, {}));
            EXPECT_TRUE(names_it(found, cases[a]) && names_it(found, cases[b]))
                << cases[a].name << " and " << cases[b].name << ":" << said(found);
        }
    }
    const FoundFaults clean =
        look_beside_peak(intended, list, simulated_visit(intended, list, {}, {}));
    EXPECT_TRUE(clean.faults.empty()) << said(clean);
}

/// A display of P3's primaries that is given signals of BT.2020, and shows every colour as near as its lights reach.
std::vector<PatchReading> shown_by_p3(const IntendedDisplay& meant,
                                      const std::vector<SignalPatch>& list, double emitter) {
    // X, Y, Z of P3's primaries about D65 (SMPTE EG 432-1, from memory), and the inverse by Cramer's rule.
    const std::array<Three, 3> m = {
        {{0.48657, 0.26567, 0.19822}, {0.22897, 0.69174, 0.07929}, {0.0, 0.04511, 1.04394}}};
    const auto det = [](const std::array<Three, 3>& a) {
        return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
               a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
               a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
    };
    const double peak = meant.curve().options().white_cd_m2;
    std::vector<PatchReading> readings;
    for (const SignalPatch& patch : list) {
        const auto wanted = meant.xyz(patch.signal);
        Three light{};
        for (std::size_t k = 0; k < 3; ++k) {
            std::array<Three, 3> column = m;
            for (std::size_t i = 0; i < 3; ++i) {
                column[i][k] = wanted[i];
            }
            light[k] = std::clamp(det(column) / det(m), 0.0, peak) / (1.0 + emitter);
        }
        const double common = emitter * std::min({light[0], light[1], light[2]});
        PatchReading reading;
        reading.patch = patch.name;
        reading.signal = patch.signal;
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                reading.xyz[i] += m[i][k] * (light[k] + common);
            }
        }
        reading.line = readings.size() + 2;
        readings.push_back(std::move(reading));
    }
    return readings;
}

TEST(FaultInjection, AGamutSmallerThanTheEncodings) {
    const IntendedDisplay meant(RgbEncoding::of<Bt2020>(),
                                SignalCurve({CurveKind::pq, 800.0, 0.0}));
    const auto list = proof_list(meant);
    FaultCase wanted{"gamut", nullptr, FaultKind::gamut_smaller};
    const FoundFaults found = look_beside_peak(meant, list, shown_by_p3(meant, list, 0.0));
    ASSERT_EQ(found.faults.size(), 1U) << said(found);
    EXPECT_TRUE(names_it(found, wanted)) << said(found);
    EXPECT_EQ(found.faults[0].other, "p3-d65");
    EXPECT_EQ(found.faults[0].patches, found.outside_gamut.size());
    EXPECT_GE(found.outside_gamut.size(), 3U);
    EXPECT_EQ(found.unexplained, 0U);
    // Of white, black, greys and the three primaries alone it is the same picture as other primaries, beside a white emitter, too.
    std::vector<SignalPatch> few;
    for (const SignalPatch& patch : list) {
        const auto& s = patch.signal;
        const bool primary =
            s[0] + s[1] + s[2] == 1.0 && *std::max_element(s.begin(), s.end()) == 1.0;
        if (patch.group == SignalGroup::grey || primary) {
            few.push_back(patch);
        }
    }
    const FoundFaults with = look_beside_peak(meant, few, shown_by_p3(meant, few, 0.35));
    EXPECT_TRUE(names_it(with, wanted)) << said(with);
    wanted.kind = FaultKind::white_emitter;
    EXPECT_TRUE(names_it(with, wanted)) << said(with);
    EXPECT_EQ(with.faults.size(), 2U) << said(with);
}

TEST(FaultInjection, ABt1886DisplayWhereAnotherCurveIsMeant) {
    // BT.1886 without black is the power of 2.4 (its Annex 1).
    for (const CurveKind kind : {CurveKind::srgb, CurveKind::pq, CurveKind::hlg}) {
        const IntendedDisplay intended =
            IntendedDisplay(RgbEncoding::of<Bt709>(), SignalCurve({kind, 120.0, 0.0}))
                .with_white({0.3127, 0.3290});
        Injected faults;
        faults.curve = [](double v) { return std::pow(v, 2.4); };
        const auto list = proof_list(intended);
        const FoundFaults found =
            look_at(intended, list, simulated_visit(intended, list, faults, {}));
        ASSERT_EQ(found.faults.size(), 1U) << code_of(kind) << said(found);
        EXPECT_EQ(found.faults[0].kind, FaultKind::wrong_curve) << code_of(kind);
        EXPECT_EQ(found.faults[0].other, "bt1886") << code_of(kind);
    }
}

TEST(FaultInjection, LuminanceThatWasAskedFor) {
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_list(intended);
    Injected faults;
    faults.gains = {0.8, 0.8, 0.8};
    const FoundFaults found =
        look_beside_peak(intended, list, simulated_visit(intended, list, faults, {}));
    ASSERT_EQ(found.faults.size(), 1U) << said(found);
    EXPECT_EQ(found.faults[0].kind, FaultKind::luminance_off);
    EXPECT_NEAR(found.faults[0].measured, 96.0, 0.5);
}

TEST(FaultInjection, AScreenThatIsUnevenInColour) {
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_list(intended);
    auto readings = simulated_visit(intended, list, {}, {});
    PatchReading white;
    white.signal = Three{1.0, 1.0, 1.0};
    white.patch = "white";
    white.xyz = intended.white();
    white.position = "centre";
    readings.push_back(white);
    white.position = "left";
    white.xyz[2] *= 0.94;
    readings.push_back(white);
    const SignalNames names(list, Quantisation(10, SignalRange::full));
    const ProofReadings sorted = sort_readings(readings, names, intended.white(), {"visit"});
    const FoundFaults found = find_faults(
        {sorted, intended, WhiteLevel::as_measured, uniformity(sorted.placed, intended)});
    ASSERT_EQ(found.faults.size(), 1U) << said(found);
    EXPECT_EQ(found.faults[0].kind, FaultKind::uneven_colour);
    EXPECT_EQ(found.faults[0].other, "left");
}

}  // namespace
}  // namespace samelight::test
