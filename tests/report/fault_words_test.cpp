// What is said of each cause of a proof's faults: its figures in their units, which way it goes, and what to do. What the figures are stands at FaultKind.
#include <cstddef>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/faults/fault.hpp"
#include "samelight/check/proof/conformity.hpp"
#include "samelight/report/check/check_words.hpp"

namespace samelight::report::in_fault_words {
namespace {

constexpr int kinds = static_cast<int>(FaultKind::repeats_disagree) + 1;

Fault fault(FaultKind kind, double measured, FaultChannel channel = FaultChannel::none) {
    Fault found;
    found.kind = kind;
    found.measured = measured;
    found.channel = channel;
    return found;
}

Fault about(FaultKind kind, double measured, const std::string& patch, const std::string& other) {
    Fault found = fault(kind, measured);
    found.patch = patch;
    found.other = other;
    return found;
}

bool says(const std::string& sentence, const std::string& words) {
    return sentence.find(words) != std::string::npos;
}

TEST(FaultWords, WhiteSaysHowFarAndWhichWay) {
    Fault white = fault(FaultKind::white_off, 0.0042);
    white.xy = {0.0031, -0.0028};
    EXPECT_EQ(fault_sentence(white), "White is off: x +0.0031, y -0.0028, in all bright greys.");
    Fault light = fault(FaultKind::luminance_off, 91.26);
    light.intended = 100.0;
    EXPECT_EQ(fault_sentence(light), "White has 91.3 cd/m2, not 100.0.");
    EXPECT_EQ(fault_sentence(fault(FaultKind::white_emitter, 0.38)),
              "White has 38 % more light than red, green and blue together: a white emitter, and "
              "colours look dim beside it.");
}

TEST(FaultWords, CurvesSayWhichWayTheyBend) {
    for (const auto& [exponent, way] : {std::pair{1.083, "steeper"}, {0.917, "flatter"}}) {
        const std::string all = fault_sentence(fault(FaultKind::gamma_other, exponent));
        EXPECT_TRUE(says(all, std::string("The curve is ") + way + " than meant")) << all;
        EXPECT_TRUE(says(all, exponent > 1.0 ? "1.083 of the intended" : "0.917 of the intended"));
        const std::string one =
            fault_sentence(fault(FaultKind::channel_gamma, exponent, FaultChannel::green));
        EXPECT_TRUE(says(one, std::string("Green's curve is ") + way + " than the others'")) << one;
    }
    // A plain power where BT.1886 is meant: as a share of its 2.4.
    Fault power = about(FaultKind::gamma_other, 2.2 / 2.4, "", "power");
    EXPECT_TRUE(says(fault_sentence(power), "a plain power of 2.20 above black"));
    EXPECT_TRUE(says(fault_remedy(power), "--curve power:2.20"));
    power.kind = FaultKind::wrong_curve;
    EXPECT_TRUE(says(fault_sentence(power), "a plain power of 2.20 above black"));
    for (const auto& [code, name] : {std::pair{"srgb", "sRGB's curve"},
                                     {"pq", "PQ curve"},
                                     {"hlg", "HLG curve"},
                                     {"bt1886", "BT.1886 curve"}}) {
        const std::string said = fault_sentence(about(FaultKind::wrong_curve, 0.0, "", code));
        EXPECT_TRUE(says(said, std::string("follows ") + name)) << said;
    }
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::other_roll_off, 4000.0)),
                     "rolled off from a programme of 4000 cd/m2"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::other_roll_off, 0.0)), "cut at the peak"));
}

TEST(FaultWords, OffsetsAndEndsOfTheSignalAreInPerCent) {
    EXPECT_EQ(fault_sentence(fault(FaultKind::offset, 0.021)),
              "Brightness is too high: all signals are lifted by 2.1 %.");
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::channel_offset, -0.013, FaultChannel::blue)),
                     "Blue is shifted by -1.3 % of the signal"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::channel_offset, 0.013, FaultChannel::red)),
                     "Red is shifted by +1.3 % of the signal"));
    EXPECT_TRUE(
        says(fault_sentence(fault(FaultKind::crushed, 0.052)), "below about 5.2 % are black"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::clipped, 0.92, FaultChannel::red)),
                     "Red is clipped: nothing gets brighter above 92 % of the signal"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::clipped, 0.92, FaultChannel::all)),
                     "Red, green and blue are clipped"));
    // 1: full signals where limited ones are expected; 2: the reverse.
    const std::string full = fault_sentence(fault(FaultKind::wrong_range, 1.0));
    const std::string limited = fault_sentence(fault(FaultKind::wrong_range, 2.0));
    EXPECT_TRUE(says(full, "full-range signals on a display that expects limited ones"));
    EXPECT_TRUE(says(full, "both ends are lost"));
    EXPECT_TRUE(says(limited, "limited-range signals on a display that expects full ones"));
    EXPECT_TRUE(says(limited, "black is grey and white is dim"));
}

TEST(FaultWords, BlackSaysWhatIsAddedOrMissing) {
    EXPECT_EQ(fault_sentence(fault(FaultKind::black_lifted, 0.0034)),
              "Black is lifted by 0.34 % of white.");
    EXPECT_EQ(fault_remedy(fault(FaultKind::black_lifted, 0.0034)),
              "Set brightness (black level) anew.");
    const Fault unread = about(FaultKind::black_lifted, 0.0034, "", "unread");
    EXPECT_TRUE(says(fault_sentence(unread),
                     "0.34 % of white more than beside a black of 0, and "
                     "black wasn't read"));
    EXPECT_EQ(fault_remedy(unread), "Read black, or name it (--black).");
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::black_tinted, 0.0012, FaultChannel::blue)),
                     "blue light of 0.12 % of full is added there"));
    // What is missing is said without a sign: less than nothing missing would be more light.
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::black_tinted, -0.0012, FaultChannel::red)),
                     "red light of 0.12 % of full is missing there"));
}

TEST(FaultWords, LevelsNameTheirPatches) {
    EXPECT_EQ(fault_sentence(about(FaultKind::merged_levels, 0.0, "grey-90", "grey-95")),
              "Levels merge: grey-95 gives the light of grey-90.");
    EXPECT_EQ(fault_sentence(about(FaultKind::reversed_step, -0.031, "grey-90", "grey-95")),
              "A step is reversed: grey-95 is 3.1 % darker than grey-90.");
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::limiter, 0.71)),
                     "white has 71 % of the light that it should have"));
    EXPECT_TRUE(says(fault_sentence(about(FaultKind::limiter, 0.71, "white", "25")),
                     "from a window of 25 %: white falls to 71 % of its light"));
}

TEST(FaultWords, ColoursSayTheirFigures) {
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::saturation_off, 1.12)),
                     "too strong: saturation is 1.120 of what is meant"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::saturation_off, 0.88)),
                     "too weak: saturation is 0.880 of what is meant"));
    EXPECT_EQ(fault_sentence(fault(FaultKind::hue_off, -3.2)), "Hues are turned by -3.2 degrees.");
    EXPECT_EQ(fault_sentence(fault(FaultKind::primary_off, 0.0123, FaultChannel::green)),
              "Green isn't where it is meant to be: 0.0123 off in x, y.");
    EXPECT_TRUE(says(fault_sentence(about(FaultKind::wrong_encoding, 0.0, "", "bt2020")),
                     "another encoding's primaries (bt2020)"));
    for (const auto& [code, names] : {std::pair{"red_green", "red and green have"},
                                      {"red_blue", "red and blue have"},
                                      {"green_blue", "green and blue have"}}) {
        EXPECT_TRUE(
            says(fault_sentence(about(FaultKind::channels_exchanged, 0.0, "", code)), names));
    }
    Fault gamut = about(FaultKind::gamut_smaller, 4.567, "green-100-100", "bt709");
    gamut.patches = 7;
    EXPECT_EQ(fault_sentence(gamut),
              "The panel's gamut, about bt709, is smaller than the encoding's: "
              "7 patches are outside it, green-100-100 by DE00 4.57 most.");
    gamut.patches = 1;
    EXPECT_TRUE(says(fault_sentence(gamut), "1 patch is outside it, green-100-100 by DE00 4.57."));
}

TEST(FaultWords, TheScreenSaysWhereAndWhichWay) {
    EXPECT_TRUE(says(fault_sentence(about(FaultKind::uneven_luminance, -0.12, "", "top left")),
                     "at top left white is 12 % darker than in the centre"));
    EXPECT_TRUE(says(fault_sentence(about(FaultKind::uneven_luminance, 0.12, "", "top left")),
                     "at top left white is 12 % brighter than in the centre"));
    const Fault colour = about(FaultKind::uneven_colour, 0.0051, "", "bottom");
    EXPECT_TRUE(
        says(fault_sentence(colour), "at bottom white is 0.0051 in u'v' from the centre's"));
    EXPECT_EQ(fault_remedy(colour), "No setting mends it; judge colour in the centre.");
    EXPECT_TRUE(says(fault_for_client(colour), "which no setting mends"));
}

TEST(FaultWords, ReadingsSayWhichAreToBeTakenAgain) {
    EXPECT_TRUE(says(fault_sentence(about(FaultKind::drift, -0.034, "grey-10", "red-50-100")),
                     "drifted by -3.4 % between the patches grey-10 and red-50-100"));
    Fault misread = about(FaultKind::misread, 5.321, "skin 3", "");
    misread.line = 17;
    EXPECT_EQ(fault_sentence(misread), "One reading stands alone: skin 3 (line 17), DE00 5.32.");
    EXPECT_EQ(fault_sentence(about(FaultKind::exchanged, 5.0, "skin 3", "skin 4")),
              "Two patches have each other's readings: skin 3 and skin 4.");
    Fault repeats = about(FaultKind::repeats_disagree, 2.34, "white", "");
    repeats.line = 5;
    EXPECT_EQ(fault_sentence(repeats), "Repeats of white (line 5) disagree by 2.3 in CIELAB.");
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::instrument_off, 1.042)),
                     "off alike, by up to 4.2 %: a wrong correction, not the set"));
    EXPECT_TRUE(says(fault_sentence(fault(FaultKind::instrument_off, 0.958)), "by up to 4.2 %"));
    for (const FaultKind kind :
         {FaultKind::misread, FaultKind::exchanged, FaultKind::repeats_disagree, FaultKind::drift,
          FaultKind::instrument_off}) {
        EXPECT_EQ(fault_for_client(fault(kind, 1.0)), "Some readings are to be taken again.");
        EXPECT_TRUE(says(fault_remedy(fault(kind, 1.0)), "again"));
    }
}

// Each cause reads otherwise than every other, ends as a sentence, and has something to do.
TEST(FaultWords, EachCauseHasItsOwn) {
    std::set<std::string> sentences;
    for (int k = 0; k < kinds; ++k) {
        Fault found = about(static_cast<FaultKind>(k), 0.5, "first", "second");
        found.channel = FaultChannel::red;
        const std::string sentence = fault_sentence(found);
        EXPECT_TRUE(sentences.insert(sentence).second) << sentence;
        EXPECT_EQ(sentence.back(), '.') << sentence;
        EXPECT_EQ(fault_remedy(found).back(), '.');
        const std::string client = fault_for_client(found);
        EXPECT_EQ(client.back(), '.');
        // Whoever owns the display is told no figure and no term of the trade.
        EXPECT_EQ(client.find_first_of("0123456789"), std::string::npos) << client;
        EXPECT_FALSE(says(client, "DE00")) << client;
    }
}

// What to do fits the cause: who reads one of these would turn another knob.
TEST(FaultWords, WhatToDoFitsTheCause) {
    const std::vector<std::pair<FaultKind, const char*>> words = {
        {FaultKind::white_off, "gains of white"},
        {FaultKind::luminance_off, "light of white"},
        {FaultKind::gamma_other, "curve"},
        {FaultKind::channel_gamma, "grey balance"},
        {FaultKind::offset, "brightness"},
        {FaultKind::channel_offset, "offset"},
        {FaultKind::black_tinted, "offset"},
        {FaultKind::clipped, "contrast"},
        {FaultKind::crushed, "brightness"},
        {FaultKind::merged_levels, "gradient"},
        {FaultKind::reversed_step, "gradient"},
        {FaultKind::limiter, "smaller window"},
        {FaultKind::white_emitter, "mode without added white"},
        {FaultKind::wrong_range, "same range"},
        {FaultKind::channels_exchanged, "cables"},
        {FaultKind::wrong_encoding, "colour space"},
        {FaultKind::gamut_smaller, "No setting mends"},
        {FaultKind::other_roll_off, "tone mapping"},
        {FaultKind::instrument_off, "--correction"},
        {FaultKind::saturation_off, "saturation"},
        {FaultKind::hue_off, "hue"},
        {FaultKind::primary_off, "colour management"},
        {FaultKind::drift, "Warm the set up"},
        {FaultKind::uneven_luminance, "No setting mends"}};
    for (const auto& [kind, part] : words) {
        EXPECT_TRUE(says(fault_remedy(fault(kind, 0.5)), part))
            << code_of(kind) << ": " << fault_remedy(fault(kind, 0.5));
    }
    const std::vector<std::pair<FaultKind, const char*>> client = {
        {FaultKind::white_off, "White has a slight tint"},
        {FaultKind::luminance_off, "White isn't as bright"},
        {FaultKind::gamma_other, "middle tones"},
        {FaultKind::channel_gamma, "greys have a tint"},
        {FaultKind::black_lifted, "Black is greyer"},
        {FaultKind::clipped, "brightest details"},
        {FaultKind::crushed, "darkest details"},
        {FaultKind::reversed_step, "show a step"},
        {FaultKind::limiter, "dims itself"},
        {FaultKind::white_emitter, "brighter than colours can be"},
        {FaultKind::wrong_range, "don't agree on what black and white are"},
        {FaultKind::hue_off, "Colours aren't quite"}};
    for (const auto& [kind, part] : client) {
        EXPECT_TRUE(says(fault_for_client(fault(kind, 0.5)), part)) << code_of(kind);
    }
}

TEST(GateWords, SayTheProbabilityAsFarAsItIsKnown) {
    GateAnswer gate;
    gate.guard_band = 0.789;
    gate.guard_band_beyond = 0.158;
    const auto said = [&](double probability) {
        gate.probability = probability;
        return gate_rule_words(gate);
    };
    EXPECT_EQ(said(0.4321),
              "P(conform) is 0.432; pass takes 0.977, fail 0.023: guard bands of 0.79 "
              "within the gate, 0.16 beyond it.");
    EXPECT_TRUE(says(said(0.9999), "P(conform) is over 0.999;"));
    EXPECT_TRUE(says(said(0.0001), "P(conform) is below 0.001;"));
    EXPECT_TRUE(says(said(0.999), "P(conform) is 0.999;"));
}

}  // namespace
}  // namespace samelight::report::in_fault_words
