// samelight for C: observers, spectra and colours. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_SPECTRA_H
#define SAMELIGHT_C_SPECTRA_H

#include "samelight/c/base.h"

#ifdef __cplusplus
extern "C" {
#endif

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
/// @param de00  out: N rows of 1. Errors: shape for unequal counts, domain for numbers that aren't finite or so
/// large that the difference isn't.
SAMELIGHT_C_API samelight_status samelight_de2000_from_lab(const samelight_rows *first, const samelight_rows *second, double *de00,
                                                           size_t de00_stride, samelight_error *error);

#ifdef __cplusplus
}
#endif

#endif
