#include "description.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include <nlohmann/json.hpp>

#include "offered_values.hpp"

namespace samelight::command {

namespace {

using Json = nlohmann::ordered_json;

Json names_of(const std::set<CLI::Option*>& options) {
    Json names = Json::array();
    for (const CLI::Option* one : options)
        names.push_back(one->get_name());
    std::sort(names.begin(), names.end());  // the set has them as they lie in memory
    return names;
}

Json described_option(const CLI::App& command, const CLI::Option& option) {
    Json names = Json::array();
    for (const std::string& name : option.get_snames())
        names.push_back("-" + name);
    for (const std::string& name : option.get_lnames())
        names.push_back("--" + name);
    const bool positional = option.get_positional();
    const std::string type = option.get_type_name();
    const bool takes_value = positional || option.get_items_expected_max() > 0;
    const bool number = type == "FLOAT" || type == "INT" || type == "UINT";
    Json described;
    described["names"] = std::move(names);
    described["value"] = takes_value ? Json(positional     ? option.get_name()
                                            : type.empty() ? "TEXT"
                                                           : type)
                                     : Json();
    described["description"] = option.get_description();
    described["default"] = takes_value ? option.get_default_str() : std::string();
    described["required"] = option.get_required();
    described["needs"] = names_of(option.get_needs());
    described["excludes"] = names_of(option.get_excludes());
    described["repeats"] =
        takes_value && (option.get_expected_max() > 1 ||
                        option.get_multi_option_policy() == CLI::MultiOptionPolicy::TakeAll);
    described["number"] = number ? type : std::string();
    described["values"] = offered_values(command, option);
    return described;
}

Json described(const CLI::App& command) {
    Json all;
    all["name"] = command.get_name();
    all["description"] = command.get_description();
    Json& options = all["options"] = Json::array();
    for (const CLI::Option* option :
         command.get_options([](const CLI::Option* one) { return !one->get_group().empty(); })) {
        options.push_back(described_option(command, *option));
    }
    Json& commands = all["commands"] = Json::array();
    for (const CLI::App* one : command.get_subcommands([](const CLI::App*) { return true; })) {
        commands.push_back(described(*one));
    }
    return all;
}

}  // namespace

std::string description_json(const CLI::App& app) { return described(app).dump(1) + "\n"; }

}  // namespace samelight::command
