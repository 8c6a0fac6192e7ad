#pragma once
// Files of populations: the parameters from which the same people are made again.
#include <filesystem>
#include <string>
#include <string_view>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::io {

/// The parameters as JSON, "samelight/population/1", which parse_population() reads back to the bit: a population made of them has the same
/// people. Ages in years, field in degrees, spread in per cent and nm. Throws Error (domain) as Population for parameters out of their ranges.
[[nodiscard]] SAMELIGHT_API std::string population_text(const PopulationParameters& parameters);

/// Writes that text, aside and renamed. Throws as population_text() and write_file_atomically().
SAMELIGHT_API void write_population(const std::filesystem::path& file,
                                    const PopulationParameters& parameters);

/// Reads such a file. As parse_population(), and throws Error (system) for what can't be opened or read.
[[nodiscard]] SAMELIGHT_API PopulationParameters read_population(const std::filesystem::path& file);

/// Understands the text of such a file, a JSON object with these keys, all of which must be there; keys that this version doesn't know are refused,
/// since they may make other people:
/// - schema                   "samelight/population/1"
/// - version                  which version wrote it, free text
/// - ages                     youngest_years and oldest_years, evenly between them, 20 to 80; or counts, an array of age_years and people
/// - field_deg                diameter of the field, degrees, 1 to 10
/// - pupil                    "small" or "open"
/// - peak_densities           "three_decimals" or "unrounded"
/// - spread                   standard deviations: lens_percent, macula_percent, l_, m_ and s_density_percent, l_, m_ and s_shift_nm
/// - below_minus_100          "clip" or "reject"
/// - people                   how many, 1 to 2^32
/// - sampler                  "scrambled_sobol" or "pseudo_random"
/// - seed                     0 to 2^64 - 1
/// @param bytes  at most 16 MiB, brackets 32 within each other at most
/// @param source its name, for messages
/// Throws Error (input), one line that names the key, for what can't be understood, and for numbers out of their ranges.
[[nodiscard]] SAMELIGHT_API PopulationParameters parse_population(std::string_view bytes,
                                                                  const std::string& source);

}  // namespace samelight::io
