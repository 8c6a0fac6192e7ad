// samelight for C: corrections of a filter meter. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_CORRECTIONS_H
#define SAMELIGHT_C_CORRECTIONS_H

#include "samelight/c/panels.h"

#ifdef __cplusplus
extern "C" {
#endif

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
    /// That the work is divided over; 0: as many as the machine has. No digit depends on it. 1. (A struct of the size without it is taken, too.)
    size_t threads;
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

#ifdef __cplusplus
}
#endif

#endif
