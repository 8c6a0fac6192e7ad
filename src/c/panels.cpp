#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/c/samelight.h"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"

namespace {

using samelight::ErrorPlace;

std::optional<samelight::Spectrum> light_if_any(const samelight_panel_spectra& own,
                                                const double* values, const char* name,
                                                const std::vector<double>& nm) {
    if (values == nullptr) {
        return {};
    }
    const std::string column = std::string(name);
    return samelight::assess::about({column}, [&] {
        try {
            return samelight::Spectrum(
                nm, samelight::c::column_of(values, nm.size(), own.stride, name));
        } catch (const samelight::Error& error) {
            throw samelight::Error(error.kind(), ErrorPlace{column}, error.found(), error.wanted());
        }
    });
}

samelight::Spectrum light_given(const samelight_panel_spectra& own, const double* values,
                                const char* name, const std::vector<double>& nm) {
    samelight::c::place(values, name);
    return *light_if_any(own, values, name, nm);
}

samelight::assess::WhitePanel panel_of_spectra(const samelight_panel_spectra& own) {
    const std::string name = samelight::c::text_of(own.name, "panel's name");
    const std::vector<double> nm =
        samelight::c::column_of(own.wavelengths_nm, own.wavelength_count, 1, "wavelengths_nm");
    static_cast<void>(samelight::c::stride_of(own.stride, 1, own.wavelength_count, "lights"));
    const samelight::PanelSpectra spectra{
        light_given(own, own.red, "red", nm),      light_given(own, own.green, "green", nm),
        light_given(own, own.blue, "blue", nm),    light_if_any(own, own.white, "white", nm),
        light_if_any(own, own.black, "black", nm), own.common_scale != 0};
    return samelight::assess::about(
        {name}, [&] { return samelight::assess::measured_panel(name, spectra); });
}

}  // namespace

void samelight_panel_spectra_defaults(samelight_panel_spectra* spectra) {
    if (spectra != nullptr) {
        *spectra = {};
        spectra->size = sizeof(samelight_panel_spectra);
        spectra->common_scale = 1;
    }
}

samelight_status samelight_panel_from_spectra(const samelight_panel_spectra* spectra,
                                              samelight_panel** panel, samelight_error* error) {
    return samelight::c::made(panel, "panel", error, [&] {
        return panel_of_spectra(
            samelight::c::taken(spectra, samelight_panel_spectra_defaults, "spectra"));
    });
}

samelight_status samelight_panel_from_csv(const char* name, const char* bytes, size_t length,
                                          samelight_panel** panel, samelight_error* error) {
    return samelight::c::made(panel, "panel", error, [&]() -> samelight::assess::WhitePanel {
        const std::string source = samelight::c::text_of(name, "name");
        const std::string_view text = samelight::c::bytes_given(bytes, length);
        samelight::io::NamedPanel named =
            samelight::io::panel_in(samelight::io::parse_spectral_csv(text, source));
        return {
            std::move(named.panel),
            named.model,
            {},
            {std::move(named.understood), std::move(named.warnings), named.step_nm, named.clipped}};
    });
}

samelight_status samelight_panel_generic(const char* name, samelight_panel** panel,
                                         samelight_error* error) {
    return samelight::c::made(panel, "panel", error, [&] {
        return samelight::assess::generic_display(
            samelight::generic_model(samelight::c::text_of(name, "name")));
    });
}

samelight_status samelight_panel_with_white(const samelight_panel* panel, double x, double y,
                                            samelight_panel** as_set, samelight_error* error) {
    return samelight::c::made(as_set, "as_set", error, [&] {
        samelight::assess::WhitePanel result = samelight::c::given(panel, "panel").value;
        const samelight::Chromaticity<samelight::Cie1931_2deg> xy(x, y);
        const std::string name = result.panel.name();
        const bool shown = samelight::assess::about({name}, [&] {
            return x > 0.0 && y > 0.0 && x + y < 1.0 && set_white(result.panel, xy).in_gamut();
        });
        if (!shown) {
            throw samelight::Error(samelight::ErrorKind::domain, ErrorPlace{name},
                                   "a white as set that its red, green and blue can't make",
                                   "x, y as the instrument read that display's white");
        }
        result.white = {samelight::WhiteSetTo{xy}};
        return result;
    });
}

samelight_status samelight_panel_with_measured_white(const samelight_panel* panel,
                                                     const samelight_spectra* white,
                                                     samelight_panel** as_it_stands,
                                                     samelight_error* error) {
    return samelight::c::made(as_it_stands, "as_it_stands", error, [&] {
        samelight::assess::WhitePanel result = samelight::c::given(panel, "panel").value;
        const samelight::Spectrum light =
            samelight::c::spectrum_of(samelight::c::given(white, "white"), "white");
        result.white = samelight::assess::measured_white(result.panel.name(), light);
        return result;
    });
}

const char* samelight_panel_name(const samelight_panel* panel) {
    return panel != nullptr ? panel->value.panel.name().c_str() : "";
}

void samelight_panel_destroy(samelight_panel* panel) { delete panel; }

samelight_status samelight_reference_illuminant(const char* name, samelight_reference** reference,
                                                samelight_error* error) {
    return samelight::c::made(
        reference, "reference", error, [&]() -> samelight::assess::WhiteReference {
            return {samelight::illuminant_reference(samelight::c::text_of(name, "name"))};
        });
}

samelight_status samelight_reference_panel(const samelight_panel* panel,
                                           samelight_reference** reference,
                                           samelight_error* error) {
    return samelight::c::made(reference, "reference", error, [&] {
        const auto& own = samelight::c::given(panel, "panel").value;
        return samelight::assess::about(
            {own.panel.name()}, [&] { return samelight::assess::display_as_reference(own); });
    });
}

samelight_status samelight_reference_spectrum(const char* name, const samelight_spectra* light,
                                              samelight_reference** reference,
                                              samelight_error* error) {
    return samelight::c::made(reference, "reference", error, [&] {
        return samelight::assess::measured_reference(
            samelight::c::text_of(name, "name"),
            samelight::c::spectrum_of(samelight::c::given(light, "light"), "light"));
    });
}

samelight_status samelight_reference_xy(const samelight_reference* reference, double* xy,
                                        samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto own = samelight::c::given(reference, "reference").value.reference.xy();
        double* out = samelight::c::place(xy, "xy");
        out[0] = own.x();
        out[1] = own.y();
    });
}

void samelight_reference_destroy(samelight_reference* reference) { delete reference; }
