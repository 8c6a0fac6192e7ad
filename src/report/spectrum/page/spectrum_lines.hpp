#pragma once
// What known lines in a column say of the instrument's wavelengths, in words.
#include <string>

#include "samelight/assess/spectrum_answer.hpp"

namespace samelight::report {

/// "0.31 nm too long".
std::string shift_said(double shift_nm);

/// The same with how sure it is, in a few words for a table.
std::string shift_in_short(const assess::ColumnLines& lines);

/// Whether a shift is so uncertain that nobody should act on it: more than a nm either way.
bool shift_is_vague(const assess::ColumnLines& lines);

/// All that the lines say, which of them were used and which not.
std::string lines_said(const assess::ColumnLines& lines);

}  // namespace samelight::report
