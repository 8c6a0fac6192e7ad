// The answer about a meter's sensitivities and a display's spectra: from memory the same as from files.
#include "samelight/assess/meter_model.hpp"

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "invented_rows.hpp"
#include "memory_and_files.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::test {
namespace {

using ModelFromBoth = MemoryAndFiles;

void expect_same_model(const assess::MeterModelAnswer& memory,
                       const assess::MeterModelAnswer& file) {
    EXPECT_STREQ(code_of(memory.verdict), code_of(file.verdict));
    EXPECT_EQ(warning_codes(memory.warnings), warning_codes(file.warnings));
    EXPECT_EQ(memory.stored.correction.reference_from_meter,
              file.stored.correction.reference_from_meter);
    EXPECT_EQ(memory.stored.correction.verdict, file.stored.correction.verdict);
    EXPECT_EQ(memory.stored.correction.provenance.panel, file.stored.correction.provenance.panel);
    EXPECT_EQ(memory.stored.correction.provenance.meter_instrument,
              file.stored.correction.provenance.meter_instrument);
    EXPECT_EQ(memory.cones, file.cones);
    EXPECT_EQ(memory.ways.size(), file.ways.size());
    EXPECT_EQ(memory.aim.has_value(), file.aim.has_value());
}

struct RowsCase {
    const char* name;
    InventedRows rows;
    assess::ModelVerdict verdict;
    std::vector<std::string> codes;  ///< that must be there
};

std::vector<RowsCase> rows_cases() {
    using assess::ModelVerdict;
    InventedRows swapped;
    swapped.order = {1, 0, 2};
    InventedRows bright;
    bright.scale = {3.0, 3.0, 3.0};
    InventedRows unscaled;
    unscaled.scale = {1.0, 2.0, 0.3};
    InventedRows normalised;
    normalised.one_peak = true;
    InventedRows cut;
    cut.first_nm = 400.0;
    InventedRows lobeless;
    lobeless.without_short_lobe = true;
    return {{"plain", {}, ModelVerdict::use_on_type, {}},
            {"swapped", swapped, ModelVerdict::do_not_use, {"no_such_meter"}},
            {"bright", bright, ModelVerdict::use_on_type, {"row_scale_odd"}},
            {"unscaled", unscaled, ModelVerdict::do_not_use, {"no_such_meter"}},
            {"normalised", normalised, ModelVerdict::use_on_type, {"rows_scaled"}},
            {"cut", cut, ModelVerdict::use_on_type, {"rows_cut"}},
            {"lobeless", lobeless, ModelVerdict::use_on_type, {"lobe_missing"}}};
}

TEST_F(ModelFromBoth, VerdictsAndWarningsAreTheSame) {
    for (const RowsCase& c : rows_cases()) {
        for (const char* panel : {"oled-rgb", "oled-white"}) {
            SCOPED_TRACE(std::string(c.name) + " on " + panel);
            const std::string file = written("meter.csv", c.rows.csv());
            const auto answer =
                assess::answer_meter_model({meter_rows(c.rows.named(file)), generic_listed(panel)});
            expect_same_model(answer, report::answer_meter_model({file, {panel}}));
            EXPECT_STREQ(code_of(answer.verdict), code_of(c.verdict));
            for (const std::string& code : c.codes) {
                EXPECT_TRUE(has_code(answer.warnings, code)) << code;
            }
        }
    }
}

TEST_F(ModelFromBoth, ScalesRowsWhereAsked) {
    InventedRows rows;
    rows.scale = {1.0, 2.0, 0.3};
    const std::string file = written("meter.csv", rows.csv());
    MeterResponses responses = rows.named(file);
    responses.scale = RowScale::illuminant_a;
    report::MeterModelRequest typed{file, {"crt"}};
    typed.scale_on_a = true;
    const auto answer = assess::answer_meter_model({meter_rows(responses), generic_listed("crt")});
    expect_same_model(answer, report::answer_meter_model(typed));
    EXPECT_EQ(answer.verdict, assess::ModelVerdict::use_on_type);
}

TEST_F(ModelFromBoth, AMeasuredSetIsUsedAsSuch) {
    const PanelSpectra spectra = generic_spectra(generic_models().front());
    const std::string set = written("set.csv", panel_csv(spectra));
    const std::string file = written("meter.csv", InventedRows{}.csv());
    const auto answer = assess::answer_meter_model(
        {meter_rows(InventedRows{}.named(file)), {set, Panel(set, spectra)}});
    expect_same_model(answer, report::answer_meter_model({file, {set}}));
    EXPECT_EQ(answer.verdict, assess::ModelVerdict::use);
}

TEST_F(ModelFromBoth, ObserversAndAims) {
    const Observer& cie1931 = standard_observer<Cie1931_2deg>();
    const Observer cones = observer_named("cie2006:45:2");
    for (const Observer& observer : {cie1931, cones}) {
        assess::MeterModelRequest memory{meter_rows(cie1931), generic_listed("crt"), observer};
        memory.reference = illuminant_reference("D65");
        report::MeterModelRequest typed{std::string(Cie1931_2deg::id), {"crt"}, observer.id()};
        typed.reference = "D65";
        const auto answer = assess::answer_meter_model(memory);
        expect_same_model(answer, report::answer_meter_model(typed));
        EXPECT_EQ(has_code(answer.warnings, "meter_is_observer"),
                  &observer != &cones && !answer.cones);
        ASSERT_TRUE(answer.aim.has_value());
    }
}

TEST_F(ModelFromBoth, TheCommandNamesItsOptions) {
    InventedRows rows;
    rows.scale = {3.0, 3.0, 3.0};
    const std::string file = written("meter.csv", rows.csv());
    const auto memory =
        assess::answer_meter_model({meter_rows(rows.named(file)), generic_listed("crt")});
    const auto typed = report::answer_meter_model({file, {"crt"}});
    ASSERT_TRUE(has_code(typed.warnings, "row_scale_odd"));
    for (const Warning& warning : memory.warnings) {
        EXPECT_EQ(report::sentence(warning).find("--"), std::string::npos)
            << report::sentence(warning);
    }
    EXPECT_EQ(memory.warnings, typed.warnings);
    EXPECT_NE(report::meter_model_json(typed).find("say --scale-on-a"), std::string::npos);
    EXPECT_NE(report::meter_model_page(typed).find("--scale-on-a"), std::string::npos);
}

}  // namespace
}  // namespace samelight::test
