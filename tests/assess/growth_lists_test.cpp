// How the time of a whole answer, from files to page, grows with each of the lists that it is asked about; or the limit that refuses them.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "growth.hpp"
#include "invented_readings.hpp"
#include "memory_and_files.hpp"
#include "numeric/refusals.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/display_group.hpp"

namespace samelight::test {
namespace {

class GrowthOfLists : public MemoryAndFiles {
  protected:
    /// A table of `columns` lights on `rows` wavelengths, all different.
    [[nodiscard]] std::string lights(std::size_t columns, std::size_t rows) const {
        std::string csv = "wavelength_nm";
        for (std::size_t k = 0; k < columns; ++k) {
            csv += ",light " + std::to_string(k);
        }
        for (std::size_t i = 0; i < rows; ++i) {
            const double nm =
                380.0 + 400.0 * static_cast<double>(i) / static_cast<double>(rows - 1);
            csv += "\n" + to_text(nm, 5);
            for (std::size_t k = 0; k < columns; ++k) {
                csv += "," + to_text(1.0 + 0.5 * std::sin(nm / 40.0 + static_cast<double>(k)), 4);
            }
        }
        return written("lights.csv", csv + "\n");
    }
    /// Makes the page and the JSON; nobody looks at them.
    static void page_of(const report::WhiteRequest& request) {
        const report::WhiteAnswer answer = report::answer_white(request);
        static_cast<void>(report::white_page(answer) + report::white_json(answer));
    }
};

report::WhiteRequest white_of(std::size_t displays, std::int64_t people) {
    report::WhiteRequest request;
    // A built-in display n times: nothing depends on what the others are.
    request.panels.assign(displays, "oled-rgb");
    request.reference = "crt@0.3127,0.3290";
    request.people = people;
    return request;
}

TEST_F(GrowthOfLists, DisplaysOfAWhite) {
    expect_near_linear({16, 64, 256}, [](std::size_t n) { page_of(white_of(n, 16)); });
}

TEST_F(GrowthOfLists, DisplaysOfOneAnswerAreLimited) {
    report::WhiteRequest request = white_of(assess::most_white_displays + 1, 16);
    refusal(ErrorKind::input, [&] { page_of(request); });
}

TEST_F(GrowthOfLists, DisplaysSideBySideAreLimited) {
    const std::size_t most = most_displays_together;
    EXPECT_FALSE(report::answer_white(white_of(most, 16)).display_group.empty());
    const assess::WhiteAnswer more = report::answer_white(white_of(most + 1, 16));
    EXPECT_TRUE(more.display_group.empty());
    EXPECT_EQ(more.display_group_notes.size(), 1U);
    EXPECT_EQ(more.panels.size(), most + 1);
}

TEST_F(GrowthOfLists, PeopleOfAWhite) {
    expect_near_linear({1000, 4000, 16000},
                       [](std::size_t n) { page_of(white_of(1, static_cast<std::int64_t>(n))); });
    for (const std::int64_t people : {0, 100001}) {
        refusal(ErrorKind::input, [&] { page_of(white_of(1, people)); });
    }
}

TEST_F(GrowthOfLists, ObserversOfAWhite) {
    expect_near_linear({32, 128, 512}, [](std::size_t n) {
        report::WhiteRequest request = white_of(1, 16);
        request.observers.assign(n, "cie2015-2deg");
        page_of(request);
    });
}

TEST_F(GrowthOfLists, ViewersAreLimited) {
    report::WhiteRequest request = white_of(1, 16);
    request.viewers.assign(27, "40");
    refusal(ErrorKind::input, [&] { page_of(request); });
}

TEST_F(GrowthOfLists, RowsOfAges) {
    expect_near_linear({2000, 8000, 32000}, [&](std::size_t n) {
        std::string csv = "age_years,people\n";
        for (std::size_t i = 0; i < n; ++i) {
            csv += to_text(20.0 + 50.0 * static_cast<double>(i) / static_cast<double>(n), 4) + "," +
                   std::to_string(1 + i % 7) + "\n";
        }
        report::WhiteRequest request = white_of(1, 64);
        request.ages = written("ages.csv", csv);
        page_of(request);
    });
}

TEST_F(GrowthOfLists, PeopleAndPanelsOfAComparison) {
    report::MetamerismRequest request{{"crt", "oled-rgb"}};
    expect_near_linear({1000, 4000, 16000}, [&](std::size_t n) {
        request.people = static_cast<std::int64_t>(n);
        report::metamerism_page(report::answer_metamerism(request));
    });
    request.panels.assign(assess::most_compared_panels + 1, "crt");
    refusal(ErrorKind::input, [&] { report::answer_metamerism(request); });
}

TEST_F(GrowthOfLists, ColumnsAndRowsOfAFile) {
    const auto answer = [](const std::string& file) {
        const report::SpectrumAnswer found = report::answer_spectrum({file, {}, {}, "mercury"});
        return report::spectrum_page(found) + report::spectrum_json(found);
    };
    expect_near_linear({100, 400, 1600}, [&](std::size_t n) { answer(lights(n, 41)); });
    expect_near_linear({1500, 6000, 24000}, [&](std::size_t n) { answer(lights(3, n)); });
    const std::string wide = lights(assess::most_spectrum_columns + 1, 5);
    refusal(ErrorKind::input, [&] { answer(wide); });
}

TEST_F(GrowthOfLists, RowsOfADisplay) {
    expect_near_linear({1500, 6000, 24000}, [&](std::size_t n) {
        std::string csv = "wavelength_nm,red,green,blue\n";
        for (std::size_t i = 0; i < n; ++i) {
            const double nm = 380.0 + 400.0 * static_cast<double>(i) / static_cast<double>(n - 1);
            csv += to_text(nm, 5);
            for (const double peak : {620.0, 540.0, 450.0}) {
                csv += "," + to_text(std::exp(-(nm - peak) * (nm - peak) / 400.0), 6);
            }
            csv += "\n";
        }
        report::WhiteRequest request = white_of(0, 16);
        request.panels = {written("display.csv", csv)};
        page_of(request);
    });
}

/// Readings as a file.
std::string suffixed_readings_csv(const std::vector<InstrumentReading>& readings,
                                  const std::string& suffix) {
    std::string csv = "patch,instrument,repeat,X,Y,Z\n";
    for (const InstrumentReading& r : readings) {
        csv += r.patch + suffix +
               (r.instrument == Instrument::reference ? ",reference," : ",meter,") +
               std::to_string(r.round) + "," + to_text(r.xyz[0], 6) + "," + to_text(r.xyz[1], 6) +
               "," + to_text(r.xyz[2], 6) + "\n";
    }
    return csv;
}

TEST_F(GrowthOfLists, LettersOfAName) {
    const std::vector<InstrumentReading> readings = InventedReadings().taken();
    expect_near_linear({6250, 25000, 100000}, [&](std::size_t n) {
        const std::string suffix(n, 'x');
        report::MeterFitRequest request;
        request.files = {written("readings.csv", suffixed_readings_csv(readings, suffix))};
        request.names = {"red" + suffix, "green" + suffix, "blue" + suffix, "white" + suffix,
                         "black" + suffix};
        request.resamples = 2;
        const report::MeterFitAnswer answer = report::answer_meter_fit(request);
        report::meter_fit_page(answer);
        report::meter_fit_json(answer);
    });
}

TEST_F(GrowthOfLists, DisplaysThatACorrectionIsTriedOn) {
    const std::string fitted =
        written("fitted.csv", suffixed_readings_csv(InventedReadings().taken(), ""));
    InventedReadings other;
    other.scatter = 0.0006;
    const std::string tried = written("other.csv", suffixed_readings_csv(other.taken(), ""));
    expect_near_linear({16, 64, 256}, [&](std::size_t n) {
        report::MeterFitRequest request;
        request.files.assign(n, tried);
        request.files.insert(request.files.begin(), fitted);
        request.resamples = 2;
        report::meter_fit_page(report::answer_meter_fit(request));
    });
}

TEST_F(GrowthOfLists, PanelsAndCorrectionsToChooseFrom) {
    const report::MeterModelAnswer made =
        report::answer_meter_model({"cie1964-10deg", {"oled-rgb"}});
    const std::string correction = written("kept.json", io::correction_text(made.stored));
    const auto choose = [&](std::size_t panels, std::size_t corrections) {
        report::MeterChooseRequest request{std::vector<std::string>(panels, "crt"),
                                           std::vector<std::string>(corrections, correction),
                                           "cie1964-10deg"};
        const report::MeterChooseAnswer answer = report::answer_meter_choose(request);
        report::meter_choose_page(answer);
        report::meter_choose_json(answer);
    };
    expect_near_linear({8, 32, 128}, [&](std::size_t n) { choose(n, 1); });
    expect_near_linear({8, 32, 128}, [&](std::size_t n) { choose(1, n); });
}

TEST_F(GrowthOfLists, ATableOfDisplaysIsLimited) {
    report::MeterTableRequest request{"cie1964-10deg",
                                      std::vector<std::string>(assess::most_table_displays, "crt")};
    EXPECT_EQ(report::answer_meter_table(request).with.size(), assess::most_table_displays);
    request.panels.emplace_back("crt");
    refusal(ErrorKind::input, [&] { report::answer_meter_table(request); });
}

}  // namespace
}  // namespace samelight::test
