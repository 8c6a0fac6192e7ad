#pragma once
// Arrays of the C interface: looked at, taken in, written back.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/c/samelight.h"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::c {

/// A stride as it is meant. Throws Error (shape) for one below `width`, and for rows that no memory could hold.
std::size_t stride_of(std::size_t stride, std::size_t width, std::size_t count, const char* name);

/// Numbers in rows of `Width`. Throws Error (input) for none at all where there should be some, Error (shape) as stride_of().
template <std::size_t Width>
std::vector<std::array<double, Width>> rows_of(const samelight_rows& rows, const char* name);

extern template std::vector<std::array<double, 1>> rows_of<1>(const samelight_rows&, const char*);
extern template std::vector<std::array<double, 3>> rows_of<3>(const samelight_rows&, const char*);

/// Where rows of `width` numbers are written: what is wrong with it is found before anything is worked out.
class RowsOut {
  public:
    /// Throws as stride_of(), and Error (input) for null.
    RowsOut(double* values, std::size_t width, std::size_t stride, std::size_t count,
            const char* name);

    /// Writes count rows, close together in `values`. Throws nothing.
    void write(const std::vector<double>& values) const noexcept;

  private:
    double* out_;
    std::size_t width_, stride_, count_;
};

/// The sampling; null: the library's own.
Sampling sampling_of(const samelight_sampling* sampling);

/// `count` values, `stride` doubles apart.
std::vector<double> column_of(const double* values, std::size_t count, std::size_t stride,
                              const char* name);

/// Spectra, each named by its number in errors; of other kinds of errors ("unit 3") by `called`.
std::vector<Spectrum> spectra_of(const samelight_spectra& spectra, const char* name);

/// The only one. Throws Error (shape) for any other number.
Spectrum spectrum_of(const samelight_spectra& spectra, const char* name);

/// Displays of a list, none of them null. Throws Error (input).
std::vector<const assess::WhitePanel*> panels_of(const samelight_panel* const* panels,
                                                 std::size_t count);

/// A display as lists have it.
assess::ListedPanel listed(const assess::WhitePanel& panel);

/// The display's name, for errors.
const std::string& name_of(const assess::WhitePanel& panel);

/// A meter's rows.
MeterRows meter_of(const samelight_meter* meter);

}  // namespace samelight::c
