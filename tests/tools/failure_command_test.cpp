// What a program gets when the command can't do what it asked. Second route: the one line on standard error.
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

json error_of(const Said& said, int exit_code) {
    expect_refusal(said, exit_code, "");
    return json::parse(said.out)["error"];
}

TEST(Failure, JsonNamesTheFileTheLineAndTheColumn) {
    const Scratch scratch;
    const std::string file = scratch.file(
        "bad.csv", "wavelength_nm,red,green,blue\n380,1,2,3\n390,1,two,3\n400,1,2,3\n");
    for (const std::string& line :
         {"white " + quoted(file), "spectrum " + quoted(file), "metamerism crt " + quoted(file)}) {
        const json error = error_of(run(line + " --json"), 1);
        EXPECT_EQ(error["kind"], "input");
        EXPECT_EQ(error["where"], file);
        EXPECT_EQ(error["file"], file);
        EXPECT_EQ(error["line"], 3);
        // Columns count from 1 in characters: "390,1,two".
        EXPECT_EQ(error["column"], 7);
        EXPECT_NE(error["what"].get<std::string>().find("two"), std::string::npos) << error;
    }
}

TEST(Failure, JsonTellsFilesFromOtherNames) {
    const json missing = error_of(run("white nowhere.csv --json"), 1);
    EXPECT_EQ(missing["kind"], "system");
    EXPECT_EQ(missing["file"], "nowhere.csv");
    EXPECT_EQ(missing["line"], nullptr);
    const json unknown = error_of(run("observer nobody --json"), 1);
    EXPECT_EQ(unknown["file"], nullptr);
    EXPECT_TRUE(unknown["where"].is_string());
}

// A verdict is an answer; who wants it as an exit code says so.
TEST(Failure, AVerdictIsAnExitCodeWhereThatIsAskedFor) {
    const std::string proof = " " SAMELIGHT_DATA "/demo/proof/";
    const std::string meant = " --white 0.3091,0.3199 --curve power:2.4 --json";
    const Said before = run("check" + proof + "client-set-proof-before.csv" + meant);
    EXPECT_EQ(before.exit_code, 0);
    EXPECT_NE(json::parse(before.out)["verdict"], "pass");
    const Said required =
        run("check" + proof + "client-set-proof-before.csv --require-pass" + meant);
    EXPECT_EQ(required.exit_code, 1);
    EXPECT_EQ(required.out, before.out);
    EXPECT_EQ(required.err, "");
    // What can't be written is said first.
    const Scratch scratch;
    const std::string err = (scratch.path() / "err").string();
    const std::string line = "'" SAMELIGHT_EXECUTABLE "' check" + proof +
                             "client-set-proof-before.csv --require-pass" + meant +
                             " > /dev/full 2> " + err;
    EXPECT_EQ(WEXITSTATUS(std::system(line.c_str())), 1);
    EXPECT_NE(slurp(err).find("standard output can't be written"), std::string::npos);
}

TEST(Failure, EveryCommandSaysIt) {
    for (const char* line :
         {"white none.csv", "metamerism none.csv crt", "panel none", "observer none",
          "spectrum none.csv", "meter fit none.csv", "meter model none.csv crt",
          "meter choose crt --correction none.json", "meter choose --table --meter none.csv"}) {
        error_of(run(std::string(line) + " --json"), 1);
        expect_refusal(run(line), 1, "");
    }
}

TEST(Failure, UsageErrorsAreJsonToo) {
    const json unknown = error_of(run("white crt --json --nothing"), 2);
    EXPECT_EQ(unknown["kind"], "usage");
    EXPECT_NE(unknown["what"].get<std::string>().find("--nothing"), std::string::npos);
    const json number = error_of(run("white crt --people 1e3 --json"), 2);
    EXPECT_EQ(number["where"], "--people");
    EXPECT_EQ(number["wanted"], "decimal digits such as 20");
    EXPECT_EQ(error_of(run("foo --json"), 2)["what"], "no command \"foo\"");
    error_of(run("white --json"), 2);
    error_of(run("meter --json"), 2);
    error_of(run("white crt '--reference=' --json"), 2);
}

// Behind "--" every word is a name.
TEST(Failure, AFileCalledLikeTheOptionAsksForNothing) {
    const Said said = run("white -- --json");
    EXPECT_EQ(said.exit_code, 1);
    EXPECT_EQ(said.out, "");
}

// RFC 8259, 8.1: JSON is UTF-8, whatever a name is; ECMA-48: and it steers no terminal.
TEST(Failure, JsonOfAnyNameCanBeRead) {
    for (const char* name :
         {"\xff\xfe.csv", "\x1b[31mred.csv", "two\nlines.csv", "c1\xc2\x9b.csv"}) {
        const Said said = run("white '" + std::string(name) + "' --json");
        EXPECT_EQ(said.exit_code, 1);
        EXPECT_EQ(json::parse(said.out)["error"]["kind"], "system") << said.out;
        EXPECT_EQ(said.out.find('\x1b'), std::string::npos);
        EXPECT_EQ(said.out.find("\xc2\x9b"), std::string::npos);
    }
}

TEST(Failure, TheVersionIsJsonToo) {
    for (const char* line : {"--version --json", "--json --version"}) {
        const Said said = run(line);
        EXPECT_EQ(said.exit_code, 0) << said.err;
        const json answer = json::parse(said.out);
        EXPECT_EQ(answer["schema"], "samelight/version/1");
        EXPECT_EQ(run("--version").out, "samelight " + answer["version"].get<std::string>() + "\n");
    }
}

TEST(Failure, AFullDiskIsSaidWhateverWasToBePrinted) {
    const Scratch scratch;
    const std::string err = (scratch.path() / "err").string();
    for (const char* line :
         {"panel", "--help", "white --help", "--version", "--version --json", "white crt --json"}) {
        const std::string whole =
            "'" SAMELIGHT_EXECUTABLE "' " + std::string(line) + " >/dev/full 2>" + quoted(err);
        EXPECT_EQ(WEXITSTATUS(std::system(whole.c_str())), 1) << line;
        EXPECT_NE(slurp(err).find("standard output can't be written"), std::string::npos) << line;
        EXPECT_EQ(lines(slurp(err)), 1U) << line;
    }
}

}  // namespace
}  // namespace samelight::test
