// What the C interface answers, beside what the C++ library and the command's own reading of files make of the same.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <thread>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "c/world.hpp"
#include "samelight/c/samelight.h"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/illuminants.hpp"

namespace c_interface {
namespace {

samelight_panel* demo_panel(const std::string& name, samelight_error& error) {
    const std::string file = std::string(SAMELIGHT_DATA "/demo/") + name;
    const std::string bytes = bytes_of(file);
    samelight_panel* panel = nullptr;
    require(samelight_panel_from_csv(file.c_str(), bytes.data(), bytes.size(), &panel, &error),
            error);
    return panel;
}

// CIE 15:2004, Table T.3: D65 is x .31272, y .32903; 95.047, 100, 108.883 (Table 1, to the digits there).
TEST(CAnswers, PlainSumOfCie15) {
    World& w = right();
    const samelight::Spectrum d65 = samelight::d_illuminant(6500);
    const samelight_spectra light{
        d65.wavelengths_nm().data(), d65.size(), d65.values().data(), 1, 0, 0};
    const samelight_sampling own{380.0, 5.0, 81};
    samelight_observer* instrument = nullptr;
    require(samelight_observer_named("cie1931-2deg", &instrument, &w.error), w.error);
    std::array<double, 3> xyz{};
    require(samelight_xyz_from_spectra(instrument, &light, &own, xyz.data(), 0, &w.error), w.error);
    samelight_observer_destroy(instrument);
    const samelight_rows row{xyz.data(), 1, 0};
    std::array<double, 2> xy{};
    require(samelight_xy_from_xyz(&row, xy.data(), 0, &w.error), w.error);
    EXPECT_NEAR(xy[0], 0.31272, 5e-6);
    EXPECT_NEAR(xy[1], 0.32903, 5e-6);
    EXPECT_NEAR(100.0 * xyz[0] / xyz[1], 95.047, 5e-3);
    EXPECT_NEAR(100.0 * xyz[2] / xyz[1], 108.883, 5e-3);
}

// Spectra as rows, as columns, and in rows with a gap say the same; so do outputs with a gap.
TEST(CAnswers, Strides) {
    World& w = right();
    const std::size_t n = w.nm.size();
    std::vector<double> columns(3 * n), gaps(3 * (n + 7), 1e9);
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            columns[3 * i + k] = gaps[k * (n + 7) + i] = w.three[k * n + i];
        }
    }
    const samelight_spectra as_columns{w.nm.data(), n, columns.data(), 3, 0, 3};
    const samelight_spectra with_gaps{w.nm.data(), n, gaps.data(), 3, n + 7, 1};
    std::array<double, 9> close{};
    std::array<double, 15> apart{};
    require(samelight_xyz_from_spectra(w.observer, &w.spectra, nullptr, close.data(), 0, &w.error),
            w.error);
    for (const samelight_spectra* other : {&as_columns, &with_gaps}) {
        apart.fill(-7.0);
        require(samelight_xyz_from_spectra(w.observer, other, nullptr, apart.data(), 5, &w.error),
                w.error);
        for (std::size_t k = 0; k < 3; ++k) {
            for (std::size_t i = 0; i < 3; ++i)
                EXPECT_EQ(apart[5 * k + i], close[3 * k + i]);
            EXPECT_EQ(apart[5 * k + 3], -7.0);
        }
    }
}

// Sharma, Wu & Dalal 2005, Table 1, pairs 1 and 25.
TEST(CAnswers, Ciede2000OfPublishedPairs) {
    World& w = right();
    const std::array<double, 6> first = {50.0, 2.6772, -79.7751, 60.2574, -34.0099, 36.2677};
    const std::array<double, 6> second = {50.0, 0.0, -82.7485, 60.4626, -34.1751, 39.4387};
    const samelight_rows a{first.data(), 2, 0}, b{second.data(), 2, 0};
    std::array<double, 2> de{};
    require(samelight_de2000_from_lab(&a, &b, de.data(), 0, &w.error), w.error);
    EXPECT_NEAR(de[0], 2.0425, 5e-5);
    EXPECT_NEAR(de[1], 1.2644, 5e-5);
}

// Squares of differences: that of 1e202 is no double.
TEST(CAnswers, ColoursBeyondTheRangeOfNumbersAreRefusedByRow) {
    const std::array<double, 6> huge = {50, 2, -3, 1e200, 1e202, -1e201};
    const std::array<double, 6> other = {50, 2, -3, 1, 2, 3};
    const samelight_rows first{huge.data(), 2, 0};
    const samelight_rows second{other.data(), 2, 0};
    std::array<double, 2> de00 = {-1, -1};
    samelight_error error{};
    EXPECT_EQ(samelight_de2000_from_lab(&first, &second, de00.data(), 0, &error), SAMELIGHT_DOMAIN);
    EXPECT_STREQ(error.message,
                 "row 1: a result beyond the range of numbers; wanted values of a size that lights "
                 "and colours have");
    EXPECT_EQ(de00[0], -1) << "nothing is written beside a refusal";
}

TEST(CAnswers, ObserversByTableAreThoseByName) {
    World& w = right();
    const samelight_sampling grid{390.0, 1.0, 391};
    std::vector<double> rows(3 * grid.count), again(3 * grid.count);
    require(samelight_observer_sensitivities(w.observer, &grid, rows.data(), 0, &w.error), w.error);
    samelight_observer_table table;
    samelight_observer_table_defaults(&table);
    table.id = "mine";
    table.grid = grid;
    table.rows = rows.data();
    samelight_observer* own = nullptr;
    require(samelight_observer_from_table(&table, &own, &w.error), w.error);
    require(samelight_observer_sensitivities(own, &grid, again.data(), 0, &w.error), w.error);
    EXPECT_EQ(rows, again);
    EXPECT_STREQ(samelight_observer_id(own), "mine");
    samelight_observer_destroy(own);
    samelight_observer* of_age = nullptr;
    require(samelight_observer_of_age(32.5, 4.0, &of_age, &w.error), w.error);
    EXPECT_STREQ(samelight_observer_id(of_age), "cie2006:32.5:4");
    samelight_observer_destroy(of_age);
}

// The whole JSON of `white`, of files read by the command's own way.
TEST(CAnswers, WhiteJsonIsTheCommands) {
    samelight_error error;
    samelight_panel* panel = demo_panel("client-set.csv", error);
    samelight_reference* reference = nullptr;
    require(samelight_reference_illuminant("D65", &reference, &error), error);
    samelight_text* json = nullptr;
    require(samelight_white_json(reference, &panel, 1, nullptr, &json, &error), error);
    samelight_reference_destroy(reference);
    samelight_panel_destroy(panel);
    samelight::report::WhiteRequest asked;
    asked.panels = {SAMELIGHT_DATA "/demo/client-set.csv"};
    EXPECT_EQ(said(json), samelight::report::white_json(samelight::report::answer_white(asked)));
}

TEST(CAnswers, PartsAreThoseOfTheJson) {
    World& w = right();
    samelight_text* text = nullptr;
    require(samelight_white_answer_json(w.white_answer, &text, &w.error), w.error);
    const auto json = nlohmann::json::parse(said(text)).at("panels").at(0);
    samelight_white_part part;
    samelight_white_part_defaults(&part);
    require(samelight_white_answer_part(w.white_answer, 0, &part, &w.error), w.error);
    EXPECT_EQ(part.x, json.at("household_target").at("x").get<double>());
    EXPECT_EQ(part.y, json.at("household_target").at("y").get<double>());
    EXPECT_EQ(part.half_width_x, json.at("budget").at("half_width_x").get<double>());
    EXPECT_EQ(part.verdict_code, json.at("advice").at("verdict").get<std::string>());
    EXPECT_EQ(part.reason_code, json.at("advice").at("reason_code").get<std::string>());
    EXPECT_EQ(part.dominant_code, json.at("budget").at("dominant").get<std::string>());
    EXPECT_EQ(part.warning_count, json.at("warnings").size());
    EXPECT_EQ(part.drive_count, 3U);
    std::array<double, 2> xy{};
    require(samelight_white_answer_targets(w.white_answer, 0, xy.data(), 0, 1, &w.error), w.error);
    EXPECT_EQ(xy[0], json.at("targets").at(0).at("x").get<double>());
}

/// What a program of the first version passes in: a struct that ended before `threads`, and whatever lies behind it.
template <class Options>
Options of_first_version(Options options) {
    options.size = offsetof(Options, threads);
    options.threads = static_cast<std::size_t>(-1);
    return options;
}

TEST(CAnswers, StructsOfTheFirstVersionAreTaken) {
    World& w = right();
    samelight_white_options options;
    samelight_white_options_defaults(&options);
    EXPECT_EQ(options.threads, 1U);
    std::vector<std::string> answers;
    for (const std::size_t threads : {1U, 3U, 0U}) {
        options.threads = threads;
        samelight_text* json = nullptr;
        require(samelight_white_json(w.reference, w.panels.data(), 1, &options, &json, &w.error),
                w.error);
        answers.push_back(said(json));
    }
    const samelight_white_options first = of_first_version(options);
    samelight_text* json = nullptr;
    require(samelight_white_json(w.reference, w.panels.data(), 1, &first, &json, &w.error),
            w.error);
    answers.push_back(said(json));
    EXPECT_EQ(std::count(answers.begin(), answers.end(), answers.front()), 4);
    samelight_population_options people;
    samelight_population_options_defaults(&people);
    people.count = 40;
    const samelight_population_options fewer = of_first_version(people);
    samelight_population* population = nullptr;
    require(samelight_population_create(&fewer, &population, &w.error), w.error);
    EXPECT_EQ(samelight_population_count(population), 40U);
    samelight_population_destroy(population);
    people.size -= 16;
    EXPECT_EQ(samelight_population_create(&people, &population, &w.error), SAMELIGHT_INPUT);
}

// Each unit of a batch has the target and the doubt that it has alone.
TEST(CAnswers, BatchOfUnitsIsEachByItself) {
    World& w = right();
    samelight_white_options options;
    samelight_white_options_defaults(&options);
    options.observers = w.observers;
    options.observer_count = 1;
    std::vector<double> lights;
    for (const double shift : {0.0, 4.0, -3.0}) {
        for (const auto& light :
             {peak_at(630 + shift, 20), peak_at(530, 25 + shift), peak_at(455, 12)}) {
            lights.insert(lights.end(), light.begin(), light.end());
        }
    }
    const samelight_spectra all{w.nm.data(), w.nm.size(), lights.data(), 9, 0, 0};
    std::array<double, 6> xy{}, alone{};
    std::array<double, 6> widths{};
    require(samelight_white_targets(w.reference, &all, 3, &options, xy.data(), 0, widths.data(), 0,
                                    &w.error),
            w.error);
    require(samelight_white_targets(w.reference, &all, 3, &options, alone.data(), 0, nullptr, 0,
                                    &w.error),
            w.error);
    for (std::size_t unit = 0; unit < 3; ++unit) {
        samelight_panel_spectra spectra = w.panel_spectra;
        const double* first = lights.data() + unit * 3 * w.nm.size();
        spectra.red = first;
        spectra.green = first + w.nm.size();
        spectra.blue = first + 2 * w.nm.size();
        spectra.white = nullptr;
        samelight_panel* panel = nullptr;
        samelight_white_answer* answer = nullptr;
        require(samelight_panel_from_spectra(&spectra, &panel, &w.error), w.error);
        require(samelight_white(w.reference, &panel, 1, &options, &answer, &w.error), w.error);
        samelight_white_part part;
        samelight_white_part_defaults(&part);
        require(samelight_white_answer_part(answer, 0, &part, &w.error), w.error);
        EXPECT_EQ(xy[2 * unit], part.x);
        EXPECT_EQ(xy[2 * unit + 1], part.y);
        EXPECT_NEAR(alone[2 * unit], part.x, 1e-12);
        EXPECT_NEAR(widths[2 * unit], part.half_width_x, 1e-12);
        EXPECT_NEAR(widths[2 * unit + 1], part.half_width_y, 1e-12);
        samelight_white_answer_destroy(answer);
        samelight_panel_destroy(panel);
    }
    EXPECT_NE(xy[0], xy[2]);
}

TEST(CAnswers, BatchNamesTheUnitThatCannotBe) {
    World& w = right();
    const std::vector<double> lights = units_of_which_the_second_cannot_be();
    const samelight_spectra all{w.nm.data(), w.nm.size(), lights.data(), 6, 0, 0};
    std::array<double, 4> xy = {7, 7, 7, 7};
    EXPECT_EQ(
        samelight_white_targets(w.reference, &all, 3, nullptr, xy.data(), 0, nullptr, 0, &w.error),
        SAMELIGHT_SINGULAR);
    EXPECT_NE(std::string(w.error.message).find("unit 1"), std::string::npos) << w.error.message;
    EXPECT_EQ(xy[0], 7.0);
}

TEST(CAnswers, CloudAndSpreadSayTheSame) {
    World& w = right();
    std::vector<double> cloud(2 * samelight_population_count(w.population));
    require(samelight_population_cloud(w.population, w.panels[0], w.reference, cloud.data(), 0,
                                       &w.error),
            w.error);
    samelight_population_spread spread;
    samelight_population_spread_defaults(&spread);
    require(
        samelight_population_spread_of(w.population, w.panels[0], w.reference, &spread, &w.error),
        w.error);
    ASSERT_EQ(spread.people, cloud.size() / 2);
    double mean = 0.0, square = 0.0;
    for (std::size_t i = 0; i < cloud.size(); i += 2)
        mean += cloud[i] / static_cast<double>(spread.people);
    for (std::size_t i = 0; i < cloud.size(); i += 2)
        square += (cloud[i] - mean) * (cloud[i] - mean);
    EXPECT_NEAR(spread.mean_xy[0], mean, 1e-12);
    EXPECT_NEAR(spread.covariance_xy[0], square / static_cast<double>(spread.people - 1), 1e-12);
}

TEST(CAnswers, MetamerismJsonIsTheCommands) {
    World& w = right();
    const std::array<samelight_panel*, 2> panels = {demo_panel("client-set.csv", w.error),
                                                    demo_panel("desk-display.csv", w.error)};
    samelight_population_options people;
    samelight_population_options_defaults(&people);
    people.count = 32;
    samelight_metamerism_options options = w.metamerism;
    samelight_text* json = nullptr;
    require(samelight_metamerism_json(panels.data(), 2, w.reference, &options, &json, &w.error),
            w.error);
    samelight_metamerism_figures figures;
    samelight_metamerism_figures_defaults(&figures);
    require(
        samelight_metamerism_of(panels[0], panels[1], w.reference, &options, &figures, &w.error),
        w.error);
    for (samelight_panel* panel : panels)
        samelight_panel_destroy(panel);
    samelight::report::MetamerismRequest asked;
    asked.panels = {SAMELIGHT_DATA "/demo/client-set.csv", SAMELIGHT_DATA "/demo/desk-display.csv"};
    asked.people = 32;
    const auto answer = samelight::report::answer_metamerism(asked);
    EXPECT_EQ(said(json), samelight::report::metamerism_json(answer));
    // As set by the instrument, with white targets, and all three.
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& own = answer.matrix.pairs.front().figures.at(i);
        EXPECT_EQ(figures.white_mean[i], own.white_de00.mean) << i;
        EXPECT_EQ(figures.white_two_in_three[i], own.white_de00.two_in_three) << i;
        EXPECT_EQ(figures.white_p95[i], own.white_de00.p95) << i;
        EXPECT_EQ(figures.white_largest[i], own.white_de00.largest) << i;
        EXPECT_EQ(figures.colours_mean[i], own.colours_de00.mean) << i;
        EXPECT_EQ(figures.colours_two_in_three[i], own.colours_de00.two_in_three) << i;
        EXPECT_GT(figures.colours_mean[i], 0.0) << i;
    }
    EXPECT_EQ(figures.look_alike != 0, answer.pairs.front().look_alike);
}

TEST(CAnswers, LongMessagesEndBetweenCharacters) {
    samelight_error error;
    std::string name;
    for (int i = 0; i < 400; ++i)
        name += "\xc3\xa4";
    samelight_panel* panel = nullptr;
    for (const char* first : {"", "x"}) {
        EXPECT_EQ(samelight_panel_generic((first + name).c_str(), &panel, &error),
                  SAMELIGHT_DOMAIN);
        const std::string message = error.message;
        EXPECT_GE(message.size(), 510U);
        EXPECT_LE(message.size(), 511U);
        EXPECT_EQ(static_cast<unsigned char>(message.back()), 0xA4U);
    }
}

// Threads with their own handles, and with one that they share; for ThreadSanitizer as much as for the figures.
TEST(CAnswers, Threads) {
    const World& shared = right();
    std::array<double, 4> x{};
    const auto work = [&](std::size_t at) {
        samelight_error error;
        samelight_panel* own = nullptr;
        samelight_white_answer* answer = nullptr;
        require(samelight_panel_generic("crt", &own, &error), error);
        const std::array<const samelight_panel*, 2> panels = {own, shared.panels[0]};
        require(samelight_white(shared.reference, panels.data(), 2, &shared.white_options, &answer,
                                &error),
                error);
        samelight_white_part part;
        samelight_white_part_defaults(&part);
        require(samelight_white_answer_part(answer, 1, &part, &error), error);
        x.at(at) = part.x;
        EXPECT_EQ(samelight_white_answer_part(answer, 7, &part, &error), SAMELIGHT_SHAPE);
        samelight_white_answer_destroy(answer);
        samelight_panel_destroy(own);
    };
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < x.size(); ++i)
        threads.emplace_back(work, i);
    for (std::thread& thread : threads)
        thread.join();
    for (const double value : x)
        EXPECT_EQ(value, x[0]);
    EXPECT_GT(x[0], 0.2);
}

}  // namespace
}  // namespace c_interface
