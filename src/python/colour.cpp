#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <pybind11/pybind11.h>

#include "python/base/arrays.hpp"
#include "python/base/bindings.hpp"
#include "python/base/takes.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/observer/tristimulus_batch.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

using Xyz1931 = Tristimulus<Cie1931_2deg>;

/// So many rows are taken apart into columns at a time: they stay in the first-level cache.
constexpr std::size_t rows_at_once = 256;

/// Columns of a part of some rows.
struct ColumnsOfRows {
    std::array<std::vector<double>, 3> columns;

    ColumnsOfRows() {
        for (auto& column : columns) {
            column.resize(rows_at_once);
        }
    }
    /// Rows from `first` on; one row alone stands for all.
    void take(const Rows& rows, std::size_t first, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            const double* row = rows.row(rows.count == 1 ? 0 : first + i);
            for (std::size_t k = 0; k < 3; ++k) {
                columns[k][i] = row[k];
            }
        }
    }
    [[nodiscard]] Columns3<const double> read(std::size_t count) const {
        return {std::span(columns[0]).first(count), std::span(columns[1]).first(count),
                std::span(columns[2]).first(count)};
    }
    [[nodiscard]] Columns3<double> write(std::size_t count) {
        return {std::span(columns[0]).first(count), std::span(columns[1]).first(count),
                std::span(columns[2]).first(count)};
    }
};

void require_finite(const Rows& rows, const char* name) {
    const std::size_t size = rows.count * rows.width;
    const double* values = rows.row(0);
    const double* at =
        std::find_if_not(values, values + size, [](double v) { return std::isfinite(v); });
    if (at != values + size) {
        const auto row = static_cast<std::size_t>(at - values) / rows.width;
        throw Error(ErrorKind::domain, ErrorPlace{std::string(name) + " " + std::to_string(row)},
                    "a value that isn't finite", "finite numbers");
    }
}

/// The observer's rows on the spectra's own wavelengths: what each adds to X, Y and Z. Rebinning is linear.
Sensitivities weights_on(const Observer& observer, const std::vector<double>& nm) {
    const Sampling usual;
    const Sensitivities rows = observer.on(usual);
    bool same = nm.size() == static_cast<std::size_t>(usual.count());
    for (std::size_t i = 0; same && i < nm.size(); ++i) {
        same = nm[i] == usual.wavelength_nm(static_cast<int>(i));
    }
    if (same) {
        return rows;
    }
    // The step is in the weights; the sampling says how many there are.
    Sensitivities weights{rows.observer,
                          Sampling(usual.first_nm(), 1.0, static_cast<int>(nm.size())),
                          std::vector<double>(3 * nm.size())};
    std::vector<double> one(nm.size(), 0.0);
    for (std::size_t i = 0; i < nm.size(); ++i) {
        one[i] = 1.0;
        const auto seen = tristimulus(rows, rebin(Spectrum(nm, one), usual)).values();
        one[i] = 0.0;
        for (std::size_t k = 0; k < 3; ++k) {
            weights.values[k * nm.size() + i] = seen[k];
        }
    }
    return weights;
}

/// Spectrum by spectrum, for few of them.
std::vector<double> seen_one_by_one(const Observer& observer, const SpectraRows& spectra) {
    const Sampling usual;
    const Sensitivities rows = observer.on(usual);
    std::vector<double> xyz;
    for (std::size_t i = 0; i < spectra.rows.count; ++i) {
        const Spectrum light = spectrum_at(spectra, i, "spectrum " + std::to_string(i));
        const auto seen = tristimulus(rows, rebin(light, usual)).values();
        xyz.insert(xyz.end(), seen.begin(), seen.end());
    }
    return xyz;
}

std::vector<double> seen_at_once(const Observer& observer, const SpectraRows& spectra) {
    const Sensitivities weights = weights_on(observer, spectra.nm);
    std::vector<double> xyz(3 * spectra.rows.count);
    tristimulus_batch(
        weights,
        std::span<const double>(spectra.rows.row(0), spectra.rows.count * spectra.rows.width),
        std::span<double>(xyz));
    // A value that isn't finite leaves none of its three sums finite, so that the spectra need not be read twice.
    if (!std::all_of(xyz.begin(), xyz.end(), [](double v) { return std::isfinite(v); })) {
        require_finite(spectra.rows, "spectrum");
    }
    return xyz;
}

py::object xyz(const py::object& spectra, const py::object& wavelengths,
               const py::object& observer) {
    const SpectraRows lights = spectra_of(spectra, wavelengths, "spectra");
    const Observer eye = observer_of(observer);
    std::vector<double> values;
    {
        const py::gil_scoped_release free;
        values = lights.rows.count < 2 * lights.nm.size() &&
                         lights.nm.size() != static_cast<std::size_t>(Sampling().count())
                     ? seen_one_by_one(eye, lights)
                     : seen_at_once(eye, lights);
    }
    return answer_rows(std::move(values), lights.rows, 3);
}

/// What `f` makes of each row; errors name the row.
template <class F>
std::vector<double> of_each_row(const Rows& rows, F&& f) {
    std::vector<double> result;
    result.reserve(2 * rows.count);
    for (std::size_t i = 0; i < rows.count; ++i) {
        const double* row = rows.row(i);
        try {
            const auto [a, b] = f(chromaticity(Xyz1931(row[0], row[1], row[2])));
            result.push_back(a);
            result.push_back(b);
        } catch (const Error& error) {
            throw Error(error.kind(), ErrorPlace{"row " + std::to_string(i)}, error.found(),
                        error.wanted());
        }
    }
    return result;
}

py::object xy(const py::object& values) {
    const Rows rows = rows_of(values, 3, "xyz");
    return answer_rows(of_each_row(rows,
                                   [](const Chromaticity<Cie1931_2deg>& c) {
                                       return std::array<double, 2>{c.x(), c.y()};
                                   }),
                       rows, 2);
}

py::object uv(const py::object& values) {
    const Rows rows = rows_of(values, 3, "xyz");
    return answer_rows(of_each_row(rows,
                                   [](const Chromaticity<Cie1931_2deg>& c) {
                                       const auto scaled = uv1976(c);
                                       return std::array<double, 2>{scaled.u(), scaled.v()};
                                   }),
                       rows, 2);
}

py::object lab(const py::object& values, const py::object& white) {
    const Rows rows = rows_of(values, 3, "xyz");
    const Rows beside = rows_of(white, 3, "white_xyz");
    if (!beside.single) {
        throw Error(ErrorKind::shape, ErrorPlace{"white_xyz"},
                    std::to_string(beside.count) + " rows", "one white, (3,)");
    }
    std::vector<double> result(3 * rows.count);
    {
        const py::gil_scoped_release free;
        require_finite(rows, "row");
        require_finite(beside, "white_xyz, row");
        const Xyz1931 light(beside.row(0)[0], beside.row(0)[1], beside.row(0)[2]);
        ColumnsOfRows in;
        ColumnsOfRows out;
        for (std::size_t first = 0; first < rows.count; first += rows_at_once) {
            const std::size_t count = std::min(rows_at_once, rows.count - first);
            in.take(rows, first, count);
            lab_from_xyz(in.read(count), light, out.write(count));
            for (std::size_t i = 0; i < count; ++i) {
                for (std::size_t k = 0; k < 3; ++k) {
                    result[3 * (first + i) + k] = out.columns[k][i];
                }
            }
        }
    }
    return answer_rows(std::move(result), rows, 3);
}

py::object de2000(const py::object& lab1, const py::object& lab2) {
    const Rows a = rows_of(lab1, 3, "lab1");
    const Rows b = rows_of(lab2, 3, "lab2");
    if (a.count != b.count && !a.single && !b.single) {
        throw Error(ErrorKind::shape, ErrorPlace{"lab1 and lab2"},
                    std::to_string(a.count) + " and " + std::to_string(b.count) + " rows",
                    "as many of each, or one row alone");
    }
    const Rows& longer = a.single ? b : a;
    std::vector<double> result(longer.count);
    {
        const py::gil_scoped_release free;
        require_finite(a, "lab1, row");
        require_finite(b, "lab2, row");
        ColumnsOfRows first_side;
        ColumnsOfRows second_side;
        for (std::size_t first = 0; first < longer.count; first += rows_at_once) {
            const std::size_t count = std::min(rows_at_once, longer.count - first);
            first_side.take(a, first, count);
            second_side.take(b, first, count);
            delta_e_2000(first_side.read(count), second_side.read(count),
                         std::span<double>(result).subspan(first, count));
        }
    }
    return answer_rows(std::move(result), longer, 1);
}

}  // namespace

void bind_colour(py::module_& module) {
    module.def(
        "xyz", &xyz, py::arg("spectra"), py::arg("wavelengths") = py::none(),
        py::arg("observer") = "cie1931-2deg",
        "X, Y, Z (L, M, S for cones) of spectra: (n, 3) of (n, m), (3,) of (m,), in the spectra's\n"
        "unit times nm. Spectra enter 380 to 780 nm by 1 nm without loss of light, so that the sum\n"
        "is the plain one of CIE 15:2018, 7.1; what lies outside isn't counted. wavelengths: m, nm.\n"
        "Error below 1e-12 of the sum of |sensitivity times light|. Raises ShapeError, DomainError.");
    module.def("xy", &xy, py::arg("xyz"),
               "x, y of X, Y, Z: (n, 2) of (n, 3). Raises DomainError where a sum isn't above 0.");
    module.def(
        "uv", &uv, py::arg("xyz"),
        "u', v' of 1976 of X, Y, Z: (n, 2) of (n, 3). Raises DomainError where a sum isn't above 0.");
    module.def("lab", &lab, py::arg("xyz"), py::arg("white"),
               "L*, a*, b* of X, Y, Z beside a white, (3,), in the same unit: (n, 3) of (n, 3).\n"
               "Raises DomainError for a white that isn't above 0.");
    module.def(
        "de2000", &de2000, py::arg("lab1"), py::arg("lab2"),
        "CIEDE2000, without unit, of pairs of L*, a*, b* relative to one white: (n,) of two (n, 3),\n"
        "of which either may be one row alone, (3,); a float of two such. Raises ShapeError.");
}

}  // namespace samelight::python
