// Answers as the command writes them, read back: every number to the last digit of what was worked out, and what is no such answer refused.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/io/answers/panel_answer.hpp"
#include "samelight/io/answers/patch_targets.hpp"
#include "samelight/io/answers/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/catalogue.hpp"
#include "samelight/report/check/targets_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight {
namespace {

using namespace io;

using KeptJson = nlohmann::ordered_json;

/// The message of what is thrown; empty where nothing is.
template <class Reading>
std::string refusal(const Reading& reading) {
    try {
        static_cast<void>(reading());
    } catch (const Error& error) {
        EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
        return error.what();
    }
    return {};
}

report::WhiteAnswer whites() {
    report::WhiteRequest request;
    request.panels = {"oled-white", "lcd-white-led"};
    request.reference = "crt@0.3127,0.3290";
    request.viewers = {"28", "64:4"};
    request.people = 64;
    return report::answer_white(request);
}

void expect_target(const KeptTarget& kept, const Target& target) {
    EXPECT_EQ(kept.observer, target.observer);
    EXPECT_EQ(kept.xy, target.xy);
    EXPECT_EQ(kept.from_reference[0], target.from_reference.first());
    EXPECT_EQ(kept.from_reference[1], target.from_reference.second());
    EXPECT_EQ(kept.drive, target.drive);
    EXPECT_EQ(kept.luminance_ratio, target.luminance_ratio);
    EXPECT_EQ(kept.in_gamut, target.in_gamut());
}

void expect_ellipse(const Ellipse& kept, const Ellipse& ellipse) {
    EXPECT_EQ(kept.centre, ellipse.centre);
    EXPECT_EQ(kept.semi_major, ellipse.semi_major);
    EXPECT_EQ(kept.semi_minor, ellipse.semi_minor);
    EXPECT_EQ(kept.angle_deg, ellipse.angle_deg);
    EXPECT_EQ(kept.coverage, ellipse.coverage);
}

void expect_people(const KeptPeople& kept, const assess::PopulationPart& people) {
    EXPECT_EQ(kept.description, people.description);
    EXPECT_EQ(kept.region.people, people.region.people);
    EXPECT_EQ(kept.region.mean, people.region.mean);
    EXPECT_EQ(kept.region.median, people.region.median);
    EXPECT_EQ(kept.region.covariance_xy, people.region.covariance_xy);
    EXPECT_EQ(kept.region.covariance_uv, people.region.covariance_uv);
    expect_ellipse(kept.region.ellipse_xy, people.region.ellipse_xy);
    expect_ellipse(kept.region.ellipse_uv, people.region.ellipse_uv);
    EXPECT_EQ(kept.region.people_for_mean, people.region.people_for_mean);
    EXPECT_EQ(kept.outside, people.outside);
    EXPECT_EQ(kept.impossible, people.impossible);
    EXPECT_EQ(kept.pair_threshold_uv, people.pair_threshold_uv);
    EXPECT_EQ(kept.pair_share, people.pair_share);
}

TEST(WhiteAnswerReadBack, HasEveryDigit) {
    const report::WhiteAnswer answer = whites();
    const KeptWhites kept = parse_white_answer(report::white_json(answer), "kept.json");
    EXPECT_EQ(kept.source, "kept.json");
    EXPECT_EQ(kept.version, version);
    EXPECT_EQ(kept.reference, answer.reference.name);
    EXPECT_EQ(kept.reference_xy, answer.reference.xy());
    ASSERT_EQ(kept.displays.size(), 2U);
    for (std::size_t i = 0; i < 2; ++i) {
        const assess::PanelPart& part = answer.panels[i];
        const KeptDisplay& display = kept.displays[i];
        EXPECT_EQ(kept.find(part.targets.panel), &display);
        EXPECT_EQ(display.kind_code, "generic");
        EXPECT_EQ(display.native_white, part.targets.native_white);
        ASSERT_EQ(display.targets.size(), part.targets.targets.size());
        for (std::size_t k = 0; k < display.targets.size(); ++k) {
            expect_target(display.targets[k], part.targets.targets[k]);
        }
        ASSERT_TRUE(display.together && display.uncertainty && display.people && display.verdict);
        expect_target(*display.together, part.viewer_group->white);
        EXPECT_EQ(display.uncertainty->covariance_xy, part.budget->covariance);
        EXPECT_EQ(display.uncertainty->half_widths[0], part.budget->half_width_x());
        EXPECT_EQ(display.uncertainty->half_widths[1], part.budget->half_width_y());
        EXPECT_EQ(display.uncertainty->dominant_code, part.budget->dominant().code);
        expect_people(*display.people, *part.population);
        EXPECT_EQ(display.people->field_deg, answer.population->parameters().field_deg);
        EXPECT_EQ(display.verdict->verdict_code, code_of(part.advice->verdict));
        EXPECT_EQ(display.verdict->reason_code, code_of(part.advice->reason));
        EXPECT_EQ(display.verdict->white, part.advice->white);
    }
    EXPECT_EQ(kept.find("another"), nullptr);
}

// Each number that is read, made a text, is refused by its key; a key that nobody knows is left alone.
TEST(WhiteAnswerReadBack, RefusesByTheKey) {
    const KeptJson whole = KeptJson::parse(report::white_json(whites()));
    const auto parse = [](const KeptJson& json) { return parse_white_answer(json.dump(), "kept"); };
    const std::vector<std::array<const char*, 2>> bent = {
        {"/reference/x", "kept: reference.x"},
        {"/panels/0/targets/1/y", "kept: panels[0].targets[1].y"},
        {"/panels/0/targets/0/in_gamut", "kept: panels[0].targets[0].in_gamut"},
        {"/panels/1/household_target/x", "kept: panels[1].household_target.x"},
        {"/panels/1/budget/covariance_xy", "kept: panels[1].budget.covariance_xy"},
        {"/panels/1/population/people", "kept: panels[1].population.people"},
        {"/panels/1/population/ellipse_uv/centre", "kept: panels[1].population.ellipse_uv.centre"},
        {"/panels/0/advice/white/x", "kept: panels[0].advice.white.x"},
    };
    for (const auto& [path, where] : bent) {
        KeptJson json = whole;
        json[KeptJson::json_pointer(path)] = "text";
        EXPECT_EQ(refusal([&] { return parse(json); }).find(where), 0U) << path;
    }
    KeptJson later = whole;
    later["panels"][0]["a_later_key"] = 1;
    EXPECT_EQ(refusal([&] { return parse(later); }), "");
    KeptJson none = whole;
    none["panels"][0]["targets"] = KeptJson::array();
    EXPECT_NE(refusal([&] { return parse(none); }).find("a target at least"), std::string::npos);
    for (const char* text :
         {"", "[]", "{", "{\"schema\": \"samelight/white/2\"}", "{\"schema\": 1}"}) {
        EXPECT_NE(
            refusal([&] { return parse_white_answer(text, "kept"); }).find("samelight/white/1"),
            std::string::npos)
            << text;
    }
}

TEST(PatchTargetsReadBack, HaveEveryDigit) {
    for (const bool alike : {false, true}) {
        report::TargetsRequest request;
        request.bits = 10;
        request.range = "limited";
        if (alike) {
            request.panels = {"oled-rgb"};
            request.reference = "crt";
        } else {
            request.intent.white = "0.3091,0.3199";
        }
        const report::TargetsAnswer answer = report::answer_targets(request);
        const KeptPatchTargets kept = parse_patch_targets(report::targets_json(answer), "kept");
        EXPECT_EQ(kept.kind, alike ? TargetKind::seen_alike : TargetKind::white_replaced);
        EXPECT_EQ(kept.quantisation, answer.quantisation);
        EXPECT_EQ(kept.white, answer.white);
        EXPECT_EQ(kept.version, version);
        ASSERT_EQ(kept.targets.size(), answer.targets.size());
        ASSERT_GT(kept.targets.size(), 100U);
        for (std::size_t i = 0; i < kept.targets.size(); ++i) {
            const PatchTarget& made = answer.targets[i];
            EXPECT_EQ(kept.targets[i].patch.name, made.patch.name);
            EXPECT_EQ(kept.targets[i].patch.group, made.patch.group);
            EXPECT_EQ(kept.targets[i].patch.signal, made.patch.signal);
            EXPECT_EQ(kept.targets[i].xyz, made.xyz);
            EXPECT_EQ(kept.targets[i].reach, made.reach);
            EXPECT_EQ(kept.targets[i].left_uv, made.left_uv);
        }
    }
}

TEST(PatchTargetsReadBack, RefuseByTheKey) {
    const KeptJson whole =
        KeptJson::parse(report::targets_json(report::answer_targets(report::TargetsRequest{})));
    const std::vector<std::array<const char*, 2>> bent = {
        {"/kind", "kept: kind"},
        {"/bits", "kept: bits"},
        {"/range", "kept: range"},
        {"/white_xyz_cd_m2", "kept: white_xyz_cd_m2"},
        {"/targets/3/group", "kept: targets[3].group"},
        {"/targets/3/signal/1", "kept: targets[3].signal[1]"},
        {"/targets/3/reach", "kept: targets[3].reach"},
        {"/targets/3/left_uv", "kept: targets[3].left_uv"},
    };
    for (const auto& [path, where] : bent) {
        KeptJson json = whole;
        json[KeptJson::json_pointer(path)] = "odd";
        EXPECT_EQ(refusal([&] { return parse_patch_targets(json.dump(), "kept"); }).find(where), 0U)
            << path;
    }
    KeptJson deep = whole;
    deep["bits"] = 7.5;
    EXPECT_NE(refusal([&] { return parse_patch_targets(deep.dump(), "kept"); }).find("8 to 16"),
              std::string::npos);
}

// On a model's own grid the JSON has its very numbers.
TEST(PanelAnswerReadBack, HasEveryDigit) {
    for (const char* name : {"oled-rgb", "oled-white"}) {
        const KeptPanel kept = parse_panel_answer(report::panel_json(name), "kept");
        EXPECT_EQ(kept.name, name);
        EXPECT_EQ(kept.title, generic_model(name).title());
        const KeptJson json = KeptJson::parse(report::panel_json(name));
        const PanelSpectra made = generic_spectra(generic_model(name));
        ASSERT_EQ(kept.spectra.white.has_value(), made.white.has_value());
        const auto expect = [&](const Spectrum& read, const Spectrum& own, const char* role) {
            const auto written = json["spectra"][role].get<std::vector<double>>();
            EXPECT_TRUE(std::equal(read.values().begin(), read.values().end(), written.begin(),
                                   written.end()))
                << role;
            ASSERT_EQ(read.size(), own.size());
            for (std::size_t i = 0; i < read.size(); ++i) {
                EXPECT_EQ(read.wavelengths_nm()[i], own.wavelengths_nm()[i]);
                EXPECT_EQ(read.values()[i], own.values()[i]) << role << i;
            }
        };
        expect(kept.spectra.red, made.red, "red");
        expect(kept.spectra.green, made.green, "green");
        expect(kept.spectra.blue, made.blue, "blue");
        if (made.white) {
            expect(*kept.spectra.white, *made.white, "white");
        }
    }
}

TEST(PanelAnswerReadBack, RefusesTheListAndColumnsThatDoNotFit) {
    EXPECT_NE(refusal([] {
                  return parse_panel_answer(report::panel_list_json(), "kept");
              }).find("spectra"),
              std::string::npos);
    KeptJson json = KeptJson::parse(report::panel_json("crt"));
    json["spectra"]["green"].push_back(0.5);
    EXPECT_EQ(refusal([&] {
                  return parse_panel_answer(json.dump(), "kept");
              }).find("kept: spectra.green"),
              0U);
}

}  // namespace
}  // namespace samelight
