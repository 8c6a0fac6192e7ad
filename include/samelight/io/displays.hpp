#pragma once
// Displays as people name them: one file each, single files for their lights, columns with other names.
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/primary_readings_csv.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::io {

/// "red", "green", "blue", "white" or "black" for a word or a letter that says so in any language of SpectralFile::find(); empty for another.
SAMELIGHT_API std::string light_named(const std::string& word);

/// Where a light of a display stands.
struct LightPlace {
    /// "red", "green", "blue", "white" or "black"
    std::string role;
    /// Its name, or - for standard input.
    std::string file;
    /// See LightChoice; empty: the file's only light, or else the one of that role.
    std::string column = {};
};

/// What is said of the lights of all displays at once.
struct LightOptions {
    /// A file (a name with a dot or a slash, or -) that holds this light, FILE#COLUMN for one light of several; or else the heading or
    /// number of its column in each file of a display. Empty: nothing said. The lights in files make one display.
    std::string red = {}, green = {}, blue = {}, white = {}, black = {};
    /// ROLE=COLUMN,...: headings or numbers, also those with a dot or a slash
    std::string columns = {};
    /// What stands before "red" to "black" and "columns" where an error names one of these, such as the mark of a program's options.
    std::string mark = {};
};

/// The places in a word ROLE=FILE,ROLE=FILE#COLUMN,..., in which commas count only before the next ROLE=; none where the word doesn't
/// begin with a role and =. A # ends a file's name unless there is a file of the whole name. Roles in any language of
/// SpectralFile::find(). Throws Error (input) for what begins so and can't be understood.
SAMELIGHT_API std::vector<LightPlace> light_places(const std::string& word);

/// The lights of one display from the files that hold them, each on its own wavelengths, under their roles' names; its source is the first
/// file and how many more there are. Each file is read once. Warnings as parse_spectral_csv(), "scale_unknown" and "scales_differ" of
/// all files together.
/// Throws Error (input, system) for a file that can't be read, for files in different units, and for a black that lies below zero by more
/// than noise beside the other lights.
SAMELIGHT_API SpectralFile read_display_files(std::span<const LightPlace> places);

/// A file, and which of its lights are wanted; none: all.
struct FileOfLights {
    std::string file;
    std::vector<LightChoice> choices = {};
};

/// The files of some places, each once.
SAMELIGHT_API std::vector<FileOfLights> by_file(std::span<const LightPlace> places);

/// The display that the options name in files of their own; empty where they name none. Throws Error (input).
SAMELIGHT_API std::vector<LightPlace> places_in_options(const LightOptions& options);

/// The columns that the options name. Throws Error (input) for a list that can't be read and for a role that is named twice.
SAMELIGHT_API std::vector<LightChoice> columns_in_options(const LightOptions& options);

/// Whether a word is a file of its own, in which the options' columns are looked for: no built-in panel, no ROLE=FILE. Throws Error (input) for
/// a word that can't be understood.
SAMELIGHT_API bool takes_columns(const std::string& word);

/// Throws Error (input), the name of what says so first, for a column that the options name and that is of no file: neither is one of the words a
/// file of its own, nor do the options name a file for that light.
SAMELIGHT_API void require_columns_used(const std::vector<std::string>& words,
                                        const LightOptions& options);

/// The files that words and options name, for whoever must not write on them.
SAMELIGHT_API std::vector<std::string> files_named(const std::vector<std::string>& words,
                                                   const LightOptions& options);

/// A display that could be opened.
struct OpenedDisplay {
    /// As it was asked for; of single files the first and how many more there are.
    std::string name;
    NamedPanel display;
};

/// A display of which a file holds readings in numbers (parse_primary_readings()).
struct OpenedReadings {
    /// The file's name, without @x,y.
    std::string name;
    NamedPrimaryReadings read;
    /// Its white as set, where NAME@x,y was asked for.
    std::optional<Chromaticity<Cie1931_2deg>> set_to = {};
    /// How many of OpenedDisplays::displays stand before it in the order of the words.
    std::size_t behind = 0;
};

/// What a file among the words may hold.
enum class FilesOf {
    /// Spectra.
    spectra,
    /// Spectra, or a table of readings.
    spectra_or_readings,
};

/// Displays in the order of the words, and what was wrong with those that are missing.
struct OpenedDisplays {
    std::vector<OpenedDisplay> displays;
    std::vector<Error> errors;
    /// Of files that hold readings, in the order of the words too.
    std::vector<OpenedReadings> readings = {};
};

/// Opens every display that the words name (see open_panel()), and last the one whose lights the options name in files of their own.
///
/// Two or more files among the words that hold one light each make one display, at the place of the first. What each is, its heading says
/// or its file's name, a role's word or letter in it; both must not disagree, and no role may come twice. Such a display is left out where
/// another file of the list can't be read, which may be a part of it, unless it has all five lights: that file's error says so.
/// A file of readings has no columns to choose from: where the options name some it is among the errors. Columns of no file at all aren't
/// missed here, see require_columns_used().
/// Throws Error (input) for options and words that can't be understood, a name that no built-in panel has among them; what is wrong with the
/// files of a display is among the errors, said of that display.
SAMELIGHT_API OpenedDisplays open_displays(const std::vector<std::string>& words,
                                           const LightOptions& options,
                                           const Sampling& sampling = {},
                                           FilesOf files = FilesOf::spectra);

/// Opens the one display that a word names (see open_panel()), by the columns that the options name; the files that they name aren't
/// asked. It is the only one of `displays` or of `readings`. Throws Error (input, system, domain) where it can't be opened.
SAMELIGHT_API OpenedDisplays open_display(const std::string& word, const LightOptions& options,
                                          const Sampling& sampling = {},
                                          FilesOf files = FilesOf::spectra);

}  // namespace samelight::io
