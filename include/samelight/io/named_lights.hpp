#pragma once
// Lights by name: what a person types, a file, a built-in panel or a CIE illuminant, becomes a panel or a reference.
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::io {

/// A panel as it was asked for.
struct NamedPanel {
    Panel panel;
    /// The built-in model, of which a file may say that it holds it; none for a measured panel.
    const GenericModel* model = nullptr;
    /// Its white as set, where NAME@x,y was asked for.
    std::optional<Chromaticity<Cie1931_2deg>> set_to;
    /// How its file was read, whole sentences.
    std::vector<std::string> understood;
    /// What is doubtful about its file.
    std::vector<Warning> warnings;
    /// Of its file, in the middle of its wavelengths; 0 for a built-in model.
    double step_nm = 0.0;
    /// Whether a column of its file was cut off at the top (is_clipped()).
    bool clipped = false;
};

/// A reference as it was asked for.
struct NamedReference {
    /// Its warnings include those of its file.
    Reference reference;
    /// How its file was read.
    std::vector<std::string> understood;
    /// Whether it comes from a file, not from a model or a definition.
    bool measured = false;
    /// Of its file, as in NamedPanel.
    double step_nm = 0.0;
    bool clipped = false;
};

/// A light measured on the set.
struct NamedLight {
    SampledLight light;
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
    /// Of its file, as in NamedPanel.
    double step_nm = 0.0;
    /// Of the light alone.
    bool clipped = false;
};

/// How the name of a display as it is set is written, for open_panel() and open_reference().
inline constexpr const char* name_of_set_display = "NAME@x,y";

/// Opens the panel that `text` names: a spectral CSV file (anything with a dot or a slash, or - for standard input) with columns red,
/// green, blue and optionally white and black; red=FILE,green=FILE,blue=FILE and so on for a file each (see light_places()); or a built-in
/// generic model; followed, if wanted, by @x,y: the CIE 1931 chromaticity to which its white is set. Throws Error (input, domain) that says what was
/// wanted.
SAMELIGHT_API NamedPanel open_panel(const std::string& text, const Sampling& sampling = {});

/// Opens the reference that `text` names: as open_panel, or a CIE illuminant (A, C, E, D50, D65, ...), or a file with one light.
/// Of a display's file the reference is its white column, else red + green + blue at full drive. Throws as open_panel.
SAMELIGHT_API NamedReference open_reference(const std::string& text, const Sampling& sampling = {});

/// Opens one measured light: the column `white` of a file, or its only column. Throws Error (input).
SAMELIGHT_API NamedLight open_light(const std::string& file, const Sampling& sampling = {});

}  // namespace samelight::io
