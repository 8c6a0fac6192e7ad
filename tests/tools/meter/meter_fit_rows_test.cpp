// `samelight meter fit` and the rows of its file: their order must not matter, and what was written down wrong in them must be noticed.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <functional>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "numeric/test_random.hpp"
#include "samelight/numeric/text.hpp"
#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

struct FileRow {
    std::string patch, instrument;
    int repeat = 1;
    std::array<double, 3> xyz{};
    std::string time_s;
};

/// The Lantern Room's grading monitor: white at both ends of each round, times for all.
std::vector<FileRow> demo_rows() {
    std::vector<FileRow> rows;
    std::istringstream text(
        slurp(std::string(SAMELIGHT_DATA) + "/demo/grading-monitor-readings.csv"));
    for (std::string line; std::getline(text, line);) {
        std::array<char, 32> patch{};
        std::array<char, 32> instrument{};
        std::array<char, 32> time{};
        FileRow row;
        if (std::sscanf(line.c_str(), "%31[^,],%31[^,],%d,%lf,%lf,%lf,%31[^,]", patch.data(),
                        instrument.data(), &row.repeat, &row.xyz[0], &row.xyz[1], &row.xyz[2],
                        time.data()) == 7) {
            row.patch = patch.data();
            row.instrument = instrument.data();
            row.time_s = time.data();
            rows.push_back(row);
        }
    }
    return rows;
}

std::string csv_of(const std::vector<FileRow>& rows, bool timed = false) {
    std::string text = std::string("patch,instrument,repeat,X,Y,Z") + (timed ? ",time_s\n" : "\n");
    for (const FileRow& row : rows) {
        text += row.patch + "," + row.instrument + "," + std::to_string(row.repeat);
        for (const double v : row.xyz) {
            text += "," + to_text(v);
        }
        text += timed ? "," + row.time_s + "\n" : "\n";
    }
    return text;
}

std::vector<FileRow> shuffled(std::vector<FileRow> rows, Random& random) {
    for (std::size_t i = rows.size(); i > 1; --i) {
        std::swap(rows[i - 1],
                  rows[static_cast<std::size_t>(random.between(0.0, static_cast<double>(i)))]);
    }
    return rows;
}

/// The same, but rows of one patch, instrument and repeat keep their order among themselves, which without times says which white was first.
std::vector<FileRow> shuffled_but_repeats(const std::vector<FileRow>& rows, Random& random) {
    const auto key = [](const FileRow& r) { return std::tuple(r.patch, r.instrument, r.repeat); };
    std::map<std::tuple<std::string, std::string, int>, std::vector<FileRow>> own;
    for (const FileRow& row : rows) {
        own[key(row)].push_back(row);
    }
    std::vector<FileRow> result = shuffled(rows, random);
    std::map<std::tuple<std::string, std::string, int>, std::size_t> used;
    for (FileRow& row : result) {
        row = own[key(row)][used[key(row)]++];
    }
    return result;
}

/// Page and JSON of `file` by each method are those of the rows as they stand, to the letter, however they are shuffled.
void expect_order_does_not_matter(
    const Scratch& scratch, const std::vector<FileRow>& rows, bool timed,
    const std::function<std::vector<FileRow>(const std::vector<FileRow>&, Random&)>& shuffle) {
    Random random(91);
    for (const char* method : {"four-colour", "least-squares", "weighted"}) {
        const auto ask = [&](const std::vector<FileRow>& now) {
            return "meter fit " + quoted(scratch.file("rows.csv", csv_of(now, timed))) +
                   " --resamples 200 --method " + method;
        };
        const std::string page = run(ask(rows) + " --details").out;
        const std::string answer = run(ask(rows) + " --json").out;
        EXPECT_TRUE(page_says(page, "Readings drawn again")) << page;
        for (int trial = 0; trial < 12; ++trial) {
            const std::string again = ask(shuffle(rows, random));
            EXPECT_EQ(run(again + " --details").out, page) << method << ", shuffle " << trial;
            EXPECT_EQ(run(again + " --json").out, answer) << method << ", shuffle " << trial;
        }
    }
}

TEST(MeterFitRows, OrderDoesNotMatterWithTimes) {
    const Scratch scratch;
    expect_order_does_not_matter(scratch, demo_rows(), true, shuffled);
}

TEST(MeterFitRows, OrderDoesNotMatterWithoutTimes) {
    const Scratch scratch;
    expect_order_does_not_matter(scratch, demo_rows(), false, shuffled_but_repeats);
    // A colour read once a round: nothing at all hangs on the rows.
    std::vector<FileRow> once;
    std::set<std::tuple<std::string, std::string, int>> seen;
    for (const FileRow& row : demo_rows()) {
        if (seen.insert({row.patch, row.instrument, row.repeat}).second) {
            once.push_back(row);
        }
    }
    expect_order_does_not_matter(scratch, once, false, shuffled);
}

/// The answer of rows that `change` has been through.
std::string fit_of(const Scratch& scratch, const std::function<void(FileRow&)>& change) {
    std::vector<FileRow> rows = demo_rows();
    std::for_each(rows.begin(), rows.end(), change);
    return "meter fit " + quoted(scratch.file("wrong.csv", csv_of(rows))) + " --resamples 50 ";
}

// Red a hundred times too bright: with which colour, by how much, and no word of use.
TEST(MeterFitRows, ALuminanceOffByAFactor) {
    const Scratch scratch;
    for (const bool one_round : {false, true}) {
        const std::string fit = fit_of(scratch, [&](FileRow& row) {
            if (row.patch == "red" && (!one_round || row.repeat == 3)) {
                for (double& v : row.xyz) {
                    v *= 100.0;
                }
            }
        });
        const Said page = run(fit + " --details");
        EXPECT_EQ(page.out.rfind("Don't use this correction yet", 0), 0U) << page.out;
        EXPECT_TRUE(page_says(page.out, one_round ? "Y of red in round 3 by both instruments is"
                                                  : "Y of red by both instruments is"))
            << page.out;
        expect_narrow(page.out);
        const json answer = answer_of(fit);
        EXPECT_EQ(answer["verdict"]["code"], "read_again");
        ASSERT_EQ(answer["odd_luminances"].size(), 1U);
        EXPECT_EQ(answer["odd_luminances"][0]["patch"], "red");
        EXPECT_NEAR(answer["odd_luminances"][0]["times"].get<double>(), 100.0, 5.0);
        EXPECT_EQ(answer["plan"]["read_again"]["patch"], "red");
    }
    // One instrument's is refused, naming colour and factor; raw channels are noticed by their own sums.
    const auto meters_red = [](FileRow& row) {
        if (row.patch == "red" && row.instrument == "meter") {
            for (double& v : row.xyz) {
                v *= 100.0;
            }
        }
    };
    expect_refusal(run(fit_of(scratch, meters_red)), 1, "on patch red the ratio");
    const json raw = answer_of(fit_of(scratch, meters_red) + "--raw-channels");
    EXPECT_EQ(raw["verdict"]["code"], "read_again");
    EXPECT_EQ(raw["odd_luminances"][0]["by"], "the meter");
    expect_refusal(
        run(fit_of(scratch,
                   [](FileRow& row) { row.xyz[2] *= row.instrument == "reference" ? 0.01 : 1.0; })),
        1, "a column that looks scaled");
}

// Red has next to no Z, so Y and Z exchanged can leave it without luminance: the refusal asks, naming the columns.
TEST(MeterFitRows, ExchangedColumnsAreAskedFor) {
    const Scratch scratch;
    const auto exchanged = [](FileRow& row) { std::swap(row.xyz[1], row.xyz[2]); };
    const auto no_z_in_red = [](FileRow& row) {
        if (row.patch == "red") {
            row.xyz[2] = -0.01;
        }
    };
    expect_refusal(run(fit_of(scratch,
                              [&](FileRow& row) {
                                  no_z_in_red(row);
                                  exchanged(row);
                              })),
                   1, "are Y and Z exchanged in both instruments?");
    expect_refusal(run(fit_of(scratch,
                              [&](FileRow& row) {
                                  no_z_in_red(row);
                                  if (row.instrument == "meter") {
                                      exchanged(row);
                                  }
                              })),
                   1, "are Y and Z exchanged in the meter?");
    expect_refusal(run(fit_of(scratch,
                              [&](FileRow& row) {
                                  no_z_in_red(row);
                                  if (row.patch == "red" && row.instrument == "reference") {
                                      exchanged(row);
                                  }
                              })),
                   1, "are Y and Z of red exchanged in the reference?");
    // With Z left in it, the fit is what fails, and says why.
    expect_refusal(run(fit_of(scratch,
                              [&](FileRow& row) {
                                  if (row.patch == "blue") {
                                      exchanged(row);
                                  }
                              })),
                   1, "Y and Z of blue look exchanged in both instruments");
    expect_refusal(run(fit_of(scratch,
                              [&](FileRow& row) {
                                  if (row.patch == "green" && row.instrument == "meter") {
                                      exchanged(row);
                                  }
                              })),
                   1, "on green Y and Z of one instrument are exchanged");
}

// What the certainty of white is a certainty of, and what is averaged, stands beside the figures.
TEST(MeterFitRows, CertaintySaysOfWhat) {
    const Scratch scratch;
    const std::string fit = fit_of(scratch, [](FileRow&) {});
    const json answer = answer_of(fit);
    const json& certainty = answer["white"]["certainty"];
    EXPECT_NE(certainty["of"].get<std::string>().find("a later reading"), std::string::npos);
    EXPECT_EQ(certainty["includes"].size(), 2U);
    EXPECT_EQ(certainty["leaves_out"].size(), 4U);
    EXPECT_EQ(answer["readings"]["averaged"], json({"x", "y", "Y"}));
    const Said page = run(fit + " --details");
    EXPECT_TRUE(page_says(page.out, "of a later reading")) << page.out;
    EXPECT_TRUE(page_says(page.out, "Of repeats x, y and Y are averaged")) << page.out;
    expect_narrow(page.out);
}

}  // namespace
}  // namespace samelight::test
