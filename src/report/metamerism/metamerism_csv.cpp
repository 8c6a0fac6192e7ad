#include <optional>
#include <string>
#include <vector>

#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/metamerism_answer.hpp"

#include "report/document/csv_cell.hpp"

namespace samelight::report {
namespace {

std::string row_text(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        line += (i == 0 ? "" : ",") + csv_cell(cells[i]);
    }
    return line + "\n";
}

void add_spread(const ViewerSpread& spread, std::vector<std::string>& cells) {
    for (const double value : {spread.mean, spread.median, spread.two_in_three, spread.p90,
                               spread.p95, spread.largest}) {
        cells.push_back(to_text(value));
    }
}

void add_spread_names(const std::string& prefix, std::vector<std::string>& cells) {
    for (const char* name : {"mean", "median", "two_in_three", "p90", "p95", "largest"}) {
        cells.push_back(prefix + name);
    }
}

/// The indices beyond means and percentiles; empty cells where they weren't worked out.
void add_indices(const std::optional<PopulationIndex>& index, std::vector<std::string>& cells) {
    if (!index) {
        cells.insert(cells.end(), 4, "");
        return;
    }
    for (const double value :
         {index->lightness_free, index->mcdm, index->ellipse_area_uv, index->ellipsoid_volume}) {
        cells.push_back(to_text(value));
    }
}

void add_index_names(const std::string& prefix, std::vector<std::string>& cells) {
    for (const char* name :
         {"lightness_free_p90_de00", "mcdm_de_ab", "ellipse_area_uv", "ellipsoid_volume_lab"}) {
        cells.push_back(prefix + name);
    }
}

}  // namespace

std::string metamerism_csv(const MetamerismAnswer& answer) {
    std::vector<std::string> heading = {"first", "second", "basis", "setting"};
    add_spread_names("white_de00_", heading);
    add_spread_names("white_uv_", heading);
    heading.emplace_back("white_pair_share");
    add_index_names("white_", heading);
    add_spread_names("colours_de00_", heading);
    heading.insert(heading.end(),
                   {"colours_largest_any_de00", "worst_colour", "worst_colour_mean_de00"});
    add_index_names("colours_", heading);
    add_spread_names("colours_uv_", heading);
    heading.insert(heading.end(),
                   {"colours_pair_share", "white_least_mean_de00", "white_units_low_mean_de00",
                    "white_units_high_mean_de00", "white_deviate_observer_de_ab"});
    std::string text = row_text(heading);
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        const MatrixPair& pair = answer.matrix.pairs[i];
        const assess::MetamerismPair& part = answer.pairs[i];
        for (std::size_t s = 0; s < pair.figures.size(); ++s) {
            const PairFigures& figures = pair.figures[s];
            std::vector<std::string> cells = {answer.panels[pair.first].name,
                                              answer.panels[pair.second].name, code_of(part.basis),
                                              code_of(answer.matrix.settings[s])};
            add_spread(figures.white_de00, cells);
            add_spread(figures.white_uv, cells);
            cells.push_back(to_text(figures.white_pair_share));
            add_indices(figures.white_index, cells);
            add_spread(figures.colours_de00, cells);
            cells.insert(cells.end(),
                         {to_text(figures.largest_de00), colour_name(figures.worst_colour),
                          to_text(figures.worst_colour_de00)});
            add_indices(figures.colours_index, cells);
            if (figures.colours_index) {
                add_spread(figures.colours_index->uv, cells);
                cells.push_back(to_text(figures.colours_index->pair_share));
            } else {
                cells.insert(cells.end(), 7, "");
            }
            cells.push_back(pair.least_white_de00 ? to_text(*pair.least_white_de00) : "");
            const bool of_units = part.units && answer.matrix.settings[s] == Setting::white_matched;
            cells.push_back(of_units ? to_text(part.units->low) : "");
            cells.push_back(of_units ? to_text(part.units->high) : "");
            cells.push_back(s == 0 && part.deviate ? to_text(part.deviate->de_ab) : "");
            text += row_text(cells);
        }
    }
    return text;
}

}  // namespace samelight::report
