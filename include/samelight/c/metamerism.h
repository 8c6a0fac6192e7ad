// samelight for C: how people will disagree. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_METAMERISM_H
#define SAMELIGHT_C_METAMERISM_H

#include "samelight/c/people.h"

#ifdef __cplusplus
extern "C" {
#endif

/// What is compared, and who looks.
typedef struct samelight_metamerism_options {
    size_t size;
    /// For whom whites are matched; null: CIE 2015, 2 degrees. And who looks, 20 or more; null: 1,024 people of 20 to 70 years.
    const samelight_observer *observer;
    const samelight_population *population;
    /// That the work is divided over; 0: as many as the machine has. No digit depends on it. 1. (A struct of the size without it is taken, too.)
    size_t threads;
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

#ifdef __cplusplus
}
#endif

#endif
