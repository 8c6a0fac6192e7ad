#pragma once
// numpy's arrays: looked at, read where they lie, handed out without copying.
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include "samelight/spectrum/spectrum.hpp"

namespace samelight::python {

/// float64, the last axis close together: read where it lies, else copied.
using Numbers = pybind11::array_t<double, pybind11::array::c_style | pybind11::array::forcecast>;

/// Real numbers. Throws Error (input), `name` first, for anything else: texts, complex numbers, ragged lists.
Numbers numbers_of(const pybind11::object& values, const char* name);

/// Rows of `width` numbers, or one such row.
struct Rows {
    Numbers values;
    std::size_t count = 0;
    std::size_t width = 0;
    /// Whether it was one row alone, so that the answer is one, too.
    bool single = false;

    [[nodiscard]] const double* row(std::size_t index) const {
        return values.data() + index * width;
    }
};

/// Throws Error (shape), `name` first, for another shape than (width,) or (n, width), and for none at all; width 0: any.
Rows rows_of(const pybind11::object& values, std::size_t width, const char* name);

/// Spectra, (m,) or (n, m), and the m wavelengths that they share, nm.
struct SpectraRows {
    Rows rows;
    std::vector<double> nm;
};

/// @param wavelengths  m numbers; None: 380-780 nm by 1 nm
/// Throws Error (shape, input, domain) as rows_of(), and for wavelengths that are none.
SpectraRows spectra_of(const pybind11::object& spectra, const pybind11::object& wavelengths,
                       const char* name);

/// Wavelengths, nm. Throws Error as above.
std::vector<double> wavelengths_of(const pybind11::object& wavelengths, std::size_t count,
                                   const char* name);

/// Row `index` as a spectrum. Throws Error as Spectrum, `called` first.
Spectrum spectrum_at(const SpectraRows& spectra, std::size_t index, const std::string& called);

/// One spectrum. Throws Error (shape) for several.
Spectrum one_spectrum(const pybind11::object& values, const pybind11::object& wavelengths,
                      const char* name);

/// The numbers as an array of this shape, which takes them over.
pybind11::array array_of(std::vector<double> values, std::vector<pybind11::ssize_t> shape);

/// (n, width), or (width,) where there was one row alone; width 1 is left out of the shape.
pybind11::object answer_rows(std::vector<double> values, const Rows& like, std::size_t width);

/// Numbers that live in `owner` as an array that can't be written and keeps it alive.
pybind11::array view_of(std::span<const double> values, std::vector<pybind11::ssize_t> shape,
                        const pybind11::object& owner);

}  // namespace samelight::python
