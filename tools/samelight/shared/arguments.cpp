#include "arguments.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <string_view>
#include <system_error>
#include <type_traits>

#include "samelight/numeric/text.hpp"

namespace samelight::command {

namespace {

// In front of a word that the option library would take for a list. Taken off again when the option gets it.
constexpr char literal_mark = '\x1f';

/// Decimal digits, perhaps with a sign, and nothing before or behind them. What is wrong otherwise; nothing where it is right.
template <class Whole>
std::string whole_number(std::string& text) {
    std::string_view digits = text;
    const bool minus = digits.starts_with('-');
    if (minus || digits.starts_with('+')) digits.remove_prefix(1);
    const bool right = !digits.empty() && std::all_of(digits.begin(), digits.end(),
                                                      [](char c) { return c >= '0' && c <= '9'; });
    if (!right) {
        return '"' + text + "\" is no whole number; wanted decimal digits such as 20";
    }
    // The library would take a 0 in front for octal.
    digits.remove_prefix(std::min(digits.find_first_not_of('0'), digits.size() - 1));
    const std::string plain = (minus ? "-" : "") + std::string(digits);
    Whole number = 0;
    const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), number);
    // A minus where there can be none is no number to from_chars, and more than the type holds is out of its range.
    if (read.ec != std::errc()) {
        return '"' + text + "\" is out of range; wanted a whole number" +
               (std::is_unsigned_v<Whole> ? " from 0 up" : "") + " that a computer can hold";
    }
    text = plain;
    return {};
}

std::string any_number(std::string& text) {
    std::string_view digits = text;
    if (digits.starts_with('+')) digits.remove_prefix(1);
    const bool sign_twice = digits.size() < text.size() && digits.starts_with('-');
    if (sign_twice || !std::isfinite(samelight::detail::number_or_nan(digits))) {
        return '"' + text + "\" is no number; wanted decimal digits such as 20 or 0.5";
    }
    return {};
}

std::string without_mark(std::string& word) {
    if (word.starts_with(literal_mark)) word.erase(0, 1);
    return {};
}

/// A word that can only be meant as an option.
bool names_option(const CLI::App& app, const std::string& word) {
    if (word.size() > 2 && word.starts_with("--")) return true;
    return word == "--" || (word.size() == 2 && app.get_option_no_throw(word) != nullptr);
}

bool takes_value(const CLI::Option* option) {
    return option != nullptr && option->get_items_expected_min() > 0;
}

const CLI::App* subcommand_named(const CLI::App& app, const std::string& word) {
    const auto found =
        app.get_subcommands([&](const CLI::App* one) { return one->get_name() == word; });
    return found.empty() ? nullptr : found.front();
}

/// A word where a command must stand.
[[noreturn]] void refuse_command(const CLI::App& app, const std::string& word) {
    std::string names;
    for (const CLI::App* one : app.get_subcommands([](const CLI::App*) { return true; })) {
        names += (names.empty() ? "" : ", ") + one->get_name();
    }
    // Every line begins with the command's own name.
    const std::string above = app.get_parent() == nullptr ? "" : app.get_name();
    throw CLI::ValidationError(above, "no command \"" + word + "\"; wanted one of " + names);
}

[[noreturn]] void refuse_empty(const std::string& what) {
    throw CLI::ValidationError(what, "an empty value; wanted one with something in it");
}

/// The value behind an option, in a word of its own.
void check_value(const CLI::App& app, const std::string& option, const std::string& value) {
    if (value.empty()) refuse_empty(option);
    if (names_option(app, value)) {
        throw CLI::ValidationError(option, "no value, but " + value + " behind it; wanted " +
                                               option + " VALUE, or " + option + "=" + value);
    }
}

}  // namespace

void take_literally(CLI::App& app) {
    for (CLI::Option* option : app.get_options()) {
        if (option->get_positional()) {
            option->transform(CLI::Validator(without_mark, ""));
        } else if (takes_value(option)) {
            option->allow_extra_args(false);
        }
        const std::string type = option->get_type_name();
        if (!takes_value(option)) continue;
        if (type == "INT") option->transform(CLI::Validator(whole_number<std::int64_t>, ""));
        if (type == "UINT") option->transform(CLI::Validator(whole_number<std::uint64_t>, ""));
        if (type == "FLOAT") option->transform(CLI::Validator(any_number, ""));
    }
    for (CLI::App* subcommand : app.get_subcommands([](const CLI::App*) { return true; })) {
        take_literally(*subcommand);
    }
}

std::vector<std::string> read_arguments(const CLI::App& app, int argc, const char* const* argv) {
    const std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
    const CLI::App* command = &app;
    bool options_ended = false;
    std::vector<std::string> result;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        result.push_back(word);
        if (!options_ended && names_option(*command, word)) {
            const std::size_t equals = word.find('=');
            const std::string name = word.substr(0, equals);
            options_ended = word == "--";
            if (equals + 1 == word.size()) refuse_empty(name);
            const bool value_behind = equals == std::string::npos && i + 1 < words.size() &&
                                      takes_value(command->get_option_no_throw(name));
            if (value_behind) {
                check_value(*command, name, words[++i]);
                result.push_back(words[i]);
            }
            continue;
        }
        if (word.empty()) refuse_empty(command->get_parent() == nullptr ? "" : command->get_name());
        const CLI::App* below = options_ended ? nullptr : subcommand_named(*command, word);
        const bool takes_command =
            !command->get_subcommands([](const CLI::App*) { return true; }).empty();
        if (below != nullptr) {
            command = below;
        } else if (takes_command && !options_ended && word.front() != '-') {
            refuse_command(*command, word);
        } else if (word.front() == '[' || word.front() == literal_mark) {
            result.back().insert(0, 1, literal_mark);
        }
    }
    std::reverse(result.begin(), result.end());
    return result;
}

std::string without_marks(std::string message) {
    message.erase(std::remove(message.begin(), message.end(), literal_mark), message.end());
    return message;
}

}  // namespace samelight::command
