#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/takes.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using assess::WhitePanel;
using assess::WhiteReference;

std::string kind_of(const py::object& given) {
    return std::string(py::str(py::type::of(given).attr("__name__")));
}

std::vector<std::string> generic_panel_names() {
    std::vector<std::string> names;
    for (const GenericModel& model : generic_models()) {
        names.emplace_back(model.name());
    }
    return names;
}

WhitePanel with_white(const WhitePanel& panel, double x, double y) {
    WhitePanel result = panel;
    const Chromaticity<Cie1931_2deg> xy(x, y);
    const std::string& name = panel.panel.name();
    // Not {name}: g++ 12 at -O2 takes the end of such a list's string for something to be freed.
    const std::vector<std::string> subjects(1, name);
    const bool shown = assess::about(subjects, [&] {
        return x > 0.0 && y > 0.0 && x + y < 1.0 && set_white(result.panel, xy).in_gamut();
    });
    if (!shown) {
        throw Error(ErrorKind::domain, ErrorPlace{name},
                    "a white as set that its red, green and blue can't make",
                    "x, y as the instrument read that display's white");
    }
    result.white = {WhiteSetTo{xy}};
    return result;
}

WhitePanel with_measured_white(const WhitePanel& panel, const py::object& white,
                               const py::object& wavelengths) {
    WhitePanel result = panel;
    result.white =
        assess::measured_white(result.panel.name(), one_spectrum(white, wavelengths, "white"));
    return result;
}

WhitePanel opened_panel(const std::string& name) {
    io::NamedPanel named = io::open_panel(name);
    WhitePanel result{
        std::move(named.panel),
        named.model,
        {},
        {std::move(named.understood), std::move(named.warnings), named.step_nm, named.clipped}};
    return named.set_to ? with_white(result, named.set_to->x(), named.set_to->y()) : result;
}

WhitePanel panel_from_spectra(const py::object& spectra, const py::object& wavelengths,
                              const std::string& name, bool common_scale) {
    const SpectraRows lights = spectra_of(spectra, wavelengths, "spectra");
    if (lights.rows.single || lights.rows.count < 3 || lights.rows.count > 5) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(lights.rows.count) + " spectra",
                    "3 to 5: red, green, blue, white, black");
    }
    PanelSpectra own{spectrum_at(lights, 0, "red"), spectrum_at(lights, 1, "green"),
                     spectrum_at(lights, 2, "blue")};
    if (lights.rows.count > 3) {
        own.white = spectrum_at(lights, 3, "white");
    }
    if (lights.rows.count > 4) {
        own.black = spectrum_at(lights, 4, "black");
    }
    own.common_scale = common_scale;
    return assess::about({name}, [&] { return assess::measured_panel(name, own); });
}

WhiteReference opened_reference(const std::string& name) {
    io::NamedReference named = io::open_reference(name);
    return {std::move(named.reference),
            named.measured,
            {std::move(named.understood), {}, named.step_nm, named.clipped}};
}

py::object native_white(const WhitePanel& own) {
    if (!own.panel.white_known()) {
        return py::none();
    }
    const auto column = own.panel.native_white();
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(
        SampledLight{own.panel.sampling(), {column.begin(), column.end()}}));
    return array_of({xy.x(), xy.y()}, {2});
}

/// (n, 3), kept column after column: read where it lies.
py::array emitters(const py::object& self) {
    const auto& own = self.cast<const WhitePanel&>();
    const auto columns = own.panel.emitters();
    const py::array rows = view_of(
        {columns.data(), static_cast<std::size_t>(columns.size())},
        {static_cast<py::ssize_t>(columns.cols()), static_cast<py::ssize_t>(columns.rows())}, self);
    return rows.attr("T");
}

py::array wavelengths_of_panel(const WhitePanel& own) {
    std::vector<double> nm;
    const Sampling& sampling = own.panel.sampling();
    for (int i = 0; i < sampling.count(); ++i) {
        nm.push_back(sampling.wavelength_nm(i));
    }
    const auto count = static_cast<py::ssize_t>(nm.size());
    return array_of(std::move(nm), {count});
}

}  // namespace

std::vector<py::object> several(const py::object& given) {
    if (py::isinstance<py::list>(given) || py::isinstance<py::tuple>(given)) {
        std::vector<py::object> result;
        for (const py::handle one : given) {
            result.push_back(py::reinterpret_borrow<py::object>(one));
        }
        return result;
    }
    return {given};
}

WhitePanel panel_of(const py::object& given) {
    if (py::isinstance<WhitePanel>(given)) {
        return given.cast<WhitePanel>();
    }
    if (py::isinstance<py::str>(given)) {
        return opened_panel(given.cast<std::string>());
    }
    if (py::hasattr(given, "__fspath__")) {
        return opened_panel(py::str(given.attr("__fspath__")()).cast<std::string>());
    }
    throw Error(ErrorKind::input, ErrorPlace{"display"}, kind_of(given),
                "a Panel, or what panel() takes");
}

WhiteReference reference_of(const py::object& given) {
    if (py::isinstance<WhiteReference>(given)) {
        return given.cast<WhiteReference>();
    }
    if (py::isinstance<WhitePanel>(given)) {
        const auto& own = given.cast<const WhitePanel&>();
        return assess::about({own.panel.name()}, [&] { return assess::display_as_reference(own); });
    }
    if (py::isinstance<py::str>(given)) {
        return opened_reference(given.cast<std::string>());
    }
    if (py::hasattr(given, "__fspath__")) {
        return opened_reference(py::str(given.attr("__fspath__")()).cast<std::string>());
    }
    throw Error(ErrorKind::input, ErrorPlace{"reference"}, kind_of(given),
                "a Reference, a Panel, or what reference() takes");
}

assess::ListedPanel listed(const WhitePanel& panel) {
    if (light_as_it_stands(panel.white.base) != nullptr) {
        throw Error(ErrorKind::input, ErrorPlace{panel.panel.name()},
                    "a display with its white as it stands",
                    "one with a white that was set to x, y, or as it is of itself");
    }
    return {panel.panel.name(),     panel.panel,         panel.model, xy_set_to(panel.white.base),
            panel.notes.understood, panel.notes.warnings};
}

void bind_panels(py::module_& module) {
    py::class_<WhitePanel>(
        module, "Panel",
        "A display: the light of its red, green and blue, its white and black where they were\n"
        "measured, and what its white is set to. Made by panel() and panel_from_spectra().")
        .def_property_readonly(
            "name", [](const WhitePanel& own) { return own.panel.name(); }, "For messages.")
        .def_property_readonly("wavelengths", &wavelengths_of_panel, "Of its light, (n,), nm.")
        .def_property_readonly(
            "emitters", &emitters,
            "Light of red, green and blue at full drive, without black: (n, 3), read only, not\n"
            "copied.")
        .def_property_readonly(
            "native_white", &native_white,
            "x, y at full drive, (2,), without black; None where it isn't known.")
        .def(
            "with_white", &with_white, py::arg("x"), py::arg("y"),
            "The same display, its white set by instrument to x, y of CIE 1931. Raises DomainError for\n"
            "what it can't show.")
        .def(
            "with_measured_white", &with_measured_white, py::arg("white"),
            py::arg("wavelengths") = py::none(),
            "The same display, its white as it stands, as measured on the set, (m,): what is left to go\n"
            "is told from it.")
        .def("__repr__", [](const WhitePanel& own) { return "Panel('" + own.panel.name() + "')"; });
    py::class_<WhiteReference>(module, "Reference",
                               "The light that whites are to look like. Made by reference() and\n"
                               "reference_from_spectrum().")
        .def_property_readonly(
            "name", [](const WhiteReference& own) { return own.reference.name; }, "For messages.")
        .def_property_readonly(
            "xy",
            [](const WhiteReference& own) {
                const auto at = own.reference.xy();
                return array_of({at.x(), at.y()}, {2});
            },
            "What an instrument reads for it: x, y, (2,).")
        .def("__repr__",
             [](const WhiteReference& own) { return "Reference('" + own.reference.name + "')"; });
    module.def("generic_panel_names", &generic_panel_names,
               "The types of displays that panel() has built in.");
    module.def(
        "panel", &panel_of, py::arg("name"),
        "A display by its name: a file of spectra (a path, or a name with a dot or a slash), or one of\n"
        "generic_panel_names(); followed, if wanted, by @x,y, to which its white is set. A Panel is\n"
        "itself. Raises InputError, DomainError, SystemRefusal.");
    module.def(
        "panel_from_spectra", &panel_from_spectra, py::arg("spectra"),
        py::arg("wavelengths") = py::none(), py::kw_only(), py::arg("name") = "panel",
        py::arg("common_scale") = true,
        "A display from its spectra, (3, m), (4, m) or (5, m): red, green, blue, white, black, each at\n"
        "full drive, at m wavelengths, nm. common_scale False: each is scaled for itself. Raises\n"
        "SingularError for primaries that depend on each other, DomainError for one without light.");
    module.def(
        "reference", &reference_of, py::arg("name"),
        "The light to look like: a CIE illuminant (\"D65\"), what panel() takes, a file with one\n"
        "light, or a Panel: its white as set or as measured, else that of full drive. Raises\n"
        "InputError, DomainError, SystemRefusal.");
    module.def(
        "reference_from_spectrum",
        [](const py::object& spectrum, const py::object& wavelengths, const std::string& name) {
            return assess::measured_reference(name,
                                              one_spectrum(spectrum, wavelengths, "spectrum"));
        },
        py::arg("spectrum"), py::arg("wavelengths") = py::none(), py::kw_only(),
        py::arg("name") = "reference", "A measured light, (m,), at m wavelengths, nm.");
}

}  // namespace samelight::python
