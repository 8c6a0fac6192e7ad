#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/takes.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

std::vector<std::string> observer_names() {
    std::vector<std::string> names;
    for (const Observer* own : named_observers()) {
        names.push_back(own->id());
    }
    return names;
}

Observer observer_of_age(double age, double field) {
    return observer_named("cie2006:" + to_text(age) + ":" + to_text(field));
}

Sampling even_grid(const std::vector<double>& nm) {
    if (!Spectrum(nm, std::vector<double>(nm.size(), 0.0)).evenly_spaced()) {
        throw Error(ErrorKind::domain, ErrorPlace{"wavelengths"}, "uneven ones",
                    "the same step everywhere");
    }
    const double step = (nm.back() - nm.front()) / static_cast<double>(nm.size() - 1);
    return {nm.front(), step, static_cast<int>(nm.size())};
}

Receptors receptors_named(const std::string& name) {
    if (name == "xyz") return Receptors::colour_matching;
    if (name == "lms") return Receptors::cones;
    throw Error(ErrorKind::input, ErrorPlace{"receptors"}, "\"" + name + "\"", "xyz or lms");
}

Observer own_observer(const std::string& id, const py::object& wavelengths, const py::object& rows,
                      const std::string& receptors) {
    const Rows table = rows_of(rows, 0, "rows");
    if (table.single || table.count != 3) {
        throw Error(ErrorKind::shape, ErrorPlace{"rows"}, std::to_string(table.count) + " rows",
                    "3, (3, m)");
    }
    const std::vector<double> nm = wavelengths_of(wavelengths, table.width, "rows");
    std::array<Observer::Row, 3> own;
    for (std::size_t k = 0; k < 3; ++k) {
        own[k].assign(table.row(k), table.row(k) + table.width);
    }
    return {ObserverTitle{id, id, "own table", receptors_named(receptors)}, even_grid(nm),
            std::move(own)};
}

py::array sensitivities(const Observer& observer, const py::object& wavelengths) {
    std::vector<double> nm;
    if (wavelengths.is_none()) {
        nm = wavelengths_of(wavelengths, static_cast<std::size_t>(Sampling().count()), "observer");
    } else {
        const Numbers given = numbers_of(wavelengths, "wavelengths");
        nm = wavelengths_of(wavelengths, static_cast<std::size_t>(given.size()), "given");
    }
    std::vector<double> values;
    for (std::size_t k = 0; k < 3; ++k) {
        for (const double at : nm) {
            values.push_back(observer.at(k, at));
        }
    }
    return array_of(std::move(values), {3, static_cast<py::ssize_t>(nm.size())});
}

}  // namespace

Observer observer_of(const py::object& given) {
    if (py::isinstance<Observer>(given)) {
        return given.cast<Observer>();
    }
    if (py::isinstance<py::str>(given)) {
        return observer_named(given.cast<std::string>());
    }
    throw Error(ErrorKind::input, ErrorPlace{"observer"},
                std::string(py::str(py::type::of(given).attr("__name__"))),
                "an Observer, or the name of one");
}

void bind_observers(py::module_& module) {
    py::class_<Observer>(
        module, "Observer",
        "Three rows of sensitivities over wavelength: an eye, or the standard one of an\n"
        "instrument. Made by observer(), observer_of_age() and own_observer().")
        .def_property_readonly("id", &Observer::id, "Lower case, no spaces: \"cie1931-2deg\".")
        .def_property_readonly("title", &Observer::title, "For people.")
        .def_property_readonly("edition", &Observer::edition, "The table or formula it comes from.")
        .def_property_readonly(
            "receptors",
            [](const Observer& own) { return own.receptors() == Receptors::cones ? "lms" : "xyz"; },
            "What its rows are: \"xyz\" or \"lms\".")
        .def(
            "sensitivities", &sensitivities, py::arg("wavelengths") = py::none(),
            "Its rows at m wavelengths, nm: (3, m), energy units, linear between those of its table\n"
            "and 0 outside. None: 380 to 780 nm by 1 nm.")
        .def("__repr__", [](const Observer& own) { return "Observer('" + own.id() + "')"; });
    module.def("observer_names", &observer_names,
               "The ids of the observers that observer() has, besides cie2006:AGE:FIELD.");
    module.def(
        "observer", [](const std::string& name) { return observer_named(name); }, py::arg("name"),
        "An observer by its name: one of observer_names(), or cie2006:AGE:FIELD for the cone\n"
        "fundamentals of an age, 20 to 80 years, and a field, 1 to 10 degrees. Raises DomainError.");
    module.def(
        "observer_of_age", &observer_of_age, py::arg("age"), py::arg("field") = 2.0,
        "The average eye of an age, 20 to 80 years, and a field of view, 1 to 10 degrees: the\n"
        "cone fundamentals of CIE 170-1, each 1 at its peak. Raises DomainError.");
    module.def(
        "own_observer", &own_observer, py::arg("id"), py::arg("wavelengths"), py::arg("rows"),
        py::arg("receptors") = "xyz",
        "An observer from a table: rows (3, m) in energy units at m evenly spaced wavelengths, nm,\n"
        "which are \"xyz\" or \"lms\". The id is lower case and none of the library's own.");
}

}  // namespace samelight::python
