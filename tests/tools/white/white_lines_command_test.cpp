// Displays one after another, a line of JSON each. Second route: the single answer of all of them, and each display by itself.
#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string for_few = " --reference crt@0.3127,0.3290 --people 64 ";

std::vector<json> lines_of(const std::string& text) {
    std::vector<json> result;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        result.push_back(json::parse(line));
    }
    return result;
}

TEST(WhiteLines, AreTheSingleAnswersParts) {
    const Scratch scratch;
    const std::string own = scratch.file("own.csv", as_measured("oled-white"));
    for (const std::string more : {"", "--viewer 28 --viewer 64:4", "--budget --ages 30-40",
                                   "--viewer 40 --eye A=0.3060,0.3185"}) {
        const std::string asked = "white oled-rgb " + quoted(own) +
                                  " oled-rgb@0.3127,0.3290 lcd-white-led" + for_few + more;
        const Said single = run(asked + " --json");
        ASSERT_EQ(single.exit_code, 0) << single.err;
        const json whole = json::parse(single.out);
        const Said said = run(asked + " --lines-of-json");
        EXPECT_EQ(said.exit_code, 0) << said.err;
        EXPECT_EQ(said.err, "");
        const std::vector<json> found = lines_of(said.out);
        ASSERT_EQ(found.size(), 5U);
        EXPECT_EQ(found[0]["schema"], "samelight/white-lines/1");
        for (const char* key : {"reference", "tables", "instrument", "viewer_notes", "version"}) {
            EXPECT_EQ(found[0][key], whole[key]) << key;
        }
        for (std::size_t i = 0; i < 4; ++i) {
            EXPECT_EQ(found[i + 1], whole["panels"][i]) << i << more;
        }
    }
}

// Displays are put before the people 32 at a time, which nothing of a display's answer shows.
TEST(WhiteLines, DontDependOnTheOthers) {
    std::string names;
    for (int i = 0; i < 40; ++i) {
        names += i % 3 == 0 ? "oled-rgb\n" : i % 3 == 1 ? "laser-rgb\n" : "oled-white@0.30,0.32\n";
    }
    const Scratch scratch;
    const std::string list = scratch.file("list", names);
    const std::vector<json> found =
        lines_of(run("white --panels-from " + quoted(list) + for_few + "--lines-of-json").out);
    ASSERT_EQ(found.size(), 41U);
    for (const char* name : {"oled-rgb", "laser-rgb", "oled-white@0.30,0.32"}) {
        const json alone =
            json::parse(run("white " + std::string(name) + for_few + "--json").out)["panels"][0];
        for (std::size_t i = 1; i < found.size(); ++i) {
            if (found[i]["name"] == alone["name"]) {
                EXPECT_EQ(found[i], alone) << i;
            }
        }
    }
}

TEST(WhiteLines, NamesMayComeFromALessTidyList) {
    const Scratch scratch;
    const std::string list = scratch.file("list", "\xef\xbb\xbf\r\noled-rgb\r\n\n\nlaser-rgb");
    const std::string expected = run("white crt oled-rgb laser-rgb" + for_few + "--json").out;
    EXPECT_EQ(run("white crt" + for_few + "--json --panels-from " + quoted(list)).out, expected);
    EXPECT_EQ(run("white crt" + for_few + "--json --panels-from - <" + quoted(list)).out, expected);
    EXPECT_EQ(
        lines_of(
            run("white crt" + for_few + "--lines-of-json --panels-from - <" + quoted(list)).out)
            .size(),
        4U);
}

TEST(WhiteLines, OneThatCantBeReadDoesntStopTheOthers) {
    const Scratch scratch;
    const std::string bad =
        scratch.file("bad.csv", "wavelength_nm,red,green,blue\n380,1,2,3\n390,1,two,3\n");
    const Said said =
        run("white crt none.csv " + quoted(bad) + " laser-rgb" + for_few + "--lines-of-json");
    EXPECT_EQ(said.exit_code, 1);
    EXPECT_EQ(lines(said.err), 2U) << said.err;
    const std::vector<json> found = lines_of(said.out);
    ASSERT_EQ(found.size(), 5U);
    EXPECT_EQ(found[2]["name"], "none.csv");
    EXPECT_EQ(found[2]["error"]["file"], "none.csv");
    EXPECT_EQ(found[3]["error"]["line"], 3);
    EXPECT_TRUE(found[4].contains("targets"));
    // What the viewers' eyes are learnt from must be there.
    const Said learnt = run("white none.csv crt --viewer 40 --eye A=0.306,0.319 --lines-of-json");
    EXPECT_EQ(learnt.exit_code, 1);
    EXPECT_EQ(lines(learnt.err), 1U);
    EXPECT_EQ(lines_of(learnt.out).at(0)["error"]["file"], "none.csv");
}

TEST(WhiteLines, WhatCantBeAskedForIsRefused) {
    const Scratch scratch;
    const std::string zero = scratch.file("zero", std::string("crt\n\0x\n", 7));
    const std::string empty = scratch.file("empty", "\n\n");
    const std::string endless = scratch.file("endless", "crt\n" + std::string(70000, 'x'));
    expect_refusal(run("white --panels-from " + quoted(empty)), 1, "no name");
    expect_refusal(run("white --panels-from " + quoted(zero)), 1, "zero:2: a zero byte");
    expect_refusal(run("white --panels-from " + quoted(endless)), 1, "endless:2: a line of more");
    expect_refusal(run("white --panels-from none"), 1, "none: can't be opened");
    expect_refusal(run("white --panels-from ."), 1, ".: can't be read");
    expect_refusal(run("white"), 2, "PANEL");
    for (const char* line : {"white crt --lines-of-json --json", "white --lines-of-json",
                             "white crt --lines-of-json --now x.csv"}) {
        const Said said = run(line);
        EXPECT_EQ(said.exit_code, 2);
        EXPECT_EQ(lines(said.err), 1U);
        EXPECT_TRUE(json::parse(said.out).contains("error")) << said.out;
    }
    // As a line.
    const Said said = run("white --panels-from none --lines-of-json");
    EXPECT_EQ(said.exit_code, 1);
    EXPECT_EQ(lines_of(said.out).back()["error"]["file"], "none");
}

/// A run of the command whose names come from us.
class Fed {
  public:
    explicit Fed(const std::string& arguments, const std::string& out = "") {
        std::array<int, 2> in{};
        std::array<int, 2> back{};
        EXPECT_EQ(::pipe(in.data()) + ::pipe(back.data()), 0);
        child_ = ::fork();
        if (child_ == 0) {
            ::dup2(in[0], STDIN_FILENO);
            ::dup2(out.empty() ? back[1] : ::open(out.c_str(), O_WRONLY | O_CREAT, 0600),
                   STDOUT_FILENO);
            for (const int fd : {in[0], in[1], back[0], back[1]}) {
                ::close(fd);
            }
            const std::string line = "exec '" SAMELIGHT_EXECUTABLE "' " + arguments;
            ::execl("/bin/sh", "sh", "-c", line.c_str(), nullptr);
            ::_exit(127);
        }
        ::close(in[0]);
        ::close(back[1]);
        to_ = in[1];
        from_ = back[0];
    }
    ~Fed() {
        ::close(from_);
        if (to_ >= 0) ::close(to_);
    }
    Fed(const Fed&) = delete;
    Fed& operator=(const Fed&) = delete;

    void say(const std::string& name) const {
        EXPECT_EQ(::write(to_, name.data(), name.size()), static_cast<ssize_t>(name.size()));
    }
    /// What comes back until a line has ended; nothing where none comes within minutes.
    [[nodiscard]] std::string line() const {
        std::string text;
        for (char c = 0; c != '\n'; text += c) {
            struct pollfd ready {
                from_, POLLIN, 0
            };
            if (::poll(&ready, 1, 300'000) != 1 || ::read(from_, &c, 1) != 1) return text;
        }
        return text;
    }
    /// Peak memory, kB, of the command once it has ended.
    [[nodiscard]] long peak() {
        ::close(to_);
        to_ = -1;
        int status = 0;
        struct rusage used {};
        EXPECT_EQ(::wait4(child_, &status, 0, &used), child_);
        EXPECT_EQ(status, 0);
        return used.ru_maxrss;
    }

  private:
    pid_t child_ = 0;
    int to_ = -1;
    int from_ = -1;
};

TEST(WhiteLines, ADisplayIsAnsweredBeforeTheNextIsNamed) {
    Fed command("white --panels-from - --lines-of-json" + for_few);
    EXPECT_EQ(json::parse(command.line(), nullptr, false)["schema"], "samelight/white-lines/1");
    for (const char* name : {"oled-rgb", "laser-rgb"}) {
        command.say(std::string(name) + "\n");
        EXPECT_EQ(json::parse(command.line(), nullptr, false)["name"], name);
    }
    static_cast<void>(command.peak());
}

// 450 displays more hold some 20 kB each as spectra alone, and their answers as much again: 18 MB, were they kept.
TEST(WhiteLines, MemoryDoesntGrowWithTheDisplays) {
    const Scratch scratch;
    const std::string file = scratch.file("unit.csv", as_measured("oled-white"));
    const std::string out = (scratch.path() / "out").string();
    std::array<long, 2> peak{};
    for (std::size_t k = 0; k < 2; ++k) {
        const int displays = k == 0 ? 50 : 500;
        Fed command("white --panels-from - --lines-of-json --people 16", out);
        for (int i = 0; i < displays; ++i) {
            command.say(file + "\n");
        }
        peak.at(k) = command.peak();
        EXPECT_EQ(lines(slurp(out)), static_cast<std::size_t>(displays) + 1);
        std::filesystem::remove(out);
    }
    EXPECT_LT(peak[1], peak[0] + 4000) << peak[0] << " kB and " << peak[1] << " kB";
}

}  // namespace
}  // namespace samelight::test
