// The answer about a fit: from readings in memory the same as from files of them.
#include "samelight/assess/meter_fit.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "invented_readings.hpp"
#include "memory_and_files.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/panel_flag.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::test {
namespace {

using FitFromBoth = MemoryAndFiles;

void expect_same_fit(const assess::MeterFitAnswer& memory, const assess::MeterFitAnswer& file) {
    EXPECT_STREQ(code_of(memory.judgement.verdict), code_of(file.judgement.verdict));
    EXPECT_EQ(memory.judgement.reason, file.judgement.reason);
    EXPECT_EQ(memory.judgement.again_patch, file.judgement.again_patch);
    EXPECT_EQ(memory.judgement.proof_after, file.judgement.proof_after);
    EXPECT_EQ(memory.read_on, file.read_on);
    EXPECT_EQ(memory.noise_taken, file.noise_taken);
    EXPECT_EQ(memory.warnings, file.warnings);
    EXPECT_EQ(memory.stored.correction.reference_from_meter,
              file.stored.correction.reference_from_meter);
    EXPECT_EQ(memory.stored.correction.verdict, file.stored.correction.verdict);
    EXPECT_EQ(memory.stored.panel_spectra, file.stored.panel_spectra);
    ASSERT_EQ(memory.advice.has_value(), file.advice.has_value());
    if (memory.advice) {
        EXPECT_EQ(memory.advice->reason, file.advice->reason);
        EXPECT_EQ(memory.advice->half_width, file.advice->half_width);
        EXPECT_EQ(memory.advice->more_rounds, file.advice->more_rounds);
        EXPECT_EQ(memory.advice->wanted, file.advice->wanted);
        EXPECT_EQ(memory.advice->floor_xy, file.advice->floor_xy);
    }
    ASSERT_EQ(memory.other_displays.size(), file.other_displays.size());
    for (std::size_t i = 0; i < memory.other_displays.size(); ++i) {
        EXPECT_STREQ(code_of(memory.other_displays[i].found.verdict),
                     code_of(file.other_displays[i].found.verdict));
    }
}

struct FitCase {
    const char* name;
    InventedReadings readings;
    FitVerdict verdict;
    std::function<void(assess::MeterFitOptions&, report::MeterFitRequest&)> asked = {};
};

TEST_F(FitFromBoth, VerdictsAndWarningsAreTheSame) {
    InventedReadings noisy;
    noisy.scatter = 0.05;
    InventedReadings drifting;
    drifting.falls = 0.5;
    InventedReadings spoilt;
    spoilt.spoilt = true;
    InventedReadings right;
    right.meter = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    InventedReadings once;
    once.rounds = 1;
    InventedReadings raw;
    raw.meter = {{{0.0, 0.1, 2.0}, {0.1, 3.0, 0.1}, {5.0, 0.2, 0.0}}};
    const std::vector<FitCase> cases{
        {"clean", {}, FitVerdict::use},
        {"noisy", noisy, FitVerdict::read_again},
        {"drifting", drifting, FitVerdict::use},
        {"spoilt", spoilt, FitVerdict::do_not_use},
        {"right", right, FitVerdict::not_needed},
        {"once", once, FitVerdict::use},
        {"raw", raw, FitVerdict::use,
         [](auto& options, auto& request) { options.raw_channels = request.raw_channels = true; }},
        {"least squares",
         {},
         FitVerdict::use,
         [](auto& options, auto& request) {
             options.method = CorrectionMethod::least_squares;
             request.method = "least-squares";
         }},
        {"one round, least squares", once, FitVerdict::use,
         [](auto& options, auto& request) {
             options.method = CorrectionMethod::least_squares;
             request.method = "least-squares";
         }},
        {"stated, and sure enough never", once, FitVerdict::use,
         [](auto& options, auto& request) {
             options.noise_from = NoiseFrom::stated;
             options.stated = stated_noise(0.002);
             request.noise = "0.002";
             options.wanted_half_width = request.wanted_half_width = 1e-6;
         }},
        {"white only", {}, FitVerdict::use, [](auto& options, auto& request) {
             options.method = CorrectionMethod::white_only;
             request.method = "white-only";
         }}};
    for (const FitCase& c : cases) {
        SCOPED_TRACE(c.name);
        const auto readings = c.readings.taken();
        const std::string file = written("readings.csv", readings_csv(readings));
        assess::MeterFitRequest memory{{file, readings}};
        report::MeterFitRequest typed{{file}};
        if (c.asked) {
            c.asked(memory.options, typed);
        }
        const auto answer = assess::answer_meter_fit(memory);
        expect_same_fit(answer, report::answer_meter_fit(typed));
        EXPECT_STREQ(code_of(answer.judgement.verdict), code_of(c.verdict));
    }
}

TEST_F(FitFromBoth, OtherDisplaysAndSpectraAreJudgedAlike) {
    InventedReadings other;
    other.primaries = {{{60.0, 30.0, 1.0}, {30.0, 90.0, 8.0}, {30.0, 12.0, 150.0}}};
    other.meter = {{{1.0, 0.0, 0.02}, {0.0, 1.02, 0.0}, {0.01, 0.0, 1.0}}};
    const auto readings = InventedReadings{}.taken();
    const std::string file = written("readings.csv", readings_csv(readings));
    const std::string others = written("other.csv", readings_csv(other.taken()));
    const assess::MeterFitRequest memory{
        {file, readings}, {{others, other.taken()}}, generic_listed("laser-rgb")};
    report::MeterFitRequest typed{{file, others}};
    typed.panel = "laser-rgb";
    const auto answer = assess::answer_meter_fit(memory);
    expect_same_fit(answer, report::answer_meter_fit(typed));
    ASSERT_EQ(answer.other_displays.size(), 1U);
    EXPECT_EQ(answer.warnings.front().code, other_panel_code);
    // What a choice makes of it once it is stored.
    EXPECT_EQ(stored_doubts(answer.stored.correction).other_panel, answer.warnings.front());
    EXPECT_FALSE(stored_doubts(answer.stored.correction).readings);
}

TEST_F(FitFromBoth, RefusalsAreTheSame) {
    auto dark = InventedReadings{}.taken();
    dark[3].xyz[1] = 0.0;
    auto exchanged = InventedReadings{}.taken();
    for (InstrumentReading& reading : exchanged) {
        if (reading.instrument == Instrument::meter) {
            std::swap(reading.xyz[0], reading.xyz[1]);
        }
    }
    auto unpaired = InventedReadings{}.taken();
    unpaired.pop_back();
    for (const auto& readings : {dark, exchanged, unpaired}) {
        const std::string file = written("readings.csv", readings_csv(readings));
        assess::MeterFitRequest memory{{file, readings}};
        for (std::size_t i = 0; i < readings.size(); ++i) {
            memory.display.lines.push_back(i + 2);  // behind the heading
        }
        const auto text_of = [](auto&& answer) -> std::string {
            try {
                answer();
            } catch (const Error& error) {
                return error.what();
            }
            return "no refusal";
        };
        const std::string said = text_of([&] { assess::answer_meter_fit(memory); });
        EXPECT_EQ(said, text_of([&] { report::answer_meter_fit({{file}}); }));
        EXPECT_EQ(said.rfind(file, 0), 0U) << said;
    }
}

TEST_F(FitFromBoth, ModeAndWindowOfTheReadingsAreKept) {
    assess::MeterFitRequest memory{{"display", InventedReadings{}.taken()}};
    memory.display.picture_mode = "cinema";
    memory.options.provenance.window = "10 %";
    const auto& kept = assess::answer_meter_fit(memory).stored.correction.provenance;
    EXPECT_EQ(kept.picture_mode, "cinema");
    EXPECT_EQ(kept.window, "10 %");
}

TEST(AssessMeterFit, RefusesOptionsThatContradict) {
    assess::MeterFitOptions options;
    options.noise_from = NoiseFrom::stated;
    EXPECT_THROW(assess::require_valid(options), Error);
    options = {};
    options.stated = stated_noise(0.001);
    EXPECT_THROW(assess::require_valid(options), Error);
    options = {};
    options.resamples = 1;
    EXPECT_THROW(assess::require_valid(options), Error);
    options = {};
    options.method = CorrectionMethod::spectra;
    EXPECT_THROW(assess::require_valid(options), Error);
    EXPECT_THROW(assess::require_readable_observer("cie2006:45:2"), Error);
}

}  // namespace
}  // namespace samelight::test
