// samelight for C: what to dial in, how sure that is, and whether to move a white at all. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_WHITE_H
#define SAMELIGHT_C_WHITE_H

#include "samelight/c/people.h"

#ifdef __cplusplus
extern "C" {
#endif

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
    /// That the work is divided over; 0: as many as the machine has. No digit depends on it. 1. (A struct of the size without it is taken, too.)
    size_t threads;
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

#ifdef __cplusplus
}
#endif

#endif
