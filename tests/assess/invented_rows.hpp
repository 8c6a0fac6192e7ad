#pragma once
// Meters that don't exist, as responses: rows of CIE 1931, moved, scaled, in another order, cut off.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "memory_and_files.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {

struct InventedRows {
    double shift_nm = 3.0;
    std::array<std::size_t, 3> order = {0, 1, 2};
    std::array<double, 3> scale = {1.0, 1.0, 1.0};
    bool one_peak = false;
    double first_nm = 380.0;
    bool without_short_lobe = false;  ///< of the first row

    [[nodiscard]] std::vector<Spectrum> responses() const {
        const Observer& observer = standard_observer<Cie1931_2deg>();
        std::vector<Spectrum> rows;
        for (std::size_t k = 0; k < 3; ++k) {
            std::vector<double> nm;
            std::vector<double> values;
            for (double at = first_nm; at <= 780.0; at += 1.0) {
                nm.push_back(at);
                const bool lost = without_short_lobe && k == 0 && at < 505.0;
                values.push_back(lost ? 0.0
                                      : scale.at(k) * observer.at(order.at(k), at - shift_nm));
            }
            Spectrum row(nm, values);
            if (one_peak) {
                for (double& value : values) {
                    value /= row.peak();
                }
                row = Spectrum(nm, values);
            }
            rows.push_back(row);
        }
        return rows;
    }

    [[nodiscard]] MeterResponses named(const std::string& name) const {
        const auto rows = responses();
        return {name, {rows[0], rows[1], rows[2]}};
    }

    [[nodiscard]] std::string csv() const { return spectra_csv({"x", "y", "z"}, responses()); }
};

}  // namespace samelight::test
