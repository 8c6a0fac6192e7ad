// What a command writes beside its answer: to a file, to standard output, to pipes and devices. Second route: the same
// written to a plain file.
#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/nobody.hpp"
#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

namespace fs = std::filesystem;

/// A command that writes beside its answer, without the name behind it.
struct Writer {
    std::string line;
    std::string page_says;
};

std::vector<Writer> writers(const Scratch& scratch) {
    const std::string spectra = quoted(scratch.file("crt.csv", as_measured("crt")));
    const std::string readings = quoted(SAMELIGHT_DATA "/demo/client-set-readings.csv");
    return {{"meter model cie1931-2deg oled-rgb --write", "How sure:"},
            {"meter fit " + readings + " --write", "Kept in "},
            {"spectrum " + spectra + " --shift 0.3 --corrected", "3 lights"}};
}

/// Runs a line of the shell in a folder as a user without privileges; "$S" in it is the command. What it says: its exit
/// code, a colon, and what is on its standard error.
std::string shell_as_nobody(const fs::path& folder, const std::string& line) {
    // An open file needs no path that this user may walk.
    const int command = ::open(SAMELIGHT_EXECUTABLE, O_RDONLY);
    EXPECT_GE(command, 0);
    const std::string text = "cd " + quoted(folder.string()) + " && S=/proc/self/fd/" +
                             std::to_string(command) + " && { " + line + "; } 2>err";
    const std::string code = as_nobody([&] {
        const int status = std::system(text.c_str());
        return WIFEXITED(status) ? std::to_string(WEXITSTATUS(status)) : std::string("signal");
    });
    ::close(command);
    return code + ": " + slurp(folder / "err");
}

/// A folder of nobody's own.
class OutputAsNobody : public testing::Test {
  protected:
    void SetUp() override { give_to_nobody(scratch_.path()); }

    [[nodiscard]] std::string shell(const std::string& line) const {
        return shell_as_nobody(scratch_.path(), line);
    }
    [[nodiscard]] std::string content(const char* name) const {
        return slurp(scratch_.path() / name);
    }
    Scratch scratch_;
    std::string model_ = "$S meter model cie1931-2deg oled-rgb --write ";
    std::string expected_ = run("meter model cie1931-2deg oled-rgb --write -").out;
};

TEST(Output, ADashIsStandardOutputAndThePageGoesToStandardError) {
    const Scratch scratch;
    for (const Writer& writer : writers(scratch)) {
        const std::string file = (scratch.path() / "written").string();
        const Said plain = run(writer.line + " " + quoted(file));
        ASSERT_EQ(plain.exit_code, 0) << plain.err;
        EXPECT_EQ(plain.err, "");
        EXPECT_NE(plain.out.find(writer.page_says), std::string::npos) << plain.out;
        // /dev/stdout, here a regular file: replaced aside, one of the two would be lost.
        for (const char* name : {"-", "/dev/stdout"}) {
            const Said said = run(writer.line + " " + name);
            EXPECT_EQ(said.exit_code, 0) << said.err;
            EXPECT_EQ(said.out, slurp(file)) << writer.line << " " << name;
            EXPECT_NE(said.err.find(writer.page_says), std::string::npos) << said.err;
            expect_refusal(run(writer.line + " " + name + " --json"), 2,
                           "can't both be on standard output");
        }
        EXPECT_FALSE(fs::exists("-"));
    }
    EXPECT_TRUE(page_says(run(writers(scratch)[1].line + " -").err, "Kept in standard output."));
    EXPECT_NE(run("meter fit --help").out.find("standard error"), std::string::npos);
}

TEST(Output, TheFileThatStandardOutputGoesToIsStandardOutput) {
    const Scratch scratch;
    const std::string file = quoted((scratch.path() / "both").string());
    const std::string line = "'" SAMELIGHT_EXECUTABLE "' meter model cie1931-2deg crt --write " +
                             file + " >" + file + " 2>/dev/null";
    ASSERT_EQ(std::system(line.c_str()), 0);
    EXPECT_EQ(slurp(scratch.path() / "both"), run("meter model cie1931-2deg crt --write -").out);
}

TEST_F(OutputAsNobody, PipesBehindLinksGetTheFileOnly) {
    EXPECT_EQ(shell("ln -s /dev/stdout link && " + model_ + "/dev/stdout | cat >a && " + model_ +
                    "link | cat >b && " + model_ + "- | cat >c")
                  .substr(0, 3),
              "0: ");
    for (const char* name : {"a", "b", "c"}) {
        EXPECT_EQ(content(name), expected_) << name;
    }
    EXPECT_TRUE(fs::is_symlink(scratch_.path() / "link"));
    EXPECT_EQ(shell("mkfifo pipe && { cat pipe >d & } && " + model_ + "pipe >page && wait"), "0: ");
    EXPECT_EQ(content("d"), expected_);
    EXPECT_NE(content("page").find("How sure:"), std::string::npos);
}

TEST_F(OutputAsNobody, DevicesAreWrittenTo) {
    EXPECT_EQ(shell(model_ + "/dev/null >page"), "0: ");
    EXPECT_NE(content("page").find("How sure:"), std::string::npos);
    EXPECT_EQ(shell(model_ + "/dev/null >/dev/null"), "0: ") << "the page isn't to be told twice";
    const std::string full = "/dev/full: can't be written (No space left on device)";
    EXPECT_EQ(shell(model_ + "/dev/full >page").rfind("1: samelight: " + full, 0), 0U);
    EXPECT_EQ(content("page"), "");
}

TEST_F(OutputAsNobody, WhatCantBeWrittenIsOneLineAndNothingIsLeft) {
    const auto expect_line = [&](const std::string& line, const std::string& part) {
        const std::string said = shell(line);
        EXPECT_EQ(said.rfind("1: samelight: ", 0), 0U) << said;
        EXPECT_EQ(lines(said), 1U) << said;
        EXPECT_NE(said.find(part), std::string::npos) << said;
    };
    expect_line("ln -s nowhere dangling; " + model_ + "dangling >page",
                "dangling: a link that leads nowhere");
    expect_line("echo old >kept && chmod 444 kept && " + model_ + "kept >page",
                "kept: a file that nobody may write");
    EXPECT_EQ(content("kept"), "old\n");
    expect_line("mkdir shut && chmod 555 shut && " + model_ + "shut/c.json >page",
                "shut/c.json: no file can be made in its folder (Permission denied)");
    expect_line("ulimit -f 1; " + model_ + "long.json",
                "long.json: can't be written (File too large)");
    expect_line("ulimit -f 1; $S panel oled-rgb >long.csv",
                "standard output can't be written: File too large");
    EXPECT_TRUE(fs::is_symlink(scratch_.path() / "dangling"));
    EXPECT_FALSE(fs::exists(scratch_.path() / "nowhere"));
    EXPECT_FALSE(fs::exists(scratch_.path() / "long.json"));
    for (const auto& entry : fs::directory_iterator(scratch_.path())) {
        EXPECT_NE(entry.path().extension(), ".part") << entry.path();
    }
    ASSERT_EQ(shell("chmod 755 shut").substr(0, 1), "0");
}

}  // namespace
}  // namespace samelight::test
