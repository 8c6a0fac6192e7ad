#pragma once
// Files that list patches: signals, or reflectances of surfaces.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What a list of patches holds: one of the two.
struct PatchList {
    /// The file's name as it was given.
    std::string source;
    /// Patches as signals, each of the codes or the level that its row has.
    std::vector<SignalPatch> signals;
    /// Surfaces, reflectance factors from 0 to 1.5.
    std::vector<SurfacePatch> surfaces;
    /// How the file was read: whole sentences for people.
    std::vector<std::string> understood;
    /// See parse_patch_list_csv().
    std::vector<Warning> warnings = {};
};

/// Reads a list of patches. As parse_patch_list_csv(), and throws Error (system) for what can't be opened or read, Error (input) for
/// what is no regular file or too large.
[[nodiscard]] SAMELIGHT_API PatchList read_patch_list_csv(const std::filesystem::path& file,
                                                          const UnsaidCodes& unsaid = {});

/// Understands the text of a list of patches, with the same tolerance as parse_patch_readings_csv(). Either
/// - one row a patch: patch, its name, and r, g, b with bits and range, or level_pct, as in files of readings, whose values and other columns are
///   left alone; or
/// - spectra (parse_spectral_csv()): each column the reflectance factor of a surface, 0 to 1.5 (fluorescence), or in per cent where a value is above
///   that.
/// CGATS.17 text is understood as either: RGB_R, RGB_G, RGB_B (code values), or spectra.
/// Warnings (codes) of signals: `codes_look_limited`, as parse_patch_readings_csv(); `levels_look_like_shares`, levels of which none is above 1.
/// Throws Error (input), one line: file:line:column, what was found, what was wanted.
[[nodiscard]] SAMELIGHT_API PatchList parse_patch_list_csv(std::string_view bytes,
                                                           const std::string& source,
                                                           const UnsaidCodes& unsaid = {});

}  // namespace samelight::io
