// Files of populations.
#include "samelight/io/answers/population_file.hpp"
#include "samelight/io/atomic_write.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/answers/kept_json.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io {
namespace {

using PopulationJson = nlohmann::ordered_json;
using detail::Node;

constexpr const char* population_schema = "samelight/population/1";
constexpr std::array<const char*, eye_factor_count> spread_keys = {
    "lens_percent",      "macula_percent", "l_density_percent", "m_density_percent",
    "s_density_percent", "l_shift_nm",     "m_shift_nm",        "s_shift_nm"};

/// The two values of a choice and what they are called in the file.
template <class Choice>
struct ChoiceNames {
    const char* key;
    std::array<std::pair<Choice, const char*>, 2> names;
};

constexpr ChoiceNames<Pupil> pupil_names{"pupil",
                                         {{{Pupil::small, "small"}, {Pupil::open, "open"}}}};
constexpr ChoiceNames<PeakDensities> densities_names{
    "peak_densities",
    {{{PeakDensities::three_decimals, "three_decimals"}, {PeakDensities::unrounded, "unrounded"}}}};
constexpr ChoiceNames<BelowMinus100> below_names{
    "below_minus_100", {{{BelowMinus100::clip, "clip"}, {BelowMinus100::reject, "reject"}}}};
constexpr ChoiceNames<Sampler> sampler_names{
    "sampler",
    {{{Sampler::scrambled_sobol, "scrambled_sobol"}, {Sampler::pseudo_random, "pseudo_random"}}}};

template <class Choice>
void put(PopulationJson& json, const ChoiceNames<Choice>& choice, Choice value) {
    for (const auto& [known, name] : choice.names) {
        if (known == value) {
            json[choice.key] = name;
        }
    }
}

template <class Choice>
Choice chosen(const Node& node, const ChoiceNames<Choice>& choice) {
    const Node found = node.require(choice.key, "a word");
    const std::string word = found.text();
    for (const auto& [known, name] : choice.names) {
        if (word == name) {
            return known;
        }
    }
    found.refuse_value(std::string(choice.names[0].second) + " or " + choice.names[1].second);
}

PopulationJson ages_json(const Ages& ages) {
    if (ages.cumulative().empty()) {
        return {{"youngest_years", ages.youngest()}, {"oldest_years", ages.oldest()}};
    }
    PopulationJson counts = PopulationJson::array();
    double before = 0.0;
    for (const AgeCount& entry : ages.cumulative()) {
        counts.push_back({{"age_years", entry.age_years},
                          {"people", static_cast<std::uint64_t>(entry.count - before)}});
        before = entry.count;
    }
    return {{"counts", std::move(counts)}};
}

/// Refuses keys that this version doesn't know.
void require_known(const Node& node, const std::set<std::string>& known) {
    for (const auto& [key, value] : node.members()) {
        if (!known.contains(key)) {
            value.refuse("a key that isn't known", "a file that this version has written");
        }
    }
}

Ages kept_ages(const Node& node) {
    if (const auto counts = node.find("counts")) {
        require_known(node, {"counts"});
        std::vector<AgeCount> ages;
        for (const Node& entry : counts->items("an array of ages")) {
            require_known(entry, {"age_years", "people"});
            ages.push_back({detail::number_at(entry, "age_years"),
                            static_cast<double>(detail::count_at(entry, "people"))});
        }
        if (ages.empty()) {
            counts->refuse_value("an age at least");
        }
        return detail::made_of(*counts, [&] { return Ages::counted(std::move(ages)); });
    }
    require_known(node, {"youngest_years", "oldest_years"});
    const double youngest = detail::number_at(node, "youngest_years");
    const double oldest = detail::number_at(node, "oldest_years");
    return detail::made_of(node, [&] { return Ages::range(youngest, oldest); });
}

DeviationSpread kept_spread(const Node& node) {
    require_known(node, {spread_keys.begin(), spread_keys.end()});
    std::array<double, eye_factor_count> values{};
    for (std::size_t i = 0; i < spread_keys.size(); ++i) {
        values.at(i) = detail::number_at(node, spread_keys.at(i));
    }
    return DeviationSpread::of(values);
}

/// All 64 bits, which a double doesn't hold.
std::uint64_t kept_seed(const Node& node) {
    const Node seed = node.require("seed", "a whole number");
    if (!seed.json().is_number_unsigned()) {
        seed.refuse_value("a whole number from 0 to 2^64 - 1");
    }
    return seed.json().get<std::uint64_t>();
}

}  // namespace

std::string population_text(const PopulationParameters& parameters) {
    // What can't be a population must not be kept as one.
    static_cast<void>(Population(parameters));
    PopulationJson json = {{"schema", population_schema}, {"version", version}};
    json["ages"] = ages_json(parameters.ages);
    json["field_deg"] = parameters.field_deg;
    put(json, pupil_names, parameters.pupil);
    put(json, densities_names, parameters.peak_densities);
    const auto spread = parameters.spread.values();
    for (std::size_t i = 0; i < spread.size(); ++i) {
        json["spread"][spread_keys.at(i)] = spread.at(i);
    }
    put(json, below_names, parameters.below_minus_100);
    json["people"] = parameters.count;
    put(json, sampler_names, parameters.sampler);
    json["seed"] = parameters.seed;
    return json.dump(2) + "\n";
}

void write_population(const std::filesystem::path& file, const PopulationParameters& parameters) {
    write_file_atomically(file, population_text(parameters));
}

PopulationParameters parse_population(std::string_view bytes, const std::string& source) {
    const std::string file = harmless(source);
    const auto json =
        detail::answer_json(bytes, file, population_schema, "the JSON of a population");
    const Node node(json, "", file, ErrorKind::input);
    require_known(node, {"schema", "version", "ages", "field_deg", "pupil", "peak_densities",
                         "spread", "below_minus_100", "people", "sampler", "seed"});
    static_cast<void>(detail::text_at(node, "version"));
    PopulationParameters parameters;
    parameters.ages = kept_ages(node.require("ages", "an object"));
    parameters.field_deg = detail::number_at(node, "field_deg");
    parameters.pupil = chosen(node, pupil_names);
    parameters.peak_densities = chosen(node, densities_names);
    parameters.spread = kept_spread(node.require("spread", "an object"));
    parameters.below_minus_100 = chosen(node, below_names);
    parameters.count = detail::count_at(node, "people");
    parameters.sampler = chosen(node, sampler_names);
    parameters.seed = kept_seed(node);
    static_cast<void>(detail::made_of(node, [&] { return Population(parameters); }));
    return parameters;
}

PopulationParameters read_population(const std::filesystem::path& file) {
    return parse_population(detail::file_bytes(file, detail::largest_answer_bytes, "a population"),
                            detail::source_name(file));
}

}  // namespace samelight::io
