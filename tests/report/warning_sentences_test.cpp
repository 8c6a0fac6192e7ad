// What kinds of several forms say, each form once, to the letter: programs and people's notes quote these lines.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/error.hpp"
#include "samelight/report/warning_words.hpp"

using namespace samelight;
using report::sentence;

namespace {

/// `warning` says just that.
void expect_said(const Warning& warning, const std::string& said) {
    EXPECT_EQ(sentence(warning), said);
}

TEST(WarningSentences, ExchangedColumns) {
    const char* code = "columns_look_exchanged";
    expect_said(
        {code,
         {{"instruments", "both"},
          {"columns", "xy"},
          {"shown_by", "additivity"},
          {"given_xy", 0.1234},
          {"mended_xy", 0.0021}}},
        "The columns of x and y look exchanged in both instruments: as given, red, green and "
        "blue together are 0.123 from white in x, y, 0.002 with x and y exchanged.");
    expect_said({code,
                 {{"instruments", "meter"},
                  {"columns", "XYZ"},
                  {"patch", "green"},
                  {"shown_by", "additivity"},
                  {"given_xy", 0.05},
                  {"mended_xy", 0.001}}},
                "X, Y, Z of green look shifted by a column in the meter's readings: as given, red, "
                "green and blue together are 0.050 from white in x, y, 0.001 without that.");
    expect_said(
        {code, {{"instruments", "both"}, {"columns", "XY"}, {"shown_by", "names"}}},
        "X and Y (or x and y) look exchanged in both instruments, or the names of colours are: red "
        "is not the colour with the most x, green the one with the most y and blue the one with "
        "the most z.");
    expect_said(
        {code,
         {{"instruments", "one"},
          {"columns", "YZ"},
          {"patch", "grey"},
          {"shown_by", "correction"},
          {"given_xy", 0.04},
          {"mended_xy", 0.0004}}},
        "Y and Z of grey look exchanged in one instrument's readings: the correction leaves "
        "0.040 in x, y there, 0.000 without that.");
}

TEST(WarningSentences, NoSuchMeter) {
    const char* code = "no_such_meter";
    expect_said(
        {code, {{"reason", "row"}, {"channel", "Z"}, {"off_percent", 81.7}}},
        "No filter meter has these rows: Z is 82 % off its function. Are the columns in the "
        "order X, Y, Z?");
    expect_said({code, {{"reason", "scales"}, {"scale_ratio", 3.14}}},
                "No filter meter has these rows: read as given, one channel's scale is 3.1 times "
                "another's on illuminant A. Are they known in shape only (to be scaled on "
                "illuminant A)?");
    expect_said(
        {code, {{"reason", "corrections"}, {"off_percent", 61.0}}},
        "No filter meter can have the corrections at hand: its filters would be 61 % off. "
        "Were its rows in the wrong order, or known in shape only (to be scaled on "
        "illuminant A), or are the corrections those of different meters? Nothing is called "
        "safe by them.");
}

TEST(WarningSentences, Drift) {
    const auto drift = [](const Fact& when, const char* felt) {
        return Warning{"drift",
                       {{"instrument", "meter"},
                        {"luminance_percent", 1.25},
                        {"distance_xy", 0.00123},
                        when,
                        {"felt", felt}}};
    };
    expect_said(
        drift(Fact{"rounds", 5.0}, "yes"),
        "From first to last the meter's white moved by 1.2 % in Y and 0.0012 in x, y in the "
        "middle one of 5 rounds, most of them the same way: let the display warm up, then "
        "read all rounds again.");
    expect_said(
        drift(Fact{"round", 2.0}, "yes"),
        "In round 2 the meter's white moved by 1.2 % in Y and 0.0012 in x, y: let the display "
        "warm up, or read that round again.");
    expect_said(
        drift(Fact{"round", 2.0}, "no"),
        "In round 2 the meter's white moved by 1.2 % in Y and 0.0012 in x, y. This method does "
        "not feel that in Y; others do.");
}

TEST(WarningSentences, OddReadings) {
    const auto odd = [](double reading, double of) {
        return Warning{"odd_reading",
                       {{"round", 3.0},
                        {"patch", "white"},
                        {"reading", reading},
                        {"readings_in_round", of},
                        {"quantity", "Y"},
                        {"instrument", "reference"},
                        {"times_usual", 11.6}}};
    };
    const std::string end =
        ": Y of the reference is 12 times the usual scatter from the others. It was kept.";
    expect_said(odd(1.0, 1.0), "Round 3, white" + end);
    expect_said(odd(1.0, 3.0), "Round 3, white (first)" + end);
    expect_said(odd(2.0, 3.0), "Round 3, white (reading 2)" + end);
    expect_said(odd(3.0, 3.0), "Round 3, white (last)" + end);
    const auto luminance = [](double times, const char* by) {
        return Warning{
            "odd_luminance",
            {{"patch", "red"}, {"by", by}, {"times", times}, {"beside", "other_primaries"}}};
    };
    const std::string unit =
        " times what makes white with the other two: was it written down in another unit, or with "
        "its point in another place?";
    expect_said(luminance(101.3, "both"), "Y of red by both instruments is 101" + unit);
    expect_said(luminance(4.567, "meter"), "Y of red by the meter is 4.57" + unit);
    expect_said(luminance(0.00987, "reference"), "Y of red by the reference is 0.0099" + unit);
}

TEST(WarningSentences, TheWhiteAsItStands) {
    const char* code = "now_of_another_display";
    expect_said(
        {code, {{"emitters", 4.0}, {"left_over_percent", 12.3}}},
        "The white as it stands isn't made of this panel's red, green and blue and white: 12 "
        "% of its spectrum is left over. Check that both were read on the same display, by "
        "the same instrument.");
    expect_said(
        {code,
         {{"type", "oled-rgb"},
          {"type_nm", 8.25},
          {"nearest_type", "lcd-narrow-red"},
          {"nearest_nm", 1.14}}},
        "The white as it stands is no such panel's: its light would have to be moved by 8.2 nm "
        "on average to be that of the nearest oled-rgb, by 1.1 nm for a lcd-narrow-red. Check "
        "which type the display is.");
    expect_said(
        {"now_perhaps_of_another_type", {{"type", "oled-rgb"}, {"type_nm", 8.0}}},
        "The white as it stands may be of another type of panel: its light would have to be "
        "moved by 8.0 nm on average to be that of the nearest oled-rgb, and no other type "
        "comes nearer. Check which type the display is.");
    expect_said(
        {"not_judged", {{"reason", "target_outside_gamut"}, {"viewers", "yes"}}},
        "This panel can't show such a white, so how people differ, what the viewers see, how "
        "sure the target is and whether to move it are left out.");
    expect_said(
        {"not_judged",
         {{"reason", "white_outside_gamut"}, {"viewers", "no"}, {"x", 0.1}, {"y", 0.8}}},
        "The white to be replaced, x 0.1000, y 0.8000, can't be shown by this panel, so moving from "
        "it can't be judged.");
}

TEST(WarningSentences, Spectra) {
    const auto clipped = [](std::size_t tops) {
        Warning w{"clipped", {{"source", "set.csv"}, {"column", "red"}}};
        std::vector<double> from;
        for (std::size_t i = 0; i < tops; ++i) {
            from.push_back(400.0 + 10.0 * static_cast<double>(i));
        }
        w.facts.push_back(Fact{"from_nm", from});
        w.facts.push_back(Fact{"to_nm", from});
        w.facts.push_back(Fact{"samples", std::vector<double>(tops, 4.0)});
        return sentence(w);
    };
    EXPECT_EQ(clipped(2).rfind("set.csv, red: cut off at the top at 400-400 nm (4 samples) and at "
                               "410-410 nm (4 samples), as by a saturated instrument",
                               0),
              0U)
        << clipped(2);
    EXPECT_NE(clipped(3).find("samples), at 410-410 nm (4 samples) and at 420-420"),
              std::string::npos);
    EXPECT_NE(clipped(7).find("450-450 nm (4 samples) and elsewhere, as by"), std::string::npos)
        << clipped(7);
    const auto coarse = [](std::vector<double> nm, std::vector<double> d) {
        return sentence({"sampling_coarse",
                         {{"column", "red"},
                          {"lines_nm", std::vector<double>{612.4}},
                          {"light_percent", std::vector<double>{33.4}},
                          {"step_nm", 10.0},
                          {"wanted_step_nm", 2.0},
                          {"uncertain_nm", std::move(nm)},
                          {"delta_x", d},
                          {"delta_y", d}}});
    };
    const std::string start =
        "red: Sampled too coarsely for the line at 612 nm (33 % of the light): it is narrower than "
        "1.5 steps of 10 nm, so the light read there depends on where the line falls between two "
        "samples. Measure at a step of 2 nm or less; only if the instrument's bandwidth is at least "
        "its step are these figures right.";
    EXPECT_EQ(coarse({612.4}, {0.00321}),
              start +
                  " With a bandwidth of half the step this column's chromaticity may be off by as "
                  "much as (612 nm: x 0.0032, y 0.0032).");
    EXPECT_EQ(coarse({}, {}), start +
                                  " The place of the line and its strength are uncertain, and "
                                  "with them drive and the cost in light.");
    expect_said({"held_at_nothing", {{"column", "red"}, {"samples", 1.0}}},
                "red: 1 sample beside its lines would have fallen below nothing with the bandwidth "
                "taken out; light can't, so that they were held there.");
}

TEST(WarningSentences, Numbers) {
    const std::string daylight =
        "Of the reference only x, y are known, which many lights have: it is read as daylight of "
        "6504 K";
    const std::string other =
        ". A display's white of the same reading is another light, with another target.";
    expect_said({"reference_read_as_daylight", {{"temperature_k", 6503.9}}}, daylight + other);
    expect_said({"reference_read_as_daylight",
                 {{"temperature_k", 6503.9}, {"shifted_uv", 0.00712}, {"set_as", "NAME@x,y"}}},
                daylight + ", shifted by 0.0071 in u', v' to read so" + other +
                    " Give NAME@x,y for a display as it is set.");
    for (const char* code : {"readings_unlike_type", "readings_of_another_type"}) {
        expect_said({code, {{"type", "oled-rgb"}, {"primary", "green"}, {"distance_xy", 0.01234}}},
                    "No unit of the type oled-rgb reads so: the nearest leaves green off by 0.0123 "
                    "in x, y. Check the type and the readings; they are believed less for it.");
    }
    expect_said(
        {"viewer_age_unknown", {{"viewer", "B"}, {"youngest_years", 20.0}, {"oldest_years", 70.0}}},
        "Viewer B: of unknown age, so anyone of 20 to 70 years; the age would make this white "
        "surer.");
}

TEST(WarningSentences, WhatIsLeftOutIsSaidWithoutAFunction) {
    expect_said({"panel_left_out",
                 {{"panel", "crt"},
                  {"place", "reproduce (crt)"},
                  {"found", "a white that it can't show"},
                  {"wanted", "one inside its gamut"}}},
                "crt is left out: a white that it can't show; wanted one inside its gamut");
    expect_said({"room_left_out",
                 {{"place", "client-set.csv"},
                  {"found", "no such white"},
                  {"wanted", "one inside its gamut"}}},
                "Setting the displays together is left out: client-set.csv: no such white; wanted "
                "one inside its gamut.");
}

TEST(WarningSentences, NamesFromFilesAreQuotedAndShortened) {
    const std::string longest(41, 'a');
    expect_said({"unit_not_radiance", {{"unit", longest}}},
                "The unit \"" + std::string(40, 'a') +
                    "...\" isn't one of spectral radiance: values are taken as relative.");
    expect_said(
        {"flagged", {{"readings", 1.0}, {"flag", "a\tb"}, {"line", 123456.0}}},
        "1 reading with a flag, the first \"a?b\" in line 123456. All were used: take the rows "
        "out where they should not be.");
    expect_said(
        {"scales_differ", {{"weakest", "blue"}, {"strongest", "red"}, {"share", 1.0149e-12}}},
        "\"blue\" holds 1.01e-12 of the light of \"red\", but on no display do red, green, blue "
        "and white differ by a factor of 1000: they can't be in one unit. Their common scale is "
        "taken as unknown.");
}

}  // namespace
