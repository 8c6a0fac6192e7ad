#include "failure.hpp"

#include <cstdio>
#include <string_view>
#include <system_error>

#include <fmt/core.h>

#include "arguments.hpp"
#include "progress.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/error_answer.hpp"
#include "samelight/report/error_list.hpp"
#include "terminal.hpp"

namespace samelight::command {

namespace {

constexpr const char* no_output = "standard output can't be written";
constexpr const char* wanted_number = "digits such as 20 or 0.5";

/// The line has gone to standard error before, so that standard output being full keeps nobody from knowing why.
void print_json(const std::vector<report::ErrorAnswer>& answers, FailureForm form) {
    if (form == FailureForm::line_alone) return;
    const std::string json = for_terminal(
        report::error_json(answers, form == FailureForm::json ? report::JsonLayout::indented
                                                              : report::JsonLayout::one_line));
    static_cast<void>(std::fwrite(json.data(), 1, json.size(), stdout));
    static_cast<void>(std::fflush(stdout));
}

/// The message of the option library in parts. Ours, and those of values, begin with what they are about and a colon.
report::ErrorAnswer usage_answer(const CLI::ParseError& error) {
    report::ErrorAnswer answer{"usage", {}, false, without_marks(error.what()), ""};
    const auto take_off = [&](std::string_view between) {
        const std::size_t at = answer.what.find(between);
        std::string before = answer.what.substr(0, at);
        if (at != std::string::npos) answer.what.erase(0, at + between.size());
        return at == std::string::npos ? std::string() : before;
    };
    if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr) {
        // "Could not convert: --people = 1e3"
        take_off(": ");
        answer.what += ": no number as this option takes it";
        answer.wanted = wanted_number;
    } else if (dynamic_cast<const CLI::ValidationError*>(&error) != nullptr) {
        answer.where.name = take_off(": ");
    }
    const std::size_t wanted = answer.what.rfind("; wanted ");
    if (wanted != std::string::npos) {
        answer.wanted = answer.what.substr(wanted + 9);
        answer.what.resize(wanted);
    }
    return answer;
}

}  // namespace

FailureForm failure_form(int argc, const char* const* argv) {
    for (int i = 1; i < argc; ++i) {
        const std::string_view word = argv[i];
        if (word == "--") break;
        if (word == "--json" || word == "--json=true") return FailureForm::json;
        if (word == "--lines-of-json") return FailureForm::json_line;
    }
    return FailureForm::line_alone;
}

void flush_answer() {
    if (std::fflush(stdout) != 0) throw std::system_error(errno, std::generic_category());
}

int fail_usage(const CLI::ParseError& error, FailureForm form) {
    Progress::stop();
    const report::ErrorAnswer answer = usage_answer(error);
    const std::string where = answer.where.name.empty() ? "" : answer.where.name + ": ";
    const std::string wanted = answer.wanted.empty() ? "" : "; wanted " + answer.wanted;
    fmt::print(stderr, "samelight: {} (samelight --help says more)\n",
               on_one_line(where + answer.what + wanted));
    print_json({answer}, form);
    return bad_usage;
}

int fail(const std::exception& error, FailureForm form) {
    Progress::stop();
    if (const auto* writing = dynamic_cast<const std::system_error*>(&error)) {
        // Of standard output: all else is a samelight::Error. JSON has nowhere to go.
        fmt::print(stderr, "samelight: {}: {}; wanted a place with room for the answer\n",
                   no_output, writing->code().message());
        return bad_input;
    }
    std::vector<report::ErrorAnswer> answers;
    if (const auto* all = dynamic_cast<const report::ErrorList*>(&error)) {
        for (const Error& one : all->errors()) {
            fmt::print(stderr, "samelight: {}\n", error_line(one));
            answers.push_back(report::error_answer(one));
        }
    } else {
        fmt::print(stderr, "samelight: {}\n", error_line(error));
        const auto* own = dynamic_cast<const Error*>(&error);
        answers.push_back(own != nullptr
                              ? report::error_answer(*own)
                              : report::ErrorAnswer{"internal", {}, false, error.what(), ""});
    }
    print_json(answers, form);
    return bad_input;
}

}  // namespace samelight::command
