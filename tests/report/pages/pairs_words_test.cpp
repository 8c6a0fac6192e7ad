// What is said of pairs of displays and of spectra in cases that are rare: what targets buy, what remains, what a light is made of. Answers are made by hand
// from those of the demo.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "report/spectrum/page/spectrum_lines.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report::in_pairs_words {
namespace {

using samelight::test::ReportPage;
using samelight::test::says;

const std::string demo = SAMELIGHT_DATA "/demo/";

MetamerismAnswer compared() {
    static const MetamerismAnswer answer = [] {
        MetamerismRequest request;
        request.panels = {demo + "grading-monitor.csv", demo + "client-set.csv"};
        request.people = 64;
        return answer_metamerism(request);
    }();
    return answer;
}

ReportPage page(const MetamerismAnswer& answer) { return ReportPage(metamerism_report(answer)); }

ReportPage client(const MetamerismAnswer& answer) {
    return ReportPage(metamerism_report(answer, {.audience = Audience::client}));
}

/// A pair whose whites and colours are so far apart as set and with targets.
MetamerismAnswer pair_of(double white, double matched, double colours, double matched_colours) {
    MetamerismAnswer answer = compared();
    MatrixPair& pair = answer.matrix.pairs[0];
    pair.figures[0].white_de00.mean = white;
    pair.figures[1].white_de00.mean = matched;
    pair.figures[0].colours_de00.mean = colours;
    pair.figures[1].colours_de00.mean = matched_colours;
    return answer;
}

TEST(PairWords, WhatTargetsBuySaysWhichWay) {
    const auto said = [](const MetamerismAnswer& answer) {
        return page(answer).words("pair-1-targets");
    };
    EXPECT_EQ(
        said(pair_of(6.8, 6.0, 2.1, 1.9))
            .rfind("White targets bring the whites from DE 6.8 to 6.0 on average; the colours go "
                   "from 2.1 to 1.9.",
                   0),
        0U);
    EXPECT_EQ(
        said(pair_of(6.0, 6.8, 1.9, 2.1))
            .rfind("White targets don't help the whites here on average, DE 6.0 as set and 6.8 "
                   "with them; the colours get worse, from 1.9 to 2.1.",
                   0),
        0U);
    EXPECT_EQ(
        said(pair_of(6.04, 5.96, 2.0, 2.01))
            .rfind("White targets leave the whites at DE 6.0 on average; the colours stay at 2.0.",
                   0),
        0U);
    MetamerismAnswer answer = pair_of(6.8, 6.0, 2.1, 1.9);
    answer.matrix.pairs[0].least_white_de00 = 0.01;
    EXPECT_TRUE(says(said(answer), "nothing is left to see between the whites."));
    answer.matrix.pairs[0].least_white_de00 = 5.44;
    EXPECT_TRUE(says(said(answer), "DE 5.4 remains between the whites on average"));
    EXPECT_FALSE(says(said(answer), "another white"));
    answer.panels[0].set_to = Chromaticity<Cie1931_2deg>(0.3, 0.31);
    answer.matrix.pairs[0].figures[0].white_de00.mean = 5.0;
    EXPECT_TRUE(says(said(answer), "As set they stand at another white"));
    answer.matrix.pairs[0].figures[1].white_pair_share = 0.0;
    EXPECT_FALSE(says(said(answer), "Of pairs of viewers"));
    answer.pairs[0].look_alike = true;
    EXPECT_TRUE(says(said(answer), "there is nothing to correct."));
    EXPECT_TRUE(client(answer).has("pair-1-alike"));
    EXPECT_FALSE(client(answer).has("pair-1-whites"));
}

TEST(PairWords, EachViewerHasALineOfTheirOwn) {
    MetamerismRequest request;
    request.panels = {demo + "grading-monitor.csv", demo + "client-set.csv"};
    request.people = 64;
    request.viewers = {"30", "64:10"};
    const ReportPage both = page(answer_metamerism(request));
    EXPECT_EQ(both.words("pair-1-viewer-1").rfind("Viewer A, 30 years, 2 degrees: ", 0), 0U);
    EXPECT_EQ(both.words("pair-1-viewer-2").rfind("Viewer B, 64 years, 10 degrees: ", 0), 0U);
    EXPECT_FALSE(both.has("pair-1-viewer-3"));
}

// Whose deviations they are is told with how they were read.
TEST(PairWords, HowDeviationsWereReadIsTold) {
    MetamerismAnswer answer = compared();
    const std::string said = "user.csv: Deviation functions, 380-780 nm, 3 rows.";
    EXPECT_FALSE(says(metamerism_report(answer), said));
    answer.deviations = said;
    EXPECT_TRUE(says(page(answer).words("foundation-read-so"), said));
}

TEST(PairWords, NobodySeesWhatIsTooLittle) {
    MetamerismAnswer answer = compared();
    EXPECT_TRUE(says(page(answer).words("pair-1-extremes"), "With white targets the most, DE "));
    answer.pairs[0].extremes.most.de00 = 0.01;
    EXPECT_EQ(page(answer).words("pair-1-extremes"),
              "With white targets nobody sees a difference between the whites.");
    answer.matrix.pairs[0].figures[1].largest_de00 = 0.01;
    EXPECT_EQ(page(answer).words("pair-1-worst-colour"),
              "With white targets nobody sees a difference in any of the colours.");
}

TEST(PairWords, WhoeverOwnsThemHearsWhatSettingTheWhitesDoes) {
    const auto said = [](double before, double after) {
        return client(pair_of(before, after, 2.0, 2.0)).words("pair-1-whites");
    };
    EXPECT_TRUE(says(said(5.0, 0.5),
                     "With the whites set to look alike they see most likely no "
                     "difference."));
    EXPECT_TRUE(says(said(5.0, 3.5), "it is smaller."));
    EXPECT_TRUE(says(said(5.0, 4.5), "makes it hardly smaller."));
    const auto colours = [](double left) {
        return client(pair_of(5.0, 4.5, 2.0, left)).words("pair-1-colours");
    };
    EXPECT_TRUE(says(colours(0.9), "next to nothing."));
    EXPECT_TRUE(says(colours(2.9), "a slight difference."));
    EXPECT_TRUE(says(colours(3.1), "still differ visibly"));
    MetamerismAnswer answer = compared();
    answer.matrix.pairs[0].figures[1].white_pair_share = 0.634;
    EXPECT_TRUE(
        says(client(answer).words("pair-1-people"), "Of 100 pairs of people about 63 disagree"));
    answer.matrix.pairs[0].figures[1].white_pair_share = 0.004;
    EXPECT_EQ(client(answer).words("pair-1-people"),
              "People agree about what they see between these two.");
    EXPECT_FALSE(client(answer).has("compared-generic"));
    answer.panels[1].generic = true;
    answer.panels[1].title = "a kind";
    EXPECT_TRUE(client(answer).has("compared-generic"));
    EXPECT_TRUE(
        says(client(answer).words("compared-screens"), "a typical screen of the kind \"a kind\""));
}

assess::ColumnLines lines_of(double shift_nm) {
    assess::ColumnLines lines;
    lines.shift.shift_nm = shift_nm;
    lines.shift.standard_error_nm = 0.02;
    lines.shift.coverage_factor = 2.5;
    const auto line = [](double nm, double by, LineFate fate) {
        KnownLine known;
        known.nm = nm;
        known.shift_nm = by;
        known.fate = fate;
        return known;
    };
    lines.shift.lines = {line(435.83, 0.31, LineFate::used), line(546.07, 0.28, LineFate::used),
                         line(404.66, 2.2, LineFate::set_aside),
                         line(576.96, 0.0, LineFate::merged),
                         line(690.0, 0.0, LineFate::not_found)};
    return lines;
}

TEST(LineWords, SayWhichWayTheWavelengthsAreOff) {
    assess::ColumnLines lines = lines_of(0.31);
    const std::string said = lines_said(lines);
    EXPECT_EQ(said.rfind("The instrument's wavelengths are 0.31 nm too long; 19 times in 20 within "
                         "0.05 nm of that.",
                         0),
              0U)
        << said;
    EXPECT_TRUE(says(said, "Lines used: 435.83 (+0.31), 546.07 (+0.28) nm."));
    EXPECT_TRUE(says(said, "Found, but not believed: 404.66 (+2.20) nm."));
    EXPECT_TRUE(says(said, "Too near to each other to tell apart: 576.96 nm."));
    EXPECT_TRUE(says(said, "Not found: 690.00 nm."));
    EXPECT_TRUE(says(lines_said(lines_of(-0.4)), "0.40 nm too short;"));
    EXPECT_EQ(shift_said(-1.234), "1.23 nm too short");
    lines.shift.scale = 0.0012;
    lines.shift.scale_standard_error = 0.0004;
    EXPECT_TRUE(says(lines_said(lines), "It changes by +0.12 nm over 100 nm (0.08 either way)."));
    lines.shift.standard_error_nm = 3.0;
    EXPECT_TRUE(
        says(lines_said(lines), "Too little is known of the wavelengths to put them right"));
    lines.shift.shift_nm.reset();
    EXPECT_TRUE(says(lines_said(lines), "None of the lines stands out here"));
    EXPECT_EQ(shift_in_short(lines), "no line found");
}

SpectrumAnswer set_of_lights() {
    static const SpectraAnswer read = [] {
        SpectraRequest request;
        request.files = {demo + "client-set.csv"};
        return answer_spectra(request);
    }();
    return read.files[0];
}

std::string lights(const SpectrumAnswer& answer) {
    SpectraAnswer all;
    all.files = {answer};
    all.asked = 1;
    return ReportPage(spectra_report(all, {.audience = Audience::client})).words("file-1-lights");
}

std::string reliance(const SpectrumAnswer& answer) {
    SpectraAnswer all;
    all.files = {answer};
    all.asked = 1;
    return ReportPage(spectra_report(all, {.audience = Audience::client})).words("file-1-reliance");
}

TEST(LightForTheOwner, IsMadeOfPartsOfTheRainbow) {
    SpectrumAnswer answer = set_of_lights();
    std::vector<Peak>& peaks = answer.columns[0].sampling.peaks;
    ASSERT_EQ(peaks.size(), 1U);
    Peak peak = peaks[0];
    peak.height = 1.0;
    peak.width_nm = 30.0;
    const auto with = [&](const std::vector<double>& widths) {
        peaks.clear();
        for (const double width : widths) {
            peak.width_nm = width;
            peaks.push_back(peak);
        }
        return lights(answer);
    };
    EXPECT_TRUE(says(with({30.0}), "red: light from one part of the rainbow."));
    EXPECT_TRUE(says(with({30.0, 40.0}), "red: light from 2 separate parts of the rainbow."));
    EXPECT_TRUE(says(with({3.0, 4.0}),
                     "red: light from 2 separate parts of the rainbow, each very "
                     "narrow."));
    EXPECT_TRUE(says(with({3.0, 40.0}), ", one of them very narrow."));
    EXPECT_TRUE(
        says(with({3.0, 3.0, 40.0}), "3 separate parts of the rainbow, 2 of them very narrow."));
    EXPECT_TRUE(says(with({}), "red: spread evenly over the colours of the rainbow."));
    // A peak of less than 15 % of the highest is no part that anybody sees.
    peaks = {peak, peak};
    peaks[1].height = 0.14;
    EXPECT_TRUE(says(lights(answer), "red: light from one part of the rainbow"));
    answer.columns[0].noise_alone = true;
    EXPECT_TRUE(says(lights(answer), "red: too little light to say anything of."));
}

TEST(LightForTheOwner, DoubtIsTold) {
    SpectrumAnswer answer = set_of_lights();
    EXPECT_TRUE(says(reliance(answer), "Nothing about this measurement is doubtful."));
    answer.warnings = {Warning{"noise_gain"}, Warning{"negative_noise"}};
    EXPECT_TRUE(says(reliance(answer), "Nothing about this measurement is doubtful."));
    answer.warnings.push_back(Warning{"sampling_coarse"});
    EXPECT_TRUE(says(reliance(answer), "Something about this measurement is doubtful"));
}

}  // namespace
}  // namespace samelight::report::in_pairs_words
