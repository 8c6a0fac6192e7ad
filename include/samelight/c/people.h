// samelight for C: populations, and where their targets lie. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_PEOPLE_H
#define SAMELIGHT_C_PEOPLE_H

#include "samelight/c/panels.h"

#ifdef __cplusplus
extern "C" {
#endif

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
    /// That the work is divided over; 0: as many as the machine has. No digit depends on it. 1. (A struct of the size without it is taken, too.)
    size_t threads;
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

#ifdef __cplusplus
}
#endif

#endif
