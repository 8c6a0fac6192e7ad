#pragma once
// Files of deviation functions: how a test observer deviates from a standard one, which the user supplies.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/metamerism/special_index.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What a file of deviation functions holds.
struct DeviationFunctions {
    /// The file's name as it was given.
    std::string source;
    /// Ascending in wavelength, nm.
    std::vector<ObserverDeviation> rows;
    /// How it was read, whole sentences.
    std::vector<std::string> understood;
};

/// Reads a file of deviation functions. As parse_deviation_functions(); throws also Error (system) for what can't be opened or read, and
/// Error (input) for what is no regular file or larger than 1 MiB.
[[nodiscard]] SAMELIGHT_API DeviationFunctions
read_deviation_functions(const std::filesystem::path& file);

/// Understands the text of such a file: four columns, the wavelength in nm and what is added to the three colour-matching functions x, y, z
/// at it; a heading row must name x, y and z in this order (dx1, deviation_x, X); lines that begin with # are skipped. Commas, semicolons or tabs
/// between the columns; decimal commas where the columns are not separated by commas.
///
/// Wanted besides: two rows or more, wavelengths from 100 to 5000 nm, ascending and covering 400-700 nm, deviations from -1 to 1.
/// @param bytes   the whole file, in any encoding that decode_text() knows
/// @param source  its name, for messages
/// Throws Error (input), one line: file:line, what was found, what was wanted.
[[nodiscard]] SAMELIGHT_API DeviationFunctions parse_deviation_functions(std::string_view bytes,
                                                                         const std::string& source);

}  // namespace samelight::io
