#include "samelight/report/error_answer.hpp"

#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

#include <nlohmann/json.hpp>

#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"

namespace samelight::report {

const char* error_kind_name(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::domain:
            return "domain";
        case ErrorKind::shape:
            return "shape";
        case ErrorKind::singular:
            return "singular";
        case ErrorKind::observer:
            return "observer";
        case ErrorKind::input:
            return "input";
        case ErrorKind::system:
            break;
    }
    return "system";
}

ErrorAnswer error_answer(const Error& error) {
    const ErrorPlace& place = error.place();
    std::error_code none;
    const bool in_file = place.line > 0 || error.kind() == ErrorKind::system ||
                         std::filesystem::exists(place.name, none);
    return {error_kind_name(error.kind()), place, in_file, error.found(), error.wanted()};
}

nlohmann::ordered_json error_parts(const ErrorAnswer& answer) {
    const auto text = [](const std::string& words) {
        return words.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(words);
    };
    const auto number = [](int counted_from_one) {
        return counted_from_one > 0 ? nlohmann::ordered_json(counted_from_one)
                                    : nlohmann::ordered_json(nullptr);
    };
    return {{"kind", answer.kind},
            {"where", text(answer.where.name)},
            {"file", answer.in_file ? text(answer.where.name) : nullptr},
            {"line", number(answer.where.line)},
            {"column", number(answer.where.column)},
            {"what", answer.what},
            {"wanted", text(answer.wanted)}};
}

namespace {

/// The same with the line that people get: "where: what; wanted ...".
nlohmann::ordered_json listed_error(const ErrorAnswer& answer) {
    nlohmann::ordered_json json = error_parts(answer);
    const std::string where = answer.where.text();
    json["message"] = (where.empty() ? "" : where + ": ") + answer.what +
                      (answer.wanted.empty() ? "" : "; wanted " + answer.wanted);
    return json;
}

}  // namespace

nlohmann::ordered_json errors_json(const std::vector<Error>& errors) {
    nlohmann::ordered_json json = nlohmann::ordered_json::array();
    for (const Error& error : errors) {
        json.push_back(listed_error(error_answer(error)));
    }
    return json;
}

std::string error_json(const std::vector<ErrorAnswer>& answers, JsonLayout layout) {
    nlohmann::ordered_json json = {{"schema", "samelight/error/1"},
                                   {"error", error_parts(answers.at(0))},
                                   {"errors", nlohmann::ordered_json::array()}};
    for (const ErrorAnswer& answer : answers) {
        json["errors"].push_back(listed_error(answer));
    }
    return layout == JsonLayout::one_line ? json_line(json) : json_text(json);
}

std::string version_json() {
    return json_text({{"schema", "samelight/version/1"}, {"version", version}});
}

}  // namespace samelight::report
