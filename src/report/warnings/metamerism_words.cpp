// What is doubtful about a comparison of displays, in words.
#include <array>
#include <span>
#include <string>

#include "report/warnings/facts_said.hpp"

namespace samelight::report {
namespace {

std::string mixed_said(const FactsSaid&) {
    return "Some of these panels were measured and some are generic models: compare figures of one "
           "kind only, since a generic model stands for a type and not for a unit.";
}

std::string colours_said(const FactsSaid& f) {
    return f.number("left_out", 0) + " of " + f.number("asked", 0) +
           " colours can't be shown by every panel and were left out of every pair.";
}

constexpr std::array<WarningWords, 2> metamerism_catalogue{
    {{"mixed_origins", mixed_said}, {"colours_left_out", colours_said}}};

}  // namespace

std::span<const WarningWords> words_of_metamerism() { return metamerism_catalogue; }

}  // namespace samelight::report
