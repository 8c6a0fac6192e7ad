// Whole answers by several threads: whites, a proof with its causes, an adjustment, displays compared.
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/check/gradient.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "threads/same_for_threads.hpp"

namespace samelight {
namespace {

using test::Bits;

assess::WhiteReference white_of_tube() {
    assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
    tube.white = {WhiteSetTo{{0.3127, 0.3290}}};
    return assess::display_as_reference(tube);
}

assess::WhiteRequest whites_asked(const std::vector<const char*>& types) {
    assess::WhiteRequest request{white_of_tube()};
    for (const char* type : types) {
        request.panels.push_back(assess::generic_display(generic_model(type)));
    }
    PopulationParameters parameters;
    parameters.count = 300;
    request.population = Population(parameters);
    return request;
}

Bits bits_of(const assess::WhiteAnswer& answer) {
    Bits bits;
    for (const assess::PanelPart& part : answer.panels) {
        bits.add(part.dialled().xy.x()).add(part.dialled().xy.y());
        bits.add_all(part.budget->covariance);
        if (part.population) {
            bits.add_all(part.population->region.covariance_uv).add(part.population->pair_share);
        }
        if (part.advice) {
            bits.add(part.advice->sight.before).add(part.advice->sight.after);
        }
        if (part.viewer_group) {
            for (const CandidateWhite& candidate : part.viewer_group->people.candidates) {
                for (const ExpectedDifference& one : candidate.expected) {
                    bits.add(one.de00);
                }
            }
        }
    }
    for (const GroupSetting& setting : answer.display_group) {
        bits.add(setting.between_mean_uv);
    }
    return bits;
}

TEST(ThreadsOfAnswers, WhitesAreTheSame) {
    test::expect_same_for_threads([](std::size_t threads) {
        assess::WhiteRequest request = whites_asked({"oled-rgb", "oled-white", "laser-rgb"});
        request.threads = threads;
        return bits_of(assess::answer_white(request));
    });
}

TEST(ThreadsOfAnswers, WhitesOfViewersAreTheSame) {
    test::expect_same_for_threads([](std::size_t threads) {
        assess::WhiteRequest request = whites_asked({"oled-rgb"});
        request.viewers = {{30.0, 2.0}, {62.0, 4.0}};
        request.threads = threads;
        return bits_of(assess::answer_white(request));
    });
}

TEST(ThreadsOfAnswers, TheSameDisplayIsRefused) {
    // Neither has such a white; the first is named.
    for (const std::size_t threads : {1U, 2U, 8U}) {
        assess::WhiteRequest request = whites_asked({"laser-rgb", "oled-rgb", "crt"});
        request.panels[1].white = {WhiteSetTo{{0.05, 0.9}}};
        request.panels[2].white = {WhiteSetTo{{0.05, 0.8}}};
        request.threads = threads;
        const std::string said = test::refusal(
            ErrorKind::domain, [&] { static_cast<void>(assess::answer_white(request)); });
        EXPECT_TRUE(test::contains(said, request.panels[1].panel.name())) << said;
    }
}

TEST(ThreadsOfAnswers, ComparedDisplaysAreTheSame) {
    test::expect_same_for_threads([](std::size_t threads) {
        PopulationParameters parameters;
        parameters.count = 60;
        assess::MetamerismRequest request{white_of_tube().reference, {}};
        for (const char* type : {"oled-rgb", "crt", "lcd-narrow-red"}) {
            const GenericModel& model = generic_model(type);
            request.panels.push_back({type, generic_panel(model), &model});
        }
        request.population = Population(parameters);
        request.viewers = {{30.0, 2.0}};
        request.threads = threads;
        const assess::MetamerismAnswer answer = assess::answer_metamerism(request);
        Bits bits;
        for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
            bits.add(*answer.matrix.pairs[i].least_white_de00);
            bits.add(answer.matrix.pairs[i].figures[1].colours_de00.mean);
            bits.add(answer.pairs[i].extremes.most.de00).add(answer.pairs[i].units->low);
            bits.add(answer.pairs[i].viewers.front().expected_with_targets.mean);
        }
        return bits;
    });
}

IntendedDisplay meant_display() {
    return {RgbEncoding::of<Bt709>(), SignalCurve({CurveKind::power, 120.0, 0.0, 2.4})};
}

/// A display of a wider gamut and another exponent, with a little noise.
std::vector<PatchReading> readings_of_another(double exponent, std::uint64_t seed) {
    const IntendedDisplay is(RgbEncoding::of<P3D65>(),
                             SignalCurve({CurveKind::power, 118.0, 0.0, exponent}));
    PseudoRandom random(seed);
    std::vector<PatchReading> readings;
    for (const SignalPatch& patch :
         proof_patches(meant_display(), Quantisation(10, SignalRange::full))) {
        PatchReading reading;
        reading.patch = patch.name;
        reading.signal = patch.signal;
        reading.xyz = is.xyz(patch.signal);
        for (double& value : reading.xyz) {
            value = value * (1.0 + 0.004 * (random.next_unit() - 0.5)) + 0.001;
        }
        readings.push_back(reading);
    }
    return readings;
}

Bits bits_of(const assess::CheckedVisit& visit) {
    Bits bits;
    for (const Fault& fault : visit.found.faults) {
        bits.add(static_cast<std::size_t>(fault.kind)).add(fault.measured).add(fault.strength);
    }
    bits.add(visit.chosen.gate.probability).add(visit.chosen.gate.standard_uncertainty);
    for (const ColourGap& gap : visit.chosen.gaps) {
        bits.add(gap.de00);
    }
    return bits;
}

TEST(ThreadsOfAnswers, ProofsAreTheSame) {
    for (const bool with_before : {false, true}) {
        test::expect_same_for_threads([&](std::size_t threads) {
            assess::CheckRequest request{
                {"now", readings_of_another(2.2, 1), meant_display(), meant_display()}, {}};
            if (with_before) {
                request.before.emplace(assess::CheckedReadings{
                    "before", readings_of_another(2.1, 2), meant_display(), meant_display()});
            }
            request.quantisation = Quantisation(10, SignalRange::full);
            request.threads = threads;
            const assess::CheckAnswer answer = assess::answer_check(request);
            EXPECT_GT(answer.now.found.faults.size(), 1U);
            Bits bits = bits_of(answer.now);
            if (answer.before) {
                bits.add_all_of(bits_of(*answer.before));
            }
            return bits;
        });
    }
}

TEST(ThreadsOfAnswers, AdjustmentsAreTheSame) {
    AdjustmentMove gain;
    gain.kind = MoveKind::gain;
    gain.channel = MoveChannel::red;
    gain.amount = -8.0;
    AdjustmentMove hue;
    hue.kind = MoveKind::hue;
    hue.amount = 20.0;
    hue.hue_deg = 100.0;
    for (const int bits_of_picture : {8, 9}) {
        test::expect_same_for_threads([&](std::size_t threads) {
            assess::GradientRequest request{meant_display(), Adjustment({gain, hue}),
                                            bits_of_picture};
            request.threads = threads;
            const assess::GradientAnswer answer = assess::answer_gradient(request);
            Bits bits;
            for (const DriveLimit& limit : answer.adjustment->limits) {
                bits.add(limit.limit);
            }
            for (const assess::DepthFindings& depth : answer.adjustment->depths) {
                bits.add(static_cast<std::size_t>(depth.bits)).add(depth.worst.step.excess);
                bits.add(depth.merged);
            }
            for (const TradePoint& point : answer.adjustment->trade.curve) {
                bits.add(point.step.step.excess);
            }
            return bits.add(answer.adjustment->worst);
        });
    }
}

}  // namespace
}  // namespace samelight
