#include "python/base/arrays.hpp"

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

std::string shape_text(const py::array& values) {
    std::string text = "(";
    for (py::ssize_t i = 0; i < values.ndim(); ++i) {
        text += (i > 0 ? ", " : "") + std::to_string(values.shape(i));
    }
    return "an array of shape " + text + (values.ndim() == 1 ? ",)" : ")");
}

}  // namespace

Numbers numbers_of(const py::object& values, const char* name) {
    const py::array any = py::array::ensure(values);
    if (!any) {
        PyErr_Clear();
        throw Error(ErrorKind::input, ErrorPlace{name},
                    std::string(py::str(py::type::of(values).attr("__name__"))), "real numbers");
    }
    const char kind = any.dtype().kind();
    if (kind != 'f' && kind != 'i' && kind != 'u') {
        throw Error(ErrorKind::input, ErrorPlace{name},
                    "an array of " + std::string(py::str(any.dtype())), "real numbers");
    }
    Numbers result = Numbers::ensure(any);
    if (!result) {
        throw py::error_already_set();
    }
    return result;
}

Rows rows_of(const py::object& values, std::size_t width, const char* name) {
    Rows rows{numbers_of(values, name)};
    const py::ssize_t axes = rows.values.ndim();
    if (axes == 1 || axes == 2) {
        rows.single = axes == 1;
        rows.count = rows.single ? 1 : static_cast<std::size_t>(rows.values.shape(0));
        rows.width = static_cast<std::size_t>(rows.values.shape(axes - 1));
    }
    if (rows.count == 0 || rows.width == 0 || (width != 0 && rows.width != width)) {
        const std::string w = width == 0 ? "m" : std::to_string(width);
        throw Error(ErrorKind::shape, ErrorPlace{name}, shape_text(rows.values),
                    "(" + w + ",) or (n, " + w + ")");
    }
    return rows;
}

std::vector<double> wavelengths_of(const py::object& wavelengths, std::size_t count,
                                   const char* name) {
    if (!wavelengths.is_none()) {
        const Rows rows = rows_of(wavelengths, 0, "wavelengths");
        if (!rows.single || rows.width != count) {
            throw Error(ErrorKind::shape, ErrorPlace{"wavelengths"}, shape_text(rows.values),
                        "(" + std::to_string(count) + ",), as " + name);
        }
        return {rows.row(0), rows.row(0) + count};
    }
    const Sampling usual;
    if (count != static_cast<std::size_t>(usual.count())) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(count) + " values without wavelengths",
                    std::to_string(usual.count()) + ", " + usual.describe() + ", or wavelengths");
    }
    std::vector<double> nm;
    for (int i = 0; i < usual.count(); ++i) {
        nm.push_back(usual.wavelength_nm(i));
    }
    return nm;
}

SpectraRows spectra_of(const py::object& spectra, const py::object& wavelengths, const char* name) {
    Rows rows = rows_of(spectra, 0, name);
    std::vector<double> nm = wavelengths_of(wavelengths, rows.width, name);
    // Wavelengths are looked at once, whatever the values.
    static_cast<void>(Spectrum(nm, std::vector<double>(nm.size(), 0.0)));
    return {std::move(rows), std::move(nm)};
}

Spectrum spectrum_at(const SpectraRows& spectra, std::size_t index, const std::string& called) {
    const double* row = spectra.rows.row(index);
    try {
        return {spectra.nm, std::vector<double>(row, row + spectra.rows.width)};
    } catch (const Error& error) {
        throw Error(error.kind(), ErrorPlace{called}, error.found(), error.wanted());
    }
}

Spectrum one_spectrum(const py::object& values, const py::object& wavelengths, const char* name) {
    const SpectraRows spectra = spectra_of(values, wavelengths, name);
    if (!spectra.rows.single) {
        throw Error(ErrorKind::shape, ErrorPlace{name}, shape_text(spectra.rows.values),
                    "one spectrum, (m,)");
    }
    return spectrum_at(spectra, 0, name);
}

py::array array_of(std::vector<double> values, std::vector<py::ssize_t> shape) {
    auto owned = std::make_unique<std::vector<double>>(std::move(values));
    const double* data = owned->data();
    const py::capsule keeper(owned.get(),
                             [](void* own) { delete static_cast<std::vector<double>*>(own); });
    owned.release();
    return py::array_t<double>(std::move(shape), data, keeper);
}

py::object answer_rows(std::vector<double> values, const Rows& like, std::size_t width) {
    if (like.single && width == 1) {
        return py::float_(values.front());
    }
    std::vector<py::ssize_t> shape;
    if (!like.single) {
        shape.push_back(static_cast<py::ssize_t>(like.count));
    }
    if (width != 1) {
        shape.push_back(static_cast<py::ssize_t>(width));
    }
    return array_of(std::move(values), std::move(shape));
}

py::array view_of(std::span<const double> values, std::vector<py::ssize_t> shape,
                  const py::object& owner) {
    py::array_t<double> view(std::move(shape), values.data(), owner);
    view.attr("setflags")(py::arg("write") = false);
    return view;
}

}  // namespace samelight::python
