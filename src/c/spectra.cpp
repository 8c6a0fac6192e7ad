#include <array>
#include <cmath>
#include <cstddef>
#include <cstring>
#include <string>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/c/samelight.h"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace {

using samelight::Error;
using samelight::ErrorKind;
using samelight::ErrorPlace;
using Instrument1931 = samelight::Cie1931_2deg;
using Xyz1931 = samelight::Tristimulus<Instrument1931>;

/// What `f` makes of each row, close together; errors name the row.
template <class Rows, class F>
std::vector<double> of_each_row(const Rows& rows, const char* name, F&& f) {
    std::vector<double> result;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        try {
            for (const double value : f(rows[i])) {
                if (!std::isfinite(value)) {
                    throw Error(ErrorKind::domain, name, "a result beyond the range of numbers",
                                "values of a size that lights and colours have");
                }
                result.push_back(value);
            }
        } catch (const Error& error) {
            throw Error(error.kind(), ErrorPlace{std::string(name) + " " + std::to_string(i)},
                        error.found(), error.wanted());
        }
    }
    return result;
}

Xyz1931 xyz_of_row(const std::array<double, 3>& row) { return {row[0], row[1], row[2]}; }

}  // namespace

void samelight_observer_table_defaults(samelight_observer_table* table) {
    if (table != nullptr) {
        *table = {sizeof(samelight_observer_table),
                  nullptr,
                  nullptr,
                  SAMELIGHT_COLOUR_MATCHING,
                  {380.0, 1.0, 401},
                  nullptr,
                  0};
    }
}

samelight_status samelight_observer_named(const char* name, samelight_observer** observer,
                                          samelight_error* error) {
    return samelight::c::made(observer, "observer", error, [&] {
        return samelight::observer_named(samelight::c::text_of(name, "name"));
    });
}

samelight_status samelight_observer_of_age(double age_years, double field_deg,
                                           samelight_observer** observer, samelight_error* error) {
    return samelight::c::made(observer, "observer", error, [&] {
        for (const double value : {age_years, field_deg}) {
            if (!std::isfinite(value)) {
                throw Error(ErrorKind::domain, ErrorPlace{"age and field"},
                            samelight::to_text(value), "20 to 80 years, 1 to 10 degrees");
            }
        }
        return samelight::observer_named("cie2006:" + samelight::to_text(age_years) + ":" +
                                         samelight::to_text(field_deg));
    });
}

samelight_status samelight_observer_from_table(const samelight_observer_table* table,
                                               samelight_observer** observer,
                                               samelight_error* error) {
    return samelight::c::made(observer, "observer", error, [&] {
        const auto own = samelight::c::taken(table, samelight_observer_table_defaults, "table");
        // Looked at as the number that C may have put there.
        int kind = 0;
        static_assert(sizeof(kind) == sizeof(own.receptors));
        std::memcpy(&kind, &own.receptors, sizeof(kind));
        if (kind != SAMELIGHT_COLOUR_MATCHING && kind != SAMELIGHT_CONES) {
            throw Error(ErrorKind::input, ErrorPlace{"receptors"}, "none of the two kinds",
                        "SAMELIGHT_COLOUR_MATCHING or SAMELIGHT_CONES");
        }
        const std::string id = samelight::c::text_of(own.id, "id");
        const samelight::Sampling grid = samelight::c::sampling_of(&own.grid);
        const auto n = static_cast<std::size_t>(grid.count());
        const std::size_t stride = samelight::c::stride_of(own.row_stride, n, 3, "rows");
        samelight::c::place(own.rows, "rows");
        std::array<samelight::Observer::Row, 3> rows;
        for (std::size_t k = 0; k < 3; ++k) {
            rows[k].assign(own.rows + k * stride, own.rows + k * stride + n);
        }
        return samelight::Observer(
            {id, samelight::c::text_or(own.title, "title", id.c_str()), "own table",
             own.receptors == SAMELIGHT_CONES ? samelight::Receptors::cones
                                              : samelight::Receptors::colour_matching},
            grid, std::move(rows));
    });
}

const char* samelight_observer_id(const samelight_observer* observer) {
    return observer != nullptr ? observer->value.id().c_str() : "";
}

samelight_status samelight_observer_sensitivities(const samelight_observer* observer,
                                                  const samelight_sampling* sampling, double* rows,
                                                  size_t row_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto& own = samelight::c::given(observer, "observer").value;
        const samelight::Sampling grid = samelight::c::sampling_of(sampling);
        const samelight::c::RowsOut out(rows, static_cast<std::size_t>(grid.count()), row_stride, 3,
                                        "rows");
        out.write(own.on(grid).values);
    });
}

void samelight_observer_destroy(samelight_observer* observer) { delete observer; }

samelight_status samelight_xyz_from_spectra(const samelight_observer* observer,
                                            const samelight_spectra* spectra,
                                            const samelight_sampling* sampling, double* xyz,
                                            size_t xyz_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto& own = samelight::c::given(observer, "observer").value;
        const samelight::Sampling grid = samelight::c::sampling_of(sampling);
        const auto lights =
            samelight::c::spectra_of(samelight::c::given(spectra, "spectra"), "spectrum");
        const samelight::c::RowsOut out(xyz, 3, xyz_stride, lights.size(), "xyz");
        const samelight::Sensitivities rows = own.on(grid);
        out.write(of_each_row(lights, "spectrum", [&](const samelight::Spectrum& light) {
            return samelight::tristimulus(rows, samelight::rebin(light, grid)).values();
        }));
    });
}

samelight_status samelight_xy_from_xyz(const samelight_rows* xyz, double* xy, size_t xy_stride,
                                       samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto rows = samelight::c::rows_of<3>(samelight::c::given(xyz, "xyz"), "xyz");
        const samelight::c::RowsOut out(xy, 2, xy_stride, rows.size(), "xy");
        out.write(of_each_row(rows, "row", [](const std::array<double, 3>& row) {
            const auto c = samelight::chromaticity(xyz_of_row(row));
            return std::array<double, 2>{c.x(), c.y()};
        }));
    });
}

samelight_status samelight_uv_from_xyz(const samelight_rows* xyz, double* uv, size_t uv_stride,
                                       samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto rows = samelight::c::rows_of<3>(samelight::c::given(xyz, "xyz"), "xyz");
        const samelight::c::RowsOut out(uv, 2, uv_stride, rows.size(), "uv");
        out.write(of_each_row(rows, "row", [](const std::array<double, 3>& row) {
            const auto c = samelight::uv1976(samelight::chromaticity(xyz_of_row(row)));
            return std::array<double, 2>{c.u(), c.v()};
        }));
    });
}

samelight_status samelight_lab_from_xyz(const samelight_rows* xyz, const double* white_xyz,
                                        double* lab, size_t lab_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto rows = samelight::c::rows_of<3>(samelight::c::given(xyz, "xyz"), "xyz");
        const double* white = samelight::c::place(white_xyz, "white");
        const samelight::c::RowsOut out(lab, 3, lab_stride, rows.size(), "lab");
        const Xyz1931 beside(white[0], white[1], white[2]);
        out.write(of_each_row(rows, "row", [&](const std::array<double, 3>& row) {
            return samelight::lab(xyz_of_row(row), beside).values();
        }));
    });
}

samelight_status samelight_de2000_from_lab(const samelight_rows* first,
                                           const samelight_rows* second, double* de00,
                                           size_t de00_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const auto a = samelight::c::rows_of<3>(samelight::c::given(first, "first"), "first");
        const auto b = samelight::c::rows_of<3>(samelight::c::given(second, "second"), "second");
        if (a.size() != b.size()) {
            throw Error(ErrorKind::shape, ErrorPlace{"first and second"},
                        std::to_string(a.size()) + " and " + std::to_string(b.size()) + " rows",
                        "as many of each");
        }
        const samelight::c::RowsOut out(de00, 1, de00_stride, a.size(), "de00");
        // Any white: the differences are of the two sides' own.
        const Xyz1931 white(1.0, 1.0, 1.0);
        std::vector<std::size_t> pairs(a.size());
        for (std::size_t i = 0; i < pairs.size(); ++i) {
            pairs[i] = i;
        }
        const auto lab_of_row = [&](const std::array<double, 3>& row) {
            return samelight::Lab<Instrument1931>(row[0], row[1], row[2], white);
        };
        out.write(of_each_row(pairs, "row", [&](std::size_t i) {
            return std::array<double, 1>{
                samelight::delta_e_2000(lab_of_row(a[i]), lab_of_row(b[i]))};
        }));
    });
}
