// The C interface at its edges: corrected visits, white and black of a batch's units, names beyond ASCII, and values that no reading or row can be.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "c/world.hpp"
#include "samelight/c/samelight.h"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace c_interface {
namespace {

samelight_check_summary summary_of(const samelight_check_answer* answer) {
    samelight_check_summary summary;
    samelight_check_summary_defaults(&summary);
    require(samelight_check_answer_summary(answer, &summary, &right().error), right().error);
    return summary;
}

nlohmann::json json_of(const samelight_check_answer* answer) {
    samelight_text* json = nullptr;
    require(samelight_check_answer_json(answer, &json, &right().error), right().error);
    return nlohmann::json::parse(said(json));
}

// Second route: readings corrected first, then judged as they are, are as far off as readings that samelight_check() corrects.
TEST(CEdges, AVisitIsCorrectedAndSoIsTheOneBefore) {
    World& w = right();
    const samelight_rows read{w.read.data(), 6, 0};
    std::array<double, 18> corrected{};
    require(samelight_correction_apply(w.correction, &read, corrected.data(), 0, nullptr, 0,
                                       nullptr, &w.error),
            w.error);
    samelight_patch_readings after = w.readings;
    after.xyz = {corrected.data(), 6, 0};
    samelight_check_answer *by_us = nullptr, *by_it = nullptr;
    require(samelight_check(&after, &w.check, &by_us, &w.error), w.error);
    samelight_check_options options = w.check;
    options.correction = w.correction;
    options.before = &w.readings;
    require(samelight_check(&w.readings, &options, &by_it, &w.error), w.error);
    EXPECT_NEAR(summary_of(by_it).largest_de00, summary_of(by_us).largest_de00, 1e-9);
    EXPECT_STREQ(summary_of(by_it).largest_patch, summary_of(by_us).largest_patch);
    // The correction's own doubt comes to that of the readings.
    EXPECT_GT(summary_of(by_it).standard_uncertainty_de00,
              summary_of(by_us).standard_uncertainty_de00);
    const nlohmann::json json = json_of(by_it);
    EXPECT_EQ(json.at("corrected"), true);
    EXPECT_EQ(json_of(by_us).at("corrected"), false);
    ASSERT_TRUE(json.at("before").is_object());
    EXPECT_EQ(json.at("before").at("chosen").at("gate").at("largest_de00"),
              json.at("now").at("chosen").at("gate").at("largest_de00"));
    EXPECT_TRUE(json_of(by_us).at("before").is_null());
    samelight_check_answer_destroy(by_us);
    samelight_check_answer_destroy(by_it);
}

std::string refused_check(const samelight_patch_readings& readings,
                          const samelight_check_options& options, samelight_status wanted) {
    samelight_error error;
    samelight_check_answer* answer = nullptr;
    EXPECT_EQ(samelight_check(&readings, &options, &answer, &error), wanted) << error.message;
    EXPECT_EQ(answer, nullptr);
    return error.message;
}

TEST(CEdges, ReadingsThatCannotBe) {
    World& w = right();
    const auto with_value = [&](double value, std::size_t at) {
        std::vector<double> read = w.read;
        read[at] = value;
        samelight_patch_readings readings = w.readings;
        readings.xyz.values = read.data();
        return refused_check(readings, w.check, at == 1 ? SAMELIGHT_INPUT : SAMELIGHT_DOMAIN);
    };
    EXPECT_EQ(with_value(2e9, 3), "reading 1: 2e+09; wanted X, Y, Z in cd/m2");
    EXPECT_EQ(with_value(std::nan(""), 17), "reading 5: nan; wanted X, Y, Z in cd/m2");
    EXPECT_EQ(with_value(0.0, 1), "visit: a full white of 0 cd/m2; wanted one with light");
    for (const double signal : {-0.01, 1.01, std::nan("")}) {
        std::array<double, 18> signals = w.signals;
        signals[4] = signal;
        samelight_patch_readings readings = w.readings;
        readings.signals.values = signals.data();
        const std::string message = refused_check(readings, w.check, SAMELIGHT_DOMAIN);
        EXPECT_EQ(message.rfind("reading 1: a signal of ", 0), 0U) << message;
        EXPECT_NE(message.find("; wanted 0 to 1"), std::string::npos) << message;
    }
    std::array<const char*, 6> names = {"white", nullptr, "red-100", "", "blue-100", "black"};
    samelight_patch_readings unnamed = w.readings;
    unnamed.patches = names.data();
    samelight_check_answer* answer = nullptr;
    require(samelight_check(&unnamed, &w.check, &answer, &w.error), w.error);
    EXPECT_EQ(summary_of(answer).patches, 6U);
    samelight_check_answer_destroy(answer);
    unnamed.signals = {nullptr, 0, 0};
    EXPECT_EQ(refused_check(unnamed, w.check, SAMELIGHT_INPUT),
              "reading 1: neither a name nor a signal; wanted one of the two at least");
    samelight_check_options options = w.check;
    options.curve = "gamma";
    const std::string curve = refused_check(w.readings, options, SAMELIGHT_INPUT);
    EXPECT_EQ(curve.rfind("curve: \"gamma\"; wanted bt1886", 0), 0U) << curve;
    options = w.check;
    options.white_y = std::nan("");
    EXPECT_EQ(refused_check(w.readings, options, SAMELIGHT_DOMAIN),
              "white_x, white_y: one of x and y alone; wanted both, or none");
}

// A unit's fourth light is its white, its fifth its black: the target is that of the C++ library for a panel of these spectra, and neither is for
// nothing.
TEST(CEdges, UnitsWithAWhiteAndABlack) {
    World& w = right();
    std::vector<double> black = peak_at(500, 60);
    std::vector<double> white = w.white;
    for (std::size_t k = 0; k < black.size(); ++k) {
        black[k] *= 0.01;
        white[k] = 1.5 * white[k] + black[k];
    }
    std::vector<std::vector<double>> lights = {w.red, w.green, w.blue, white, black};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < black.size(); ++k) {
            lights[i][k] += black[k];
        }
    }
    std::array<std::array<double, 2>, 3> seen{};
    for (const std::size_t per_unit : {3U, 4U, 5U}) {
        std::vector<double> all;
        for (std::size_t i = 0; i < per_unit; ++i) {
            all.insert(all.end(), lights[i].begin(), lights[i].end());
        }
        const samelight_spectra spectra{w.nm.data(), w.nm.size(), all.data(), per_unit, 0, 0};
        std::array<double, 2>& xy = seen.at(per_unit - 3);
        require(samelight_white_targets(w.reference, &spectra, per_unit, nullptr, xy.data(), 0,
                                        nullptr, 0, &w.error),
                w.error);
        samelight::PanelSpectra own{samelight::Spectrum(w.nm, lights[0]),
                                    samelight::Spectrum(w.nm, lights[1]),
                                    samelight::Spectrum(w.nm, lights[2])};
        if (per_unit > 3) own.white = samelight::Spectrum(w.nm, white);
        if (per_unit > 4) own.black = samelight::Spectrum(w.nm, black);
        const auto target = samelight::white_target(
            samelight::Panel("own", own), samelight::illuminant_reference("D65"),
            samelight::standard_observer<samelight::Cie2015_2deg>());
        EXPECT_NEAR(xy[0], target.xy.x(), 1e-12) << per_unit;
        EXPECT_NEAR(xy[1], target.xy.y(), 1e-12) << per_unit;
    }
    EXPECT_GT(std::abs(seen[1][0] - seen[2][0]), 1e-6);
    const samelight_spectra spectra{w.nm.data(), w.nm.size(), w.three.data(), 3, 0, 0};
    std::array<double, 2> xy{};
    for (const std::size_t per_unit : {2U, 4U, 6U}) {
        EXPECT_EQ(samelight_white_targets(w.reference, &spectra, per_unit, nullptr, xy.data(), 0,
                                          nullptr, 0, &w.error),
                  SAMELIGHT_SHAPE);
        EXPECT_EQ(std::string(w.error.message),
                  "lights: 3, " + std::to_string(per_unit) +
                      " a unit; wanted 3, 4 or 5 a unit, and as many for each");
    }
}

TEST(CEdges, ABatchWithDoubtNamesTheUnit) {
    World& w = right();
    const std::vector<double> lights = units_of_which_the_second_cannot_be();
    const samelight_spectra all{w.nm.data(), w.nm.size(), lights.data(), 6, 0, 0};
    std::array<double, 4> xy{}, widths = {7, 7, 7, 7};
    EXPECT_EQ(samelight_white_targets(w.reference, &all, 3, nullptr, xy.data(), 0, widths.data(), 0,
                                      &w.error),
              SAMELIGHT_SINGULAR);
    EXPECT_NE(std::string(w.error.message).find("unit 1"), std::string::npos) << w.error.message;
    EXPECT_EQ(widths[0], 7.0);
}

// RFC 3629, section 4: which bytes a character may be of.
TEST(CEdges, NamesAreUtf8) {
    World& w = right();
    const auto status = [&](const char* name) {
        samelight_panel_spectra spectra = w.panel_spectra;
        spectra.name = name;
        samelight_panel* panel = nullptr;
        const samelight_status result = samelight_panel_from_spectra(&spectra, &panel, &w.error);
        if (result == SAMELIGHT_OK) {
            EXPECT_STREQ(samelight_panel_name(panel), name);
        }
        samelight_panel_destroy(panel);
        return result;
    };
    for (const char* good :
         {"\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80", "\xef\xbf\xbd",
          "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf", "a\xe2\x82\xac z"}) {
        EXPECT_EQ(status(good), SAMELIGHT_OK) << good << w.error.message;
    }
    for (const char* bad : {"\x80", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2g", "\xe0\x9f\xbf",
                            "\xed\xa0\x80", "\xe2\x82", "\xe2\x82g", "\xf0\x8f\xbf\xbf",
                            "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xf0\x90\x80", "\xff"}) {
        EXPECT_EQ(status(bad), SAMELIGHT_INPUT) << bad;
        EXPECT_NE(std::string(w.error.message).find("a text that is no UTF-8; wanted UTF-8"),
                  std::string::npos)
            << w.error.message;
    }
}

TEST(CEdges, RowsThatDontFit) {
    World& w = right();
    const samelight_rows close{w.six.data(), 2, 2};
    std::array<double, 6> lab{};
    EXPECT_EQ(samelight_lab_from_xyz(&close, w.white_xyz.data(), lab.data(), 0, &w.error),
              SAMELIGHT_SHAPE);
    EXPECT_NE(std::string(w.error.message).find("a stride of 2; wanted 3 or more, or 0"),
              std::string::npos)
        << w.error.message;
    const samelight_rows one{w.six.data(), 1, 0};
    std::array<double, 2> de00{};
    EXPECT_EQ(samelight_de2000_from_lab(&w.rows, &one, de00.data(), 0, &w.error), SAMELIGHT_SHAPE);
    EXPECT_STREQ(w.error.message, "first and second: 2 and 1 rows; wanted as many of each");
    std::vector<double> falling = w.nm;
    std::swap(falling[3], falling[4]);
    samelight_panel_spectra unsorted = w.panel_spectra;
    unsorted.wavelengths_nm = falling.data();
    samelight_panel* panel = nullptr;
    EXPECT_EQ(samelight_panel_from_spectra(&unsorted, &panel, &w.error), SAMELIGHT_DOMAIN);
    EXPECT_EQ(std::string(w.error.message).rfind("red: ", 0), 0U) << w.error.message;
    samelight_meter meter = w.meter;
    meter.sensitivities.count = 2;
    samelight_correction* correction = nullptr;
    EXPECT_EQ(
        samelight_correction_model(&meter, w.panels[0], nullptr, &correction, nullptr, &w.error),
        SAMELIGHT_SHAPE);
    EXPECT_STREQ(w.error.message, "meter: 2 sensitivities; wanted three: those behind X, Y and Z");
    std::vector<double> rows = w.three;
    rows[100] = std::nan("");
    meter = w.meter;
    meter.sensitivities.values = rows.data();
    EXPECT_NE(
        samelight_correction_model(&meter, w.panels[0], nullptr, &correction, nullptr, &w.error),
        SAMELIGHT_OK);
    EXPECT_EQ(std::string(w.error.message).rfind("sensitivities 1: ", 0), 0U) << w.error.message;
    samelight_observer_table table = w.table;
    // As C can: there an enumeration holds any whole number.
    const int seven = 7;
    static_assert(sizeof(table.receptors) == sizeof(seven));
    std::memcpy(&table.receptors, &seven, sizeof(seven));
    samelight_observer* observer = nullptr;
    EXPECT_EQ(samelight_observer_from_table(&table, &observer, &w.error), SAMELIGHT_INPUT);
    EXPECT_STREQ(w.error.message,
                 "receptors: none of the two kinds; wanted SAMELIGHT_COLOUR_MATCHING or "
                 "SAMELIGHT_CONES");
    samelight_paired_readings pairs = w.pairs;
    const std::array<std::int32_t, 4> rounds = {1, 1, 0, 1};
    pairs.rounds = rounds.data();
    EXPECT_EQ(samelight_correction_fit(&pairs, &w.fit, &correction, nullptr, &w.error),
              SAMELIGHT_DOMAIN);
    EXPECT_STREQ(w.error.message, "round of pair 2: 0; wanted 1 or more");
}

TEST(CEdges, EveryStatusHasAName) {
    EXPECT_STREQ(samelight_version(), samelight::version);
    EXPECT_STREQ(samelight_status_name(SAMELIGHT_OK), "ok");
    EXPECT_STREQ(samelight_status_name(SAMELIGHT_SYSTEM), "system");
    EXPECT_STREQ(samelight_status_name(static_cast<samelight_status>(12)), "unknown");
    // A file that there isn't is the system's to say.
    samelight_error error;
    samelight_panel* panel = nullptr;
    EXPECT_EQ(samelight_panel_generic("no such", &panel, &error), SAMELIGHT_DOMAIN);
    EXPECT_EQ(error.status, SAMELIGHT_DOMAIN);
}

}  // namespace
}  // namespace c_interface
