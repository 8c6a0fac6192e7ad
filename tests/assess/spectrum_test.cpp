// The answer about spectra from values in memory is the one that a file of them gives.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "io/scratch_folder.hpp"
#include "numeric/test_random.hpp"
#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {
namespace {

using SpectrumLine = std::array<double, 3>;  // nm, full width at half maximum, height

Spectrum lines_as_read(const std::vector<SpectrumLine>& lines,
                       const ReadingInstrument& instrument) {
    const Sampling fine(380.0, 0.1, 4001);
    std::vector<double> values;
    for (int i = 0; i < fine.count(); ++i) {
        double sum = 0.0;
        for (const SpectrumLine& line : lines) {
            const double t = (fine.wavelength_nm(i) - line[0]) / line[1];
            sum += line[2] * std::exp2(-4.0 * t * t);
        }
        values.push_back(sum);
    }
    return read_by(instrument, Spectrum(fine, values));
}

ReadingInstrument instrument_of(double bandwidth_nm, double step_nm) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = bandwidth_nm;
    instrument.step_nm = step_nm;
    return instrument;
}

/// A panel with narrow red lines.
std::vector<assess::SpectrumColumn> narrow_panel(const ReadingInstrument& instrument) {
    return {{"red", lines_as_read({{631.0, 3.0, 1.0}, {613.0, 3.0, 0.4}}, instrument)},
            {"green", lines_as_read({{535.0, 50.0, 0.2}}, instrument)},
            {"blue", lines_as_read({{450.0, 20.0, 0.4}}, instrument)}};
}

/// A lamp of mercury read by an instrument whose wavelengths are too long.
std::vector<assess::SpectrumColumn> mercury_lamp(double shift_nm, double step_nm) {
    ReadingInstrument instrument = instrument_of(5.0, step_nm);
    instrument.wavelength_shift_nm = shift_nm;
    std::vector<SpectrumLine> lines;
    for (const double nm : mercury_lines_nm) {
        lines.push_back({nm, 0.2, 1.0});
    }
    return {{"lamp", lines_as_read(lines, instrument)}};
}

std::vector<std::string> codes_of(const std::vector<Warning>& warnings) {
    std::vector<std::string> codes;
    for (const Warning& warning : warnings) {
        codes.push_back(warning.code);
    }
    return codes;
}

class SpectraFromMemory : public io::test::ScratchFolder {
  protected:
    /// Both answers to `wishes`, compared; the one from memory is handed back.
    /// @param lines  the wishes' lines as the command has them
    [[nodiscard]] assess::SpectrumAnswer answered(
        const std::vector<assess::SpectrumColumn>& columns, const assess::SpectrumWishes& wishes,
        const std::string& lines = "") const {
        std::vector<io::LightColumn> written;
        for (const assess::SpectrumColumn& column : columns) {
            written.push_back({column.name, column.light});
        }
        const std::filesystem::path file = folder_ / "spectra.csv";
        std::ofstream(file, std::ios::binary) << io::spectral_csv_text({}, written);
        assess::SpectrumAnswer memory = assess::answer_spectrum({columns, wishes});
        const report::SpectrumAnswer read =
            report::answer_spectrum({file, wishes.bandwidth_nm, wishes.shift_nm, lines});
        EXPECT_EQ(codes_of(memory.warnings), codes_of(read.warnings));
        EXPECT_EQ(memory.least_step_nm, read.least_step_nm);
        EXPECT_EQ(memory.corrected.size(), read.corrected.size());
        EXPECT_EQ(memory.columns.size(), read.columns.size());
        for (std::size_t i = 0; i < std::min(memory.columns.size(), read.columns.size()); ++i) {
            expect_same_column(memory.columns[i], read.columns[i]);
        }
        return memory;
    }

  private:
    static void expect_same_column(const assess::ColumnPart& a, const assess::ColumnPart& b) {
        EXPECT_EQ(a.noise_alone, b.noise_alone) << a.name;
        EXPECT_EQ(a.sampling.sound(), b.sampling.sound()) << a.name;
        EXPECT_EQ(a.temperature.has_value(), b.temperature.has_value()) << a.name;
        ASSERT_EQ(a.readings.size(), b.readings.size()) << a.name;
        for (std::size_t i = 0; i < a.readings.size(); ++i) {
            EXPECT_EQ(a.readings[i].x, b.readings[i].x) << a.name;
        }
        ASSERT_EQ(a.lines.has_value(), b.lines.has_value()) << a.name;
        if (a.lines) {
            EXPECT_EQ(a.lines->shift.shift_nm, b.lines->shift.shift_nm) << a.name;
        }
        ASSERT_EQ(a.correction.has_value(), b.correction.has_value()) << a.name;
        if (a.correction) {
            EXPECT_EQ(a.correction->held, b.correction->held) << a.name;
            EXPECT_EQ(a.correction->noise_gain, b.correction->noise_gain) << a.name;
        }
    }
};

TEST_F(SpectraFromMemory, APanelIsLookedAt) {
    const auto answer = answered(narrow_panel(instrument_of(5.0, 1.0)), {});
    EXPECT_TRUE(answer.warnings.empty());
    EXPECT_TRUE(answer.corrected.empty());
    EXPECT_EQ(answer.first_nm, 380.0);
}

TEST_F(SpectraFromMemory, ABandwidthIsTakenOutAndWhatThatDoesIsSaid) {
    assess::SpectrumWishes wishes;
    wishes.bandwidth_nm = 5.0;
    EXPECT_EQ(codes_of(answered(narrow_panel(instrument_of(5.0, 1.0)), wishes).warnings).front(),
              "held_at_nothing");
    // Where samples are held nothing lies below nothing.
    const auto held = codes_of(answered(narrow_panel(instrument_of(5.0, 1.0)), wishes).warnings);
    EXPECT_EQ(std::find(held.begin(), held.end(), "below_nothing"), held.end());
    const auto coarser = codes_of(answered(narrow_panel(instrument_of(5.0, 2.0)), wishes).warnings);
    EXPECT_NE(std::find(coarser.begin(), coarser.end(), "below_nothing"), coarser.end());
    EXPECT_NE(std::find(coarser.begin(), coarser.end(), "noise_gain"), coarser.end());
    wishes.bandwidth_nm = 7.0;
    const auto wide = codes_of(answered(narrow_panel(instrument_of(5.0, 1.0)), wishes).warnings);
    EXPECT_NE(std::find(wide.begin(), wide.end(), "bandwidth_too_wide"), wide.end());
}

TEST_F(SpectraFromMemory, AShiftToEitherSideIsTakenOut) {
    // A bell at 560 nm, read 2 nm too low and too high; up to 20 nm are taken, and no more.
    for (const double shift : {-2.0, 2.0}) {
        ReadingInstrument instrument = instrument_of(0.0, 1.0);
        instrument.wavelength_shift_nm = shift;
        const std::vector<assess::SpectrumColumn> read = {
            {"light", lines_as_read({{560.0, 40.0, 1.0}}, instrument)}};
        assess::SpectrumWishes wishes;
        wishes.shift_nm = shift;
        const auto answer = answered(read, wishes);
        ASSERT_EQ(answer.corrected.size(), 1U);
        const Spectrum& light = answer.corrected[0];
        const auto top = std::max_element(light.values().begin(), light.values().end());
        EXPECT_NEAR(light.wavelengths_nm()[static_cast<std::size_t>(top - light.values().begin())],
                    560.0, 0.51);
        for (const double far : {-20.0, 20.0}) {
            EXPECT_NO_THROW(assess::answer_spectrum({read, {{}, far}}));
            EXPECT_THROW(assess::answer_spectrum({read, {{}, 1.01 * far}}), Error);
        }
    }
}

TEST_F(SpectraFromMemory, LinesTellTheShift) {
    assess::SpectrumWishes wishes;
    wishes.lines_nm = {mercury_lines_nm.begin(), mercury_lines_nm.end()};
    const auto answer = answered(mercury_lamp(0.31, 1.0), wishes, "mercury");
    ASSERT_TRUE(answer.columns[0].lines.has_value());
    EXPECT_NEAR(answer.columns[0].lines->shift.shift_nm.value_or(0.0), 0.31, 0.02);
}

TEST_F(SpectraFromMemory, ABandwidthThatLinesLeaveOpenIsAskedForWithoutAnyOption) {
    assess::SpectrumWishes wishes;
    wishes.lines_nm = {mercury_lines_nm.begin(), mercury_lines_nm.end()};
    const auto answer = answered(mercury_lamp(0.0, 4.0), wishes, "mercury");
    const auto codes = codes_of(answer.warnings);
    EXPECT_NE(std::find(codes.begin(), codes.end(), "bandwidth_unknown"), codes.end());
    for (const Warning& warning : answer.warnings) {
        EXPECT_EQ(report::sentence(warning).find("--"), std::string::npos)
            << report::sentence(warning);
    }
}

TEST_F(SpectraFromMemory, NoLineIsAWarning) {
    assess::SpectrumWishes wishes;
    wishes.lines_nm = {mercury_lines_nm.begin(), mercury_lines_nm.end()};
    const std::vector<assess::SpectrumColumn> smooth = {
        {"light", lines_as_read({{560.0, 150.0, 1.0}}, instrument_of(0.0, 1.0))}};
    EXPECT_EQ(codes_of(answered(smooth, wishes, "mercury").warnings),
              std::vector<std::string>{"no_line"});
}

TEST_F(SpectraFromMemory, CutOffNoisyAndDarkColumnsAreDoubtedAlike) {
    const Spectrum light = lines_as_read({{560.0, 60.0, 1.0}}, instrument_of(0.0, 1.0));
    const auto nm = light.wavelengths_nm();
    Random random(7);
    std::vector<double> cut;
    std::vector<double> noisy;
    std::vector<double> dark;
    for (const double value : light.values()) {
        cut.push_back(std::min(value, 0.8));
        noisy.push_back(std::abs(value + 0.02 * random.normal()));
        dark.push_back(1e-4 * random.normal());
    }
    const auto on_grid = [&](std::vector<double> values) {
        return Spectrum({nm.begin(), nm.end()}, std::move(values));
    };
    std::vector<assess::SpectrumColumn> columns = {
        {"cut", on_grid(cut)}, {"noisy", on_grid(noisy)}, {"black", on_grid(dark)}};
    columns.back().is_black = true;
    const auto answer = answered(columns, {});
    EXPECT_TRUE(answer.columns[2].noise_alone);
    const auto codes = codes_of(answer.warnings);
    EXPECT_NE(std::find(codes.begin(), codes.end(), "clipped"), codes.end());
    EXPECT_NE(std::find(codes.begin(), codes.end(), "noisy"), codes.end());
}

TEST(SpectraFromValues, RefusalsNameValuesNotOptions) {
    const auto refusal = [](const assess::SpectrumRequest& request) {
        try {
            static_cast<void>(assess::answer_spectrum(request));
        } catch (const Error& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    assess::SpectrumRequest request{narrow_panel(instrument_of(5.0, 1.0))};
    EXPECT_EQ(refusal(request), "");
    request.wishes.bandwidth_nm = 101.0;
    EXPECT_EQ(refusal(request), "bandwidth: 101 nm; wanted 0 to 100 nm");
    request.wishes.bandwidth_nm = 12.0;
    EXPECT_EQ(refusal(request).rfind("bandwidth: 12 nm for red, whose narrowest line is 6.", 0), 0U)
        << refusal(request);
    request.wishes.bandwidth_nm.reset();
    request.wishes.lines_nm = {100.0};
    EXPECT_EQ(refusal(request), "line: 100 nm; wanted 200 to 1200 nm");
    request.wishes.lines_nm.clear();
    request.columns.push_back({"other", lines_as_read({{560.0, 60.0, 1.0}}, instrument_of(0, 2))});
    EXPECT_EQ(refusal(request), "column other: wavelengths of its own; wanted those of red");
    request.columns.clear();
    EXPECT_EQ(refusal(request), "columns: none; wanted one at least");
}

TEST(SpectrumSteps, AreTheLeastAndTheLargestBetweenNeighbours) {
    // By hand: 1 nm up to 500, 2 nm up to 600, then 5 nm.
    std::vector<double> nm;
    for (double at = 380.0; at <= 780.0; at += at < 500.0 ? 1.0 : at < 600.0 ? 2.0 : 5.0) {
        nm.push_back(at);
    }
    std::vector<double> values;
    for (const double at : nm) {
        const double t = (at - 550.0) / 60.0;
        values.push_back(std::exp(-t * t));
    }
    const assess::SpectrumAnswer answer =
        assess::answer_spectrum({{{"uneven", Spectrum(nm, values)}}, {}});
    EXPECT_EQ(answer.least_step_nm, 1.0);
    EXPECT_EQ(answer.largest_step_nm, 5.0);
}

}  // namespace
}  // namespace samelight::test
