#pragma once
// Files of spectra: reads the plain form, what instruments export and the exchange forms of standards, writes the plain form.
#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io {

/// What the values of a file measure.
enum class LightUnit {
    /// W/(sr m2 nm), converted to it where the file states a multiple of it
    spectral_radiance,
    /// The file states no unit of spectral radiance.
    relative
};

/// One light of a file.
struct LightColumn {
    /// As in the file, trimmed, without a unit and without a repeat's number.
    std::string name;
    /// Its spectrum, ascending; the mean where there are repeats.
    Spectrum light;
    /// How many columns (or rows) of the file it was averaged from.
    int repeats = 1;
    /// Standard deviation (n - 1) of the repeats' areas over their mean area; 0 where there is one, or where the mean area isn't above 0
    /// (noise around zero).
    double repeat_spread = 0;
};

/// Which light of a file plays a part on a display, where its name doesn't say so or its other lights stand in other files.
struct LightChoice {
    /// "red", "green", "blue", "white" or "black"
    std::string role;
    /// A heading, in capitals or not, or a number, the first light's being 1; empty: the file's only light, or else the one that bears the
    /// role's name.
    std::string column = {};
};

/// Two of a display's lights of which one holds a thousandth of the other's light, or less.
struct ScalesThatDiffer {
    /// Names of the lights.
    std::string weakest, strongest;
    /// Of the weakest over the strongest, as areas.
    double share = 0.0;
};

/// How a comment line begins in a file that holds a model of a type; the type's title follows.
inline constexpr std::string_view generic_model_mark = "generic model, not a measured display: ";

/// What a file of spectra holds, and what was understood on the way.
struct SAMELIGHT_API SpectralFile {
    /// The file's name as it was given.
    std::string source;
    /// In the file's order, all on the same wavelengths (nm); at least one.
    std::vector<LightColumn> lights;
    LightUnit unit = LightUnit::relative;
    /// What stands behind generic_model_mark in a comment; empty for a measurement.
    std::string model_title;
    /// How many lights of the file nobody asked for.
    std::size_t left_out = 0;
    /// How the file was read: whole sentences for people.
    std::vector<std::string> understood;
    /// See parse_spectral_csv().
    std::vector<Warning> warnings;
    /// The one peak that all of two or more lights reach, which says nothing of their scale (`scale_unknown`).
    std::optional<double> equal_peak = {};
    /// Lights of a display that can't be on one scale (`scales_differ`).
    std::optional<ScalesThatDiffer> scales_differ = {};
    /// A unit of radiant power that isn't spectral radiance, as a message shows it, values taken as relative (`unit_not_radiance`); else empty.
    std::string unit_of_power = {};

    /// The light that plays a role on a display, or null where there is none.
    /// @param role "red", "green", "blue", "white" or "black". A light plays it if its name is that word or its
    /// letter (R, G, B, W, K), in capitals or not, or that word in German, French, Spanish, Italian, Dutch, Japanese or Chinese, its
    /// accents written in any way. Any other role: null. A file never holds two lights for one role.
    [[nodiscard]] const LightColumn* find(std::string_view role) const;
};

/// The most that read_spectral_csv() and parse_spectral_csv() accept: 16 MiB, 200,000 lines, 100,000 cells in a line.
inline constexpr std::size_t largest_spectral_file_bytes = std::size_t{16} << 20;

/// Reads a file of spectra. As parse_spectral_csv(), and:
///
/// @param file a regular file (or a link to one) of at most 16 MiB; the size is checked before a byte is read
/// Throws Error (system) for what can't be opened or read, Error (input) for what is no regular file, is too large or
/// can't be understood.
[[nodiscard]] SAMELIGHT_API SpectralFile
read_spectral_csv(const std::filesystem::path& file, std::span<const LightChoice> choices = {});

/// Understands the text of a file of spectra.
///
/// The plain form: UTF-8, commas between cells, a heading row, first column `wavelength_nm` (nm), each further column one
/// light, lines that begin with # are comments. Accepted as well, and told in `understood`: other encodings (see
/// decode_text()) and line ends; semicolons or tabs between cells; decimal commas; quoted cells; heading lines of any kind
/// before the table and summary lines after it; wavelengths across (a row of wavelengths, then one row a light);
/// descending wavelengths; wavelengths such as "380nm" or "λ=380"; wavelengths said to be in µm, Å or m, converted to nm; even or uneven steps;
/// multiples of W/(sr m2 nm) stated in a heading, a comment or a name; trailing separators and blank lines; repeats of a light.
///
/// Two forms of standards are told by their content: XML, of which TM-27 is understood, and CGATS.17 text.
/// - IES TM-27 XML (IESTM2714, in either of its namespaces) holds one light, whose name is its Description. A unit is taken from its
///   SpectralQuantity, Description or Comments. A document type declaration, more than 400,000 of < or = and every number that isn't written in
///   plain digits are refused, and so are quantities of surfaces (reflectance).
/// - CGATS.17 text (ISO 28178) holds a light in each set, SAMPLE_NAME or else SAMPLE_ID its name, with SPECTRAL_NM and SPECTRAL_DEC (or SPECTRAL_PCT,
///   taken as hundredths) for each wavelength; or, where a set has one of each, a light in all sets of one name. Sections without spectra are
///   left out. Blanks or tabs between values, decimal commas, lines that begin with # as comments. A unit is taken from DESCRIPTOR, comments
///   and names. Refused besides: sections that don't end, and other numbers of fields or sets than NUMBER_OF_FIELDS and NUMBER_OF_SETS say.
/// Source: IES TM-27-14; CGATS.17-2009, ISO 28178, keywords from memory; a set for each wavelength, comments and units: own rules.
///
/// Repeats are lights of the same name, or the same name with "(2)", "#2" or "repeat 2" behind it, or a role (see
/// SpectralFile::find()) with a bare number behind it ("red 2", "red_2", "R2"), a letter only where every name of the
/// file is a role. They are averaged where no two differ by more than 10 % in area or .01 in CIE 1931 x, y, plus 4 standard errors of
/// their own noise, and each lies within 20 % of their mean besides its noise (sum of differences over sum of magnitudes); `black`,
/// which may be noise, excepted. Otherwise they are lights of their own, such as of two picture modes, and the file is refused.
///
/// What can be read in two ways is refused, naming both; so are frequencies, wavenumbers and energies, as the values are then per unit
/// of these. Wanted besides: at least 2 wavelengths, each once, in order, from 100 to 5000 nm, covering 400-700 nm; a finite number of
/// magnitude up to 1e30 in every cell; in each light a value above 0;
/// below zero nothing but noise: no value below -0.5 % of the brightest light's peak that lies 6 standard deviations below zero, none of a
/// stretch that white noise would hardly make (from a mean of -0.25 % on), by the noise that the light itself shows where it is dark. A
/// light in the role of black may be noise around zero of any size up to 5 % of that peak, or 6 standard deviations of the other lights'
/// noise, but only noise: no mean below zero that its scatter doesn't explain, no long run below zero (from 0.1 % of the peak on), no
/// value far below all others.
///
/// Warnings (codes): `negative_noise` negative values that may be noise, in black only where they aren't noise but too small to matter;
/// `scale_unknown` two or more lights with all the same peak; `scales_differ` red, green, blue or white with a thousandth of the light of another one
/// of them, or less;
/// `unit_not_radiance` a unit of radiant power that isn't spectral radiance, values taken as
/// relative; `coarse_step` neighbouring wavelengths more than 10 nm apart; `repeats_differ` a repeat_spread above 5 %
/// (in a light other than black).
///
/// @param bytes   the whole file, at most 16 MiB
/// @param source  its name, for messages
/// @param choices the lights that are wanted, each role once at most; none: all. Those chosen bear their roles' names, the others aren't
///                looked at. Where none but black is chosen it isn't judged against lights that stand elsewhere.
/// Time is linear in the number of bytes (well under 0.1 s for 1 MB).
/// Throws Error (input), one line: file:line:column, what was found, what was wanted. Line and column (characters) count
/// from 1.
[[nodiscard]] SAMELIGHT_API SpectralFile parse_spectral_csv(
    std::string_view bytes, const std::string& source, std::span<const LightChoice> choices = {});

/// The plain form of some lights, which parse_spectral_csv() reads back to the bit.
///
/// @param comment_lines written first, each behind "# "; without line breaks
/// @param lights        at least one, all on the same wavelengths; values up to 1e30 in magnitude; names of 1 to 1000 bytes,
///                      without line breaks, control characters or blanks at the ends, different (capitals or not)
/// @param unit          spectral_radiance is stated in a comment; a comment line or a name must not state another unit
/// Throws Error (domain) for text or values out of these bounds and Error (shape) for no light or unequal wavelengths.
/// Only what meets parse_spectral_csv()'s demands (range, signs, names) can be read back; that isn't checked here.
[[nodiscard]] SAMELIGHT_API std::string spectral_csv_text(
    const std::vector<std::string>& comment_lines, std::span<const LightColumn> lights,
    LightUnit unit = LightUnit::relative);

}  // namespace samelight::io
