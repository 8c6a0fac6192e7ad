// samelight for C: errors, versions, texts, arrays. Include samelight/c/samelight.h, which says what holds everywhere.
#ifndef SAMELIGHT_C_BASE_H
#define SAMELIGHT_C_BASE_H

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

#ifdef __cplusplus
}
#endif

#endif
