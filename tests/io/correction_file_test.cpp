// Correction files: to the bit there and back, and what is refused.
#include <array>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "io/stored_corrections.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::io {
namespace {

using nlohmann::json;
using samelight::test::contains;
using samelight::test::refusal;

using test::full_correction;

template <std::size_t N>
void expect_same_bits(const std::array<double, N>& a, const std::array<double, N>& b) {
    EXPECT_EQ(std::memcmp(a.data(), b.data(), sizeof a), 0);
}

void expect_same_bits(const std::vector<double>& a, const std::vector<double>& b) {
    ASSERT_EQ(a.size(), b.size());
    EXPECT_EQ(std::memcmp(a.data(), b.data(), a.size() * sizeof(double)), 0);
}

void expect_same(const ColourError& a, const ColourError& b) {
    expect_same_bits(std::array{a.x, a.y, a.u, a.v, a.luminance, a.de00.value_or(-1.0)},
                     std::array{b.x, b.y, b.u, b.v, b.luminance, b.de00.value_or(-1.0)});
}

void expect_same(const StoredCorrection& a, const StoredCorrection& b) {
    const Correction& p = a.correction;
    const Correction& q = b.correction;
    expect_same_bits(p.reference_from_meter, q.reference_from_meter);
    expect_same_bits(std::array{p.luminance_factor, p.degrees_of_freedom, p.condition_number},
                     std::array{q.luminance_factor, q.degrees_of_freedom, q.condition_number});
    EXPECT_EQ(p.observer, q.observer);
    EXPECT_EQ(p.method, q.method);
    ASSERT_EQ(p.covariance.has_value(), q.covariance.has_value());
    if (p.covariance) {
        expect_same_bits(p.covariance->elements, q.covariance->elements);
        expect_same_bits(p.covariance->with_luminance, q.covariance->with_luminance);
        expect_same_bits(std::array{p.covariance->luminance}, std::array{q.covariance->luminance});
    }
    ASSERT_EQ(p.valid_near.has_value(), q.valid_near.has_value());
    if (p.valid_near) {
        expect_same_bits(std::array{p.valid_near->x, p.valid_near->y, p.valid_near->radius},
                         std::array{q.valid_near->x, q.valid_near->y, q.valid_near->radius});
    }
    ASSERT_EQ(p.residuals.size(), q.residuals.size());
    for (std::size_t i = 0; i < p.residuals.size(); ++i) {
        EXPECT_EQ(p.residuals[i].patch, q.residuals[i].patch);
        EXPECT_EQ(p.residuals[i].fitted, q.residuals[i].fitted);
        expect_same(p.residuals[i].before, q.residuals[i].before);
        expect_same(p.residuals[i].after, q.residuals[i].after);
    }
    for (const auto member :
         {&Provenance::panel, &Provenance::reference_instrument, &Provenance::meter_instrument,
          &Provenance::date, &Provenance::picture_mode, &Provenance::window, &Provenance::level,
          &Provenance::note}) {
        EXPECT_EQ(p.provenance.*member, q.provenance.*member);
    }
    EXPECT_EQ(p.warnings, q.warnings);
    EXPECT_EQ(p.verdict, q.verdict);
    ASSERT_EQ(a.panel_spectra.has_value(), b.panel_spectra.has_value());
    if (a.panel_spectra) {
        expect_same_bits(a.panel_spectra->wavelengths_nm, b.panel_spectra->wavelengths_nm);
        expect_same_bits(a.panel_spectra->red, b.panel_spectra->red);
        expect_same_bits(a.panel_spectra->green, b.panel_spectra->green);
        expect_same_bits(a.panel_spectra->blue, b.panel_spectra->blue);
        expect_same_bits(a.panel_spectra->white, b.panel_spectra->white);
    }
    EXPECT_EQ(a.panel_spectra_digest, b.panel_spectra_digest);
    EXPECT_EQ(a.correction.raw_channels, b.correction.raw_channels);
}

// Law: what is written is read back to the bit, subnormal numbers and minus zero with it.
TEST(CorrectionFile, RoundTrip) {
    const StoredCorrection stored = full_correction();
    ASSERT_TRUE(stored.correction.covariance);
    const StoredCorrection back = parse_correction(correction_text(stored), "file.json");
    expect_same(stored, back);
    EXPECT_TRUE(back.ignored.empty());
    EXPECT_EQ(correction_text(back), correction_text(stored));
    StoredCorrection bare;
    bare.correction.observer = "cie1931-2deg";
    expect_same(bare, parse_correction(correction_text(bare), "file.json"));
}

// Law: facts of every type are read back as they were; what is no number has no other text in JSON.
TEST(CorrectionFile, WarningsKeepTheirFacts) {
    StoredCorrection stored = full_correction();
    stored.correction.warnings = {
        Warning{"odd_patch", {{"patch", "grey"}, {"distance_xy", 0.1 + 0.2}, {"times_usual", 9.0}}},
        Warning{"no_repeats"},
        Warning{"of_later",
                {{"lines_nm", std::vector<double>{546.07, 1e-300}},
                 {"keys", std::vector<std::string>{"one", "two"}}}}};
    const StoredCorrection back = parse_correction(correction_text(stored), "file.json");
    EXPECT_EQ(back.correction.warnings, stored.correction.warnings);
    EXPECT_EQ(correction_text(back), correction_text(stored));
    stored.correction.warnings = {
        Warning{"drift", {{"distance_xy", std::numeric_limits<double>::infinity()}}}};
    const json file = json::parse(correction_text(stored));
    EXPECT_TRUE(file["warnings"][0]["facts"]["distance_xy"].is_null());
    const StoredCorrection without = parse_correction(file.dump(), "file.json");
    const auto* read = without.correction.warnings.at(0).find<double>("distance_xy");
    EXPECT_TRUE(read == nullptr || std::isnan(*read));
}

// Files of before the key: no verdict, and no complaint.
TEST(CorrectionFile, VerdictIsOptionalAndKnown) {
    json file = json::parse(correction_text(full_correction()));
    EXPECT_EQ(file["verdict"], "read_again");
    file["verdict"] = "do_not_use";
    EXPECT_EQ(parse_correction(file.dump(), "file.json").correction.verdict,
              FitVerdict::do_not_use);
    file.erase("verdict");
    const StoredCorrection old = parse_correction(file.dump(), "file.json");
    EXPECT_FALSE(old.correction.verdict);
    EXPECT_TRUE(old.ignored.empty());
    file["verdict"] = "splendid";
    const std::string text = refusal(
        ErrorKind::input, [&] { static_cast<void>(parse_correction(file.dump(), "file.json")); });
    EXPECT_TRUE(contains(text, "file.json: verdict")) << text;
    EXPECT_TRUE(contains(text, "\"use_unproven\"")) << text;
}

// Files of before the key are of X, Y, Z; raw channels may stand in any order.
TEST(CorrectionFile, RawChannelsAreSaidAndOptional) {
    StoredCorrection stored = full_correction();
    json file = json::parse(correction_text(stored));
    EXPECT_FALSE(file.contains("raw_channels"));
    EXPECT_FALSE(parse_correction(file.dump(), "file.json").correction.raw_channels);
    stored.correction.raw_channels = true;
    auto& m = stored.correction.reference_from_meter;
    for (const std::size_t row : {0U, 3U, 6U}) {
        std::swap(m[row], m[row + 2]);
    }
    file = json::parse(correction_text(stored));
    EXPECT_EQ(file["raw_channels"], true);
    const StoredCorrection back = parse_correction(file.dump(), "file.json");
    EXPECT_TRUE(back.correction.raw_channels);
    EXPECT_TRUE(back.ignored.empty());
    file["raw_channels"] = false;
    EXPECT_TRUE(
        contains(refusal(ErrorKind::input,
                         [&] { static_cast<void>(parse_correction(file.dump(), "file.json")); }),
                 "determinant"));
    file["raw_channels"] = "some";
    EXPECT_TRUE(
        contains(refusal(ErrorKind::input,
                         [&] { static_cast<void>(parse_correction(file.dump(), "file.json")); }),
                 "file.json: raw_channels"));
}

TEST(CorrectionFile, LuminanceFactorHasARange) {
    json file = json::parse(correction_text(full_correction()));
    for (const double factor : {1e13, 1e-13, 0.0, -1.0}) {
        file["luminance_factor"] = factor;
        const std::string text = refusal(ErrorKind::input, [&] {
            static_cast<void>(parse_correction(file.dump(), "file.json"));
        });
        EXPECT_TRUE(contains(text, "file.json: luminance_factor")) << text;
        EXPECT_TRUE(contains(text, "1e-12 to 1e12")) << text;
    }
}

TEST(CorrectionFile, RoundTripOnTheDisk) {
    const auto file = std::filesystem::temp_directory_path() / "samelight-correction-test.json";
    write_correction(file, full_correction());
    expect_same(full_correction(), read_correction(file));
    std::filesystem::remove(file);
    EXPECT_TRUE(
        contains(refusal(ErrorKind::system, [&] { static_cast<void>(read_correction(file)); }),
                 "samelight-correction-test.json: no such file"));
}

// Of stated noise the degrees of freedom are infinite, for which JSON has no number.
TEST(CorrectionFile, InfiniteDegreesOfFreedom) {
    StoredCorrection stored = full_correction();
    stored.correction.degrees_of_freedom = std::numeric_limits<double>::infinity();
    EXPECT_TRUE(contains(correction_text(stored), "\"degrees_of_freedom\": \"infinite\""));
    expect_same(stored, parse_correction(correction_text(stored), "file.json"));
}

// How sure a corrected reading is: from the file with the fewest degrees of freedom, here the same as the fit's own.
TEST(CorrectionFile, CertaintyFromTheFile) {
    const StoredCorrection stored = full_correction();
    const Correction back = parse_correction(correction_text(stored), "file.json").correction;
    EXPECT_TRUE(back.noise_terms.empty());
    const Certainty own = certainty(stored.correction, {95, 102, 113.5});
    const Certainty again = certainty(back, {95, 102, 113.5});
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(again.covariance.at(k), own.covariance.at(k), 1e-12 * own.covariance[0]) << k;
    }
    EXPECT_GE(again.half_widths()[0], own.half_widths()[0] * (1.0 - 1e-12));
}

// What is documented, key by key, by another reader of JSON than ours is written with.
TEST(CorrectionFile, IsTheDocumentedObject) {
    const json file = json::parse(correction_text(full_correction()));
    EXPECT_EQ(file["schema"], "samelight/correction/1");
    EXPECT_EQ(file["method"], "four-colour");
    EXPECT_EQ(file["observer"], "cie1931-2deg");
    EXPECT_EQ(file["reference_from_meter"].size(), 3U);
    EXPECT_EQ(file["reference_from_meter"][1][2].get<double>(),
              full_correction().correction.reference_from_meter[5]);
    EXPECT_EQ(file["covariance"]["reference_from_meter"].size(), 9U);
    EXPECT_EQ(file["covariance"]["reference_from_meter"][8].size(), 9U);
    EXPECT_EQ(file["residuals"].size(), 6U);
    EXPECT_EQ(file["residuals"][4]["fitted"], false);
    EXPECT_EQ(file["panel_spectra"]["white"].size(), 3U);
    EXPECT_EQ(file["window"], "10 %");
}

json minimal() {
    return {{"schema", "samelight/correction/1"},
            {"reference_from_meter", {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
            {"observer", "cie1931-2deg"},
            {"method", "white only"}};
}

TEST(CorrectionFile, TakesNumbersAsTextAndSaysWhatItIgnores) {
    json file = minimal();
    file["window"] = 10;
    file["level"] = 0.75;
    file["note"] = nullptr;
    file["colour_of_the_box"] = "grey";
    const StoredCorrection stored = parse_correction(file.dump(), "file.json");
    EXPECT_EQ(stored.correction.provenance.window, "10");
    EXPECT_EQ(stored.correction.provenance.level, "0.75");
    EXPECT_EQ(stored.correction.provenance.note, "");
    EXPECT_EQ(stored.correction.method, CorrectionMethod::white_only);
    EXPECT_EQ(stored.ignored, std::vector<std::string>{"colour_of_the_box"});
}

std::string refused(const json& file) {
    return refusal(ErrorKind::input,
                   [&] { static_cast<void>(parse_correction(file.dump(), "file.json")); });
}

TEST(CorrectionFile, RefusesNamingTheKey) {
    const auto with = [](const char* key, const json& value) {
        json file = minimal();
        file[key] = value;
        return refused(file);
    };
    EXPECT_TRUE(contains(with("schema", "samelight/correction/2"),
                         "file.json: schema: \"samelight/correction/2\"; wanted"));
    EXPECT_TRUE(contains(with("reference_from_meter", {1, 0, 0, 0, 1, 0, 0, 0, 1}),
                         "file.json: reference_from_meter: an array of 9; wanted 3 rows of 3"));
    EXPECT_TRUE(contains(with("reference_from_meter", {{1, 0, 0}, {0, 1, 0}, {0, 0}}),
                         "reference_from_meter[2]: an array of 2"));
    EXPECT_TRUE(contains(with("reference_from_meter", {{1, 0, 0}, {0, "one", 0}, {0, 0, 1}}),
                         "reference_from_meter[1][1]: \"one\"; wanted a finite number"));
    EXPECT_TRUE(contains(with("reference_from_meter", {{0, 1, 0}, {1, 0, 0}, {0, 0, 1}}),
                         "reference_from_meter: a determinant of -1"));
    EXPECT_TRUE(contains(with("luminance_factor", 0), "luminance_factor: \"0\""));
    EXPECT_TRUE(contains(with("observer", ""), "observer: \"\""));
    EXPECT_TRUE(contains(with("method", "magic"), "method: \"magic\"; wanted one of"));
    EXPECT_TRUE(contains(with("condition_number", 0.5), "condition_number: \"0.5\""));
    EXPECT_TRUE(
        contains(with("valid_near", {{"x", 0.3}, {"y", 0.3}}), "valid_near.radius: missing"));
    EXPECT_TRUE(contains(with("residuals", {{{"patch", "red"}}}), "residuals[0].fitted: missing"));
    EXPECT_TRUE(contains(with("panel_spectra", {{"wavelengths_nm", {380, 380}}}),
                         "panel_spectra.wavelengths_nm: "));
    EXPECT_TRUE(contains(with("panel_spectra", {{"wavelengths_nm", {380, 780}}, {"red", {1}}}),
                         "panel_spectra.red: an array of 1"));
    EXPECT_TRUE(contains(with("warnings", {{{"code", 1}, {"message", ""}}}), "warnings[0].code"));
    EXPECT_TRUE(contains(with("date", json::array()), "date: an array of 0"));
    json file = minimal();
    file.erase("method");
    EXPECT_TRUE(contains(refused(file), "file.json: method: missing"));
    json rows = json::array();
    for (int i = 0; i < 9; ++i) {
        rows.push_back({0, 0, 0, 0, 0, 0, 0, 0, 0});
    }
    file = minimal();
    file["covariance"]["reference_from_meter"] = rows;
    EXPECT_TRUE(contains(refused(file), "degrees_of_freedom: missing"));
    file["covariance"]["reference_from_meter"][2][5] = 1.0;
    file["covariance"]["reference_from_meter"][5][5] = 1.0;
    file["covariance"]["reference_from_meter"][2][2] = 1.0;
    EXPECT_TRUE(contains(refused(file), "a symmetric matrix"));
    file["covariance"]["reference_from_meter"][2][2] = -1.0;
    EXPECT_TRUE(contains(refused(file), "variances of 0 or more"));
}

// How sure a correction is: numbers that would make nonsense of each reading's uncertainty.
TEST(CorrectionFile, RefusesCertaintyThatIsNone) {
    const auto with = [](const char* key, const char* part, const json& value) {
        json file = json::parse(correction_text(full_correction()));
        (part == nullptr ? file[key] : file[key][part]) = value;
        return refused(file);
    };
    for (const json& degrees : {json(0), json(-3), json("many"), json(json::array({4}))}) {
        EXPECT_TRUE(contains(with("degrees_of_freedom", nullptr, degrees),
                             "file.json: degrees_of_freedom: "));
        EXPECT_TRUE(contains(with("degrees_of_freedom", nullptr, degrees),
                             "; wanted a number above 0, or \"infinite\""));
    }
    EXPECT_TRUE(
        contains(with("covariance", "luminance_factor", -1e-9),
                 "covariance.luminance_factor: \"-1e-09\"; wanted a variance of 0 or more"));
    EXPECT_TRUE(contains(with("covariance", "with_luminance_factor", {1, 2}),
                         "covariance.with_luminance_factor: an array of 2"));
    EXPECT_TRUE(contains(with("valid_near", "radius", 0),
                         "valid_near.radius: \"0\"; wanted a radius above 0"));
    EXPECT_TRUE(
        contains(with("valid_near", nullptr, 0.3), "valid_near: \"0.3\"; wanted an object"));
    EXPECT_TRUE(contains(with("observer", nullptr, 1931), "observer: \"1931\"; wanted text"));
    EXPECT_TRUE(contains(with("panel_spectra", "wavelengths_nm", {380}),
                         "wavelengths that don't ascend, or fewer than two"));
    EXPECT_TRUE(contains(with("panel_spectra", "red", {1, 2, 3, 4}),
                         "panel_spectra.red: an array of 4; wanted 3 numbers, one a wavelength"));
}

// Files of before facts: the sentence that stands there is kept as it is.
TEST(CorrectionFile, AMessageBecomesAFact) {
    json file = json::parse(correction_text(full_correction()));
    file["warnings"] = {{{"code", "odd_reading"}, {"message", "Round 2 is odd."}},
                        {{"code", "no_repeats"}}};
    const auto warnings = parse_correction(file.dump(), "file.json").correction.warnings;
    ASSERT_EQ(warnings.size(), 2U);
    EXPECT_EQ(warnings[0], (Warning{"odd_reading", {{"message", "Round 2 is odd."}}}));
    EXPECT_EQ(warnings[1], Warning{"no_repeats"});
    for (const json& facts :
         {json{{"a", true}}, json{{"a", {1.0, "two"}}}, json{{"a", {{"b", 1}}}}}) {
        file["warnings"][0] = {{"code", "odd_reading"}, {"facts", facts}};
        const std::string said = refused(file);
        EXPECT_TRUE(contains(said, "warnings[0].facts.a: ")) << said;
        EXPECT_TRUE(contains(said, "a number, a text, or an array of either")) << said;
    }
    file["warnings"][0] = {{"code", "odd_reading"}, {"facts", {1, 2}}};
    EXPECT_TRUE(contains(refused(file), "warnings[0].facts: an array of 2; wanted an object"));
}

TEST(CorrectionFile, RefusesSpectraOfNoLight) {
    json file = json::parse(correction_text(full_correction()));
    for (const auto& [nm, shown] :
         {std::pair(78000.0, "380 to 78000"), std::pair(1e308, "380 to 1e+308")}) {
        file["panel_spectra"]["wavelengths_nm"][2] = nm;
        const std::string message =
            refusal(ErrorKind::input, [&] { (void)parse_correction(file.dump(), "c.json"); });
        EXPECT_TRUE(contains(message, "panel_spectra.wavelengths_nm: " + std::string(shown)))
            << message;
        EXPECT_TRUE(contains(message, "100 to 5000")) << message;
    }
}

// The writer refuses what the reader would, so that no file is made that can't be read.
TEST(CorrectionFile, WritesNothingThatCantBeRead) {
    const auto refused_to_write = [](const StoredCorrection& stored) {
        return refusal(ErrorKind::domain, [&] { static_cast<void>(correction_text(stored)); });
    };
    StoredCorrection stored = full_correction();
    stored.correction.reference_from_meter[4] = std::nan("");
    EXPECT_TRUE(contains(refused_to_write(stored), "reference_from_meter: nan"));
    stored = full_correction();
    stored.correction.provenance.note = "\xb5";
    EXPECT_TRUE(contains(refused_to_write(stored), "note: text that is not UTF-8"));
    stored = full_correction();
    stored.panel_spectra->green.pop_back();
    EXPECT_TRUE(contains(refused_to_write(stored), "panel_spectra.green: an array of 2"));
    stored = full_correction();
    stored.correction.observer.clear();
    EXPECT_TRUE(contains(refused_to_write(stored), "observer"));
}

}  // namespace
}  // namespace samelight::io
