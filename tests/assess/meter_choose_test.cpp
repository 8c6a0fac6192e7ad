// The answers about stored corrections and about wrong ones: from memory the same as from files.
#include "samelight/assess/meter_choose.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "invented_readings.hpp"
#include "invented_rows.hpp"
#include "memory_and_files.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::test {
namespace {

class ChooseFromBoth : public MemoryAndFiles {
  protected:
    /// A correction as it is after it was kept in a file: what a file doesn't keep is gone from both.
    assess::NamedCorrection kept(const std::string& name, const StoredCorrection& stored) {
        const std::string file = (folder_ / name).string();
        io::write_correction(file, stored);
        return {file, io::read_correction(file)};
    }
    /// The correction that a meter with invented rows needs on a generic panel.
    assess::NamedCorrection modelled(const std::string& name, const std::string& panel) {
        return kept(name, assess::answer_meter_model(
                              {meter_rows(InventedRows{}.named("meter")), generic_listed(panel)})
                              .stored);
    }
    assess::NamedCorrection fitted(const std::string& name, const InventedReadings& readings) {
        return kept(name, assess::answer_meter_fit({{"display", readings.taken()}}).stored);
    }
};

void expect_same_choice(const assess::MeterChooseAnswer& memory,
                        const assess::MeterChooseAnswer& file) {
    EXPECT_EQ(warning_codes(memory.warnings), warning_codes(file.warnings));
    EXPECT_EQ(memory.believable, file.believable);
    EXPECT_EQ(memory.supposed_mismatch_percent, file.supposed_mismatch_percent);
    ASSERT_EQ(memory.panels.size(), file.panels.size());
    for (std::size_t i = 0; i < memory.panels.size(); ++i) {
        const PanelChoice& a = memory.panels[i].choice;
        const PanelChoice& b = file.panels[i].choice;
        EXPECT_STREQ(code_of(a.verdict), code_of(b.verdict));
        EXPECT_EQ(a.best, b.best);
        EXPECT_EQ(a.settled_by_white, b.settled_by_white);
        EXPECT_EQ(a.none.white_xy, b.none.white_xy);
        for (std::size_t j = 0; j < a.with.size(); ++j) {
            EXPECT_EQ(a.with[j].not_safe, b.with[j].not_safe);
            EXPECT_EQ(a.with[j].not_at_all, b.with[j].not_at_all);
        }
    }
    ASSERT_EQ(memory.keep.has_value(), file.keep.has_value());
    if (memory.keep) {
        EXPECT_STREQ(code_of(memory.keep->verdict.verdict), code_of(file.keep->verdict.verdict));
        EXPECT_EQ(memory.keep->under, file.keep->under);
    }
}

TEST_F(ChooseFromBoth, CorrectionsAtHand) {
    assess::NamedCorrection other = modelled("other.json", "crt");
    other.stored.correction.warnings.push_back(
        Warning{"panel_spectra_differ", {{"message", "Another display's."}}});
    InventedReadings noisy;
    noisy.scatter = 0.05;
    InventedReadings spoilt;
    spoilt.spoilt = true;
    const std::vector<std::vector<assess::NamedCorrection>> hands{
        {},
        {modelled("crt.json", "crt")},
        {modelled("crt.json", "crt"), modelled("laser.json", "laser-rgb")},
        {modelled("crt.json", "crt"), modelled("again.json", "crt")},
        {fitted("fitted.json", {})},
        {fitted("noisy.json", noisy), fitted("spoilt.json", spoilt)},
        {kept("other.json", other.stored)}};
    for (const auto& hand : hands) {
        for (const bool meter_known : {false, true}) {
            SCOPED_TRACE((hand.empty() ? "none" : hand.front().name) +
                         (meter_known ? ", meter known" : ""));
            const std::string meter = written("meter.csv", InventedRows{}.csv());
            assess::MeterChooseRequest memory{{generic_listed("crt"), generic_listed("oled-rgb")},
                                              hand};
            report::MeterChooseRequest typed{{"crt", "oled-rgb"}};
            for (const assess::NamedCorrection& correction : hand) {
                typed.corrections.push_back(correction.name);
            }
            if (meter_known) {
                memory.meter = meter_rows(InventedRows{}.named(meter));
                typed.meter = meter;
            }
            expect_same_choice(assess::answer_meter_choose(memory),
                               report::answer_meter_choose(typed));
        }
    }
}

TEST_F(ChooseFromBoth, AWhiteReadNowDecidesFirst) {
    const assess::NamedCorrection stored = modelled("crt.json", "crt");
    struct White {
        double x;
        int readings;
        Keep verdict;
    };
    for (const White& white : {White{0.3127, 10, Keep::keep}, White{0.3145, 1, Keep::read_again},
                               White{0.3200, 10, Keep::refit}}) {
        assess::MeterChooseRequest memory{{generic_listed("crt")}, {stored}};
        memory.white =
            assess::WhiteReadNow{{{0.3127, 0.3290}, {white.x, 0.3290}, 0.0005, white.readings}, {}};
        report::MeterChooseRequest typed{{"crt"}, {stored.name}};
        typed.reference_white = "0.3127,0.3290";
        typed.meter_white = to_text(white.x) + ",0.3290";
        typed.readings = white.readings;
        const auto answer = assess::answer_meter_choose(memory);
        expect_same_choice(answer, report::answer_meter_choose(typed));
        EXPECT_STREQ(code_of(answer.keep->verdict.verdict), code_of(white.verdict));
    }
}

TEST_F(ChooseFromBoth, AWorseMeterIsExpectedToReadWorse) {
    // Filters that miss by three times as much read white about three times as wrong: their effect is linear while it is small.
    const auto off_with = [&](double mismatch_percent) {
        assess::MeterChooseRequest request{{generic_listed("oled-rgb")}, {}};
        request.options.mismatch_percent = mismatch_percent;
        return assess::answer_meter_choose(request).panels.front().choice.none.white_uv;
    };
    EXPECT_NEAR(off_with(6.0) / off_with(2.0), 3.0, 0.4);
}

TEST_F(ChooseFromBoth, RowsThatNoMeterHas) {
    InventedRows swapped;
    swapped.order = {1, 0, 2};
    const std::string meter = written("meter.csv", swapped.csv());
    assess::MeterChooseRequest memory{{generic_listed("crt")}, {modelled("crt.json", "crt")}};
    memory.meter = meter_rows(swapped.named(meter));
    report::MeterChooseRequest typed{{"crt"}, {memory.corrections.front().name}};
    typed.meter = meter;
    const auto answer = assess::answer_meter_choose(memory);
    expect_same_choice(answer, report::answer_meter_choose(typed));
    EXPECT_FALSE(answer.believable);
    EXPECT_EQ(answer.warnings.front().code, "no_such_meter");
}

TEST_F(ChooseFromBoth, RefusesWhatCannotBe) {
    const assess::NamedCorrection stored = modelled("crt.json", "crt");
    EXPECT_THROW(assess::answer_meter_choose({}), Error);
    assess::MeterChooseRequest two{{generic_listed("crt"), generic_listed("oled-rgb")}, {stored}};
    two.white = assess::WhiteReadNow{{{0.3127, 0.3290}, {0.3127, 0.3290}}, {}};
    EXPECT_THROW(assess::answer_meter_choose(two), Error);
    assess::MeterChooseRequest unsaid{{generic_listed("crt")}, {stored, stored}};
    unsaid.white = two.white;
    EXPECT_THROW(assess::answer_meter_choose(unsaid), Error);
    unsaid.white->under = 2;
    EXPECT_THROW(assess::answer_meter_choose(unsaid), Error);
    assess::NamedCorrection flat = stored;
    flat.stored.correction.reference_from_meter = {};
    EXPECT_THROW(assess::require_usable(flat), Error);
    flat = stored;
    flat.stored.correction.observer = "nobody";
    EXPECT_THROW(assess::require_usable(flat), Error);
}

TEST_F(ChooseFromBoth, TheTableOfWrongCorrections) {
    const std::string meter = written("meter.csv", InventedRows{}.csv());
    const MeterRows rows = meter_rows(InventedRows{}.named(meter));
    const auto answer = assess::answer_meter_table({rows, assess::generic_panel_list()});
    const auto typed = report::answer_meter_table({meter, {}});
    EXPECT_EQ(answer.panels, typed.panels);
    const auto displays = assess::generic_panel_list();
    ASSERT_EQ(answer.panels.size(), displays.size());
    for (std::size_t i = 0; i < displays.size(); ++i) {
        EXPECT_EQ(answer.panels[i], displays[i].name);
    }
    EXPECT_EQ(answer.worse_than_none, typed.worse_than_none);
    EXPECT_GT(answer.worse_than_none, 0);
    EXPECT_EQ(warning_codes(answer.warnings), warning_codes(typed.warnings));
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        EXPECT_EQ(answer.with[i][0]->white_xy, typed.with[i][0]->white_xy);
    }
}

}  // namespace
}  // namespace samelight::test
