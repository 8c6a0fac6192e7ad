#pragma once
// A cell of a CSV file that is written.
#include <string>

namespace samelight::report {

/// As it is, or in quotes where it holds what has a meaning in CSV, to whatever reads it.
std::string csv_cell(const std::string& text);

}  // namespace samelight::report
