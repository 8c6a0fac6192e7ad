#pragma once
// A correction as it is kept: with the light of the display that it was made on, so that it can be judged for another one. Own.
#include <optional>
#include <string>
#include <vector>

#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Spectra of the display that a correction was made on, all on the same wavelengths; spectral radiance or relative power.
struct StoredPanelSpectra {
    /// Ascending, two or more.
    std::vector<double> wavelengths_nm;
    /// One value a wavelength.
    std::vector<double> red, green, blue;
    /// Likewise, or empty.
    std::vector<double> white = {};

    friend bool operator==(const StoredPanelSpectra&, const StoredPanelSpectra&) = default;
};

/// A correction as it is kept.
///
/// Of `correction` a file does not keep the parts noise, noise_terms and reading_noise: how sure a corrected reading is then follows from
/// the covariance, with the fewest degrees of freedom of any part.
struct StoredCorrection {
    Correction correction = {};
    std::optional<StoredPanelSpectra> panel_spectra = {};
    /// What identifies spectra that are kept elsewhere ("sha256:..."), free text; may be empty.
    std::string panel_spectra_digest = {};
    /// When read from a file: its keys that mean nothing to this version; not written.
    std::vector<std::string> ignored = {};
};

/// What the warnings kept with a correction say of it when it is to be chosen.
struct StoredDoubts {
    /// The spectra kept with it aren't of the display that it was made on (`panel_spectra_differ`).
    std::optional<Warning> other_panel;
    /// Its readings were odd or drifting (`odd_reading`, `odd_patch`, `drift`): the first such warning.
    std::optional<Warning> readings;
};

/// What the correction's own warnings say. A file holds codes and facts alone, so this is the one place where codes of warnings are understood
/// again. Throws nothing but std::bad_alloc.
SAMELIGHT_API StoredDoubts stored_doubts(const Correction& correction);

/// The panel's light as it is kept with a correction, without black, on the wavelengths of its own spectra.
SAMELIGHT_API StoredPanelSpectra stored_spectra(const Panel& panel);

/// The panel whose light was kept with a correction. @param name  of the result, for messages
/// Throws as Spectrum and Panel for spectra that are none.
SAMELIGHT_API Panel panel_from_stored(const std::string& name, const StoredPanelSpectra& spectra,
                                      const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/stored_correction.ipp"
#endif
