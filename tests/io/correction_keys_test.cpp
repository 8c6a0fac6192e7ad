// What the text of a correction file may not be: no JSON, or keys that stand twice.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/stored_corrections.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

TEST(CorrectionFile, RefusesWhatIsNoJson) {
    const auto text = [](const std::string& bytes) {
        return samelight::test::refusal(
            ErrorKind::input, [&] { static_cast<void>(parse_correction(bytes, "file.json")); });
    };
    EXPECT_TRUE(samelight::test::contains(text("{\n\"schema\":"), "file.json:2: what is no JSON"));
    EXPECT_TRUE(samelight::test::contains(text(""), "no JSON"));
    EXPECT_TRUE(samelight::test::contains(text("[]"), "file: an array of 0; wanted an object"));
    EXPECT_TRUE(samelight::test::contains(text("{\"schema\": 1e999}"), "number too large"));
    EXPECT_TRUE(
        samelight::test::contains(text(std::string(deepest_correction_file, '[')), "no JSON"));
    EXPECT_TRUE(
        samelight::test::contains(text(std::string(100000, '[')), "brackets within each other"));
}

// Of two values one would have to be believed.
TEST(CorrectionKeys, StandOnce) {
    const std::string text = correction_text(test::full_correction());
    const auto with = [&](const std::string& before, const std::string& more) {
        std::string changed = text;
        return changed.insert(changed.find(before), more);
    };
    const auto expect_refused = [](const std::string& text_of_file, const std::string& place,
                                   const std::string& key, const std::string& first) {
        const std::string message = samelight::test::refusal(
            ErrorKind::input, [&] { (void)parse_correction(text_of_file, "c.json"); });
        for (const std::string& part :
             {place, "the key \"" + key + "\" a second time, after line " + first,
              std::string("each key once")}) {
            EXPECT_TRUE(samelight::test::contains(message, part)) << message;
        }
    };
    // The second one counts as well where it says the same, is spelt in another way, is nobody's key, or stands deep within.
    expect_refused(with("  \"observer\"", "  \"luminance_factor\": 7,\n"),
                   "c.json:16: ", "luminance_factor", "4");
    expect_refused(with("  \"observer\"", "  \"method\": \"four-colour\",\n"),
                   "c.json:4: ", "method", "3");
    expect_refused(with("  \"observer\"", "  \"m\\u0065thod\": \"mean\",\n"),
                   "c.json:4: ", "method", "3");
    expect_refused("{\"\": 1, \"\": 2}", "c.json:1: ", "", "1");
    expect_refused(with("\"after\"", "\"before\": null, "), "c.json:", "residuals[0].before", "");
    expect_refused("{\"a\": [{}, {\"b\": {\n\"c\": \"}\\\"]\", \"c\": 2}}]}",
                   "c.json:2: ", "a[1].b.c", "2");
    // Once in each of two objects, or as a value, is once.
    EXPECT_EQ(parse_correction(with("  \"observer\"",
                                    "  \"mine\": {\"method\": \"method\", \"a\": [\"a\", "
                                    "\"a\", {\"a\": \"a\"}]},\n"),
                               "c.json")
                  .ignored,
              std::vector<std::string>{"mine"});
}

// What takes time or memory is refused before anything is kept of it, with the line, valid JSON or not.
TEST(CorrectionKeys, BracketsAndValuesAreLimited) {
    const auto expect_refused = [](const std::string& text, const std::string& place,
                                   const std::string& found) {
        const std::string message = samelight::test::refusal(
            ErrorKind::input, [&] { (void)parse_correction(text, "c.json"); });
        for (const std::string& part : {place, found}) {
            EXPECT_TRUE(samelight::test::contains(message, part)) << message;
        }
    };
    const auto keys = [](std::size_t count) {
        std::string text = "{\n";
        for (std::size_t i = 0; i < count; ++i) {
            text += (i == 0 ? "\"" : ",\"") + std::to_string(i) + "\":\":,[{\\\"\"";
        }
        return text + "}";
    };
    expect_refused(keys(most_correction_keys), "c.json: schema: ", "missing");
    expect_refused(keys(most_correction_keys + 1), "c.json:2: ", "more than 1000 keys");
    const std::string deep(deepest_correction_file, '[');
    expect_refused(deep, "c.json:1: ", "no JSON");
    expect_refused("\n" + deep + "[", "c.json:2: ", "more than 32 brackets");
    expect_refused(std::string(14'000'000, '['), "c.json:1: ", "more than 32 brackets");
    std::string many = "[0";
    while (many.size() <= 2 * most_correction_values) {
        many += ",0";
    }
    expect_refused(many + "]", "c.json:1: ", "more than 1000000 values");
    // Nothing but what closes, strings without an end, and an escape at the end.
    for (const char* text : {"]]]", "}", "\"", "\"\\", "{\"a\n\":1}", ":::,,,"}) {
        expect_refused(text, "c.json:", "");
    }
}

}  // namespace
}  // namespace samelight::io
