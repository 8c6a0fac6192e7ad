// samelight for C: displays, and the light that whites are to look like. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_PANELS_H
#define SAMELIGHT_C_PANELS_H

#include "samelight/c/spectra.h"

#ifdef __cplusplus
extern "C" {
#endif

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

#ifdef __cplusplus
}
#endif

#endif
