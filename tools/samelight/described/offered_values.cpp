#include "offered_values.hpp"

#include <algorithm>
#include <string_view>

#include <nlohmann/json.hpp>

#include "samelight/report/catalogue.hpp"

namespace samelight::command {

namespace {

struct OptionValues {
    std::string_view option;
    std::vector<std::string_view> values;
};

/// Names that descriptions say. Those that stand in no description of an option of that name are passed over (and a test finds them).
std::vector<OptionValues> values_said() {
    return {
        {"--encoding", {"bt709", "p3-d65", "p3-cinema", "bt2020"}},
        {"--curve", {"bt1886", "power:", "srgb", "pq", "pq:", "hlg"}},
        {"--range", {"full", "limited"}},
        {"--for", {"practitioner", "client"}},
        {"--spread", {"matches", "literature"}},
        {"--instruments", {"both", "meter"}},
        {"--between", {"tetrahedral", "trilinear"}},
        {"--readings-taken", {"without", "with"}},
        {"--as", {"csv", "tm-27", "cgats.17"}},
        {"--lines", {"mercury"}},
        {"--noise", {"auto", "pooled", "each-patch", "residuals"}},
        {"--method", {"auto", "primaries", "white", "least-squares"}},
        {"--instrument", {"shift=", "bandwidth=", "step=", "stray=", "noise="}},
        {"--columns", {"red=", "green=", "blue=", "white=", "black="}},
    };
}

/// Whether `name` stands in `text`, and not as a part of a longer one.
bool says(std::string_view text, std::string_view name) {
    const std::string_view bare = name.ends_with('=') ? name.substr(0, name.size() - 1) : name;
    const auto belongs = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    };
    for (std::size_t at = text.find(bare); at != std::string_view::npos;
         at = text.find(bare, at + 1)) {
        const std::size_t end = at + bare.size();
        const bool begins = at == 0 || !belongs(text[at - 1]);
        if (begins && (bare.ends_with(':') || end == text.size() || !belongs(text[end]))) {
            return true;
        }
    }
    return false;
}

void append_names(std::vector<std::string>& names, const nlohmann::json& list, const char* key) {
    for (const nlohmann::json& one : list)
        names.push_back(one.at(key));
}

}  // namespace

std::vector<std::string> offered_values(const CLI::App& command, const CLI::Option& option) {
    const std::string& text = option.get_description();
    const std::string name = option.get_name();
    std::vector<std::string> offered;
    const bool names_one = option.get_positional() && name == "NAME";
    if (says(text, "samelight panel") || (names_one && command.get_name() == "panel")) {
        append_names(offered, nlohmann::json::parse(report::panel_list_json()).at("panels"),
                     "name");
    }
    if (says(text, "samelight observer") || (names_one && command.get_name() == "observer")) {
        append_names(offered, nlohmann::json::parse(report::observer_list_json()).at("observers"),
                     "id");
    }
    constexpr std::string_view list = "one of ";
    if (text.starts_with(list)) {
        for (std::size_t at = list.size(); at < text.size();) {
            const std::size_t end = std::min(text.find(", ", at), text.size());
            offered.push_back(text.substr(at, end - at));
            at = end + 2;
        }
        return offered;
    }
    for (const OptionValues& one : values_said()) {
        if (name != one.option) continue;
        for (const std::string_view value : one.values) {
            if (says(text, value)) offered.emplace_back(value);
        }
    }
    return offered;
}

}  // namespace samelight::command
