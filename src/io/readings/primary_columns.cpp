#include "io/readings/primary_columns.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/layout/roles.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

enum class PrimaryKind { name, x, y, X, Y, Z, luminance, other };

/// A heading taken apart: "Y (cd/m2)", "luminance cd/m2", "x10".
struct PrimaryHeading {
    PrimaryKind kind = PrimaryKind::other;
    /// What stands behind the name, in small letters and without brackets: a unit, or an observer.
    std::string behind;
};

PrimaryKind primary_kind(std::string_view name) {
    constexpr std::array<std::string_view, 5> symbols = {"x", "y", "X", "Y", "Z"};
    const auto* const symbol = std::find(symbols.begin(), symbols.end(), name);
    if (symbol != symbols.end()) {
        return static_cast<PrimaryKind>(1 + (symbol - symbols.begin()));
    }
    const std::string word = lowered(name);
    if (heads_names(word)) {
        return PrimaryKind::name;
    }
    return heads_luminance(word) ? PrimaryKind::luminance : PrimaryKind::other;
}

PrimaryHeading primary_heading(std::string_view cell) {
    std::size_t end = std::min(cell.find_first_of(" (["), cell.size());
    // The symbols of the 10 degree observer, x10 or X_10, and as few write them, those of 2 degrees.
    constexpr std::string_view of_observer = "xyXYZ";
    if (end > 1 && of_observer.find(cell.front()) != std::string_view::npos) {
        const std::string_view index = cell.substr(cell[1] == '_' ? 2 : 1, end - 1);
        if (index.starts_with("10") || index.starts_with('2')) {
            end = 1;
        }
    }
    PrimaryHeading heading{primary_kind(cell.substr(0, end)), {}};
    for (const char c : lowered(cell.substr(end))) {
        if (std::string_view("()[]_").find(c) == std::string_view::npos) {
            heading.behind += c;
        }
    }
    heading.behind = std::string(trimmed(heading.behind));
    return heading;
}

/// What the four lights share, so that only their ratios count.
bool is_scale_of_luminance(const std::string& unit) {
    constexpr std::array<std::string_view, 6> known = {"%",   "fl",   "relative",
                                                       "rel", "rel.", "a.u."};
    return is_luminance_unit(unit) || std::find(known.begin(), known.end(), unit) != known.end();
}

/// CIE 1931 by its year or by its 2 degrees, alone or with CIE and degrees beside it.
bool is_standard_2deg(const std::string& text) {
    std::string left;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::string_view rest = std::string_view(text).substr(i);
        std::size_t skip = rest.starts_with(' ') || rest.starts_with('-') ? 1 : 0;
        for (const std::string_view word :
             {"cie", "degrees", "degree", "deg", "°", "observer", "standard"}) {
            skip = skip == 0 && rest.starts_with(word) ? word.size() : skip;
        }
        if (skip == 0) {
            left += text[i];
        } else {
            i += skip - 1;
        }
    }
    return left.empty() || left == "2" || left == "1931" || left == "19312" || left == "21931";
}

class PrimaryHeadings {
  public:
    PrimaryHeadings(const Sheet& sheet, std::size_t line, const std::vector<Cell>& cells)
        : sheet_(sheet), line_(line), cells_(cells) {
        for (const Cell& cell : cells) {
            headings_.push_back(primary_heading(cell.text));
        }
    }

    /// Whether these are such columns; one called instrument is of a file of paired readings.
    [[nodiscard]] bool are_meant() const {
        const bool paired = std::any_of(cells_.begin(), cells_.end(), [](const Cell& cell) {
            return lowered(cell.text) == "instrument";
        });
        const bool xy = has(PrimaryKind::x) && has(PrimaryKind::y);
        const bool xyz = has(PrimaryKind::X) && has(PrimaryKind::Y) && has(PrimaryKind::Z);
        return !paired && has(PrimaryKind::name) && (xy || xyz);
    }

    [[nodiscard]] PrimaryColumns columns() const {
        PrimaryColumns found;
        found.line = line_;
        const std::array<std::size_t*, 7> places = {&found.name,     &found.xy[0],  &found.xy[1],
                                                    &found.xyz[0],   &found.xyz[1], &found.xyz[2],
                                                    &found.luminance};
        for (std::size_t k = 0; k < headings_.size(); ++k) {
            const PrimaryKind kind = headings_[k].kind;
            if (kind == PrimaryKind::other) {
                continue;
            }
            std::size_t& place = *places.at(static_cast<std::size_t>(kind));
            if (place != PrimaryColumns::nowhere) {
                sheet_.refuse(line_, cells_[k].text,
                              "a second column " + shown(cells_[k].text) + ", beside " +
                                  shown(cells_[place].text),
                              "one column of each kind");
            }
            place = k;
            check_behind(k);
        }
        return found;
    }

  private:
    [[nodiscard]] bool has(PrimaryKind kind) const {
        return std::any_of(headings_.begin(), headings_.end(),
                           [&](const PrimaryHeading& heading) { return heading.kind == kind; });
    }

    void check_behind(std::size_t k) const {
        const PrimaryHeading& heading = headings_[k];
        const bool luminance = heading.kind >= PrimaryKind::X;
        if (heading.kind == PrimaryKind::name || is_standard_2deg(heading.behind) ||
            (luminance && is_scale_of_luminance(heading.behind))) {
            return;
        }
        sheet_.refuse(line_, cells_[k].text,
                      shown(cells_[k].text) + ", in another unit or of another observer",
                      luminance ? "CIE 1931, 2 degrees, in cd/m2" : "CIE 1931, 2 degrees");
    }

    const Sheet& sheet_;
    std::size_t line_;
    const std::vector<Cell>& cells_;
    std::vector<PrimaryHeading> headings_;
};

}  // namespace

std::optional<PrimaryColumns> find_primary_columns(const Sheet& sheet, char separator) {
    constexpr std::size_t lines_looked_at = 20;
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < std::min(sheet.lines().size(), lines_looked_at); ++i) {
        if (sheet.lines()[i].comment) {
            continue;
        }
        sheet.split(i, separator, cells);
        const PrimaryHeadings headings(sheet, i, cells);
        if (headings.are_meant()) {
            return headings.columns();
        }
    }
    return {};
}

}  // namespace samelight::io::detail
