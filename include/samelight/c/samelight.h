// samelight for C, and for whatever calls C: what the instrument must read so that displays look alike, how sure that is, who will
// disagree, corrections of filter meters, and the proof of the work.
//
// ```c
// #include <samelight/c/samelight.h>
// #include <stdio.h>
// int main(void) {
//     samelight_panel *crt = NULL, *oled = NULL, *as_set = NULL;
//     samelight_reference *reference = NULL;
//     samelight_white_answer *answer = NULL;
//     samelight_error error;
//     samelight_white_part part;
//     samelight_white_part_defaults(&part);
//     if (samelight_panel_generic("crt", &crt, &error) == SAMELIGHT_OK &&
//         samelight_panel_with_white(crt, 0.3127, 0.3290, &as_set, &error) == SAMELIGHT_OK &&
//         samelight_reference_panel(as_set, &reference, &error) == SAMELIGHT_OK &&
//         samelight_panel_generic("oled-rgb", &oled, &error) == SAMELIGHT_OK &&
//         samelight_white(reference, (const samelight_panel *const *)&oled, 1, NULL, &answer, &error) == SAMELIGHT_OK &&
//         samelight_white_answer_part(answer, 0, &part, &error) == SAMELIGHT_OK)
//         printf("x %.4f  y %.4f  within %.4f, %.4f: %s\n", part.x, part.y, part.half_width_x, part.half_width_y, part.verdict_code);
//     else
//         fprintf(stderr, "%s\n", error.message);
//     samelight_white_answer_destroy(answer);
//     samelight_reference_destroy(reference);
//     samelight_panel_destroy(as_set);
//     samelight_panel_destroy(oled);
//     samelight_panel_destroy(crt);
//     return error.status == SAMELIGHT_OK ? 0 : 1;
// }
// ```
//
// What holds everywhere:
// - A function that can fail returns a samelight_status and takes `error` last, which may be null; where it isn't, it is filled in at every call,
//   with status SAMELIGHT_OK and an empty message where all went well. There is no other place for errors: no state, global or by thread.
// - On an error outputs are as they were, but that a handle's or a text's is set to null. Texts and handles that come out are the caller's, to be given to
//   the type's _destroy, which takes null. No exception leaves the library.
// - A pointer must not be null unless it is said that it may. A text is UTF-8 and ends in 0; one with a length need not.
// - Const handles may be used by any number of threads at once. Nothing that a function was given is kept or changed but what isn't const.
// - Counts are of rows or entries, strides are in doubles from one row to the next, 0 for rows that lie close together. A stride may not be smaller than
//   a row. Inputs and outputs may be the same memory.
// - Structs that begin with `size` are filled by their _defaults function first and can grow: a program that was built for an earlier version goes on.
//   A null pointer for one that is const stands for the defaults, where it is said that it may be null.
// - Spectra are radiance in W/(sr m2 nm) or relative power, over wavelengths in nm, ascending, even or not; all lights of a display in one unit.
//   X, Y, Z of instruments are cd/m2. Problems are solved on 380-780 nm by 1 nm (samelight_sampling, where another may be named).
// - Verdicts and the like are told by codes, short lower-case texts that never change and live as long as the program.
#ifndef SAMELIGHT_C_SAMELIGHT_H
#define SAMELIGHT_C_SAMELIGHT_H

#include <stddef.h>
#include <stdint.h>

#if defined(__GNUC__)
#define SAMELIGHT_C_API __attribute__((visibility("default")))
#else
#define SAMELIGHT_C_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

// ---- Errors, versions, texts --------------------------------------------------------------------

/// What became of a call. Further values may follow.
typedef enum samelight_status {
    SAMELIGHT_OK = 0,
    /// A value outside the range in which the function is defined; NaN.
    SAMELIGHT_DOMAIN = 1,
    /// Counts, sizes or strides that do not go together.
    SAMELIGHT_SHAPE = 2,
    /// Directions that do not span what they must: primaries that depend on each other, say.
    SAMELIGHT_SINGULAR = 3,
    /// Values of different observers.
    SAMELIGHT_OBSERVER = 4,
    /// A text or an argument that can't be understood: a null pointer, a struct of unknown size, a file's bytes that are no table.
    SAMELIGHT_INPUT = 5,
    /// The operating system refused.
    SAMELIGHT_SYSTEM = 6,
    /// There is no memory left for it.
    SAMELIGHT_MEMORY = 7,
    /// A fault of the library itself.
    SAMELIGHT_INTERNAL = 8
} samelight_status;

/// What went wrong: one line of UTF-8, which names the place, what was found and what was wanted, and always ends in 0. A longer one is cut between
/// characters.
typedef struct samelight_error {
    samelight_status status;
    char message[512];
} samelight_error;

/// The version of the interface that this header describes.
#define SAMELIGHT_ABI_VERSION 1

/// The version of the interface that the library offers: it grows where programs that were built for the one before no longer work.
SAMELIGHT_C_API uint32_t samelight_abi_version(void);

/// The library's version, "major.minor.patch".
SAMELIGHT_C_API const char *samelight_version(void);

/// "ok", "domain", "shape", ...; "unknown" for a value that isn't one.
SAMELIGHT_C_API const char *samelight_status_name(samelight_status status);

/// A text that the library made.
typedef struct samelight_text samelight_text;

/// Its characters, UTF-8, ending in 0; valid as long as the text is. "" for null.
SAMELIGHT_C_API const char *samelight_text_data(const samelight_text *text);

/// How many bytes it has, without the 0 at its end. 0 for null.
SAMELIGHT_C_API size_t samelight_text_length(const samelight_text *text);

/// Frees it.
SAMELIGHT_C_API void samelight_text_destroy(samelight_text *text);

// ---- Arrays -------------------------------------------------------------------------------------

/// Rows of numbers that go in, `count` of them.
typedef struct samelight_rows {
    const double *values;
    size_t count;
    /// In doubles; 0: close together.
    size_t stride;
} samelight_rows;

/// Spectra on wavelengths that they share.
typedef struct samelight_spectra {
    /// nm, above 0, ascending; two or more
    const double *wavelengths_nm;
    size_t wavelength_count;
    /// One value a wavelength, spectrum after spectrum; finite.
    const double *values;
    /// How many spectra.
    size_t count;
    /// From one spectrum to the next, doubles; 0: wavelength_count, or 1 where value_stride says that spectra are columns.
    size_t spectrum_stride;
    /// From one wavelength to the next, doubles; 0: 1. The number of spectra for a table whose columns they are.
    size_t value_stride;
} samelight_spectra;

/// An even grid of wavelengths: nm, above 0; 1 to 100,000 of them.
typedef struct samelight_sampling {
    double first_nm;
    double step_nm;
    size_t count;
} samelight_sampling;

// ---- Observers ----------------------------------------------------------------------------------

/// Three rows of sensitivities over wavelength: an eye, or the standard one of an instrument.
typedef struct samelight_observer samelight_observer;

/// What an observer's three rows are.
typedef enum samelight_receptors {
    /// x, y, z
    SAMELIGHT_COLOUR_MATCHING = 0,
    /// l, m, s
    SAMELIGHT_CONES = 1
} samelight_receptors;

/// A table of one's own.
typedef struct samelight_observer_table {
    size_t size;
    /// Lower case, no spaces, none of the library's own; and for people.
    const char *id;
    const char *title;
    samelight_receptors receptors;
    /// Of its wavelengths.
    samelight_sampling grid;
    /// Three rows of grid.count values in energy units, and their stride, doubles; 0: close together.
    const double *rows;
    size_t row_stride;
} samelight_observer_table;

/// Fills in a table without rows.
SAMELIGHT_C_API void samelight_observer_table_defaults(samelight_observer_table *table);

/// An observer by its name: cie1931-2deg, cie1964-10deg, cie2015-2deg, cie2015-10deg, judd-vos-1978, or cie2006:AGE:FIELD for the cone
/// fundamentals of an age and a field. Errors: domain for any other.
SAMELIGHT_C_API samelight_status samelight_observer_named(const char *name, samelight_observer **observer, samelight_error *error);

/// The average eye of an age, 20 to 80 years, and a field of view, 1 to 10 degrees: the cone fundamentals of CIE 170-1. Errors: domain.
SAMELIGHT_C_API samelight_status samelight_observer_of_age(double age_years, double field_deg, samelight_observer **observer,
                                                           samelight_error *error);

/// An observer from a table of one's own. Errors: domain for values that aren't finite and for an id that is empty or the library's own.
SAMELIGHT_C_API samelight_status samelight_observer_from_table(const samelight_observer_table *table, samelight_observer **observer,
                                                               samelight_error *error);

/// Its id, valid as long as the observer is. "" for null.
SAMELIGHT_C_API const char *samelight_observer_id(const samelight_observer *observer);

/// Its three rows on a sampling, linear between the table's wavelengths and 0 outside.
/// @param sampling  may be null: 380-780 nm by 1 nm
/// @param rows      out: three rows of the sampling's count
SAMELIGHT_C_API samelight_status samelight_observer_sensitivities(const samelight_observer *observer,
                                                                  const samelight_sampling *sampling, double *rows,
                                                                  size_t row_stride, samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_observer_destroy(samelight_observer *observer);

// ---- Spectra and colours ------------------------------------------------------------------------

/// X, Y, Z (L, M, S for cones) of N spectra: sums of products times the step, in the light's unit times nm.
/// @param sampling  may be null: 380-780 nm by 1 nm. The spectra's own even grid gives the plain sum of CIE 15.
/// @param xyz       out: N rows of 3
/// Errors: domain and shape for what is no spectrum, whose number stands in the message.
SAMELIGHT_C_API samelight_status samelight_xyz_from_spectra(const samelight_observer *observer, const samelight_spectra *spectra,
                                                            const samelight_sampling *sampling, double *xyz, size_t xyz_stride,
                                                            samelight_error *error);

/// x, y of N rows X, Y, Z. @param xy  out: N rows of 2. Errors: domain where a sum isn't above 0.
SAMELIGHT_C_API samelight_status samelight_xy_from_xyz(const samelight_rows *xyz, double *xy, size_t xy_stride, samelight_error *error);

/// u', v' of 1976 of N rows X, Y, Z. @param uv  out: N rows of 2. Errors: domain where a sum isn't above 0.
SAMELIGHT_C_API samelight_status samelight_uv_from_xyz(const samelight_rows *xyz, double *uv, size_t uv_stride, samelight_error *error);

/// L*, a*, b* of N rows X, Y, Z beside a white in the same unit.
/// @param white_xyz  three numbers above 0
/// @param lab        out: N rows of 3
/// Errors: domain.
SAMELIGHT_C_API samelight_status samelight_lab_from_xyz(const samelight_rows *xyz, const double *white_xyz, double *lab,
                                                        size_t lab_stride, samelight_error *error);

/// CIEDE2000 of N pairs of L*, a*, b* relative to one white.
/// @param de00  out: N rows of 1. Errors: shape for unequal counts, domain for numbers that aren't finite.
SAMELIGHT_C_API samelight_status samelight_de2000_from_lab(const samelight_rows *first, const samelight_rows *second, double *de00,
                                                           size_t de00_stride, samelight_error *error);

// ---- Panels and references ----------------------------------------------------------------------

/// A display: the light of its red, green and blue, its white and black where they were measured, and what its white is set to.
typedef struct samelight_panel samelight_panel;

/// The lights of a display, each at full drive, on wavelengths that they share.
typedef struct samelight_panel_spectra {
    size_t size;
    /// For messages.
    const char *name;
    /// nm, ascending
    const double *wavelengths_nm;
    size_t wavelength_count;
    const double *red;
    const double *green;
    const double *blue;
    /// Null: not measured.
    const double *white;
    const double *black;
    /// Of all lights, from one wavelength to the next, doubles; 0: 1.
    size_t stride;
    /// 0 where each light is scaled for itself, so that their ratios say nothing; 1 by default.
    int32_t common_scale;
} samelight_panel_spectra;

/// Fills in a display without lights.
SAMELIGHT_C_API void samelight_panel_spectra_defaults(samelight_panel_spectra *spectra);

/// A display from its spectra. Errors: singular for primaries that depend on each other, domain for a primary without light and for primaries
/// under each other's names, and what no spectrum may have.
SAMELIGHT_C_API samelight_status samelight_panel_from_spectra(const samelight_panel_spectra *spectra, samelight_panel **panel,
                                                              samelight_error *error);

/// A display from the bytes of a table of spectra, as the command reads one: wavelength_nm, red, green, blue and, if there, white and black, and
/// what instruments export. @param name  of the file, for messages. Errors: input, which names line and column; as samelight_panel_from_spectra().
SAMELIGHT_C_API samelight_status samelight_panel_from_csv(const char *name, const char *bytes, size_t length, samelight_panel **panel,
                                                          samelight_error *error);

/// A built-in display of a type: "crt", "oled-rgb", ... Errors: domain, which lists the names.
SAMELIGHT_C_API samelight_status samelight_panel_generic(const char *name, samelight_panel **panel, samelight_error *error);

/// The same display, its white set by instrument to x, y of CIE 1931. Errors: domain for what it can't show.
SAMELIGHT_C_API samelight_status samelight_panel_with_white(const samelight_panel *panel, double x, double y, samelight_panel **as_set,
                                                            samelight_error *error);

/// The same display, its white as it stands, as measured on the set: one spectrum. What is left to go is told from it.
SAMELIGHT_C_API samelight_status samelight_panel_with_measured_white(const samelight_panel *panel, const samelight_spectra *white,
                                                                     samelight_panel **as_it_stands, samelight_error *error);

/// Its name, valid as long as the panel is. "" for null.
SAMELIGHT_C_API const char *samelight_panel_name(const samelight_panel *panel);

/// Frees it.
SAMELIGHT_C_API void samelight_panel_destroy(samelight_panel *panel);

/// The light that whites are to look like.
typedef struct samelight_reference samelight_reference;

/// A CIE illuminant: A, C, E, D50, D65, ... Errors: domain for a name that isn't one.
SAMELIGHT_C_API samelight_status samelight_reference_illuminant(const char *name, samelight_reference **reference,
                                                                samelight_error *error);

/// A display: its white as set or as measured, else that of full drive. Errors: domain where that isn't known.
SAMELIGHT_C_API samelight_status samelight_reference_panel(const samelight_panel *panel, samelight_reference **reference,
                                                           samelight_error *error);

/// A measured light: one spectrum. @param name  for messages
SAMELIGHT_C_API samelight_status samelight_reference_spectrum(const char *name, const samelight_spectra *light,
                                                              samelight_reference **reference, samelight_error *error);

/// What an instrument reads for it. @param xy  out: x, y of CIE 1931
SAMELIGHT_C_API samelight_status samelight_reference_xy(const samelight_reference *reference, double *xy, samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_reference_destroy(samelight_reference *reference);

// ---- People -------------------------------------------------------------------------------------

/// People as a distribution of ages and of what makes eyes differ; the same everywhere.
typedef struct samelight_population samelight_population;

/// Who they are.
typedef struct samelight_population_options {
    size_t size;
    /// 1 to 1,000,000 people; a power of 2 covers best. 1,024.
    size_t count;
    /// Years, evenly between them: 20 to 80; 20 and 70.
    double youngest_years;
    double oldest_years;
    /// Of view, degrees: 1 to 10; 2.
    double field_deg;
    /// 1
    uint64_t seed;
} samelight_population_options;

/// Fills in 1,024 people of 20 to 70 years who see 2 degrees.
SAMELIGHT_C_API void samelight_population_options_defaults(samelight_population_options *options);

/// Makes it. @param options  may be null. Errors: domain.
SAMELIGHT_C_API samelight_status samelight_population_create(const samelight_population_options *options,
                                                             samelight_population **population, samelight_error *error);

/// How many people. 0 for null.
SAMELIGHT_C_API size_t samelight_population_count(const samelight_population *population);

/// Everybody's target on a display: what the instrument must read so that its white looks like the reference to that person.
/// @param xy  out: a row of 2 a person; NaN for somebody who has no target
SAMELIGHT_C_API samelight_status samelight_population_cloud(const samelight_population *population, const samelight_panel *panel,
                                                            const samelight_reference *reference, double *xy, size_t xy_stride,
                                                            samelight_error *error);

/// How far people differ about a display.
typedef struct samelight_population_spread {
    size_t size;
    /// With a target; and those whose target the display can't show, and those without one.
    size_t people;
    size_t outside_gamut;
    size_t without_target;
    /// x, y of CIE 1931
    double mean_xy[2];
    double median_xy[2];
    /// xx, xy, yx, yy
    double covariance_xy[4];
    /// Holds 95 % of a normal distribution: semi-axes in x, y, the longer one's angle from x, degrees.
    double semi_major_xy;
    double semi_minor_xy;
    double angle_deg;
} samelight_population_spread;

/// Fills in zeros.
SAMELIGHT_C_API void samelight_population_spread_defaults(samelight_population_spread *spread);

/// Sums up what samelight_population_cloud() gives. Errors: shape where nobody has a target.
SAMELIGHT_C_API samelight_status samelight_population_spread_of(const samelight_population *population, const samelight_panel *panel,
                                                                const samelight_reference *reference,
                                                                samelight_population_spread *spread, samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_population_destroy(samelight_population *population);

// ---- White --------------------------------------------------------------------------------------

/// Somebody who watches; they are called A, B, C, ...
typedef struct samelight_viewer {
    /// 1 to 120; NaN: not known
    double age_years;
    /// Of the white as seen, 1 to 10.
    double field_deg;
} samelight_viewer;

/// What the answer about whites may take into account.
typedef struct samelight_white_options {
    size_t size;
    /// For whom; the first is who is meant. None: CIE 2015, 2 and 10 degrees.
    const samelight_observer *const *observers;
    size_t observer_count;
    /// Whose differences are told; null: 1,024 people of 20 to 70 years.
    const samelight_population *population;
    /// Up to 26; none by default.
    const samelight_viewer *viewers;
    size_t viewer_count;
    /// Of the instrument: standard deviation of a reading's x and y (.0005); its wavelength scale is right within this, nm (.3); bandwidth, nm (5); stray
    /// light and noise as shares of the peak (.0002, .0005); step, nm (0: that of the spectra).
    double reading_noise_xy;
    double wavelength_shift_nm;
    double bandwidth_nm;
    double stray_light;
    double noise;
    double step_nm;
    /// Standard deviation in x and y that no observer function explains: 0 to .1; 0.
    double additivity_floor_xy;
} samelight_white_options;

/// Fills in what is said above.
SAMELIGHT_C_API void samelight_white_options_defaults(samelight_white_options *options);

/// The whole answer about whites.
typedef struct samelight_white_answer samelight_white_answer;

/// What each display must read to look like the reference, how sure that is, and whether to move its white at all.
/// @param panels   1 to 4,096 of them
/// @param options  may be null
/// Errors: domain for numbers out of range and for a reference that is no light, singular for primaries that depend on each other for an observer.
SAMELIGHT_C_API samelight_status samelight_white(const samelight_reference *reference, const samelight_panel *const *panels,
                                                 size_t panel_count, const samelight_white_options *options,
                                                 samelight_white_answer **answer, samelight_error *error);

/// One display's part of it.
typedef struct samelight_white_part {
    size_t size;
    /// What to dial in, CIE 1931: the viewers' white where some were named, else the first observer's.
    double x;
    double y;
    /// Expanded uncertainty of x and y, coverage 95 %; NaN where it isn't known, and 0.95.
    double half_width_x;
    double half_width_y;
    double coverage;
    /// From the reference's x, y.
    double delta_x;
    double delta_y;
    /// 1: the display can show it.
    int32_t in_gamut;
    /// CIE 1931 luminance against the white before; NaN where it isn't known.
    double luminance_ratio;
    /// Red, green, blue and, where there is one, white emitter, the largest 1; drive_count 0 where it isn't known.
    double drive[4];
    size_t drive_count;
    /// "MOVE", "LEAVE" or "ASK THE EYES"; "" where it can't be judged. And why: "nearer", "below_instrument", ...
    const char *verdict_code;
    const char *reason_code;
    /// Expected distance from the right white, u'v', as it is and after the move; NaN where it can't be judged.
    double before_uv;
    double after_uv;
    /// The cause that makes most of the uncertainty: "panel_spectrum", "observer", ...; "" where it isn't known. Valid as long as the answer is.
    const char *dominant_code;
    /// What is doubtful: how many warnings the JSON has on this display.
    size_t warning_count;
} samelight_white_part;

/// Fills in NaN, zeros and empty texts.
SAMELIGHT_C_API void samelight_white_part_defaults(samelight_white_part *part);

/// How many displays the answer is about. 0 for null.
SAMELIGHT_C_API size_t samelight_white_answer_count(const samelight_white_answer *answer);

/// The part of display `index`. Errors: shape for an index that isn't one.
SAMELIGHT_C_API samelight_status samelight_white_answer_part(const samelight_white_answer *answer, size_t index,
                                                             samelight_white_part *part, samelight_error *error);

/// The targets of all observers on display `index`.
/// @param xy     out: a row of 2 an observer, in their order
/// @param count  how many rows there is room for: as many as observers, else the error is one of shape
SAMELIGHT_C_API samelight_status samelight_white_answer_targets(const samelight_white_answer *answer, size_t index, double *xy,
                                                                size_t xy_stride, size_t count, samelight_error *error);

/// The answer as the command `white --json` gives it.
SAMELIGHT_C_API samelight_status samelight_white_answer_json(const samelight_white_answer *answer, samelight_text **json,
                                                             samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_white_answer_destroy(samelight_white_answer *answer);

/// samelight_white() and samelight_white_answer_json() in one: spectra and options in, the command's JSON out.
SAMELIGHT_C_API samelight_status samelight_white_json(const samelight_reference *reference, const samelight_panel *const *panels,
                                                      size_t panel_count, const samelight_white_options *options,
                                                      samelight_text **json, samelight_error *error);

/// Targets of N units in one call, each with its doubt, for the first of the options' observers.
/// @param lights           of unit after unit: red, green, blue and, where lights_per_unit is 4, white; or 5, and black
/// @param options          may be null
/// @param xy               out: N rows of 2
/// @param half_widths      out: N rows of 2, expanded uncertainties of x and y, coverage 95 %, NaN where they aren't known; may be null, which
///                         makes the call many times as fast
/// Errors: shape for a count that doesn't divide; as samelight_panel_from_spectra() and samelight_white(), "unit 17" first.
SAMELIGHT_C_API samelight_status samelight_white_targets(const samelight_reference *reference, const samelight_spectra *lights,
                                                         size_t lights_per_unit, const samelight_white_options *options, double *xy,
                                                         size_t xy_stride, double *half_widths, size_t half_width_stride,
                                                         samelight_error *error);

// ---- How people will disagree -------------------------------------------------------------------

/// What is compared, and who looks.
typedef struct samelight_metamerism_options {
    size_t size;
    /// For whom whites are matched; null: CIE 2015, 2 degrees. And who looks, 20 or more; null: 1,024 people of 20 to 70 years.
    const samelight_observer *observer;
    const samelight_population *population;
} samelight_metamerism_options;

/// Fills in what is said above.
SAMELIGHT_C_API void samelight_metamerism_options_defaults(samelight_metamerism_options *options);

/// What people see between two displays, CIEDE2000 without unit; each in three settings: whites set by instrument, by white targets, and every
/// colour matched.
typedef struct samelight_metamerism_figures {
    size_t size;
    /// Between the whites: mean; two viewers in three see less; 95 % do; the largest.
    double white_mean[3];
    double white_two_in_three[3];
    double white_p95[3];
    double white_largest[3];
    /// Of each viewer's mean over measured surface colours: mean, and two viewers in three have less.
    double colours_mean[3];
    double colours_two_in_three[3];
    /// 1: with white targets the two look alike to nearly everyone.
    int32_t look_alike;
} samelight_metamerism_figures;

/// Fills in zeros.
SAMELIGHT_C_API void samelight_metamerism_figures_defaults(samelight_metamerism_figures *figures);

/// The figures of two displays. @param options  may be null. Errors: domain for a display that can't make the white; shape for too few people.
SAMELIGHT_C_API samelight_status samelight_metamerism_of(const samelight_panel *first, const samelight_panel *second,
                                                         const samelight_reference *reference,
                                                         const samelight_metamerism_options *options,
                                                         samelight_metamerism_figures *figures, samelight_error *error);

/// Every pair of 2 to 26 displays, as the command `metamerism --json` gives it. @param options  may be null
SAMELIGHT_C_API samelight_status samelight_metamerism_json(const samelight_panel *const *panels, size_t panel_count,
                                                           const samelight_reference *reference,
                                                           const samelight_metamerism_options *options, samelight_text **json,
                                                           samelight_error *error);

// ---- Corrections of a filter meter --------------------------------------------------------------

/// A correction, with what is kept beside it.
typedef struct samelight_correction samelight_correction;

/// What the reference and the meter read of the same showings.
typedef struct samelight_paired_readings {
    size_t size;
    /// Of the display, for messages.
    const char *name;
    /// Pairs.
    size_t count;
    /// Of each: the colour shown ("white", "red", "green", "blue", "black" or any), and which time around, from 1 (null: 1 everywhere).
    const char *const *patches;
    const int32_t *rounds;
    /// X, Y, Z in cd/m2, rows of 3, as many as pairs.
    samelight_rows reference_xyz;
    samelight_rows meter_xyz;
} samelight_paired_readings;

/// Fills in none.
SAMELIGHT_C_API void samelight_paired_readings_defaults(samelight_paired_readings *readings);

/// How a correction is to be made from them.
typedef struct samelight_fit_options {
    size_t size;
    /// "four-colour", "three-colour", "least-squares", "weighted", "white-exact" or "white-only"; null: the first.
    const char *method;
    /// Expanded uncertainty of the corrected white's x and y that is wanted, coverage 95 %: .0005.
    double wanted_half_width;
    /// Standard deviation of a reading's x and y; 0: from the readings themselves.
    double noise_xy;
    /// Draws of the bootstrap, 2 to 1,000,000, and where they begin: 2,000 and 1.
    size_t resamples;
    uint64_t seed;
} samelight_fit_options;

/// Fills in what is said above.
SAMELIGHT_C_API void samelight_fit_options_defaults(samelight_fit_options *options);

/// Makes a correction and judges it.
/// @param options     may be null
/// @param json        may be null; else the answer as the command `meter fit --json` gives it
/// Errors: input for readings that are no light and for an unknown method, shape for patches that one instrument alone read.
SAMELIGHT_C_API samelight_status samelight_correction_fit(const samelight_paired_readings *readings,
                                                          const samelight_fit_options *options, samelight_correction **correction,
                                                          samelight_text **json, samelight_error *error);

/// A meter's sensitivities.
typedef struct samelight_meter {
    size_t size;
    /// For messages.
    const char *name;
    /// Three: behind its X, Y and Z.
    samelight_spectra sensitivities;
    /// 1: scale them so that it reads illuminant A right, whatever their scale; 0 by default.
    int32_t scale_on_a;
} samelight_meter;

/// Fills in one without sensitivities.
SAMELIGHT_C_API void samelight_meter_defaults(samelight_meter *meter);

/// Makes a correction for a display from the meter's sensitivities and the display's spectra.
/// @param observer    whose values it gives; may be null: CIE 1931
/// @param json        may be null; else the answer as the command `meter model --json` gives it
SAMELIGHT_C_API samelight_status samelight_correction_model(const samelight_meter *meter, const samelight_panel *panel,
                                                            const samelight_observer *observer, samelight_correction **correction,
                                                            samelight_text **json, samelight_error *error);

/// What a correction is.
typedef struct samelight_correction_facts {
    size_t size;
    /// Row after row: reference X, Y, Z = matrix * meter X, Y, Z.
    double xyz_from_meter[9];
    /// As in a correction file: "four-colour", "least squares", "from spectra", ...
    const char *method_code;
    /// "use", "use_unproven", "not_needed", "read_again" or "do_not_use"; "" where nobody judged it.
    const char *verdict_code;
    /// Id of the observer whose values it gives; valid as long as the correction is.
    const char *observer_id;
    /// 1: what it corrects are raw channels.
    int32_t raw_channels;
    /// 1: it knows how sure it is.
    int32_t covariance_known;
} samelight_correction_facts;

/// Fills in zeros and empty texts.
SAMELIGHT_C_API void samelight_correction_facts_defaults(samelight_correction_facts *facts);

/// Says what it is.
SAMELIGHT_C_API samelight_status samelight_correction_facts_of(const samelight_correction *correction,
                                                               samelight_correction_facts *facts, samelight_error *error);

/// Corrects N readings of the meter.
/// @param meter_xyz    rows of 3
/// @param xyz          out: N rows of 3
/// @param half_widths  out: N rows of 3, expanded uncertainties of x, y and Y (relative), coverage 95 %, by the correction, without the reading's own scatter;
///                     infinite where there are too few repeats to say, NaN where nothing is known about noise or for a reading without light; may be null
/// @param outside      out: N, 1 where the correction holds near one white only and this is none; may be null
/// Errors: domain for readings that aren't finite.
SAMELIGHT_C_API samelight_status samelight_correction_apply(const samelight_correction *correction, const samelight_rows *meter_xyz,
                                                            double *xyz, size_t xyz_stride, double *half_widths,
                                                            size_t half_width_stride, int32_t *outside, samelight_error *error);

/// What a choice among corrections is asked from.
typedef struct samelight_choice_request {
    size_t size;
    /// At hand, and their names; may be none.
    const samelight_correction *const *corrections;
    const char *const *names;
    size_t correction_count;
    /// The display that is to be read.
    const samelight_panel *panel;
    /// Null: not known. Its f1' is then supposed to be mismatch_percent: 5.
    const samelight_meter *meter;
    double mismatch_percent;
    /// Good enough, u'v'.
    double limit_uv;
} samelight_choice_request;

/// Fills in none.
SAMELIGHT_C_API void samelight_choice_request_defaults(samelight_choice_request *request);

/// Which of them serves.
typedef struct samelight_choice {
    size_t size;
    /// Which of the corrections serves best; -1: none of them.
    int64_t best;
    /// "safe", "use none" or "measure this panel"
    const char *verdict_code;
    /// To be expected with what is to be used, of white, u'v'; and within the limit.
    double expected_uv;
    int32_t good_enough;
} samelight_choice;

/// Fills in none.
SAMELIGHT_C_API void samelight_choice_defaults(samelight_choice *choice);

/// Chooses. @param json  may be null; else the answer as the command `meter choose --json` gives it
/// Errors: input for a correction that can't be applied.
SAMELIGHT_C_API samelight_status samelight_correction_choose(const samelight_choice_request *request, samelight_choice *choice,
                                                             samelight_text **json, samelight_error *error);

/// Reads a correction file's bytes. @param name  for messages. Errors: input, which names the key.
SAMELIGHT_C_API samelight_status samelight_correction_from_json(const char *name, const char *bytes, size_t length,
                                                                samelight_correction **correction, samelight_error *error);

/// The text of a correction file, which reads back to the bit.
SAMELIGHT_C_API samelight_status samelight_correction_to_json(const samelight_correction *correction, samelight_text **json,
                                                              samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_correction_destroy(samelight_correction *correction);

// ---- Proof of the work --------------------------------------------------------------------------

/// Readings of patches, in the order in which they were read.
typedef struct samelight_patch_readings {
    size_t size;
    /// For messages.
    const char *name;
    size_t count;
    /// Names ("white", "grey-50", "red-75", ...), which stand for signals; null where signals are given, and null or "" for one without a name.
    const char *const *patches;
    /// R', G', B', rows of 3 from 0 (black) to 1 (white); no values where names say it all.
    samelight_rows signals;
    /// CIE 1931 X, Y, Z in cd/m2, rows of 3.
    samelight_rows xyz;
} samelight_patch_readings;

/// Fills in none.
SAMELIGHT_C_API void samelight_patch_readings_defaults(samelight_patch_readings *readings);

/// What the display is meant to show, and how it is judged.
typedef struct samelight_check_options {
    size_t size;
    /// x, y of the chosen white; NaN (as by default): the encoding's own.
    double white_x;
    double white_y;
    /// "bt709", "p3-d65", "p3-cinema", "bt2020", "smpte-c", "ebu-3213" or "ntsc-1953"; null: the first.
    const char *encoding;
    /// "bt1886", "power:EXPONENT", "srgb", "pq", "pq:PROGRAMME-PEAK" or "hlg"; null: the first.
    const char *curve;
    /// Luminance of full white and of black, cd/m2; NaN (as by default): as measured.
    double white_cd_m2;
    double black_cd_m2;
    /// The largest CIEDE2000 that passes: above 0, up to 100; 3.
    double gate_de00;
    /// Of the codes that names stand for: 8 to 16; 8. And 1 where they are of limited range; 0.
    int32_t bits;
    int32_t limited_range;
    /// With what the readings, and those before, are to be corrected; null: nothing.
    const samelight_correction *correction;
    /// Readings from before the work; null: none.
    const samelight_patch_readings *before;
} samelight_check_options;

/// Fills in what is said above.
SAMELIGHT_C_API void samelight_check_options_defaults(samelight_check_options *options);

/// The whole answer about a visit.
typedef struct samelight_check_answer samelight_check_answer;

/// Judges the readings. @param options  may be null. Errors: input for readings that can't be and for options that can't be understood, domain.
SAMELIGHT_C_API samelight_status samelight_check(const samelight_patch_readings *readings, const samelight_check_options *options,
                                                 samelight_check_answer **answer, samelight_error *error);

/// What it says.
typedef struct samelight_check_summary {
    size_t size;
    /// "pass", "fail", "cannot_tell" or "read_again"; and why: "conformity", "doubtful_patches" or "instrument".
    const char *verdict_code;
    const char *reason_code;
    /// That all patches keep the gate.
    double probability_of_conformity;
    /// CIEDE2000 of the worst patch, its standard uncertainty, and its name, which is valid as long as the answer is.
    double largest_de00;
    double standard_uncertainty_de00;
    const char *largest_patch;
    size_t patches;
    size_t patches_over_gate;
    /// How many causes were found, and how many patches over the gate none of them explains.
    size_t causes;
    size_t unexplained_patches;
} samelight_check_summary;

/// Fills in zeros and empty texts.
SAMELIGHT_C_API void samelight_check_summary_defaults(samelight_check_summary *summary);

/// Sums it up.
SAMELIGHT_C_API samelight_status samelight_check_answer_summary(const samelight_check_answer *answer,
                                                                samelight_check_summary *summary, samelight_error *error);

/// A cause of what is wrong.
typedef struct samelight_check_cause {
    size_t size;
    /// "white_off", "gamma_other", ...; and "none", "red", "green", "blue" or "all".
    const char *code;
    const char *channel_code;
    /// In the unit that the cause has.
    double measured;
    double intended;
    /// The mean CIELAB distance that it makes, over how many patches.
    double strength_delta_e;
    size_t patches;
    /// What it is about; may be "". Valid as long as the answer is.
    const char *patch;
    const char *other;
    /// With white_off: measured minus intended.
    double delta_xy[2];
} samelight_check_cause;

/// Fills in zeros and empty texts.
SAMELIGHT_C_API void samelight_check_cause_defaults(samelight_check_cause *cause);

/// Cause `index`, the weightiest first. Errors: shape for an index that isn't one.
SAMELIGHT_C_API samelight_status samelight_check_answer_cause(const samelight_check_answer *answer, size_t index,
                                                              samelight_check_cause *cause, samelight_error *error);

/// The answer as the command `check --json` gives it; what speaks of files is empty there.
SAMELIGHT_C_API samelight_status samelight_check_answer_json(const samelight_check_answer *answer, samelight_text **json,
                                                             samelight_error *error);

/// Frees it.
SAMELIGHT_C_API void samelight_check_answer_destroy(samelight_check_answer *answer);

#ifdef __cplusplus
}
#endif

#endif
