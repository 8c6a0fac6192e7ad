// The unit of a file, from all the places that may state it.
#include <algorithm>
#include <utility>

#include "io/layout/headings.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

bool same_unit(const PowerUnit& a, const PowerUnit& b) {
    return a.quantity == b.quantity && a.power_of_ten == b.power_of_ten && a.mega == b.mega;
}

}  // namespace

void collect_units(std::size_t line, std::string_view cell, const std::string& text,
                   std::vector<UnitStatement>& statements) {
    std::size_t from = 0;
    while (const std::optional<PowerUnit> unit = find_unit(text, from)) {
        from = unit->end;
        // Said again, it says nothing more.
        if (!statements.empty() && statements.back().line == line &&
            same_unit(statements.back().unit, *unit)) {
            continue;
        }
        statements.push_back(
            {*unit, text.substr(unit->begin, unit->end - unit->begin), line, cell});
    }
}

std::optional<UnitStatement> agreed_unit(
    const Sheet& sheet, std::vector<UnitStatement> statements,
    const std::vector<std::optional<UnitStatement>>& of_columns, const Headings& headings,
    const Layout& layout) {
    const auto spectral = [](const UnitStatement& s) { return s.unit.quantity != Quantity::other; };
    const bool above = std::any_of(statements.begin(), statements.end(), spectral);
    const auto lacks = std::find_if(of_columns.begin(), of_columns.end(),
                                    [&](const auto& s) { return !s.has_value() || !spectral(*s); });
    const bool some = std::any_of(of_columns.begin(), of_columns.end(),
                                  [&](const auto& s) { return s.has_value() && spectral(*s); });
    if (some && !above && lacks != of_columns.end()) {
        const auto light = static_cast<std::size_t>(lacks - of_columns.begin());
        refuse_light(sheet, layout, headings, light,
                     "no unit for " + shown(headings.names[light]) + " though others have one",
                     "a unit for each light, or one for all above the table");
    }
    for (const std::optional<UnitStatement>& statement : of_columns) {
        if (statement) statements.push_back(*statement);
    }
    if (statements.empty()) return std::nullopt;
    const auto first = std::find_if(statements.begin(), statements.end(), spectral);
    if (first == statements.end()) return statements.front();
    for (const UnitStatement& other : statements) {
        if (!spectral(other)) continue;
        if (other.unit.mega) {
            sheet.refuse(other.line, other.cell,
                         shown(other.text) + " may mean milliwatts or megawatts",
                         "mW for milliwatts");
        }
        if (!same_unit(first->unit, other.unit)) {
            sheet.refuse(other.line, other.cell,
                         "the unit " + shown(other.text) + " here, but " + shown(first->text) +
                             " in line " + std::to_string(sheet.lines()[first->line].number),
                         "one unit for all");
        }
    }
    return *first;
}

}  // namespace samelight::io::detail
