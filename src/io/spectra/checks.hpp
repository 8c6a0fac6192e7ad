#pragma once
// What the numbers of a table must satisfy before they are spectra.
#include <string>
#include <vector>

#include "io/layout/headings.hpp"
#include "io/layout/layout.hpp"
#include "io/layout/table.hpp"
#include "io/spectra/repeats.hpp"
#include "io/text/sheet.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

/// A file on its way to a SpectralFile.
struct Reading {
    const Sheet& sheet;
    const Layout& layout;
    const Headings& headings;
    Table& table;
    SpectralFile& file;
};

/// Makes the wavelengths ascend. Throws Error (input) for too few, unordered or repeated ones, for another unit than
/// nm and for a range that doesn't cover 400-700 nm.
void order_wavelengths(const Reading& reading);

/// Brings the values to W/(sr m2 nm) where the file states a unit. Throws Error (input) for magnitudes above 1e30.
void convert_values(const Reading& reading);

/// Whether it is the warning that convert_values() made of the file's unit.
bool says_unit_of_power(const SpectralFile& file, const Warning& warning);

/// The lights that the names themselves make. Throws Error (input) for two lights of one role, for a name whose colour depends on the
/// language, for names that look like wavelengths.
std::vector<RepeatGroup> named_groups(const Reading& reading);

/// Averages repeats into the file's lights. Throws Error (input) for repeats that are no repeats.
void average_repeats(const Reading& reading, const std::vector<RepeatGroup>& groups);

/// Throws Error (input) for lights without light and for values too far below 0; warns of what is doubtful.
void check_values(const Reading& reading, const std::vector<RepeatGroup>& groups);

}  // namespace samelight::io::detail
