#pragma once
// Runs the built command as a shell would, and keeps what it said.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

namespace samelight::test {

struct Said {
    int exit_code;
    std::string out;
    std::string err;
    bool asked_for_json = false;
};

/// A folder of this test process's own, removed at the end.
class Scratch {
  public:
    Scratch()
        : path_(std::filesystem::temp_directory_path() /
                ("samelight-test-" + std::to_string(getpid()) + "-" + std::to_string(count()++))) {
        std::filesystem::create_directories(path_);
    }
    ~Scratch() { std::filesystem::remove_all(path_); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    [[nodiscard]] std::string file(const std::string& name, const std::string& content) const {
        std::ofstream(path_ / name, std::ios::binary) << content;
        return (path_ / name).string();
    }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    static int& count() {
        static int n = 0;
        return n;
    }
    std::filesystem::path path_;
};

/// Keeps an answer for programs in the folder that SAMELIGHT_KEEP_JSON names, if any, for tests/schemas to check.
inline void keep_json(const std::string& answer) {
    static int count = 0;
    const char* folder = std::getenv("SAMELIGHT_KEEP_JSON");
    if (folder == nullptr || answer.empty()) return;
    std::filesystem::create_directories(folder);
    const std::string name = std::to_string(getpid()) + "-" + std::to_string(++count) + ".json";
    std::ofstream(std::filesystem::path(folder) / name, std::ios::binary) << answer;
}

inline std::string slurp(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

/// @param arguments  as typed in a shell, already quoted where need be
/// @param environment  assignments before the command, such as "LC_ALL=de_DE.UTF-8"
inline Said run(const std::string& arguments, const std::string& environment = "") {
    const Scratch scratch;
    const std::string out = (scratch.path() / "out").string();
    const std::string err = (scratch.path() / "err").string();
    const std::string line = environment + " '" SAMELIGHT_EXECUTABLE "' " + arguments + " >'" +
                             out + "' 2>'" + err + "'";
    const int status = std::system(line.c_str());
    Said said{WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err),
              arguments.find(" --json") != std::string::npos};
    if (said.asked_for_json) {
        keep_json(said.out);
    }
    return said;
}

/// The spectra of a built-in panel without the comments that call them a model, to stand for a measurement.
inline std::string as_measured(const std::string& panel) {
    std::istringstream lines(run("panel " + panel).out);
    std::string text;
    for (std::string line; std::getline(lines, line);) {
        if (line.rfind('#', 0) != 0) {
            text += line + "\n";
        }
    }
    return text;
}

/// A page as one line: sentences wrap, and columns are padded.
inline std::string unwrapped(const std::string& page) {
    std::string text;
    for (const char c : page) {
        if (c != '\n' && c != ' ') {
            text += c;
        } else if (!text.empty() && text.back() != ' ') {
            text += ' ';
        }
    }
    return text;
}

inline bool page_says(const std::string& page, const std::string& words) {
    return unwrapped(page).find(words) != std::string::npos;
}

inline std::string quoted(const std::string& text) { return "'" + text + "'"; }

inline std::size_t lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// The same for a program: one object, whose parts make the line.
inline void expect_json_of(const Said& said) {
    const nlohmann::json answer = nlohmann::json::parse(said.out, nullptr, false);
    ASSERT_TRUE(answer.contains("error")) << said.out;
    EXPECT_EQ(answer["schema"], "samelight/error/1");
    const nlohmann::json& error = answer["error"];
    EXPECT_EQ(error.size(), 7U);
    for (const char* part : {"where", "what", "wanted"}) {
        if (error[part].is_null()) continue;
        EXPECT_NE(said.err.find(error[part].get<std::string>()), std::string::npos)
            << error[part] << " isn't in " << said.err;
    }
    EXPECT_EQ(error["kind"] == "usage", said.exit_code == 2) << error;
    for (const char* count : {"line", "column"}) {
        EXPECT_TRUE(error[count].is_null() || error[count].get<int>() > 0) << error;
    }
}

/// One clear line on standard error, nothing on standard output but the same as JSON where that was asked for.
inline void expect_refusal(const Said& said, int exit_code, const std::string& part) {
    EXPECT_EQ(said.exit_code, exit_code) << said.err;
    EXPECT_EQ(lines(said.err), 1U) << said.err;
    if (said.asked_for_json) {
        expect_json_of(said);
    } else {
        EXPECT_EQ(said.out, "");
    }
    EXPECT_NE(said.err.find(part), std::string::npos) << said.err;
    EXPECT_EQ(said.err.rfind("samelight: ", 0), 0U) << said.err;
}

}  // namespace samelight::test
