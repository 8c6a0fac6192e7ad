// samelight for C: the proof of the work. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_CHECK_H
#define SAMELIGHT_C_CHECK_H

#include "samelight/c/corrections.h"

#ifdef __cplusplus
extern "C" {
#endif

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
    /// That the work is divided over; 0: as many as the machine has. No digit depends on it. 1. (A struct of the size without it is taken, too.)
    size_t threads;
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
    /// "pass", "fail", "cannot_tell" or "read_again"; and why: "conformity", "doubtful_patches", "instrument" or "correction".
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
