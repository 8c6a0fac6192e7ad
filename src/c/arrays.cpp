#include "c/base/arrays.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/listed_panel.hpp"
#include "samelight/c/samelight.h"
#include "samelight/display/white_base.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::c {
namespace {

/// More numbers than this no array has: a count that is larger was never meant.
constexpr std::size_t most_numbers = std::size_t{1} << 40U;

void require_countable(std::size_t count, std::size_t stride, const char* name) {
    if (count > most_numbers || stride > most_numbers ||
        (stride > 0 && count > most_numbers / stride)) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(count) + " rows, " + std::to_string(stride) + " apart",
                    "what memory can hold");
    }
}

/// An error of one of many, said of it.
Error numbered(const Error& error, const char* name, std::size_t index) {
    return {error.kind(), ErrorPlace{std::string(name) + " " + std::to_string(index)},
            error.found(), error.wanted()};
}

}  // namespace

std::size_t stride_of(std::size_t stride, std::size_t width, std::size_t count, const char* name) {
    if (stride != 0 && stride < width) {
        throw Error(ErrorKind::shape, ErrorPlace{name}, "a stride of " + std::to_string(stride),
                    std::to_string(width) + " or more, or 0");
    }
    const std::size_t result = stride == 0 ? width : stride;
    require_countable(count, result, name);
    return result;
}

template <std::size_t Width>
std::vector<std::array<double, Width>> rows_of(const samelight_rows& rows, const char* name) {
    if (rows.count == 0) {
        throw Error(ErrorKind::shape, ErrorPlace{name}, "no rows", "one at least");
    }
    const std::size_t stride = stride_of(rows.stride, Width, rows.count, name);
    const double* values = place(rows.values, name);
    std::vector<std::array<double, Width>> result(rows.count);
    for (std::size_t i = 0; i < rows.count; ++i) {
        std::copy_n(values + i * stride, Width, result[i].begin());
    }
    return result;
}

template std::vector<std::array<double, 1>> rows_of<1>(const samelight_rows&, const char*);
template std::vector<std::array<double, 3>> rows_of<3>(const samelight_rows&, const char*);

RowsOut::RowsOut(double* values, std::size_t width, std::size_t stride, std::size_t count,
                 const char* name)
    : out_(place(values, name)),
      width_(width),
      stride_(stride_of(stride, width, count, name)),
      count_(count) {}

void RowsOut::write(const std::vector<double>& values) const noexcept {
    for (std::size_t i = 0; i < count_; ++i) {
        std::copy_n(values.data() + i * width_, width_, out_ + i * stride_);
    }
}

Sampling sampling_of(const samelight_sampling* sampling) {
    if (sampling == nullptr) {
        return {};
    }
    const std::size_t most = static_cast<std::size_t>(std::numeric_limits<int>::max());
    return {sampling->first_nm, sampling->step_nm,
            static_cast<int>(std::min(sampling->count, most))};
}

std::vector<double> column_of(const double* values, std::size_t count, std::size_t stride,
                              const char* name) {
    const std::size_t apart = stride_of(stride, 1, count, name);
    place(values, name);
    std::vector<double> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        result[i] = values[i * apart];
    }
    return result;
}

std::vector<Spectrum> spectra_of(const samelight_spectra& spectra, const char* name) {
    if (spectra.count == 0 || spectra.wavelength_count == 0) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(spectra.count) + " spectra on " +
                        std::to_string(spectra.wavelength_count) + " wavelengths",
                    "one at least, on two or more");
    }
    require_countable(spectra.wavelength_count, 1, name);
    require_countable(spectra.count, spectra.wavelength_count, name);
    const std::size_t along = spectra.value_stride == 0 ? 1 : spectra.value_stride;
    const std::size_t across = spectra.spectrum_stride != 0 ? spectra.spectrum_stride
                               : along > 1                  ? 1
                                                            : spectra.wavelength_count;
    require_countable(spectra.count, across, name);
    require_countable(spectra.wavelength_count, along, name);
    const std::vector<double> nm =
        column_of(spectra.wavelengths_nm, spectra.wavelength_count, 1, name);
    place(spectra.values, name);
    std::vector<Spectrum> result;
    for (std::size_t i = 0; i < spectra.count; ++i) {
        try {
            result.emplace_back(
                nm, column_of(spectra.values + i * across, spectra.wavelength_count, along, name));
        } catch (const Error& error) {
            throw numbered(error, name, i);
        }
    }
    return result;
}

Spectrum spectrum_of(const samelight_spectra& spectra, const char* name) {
    if (spectra.count != 1) {
        throw Error(ErrorKind::shape, ErrorPlace{name}, std::to_string(spectra.count) + " spectra",
                    "one");
    }
    return spectra_of(spectra, name).front();
}

std::vector<const assess::WhitePanel*> panels_of(const samelight_panel* const* panels,
                                                 std::size_t count) {
    if (count > assess::most_white_displays) {
        throw Error(ErrorKind::shape, ErrorPlace{"panels"}, std::to_string(count),
                    std::to_string(assess::most_white_displays) + " at most");
    }
    if (count > 0) {
        place(panels, "panels");
    }
    std::vector<const assess::WhitePanel*> result;
    for (std::size_t i = 0; i < count; ++i) {
        result.push_back(&given(panels[i], ("panel " + std::to_string(i)).c_str()).value);
    }
    return result;
}

assess::ListedPanel listed(const assess::WhitePanel& panel) {
    std::vector<Warning> warnings = panel.notes.warnings;
    if (light_as_it_stands(panel.white.base) != nullptr) {
        throw Error(ErrorKind::input, ErrorPlace{panel.panel.name()},
                    "a display with its white as it stands",
                    "one with a white that was set to x, y, or as it is of itself");
    }
    return {panel.panel.name(),     panel.panel,        panel.model, xy_set_to(panel.white.base),
            panel.notes.understood, std::move(warnings)};
}

const std::string& name_of(const assess::WhitePanel& panel) { return panel.panel.name(); }

MeterRows meter_of(const samelight_meter* meter) {
    const samelight_meter own = taken(meter, samelight_meter_defaults, "meter");
    const std::string name = text_of(own.name, "meter's name");
    const std::vector<Spectrum> rows = spectra_of(own.sensitivities, "sensitivities");
    if (rows.size() != 3) {
        throw Error(ErrorKind::shape, ErrorPlace{name},
                    std::to_string(rows.size()) + " sensitivities",
                    "three: those behind X, Y and Z");
    }
    return meter_rows({name,
                       {rows[0], rows[1], rows[2]},
                       {"x", "y", "z"},
                       own.scale_on_a != 0 ? RowScale::illuminant_a : RowScale::as_given});
}

}  // namespace samelight::c
