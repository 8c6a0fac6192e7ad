#include "samelight/io/meter_rows.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"

#include <cstddef>
#include <vector>

#include "io/files/file_bytes.hpp"
#include "io/spectra/checks.hpp"
#include "io/spectra/scales.hpp"

namespace samelight::io {
namespace {

/// A file's warnings with the rows' among them: what they say of a common peak stands where the file's reader said it of its columns.
std::vector<Warning> in_order_of_file(const SpectralFile& file, const MeterRows& meter) {
    std::vector<Warning> result;
    auto of_rows = meter.warnings.begin();
    for (const Warning& warning : file.warnings) {
        if (detail::says_equal_peak(file, warning)) {
            if (meter.one_peak && of_rows == meter.warnings.begin()) {
                result.push_back(*of_rows++);
            }
        } else if (!detail::says_unit_of_power(file, warning)) {
            result.push_back(warning);
        }
    }
    result.insert(result.end(), of_rows, meter.warnings.end());
    return result;
}

}  // namespace

NamedMeter open_meter(const std::string& text, RowScale scale, const Sampling& sampling) {
    if (!detail::is_file_name(text) || cone_conditions_named(text)) {
        const Observer observer = observer_named(text);
        if (observer.receptors() == Receptors::cones) {
            throw Error(ErrorKind::input, "meter " + text, "cones",
                        "an observer with x, y, z, or a CSV file of a meter's three rows");
        }
        if (scale == RowScale::illuminant_a) {
            throw Error(ErrorKind::input, "meter " + text, "an observer, and rows to be scaled",
                        "an observer as it is, or a CSV file of a meter's rows");
        }
        return {meter_rows(observer, sampling), {}};
    }
    const SpectralFile file = read_spectral_csv(text);
    if (file.lights.size() != 3) {
        throw Error(ErrorKind::input, file.source,
                    std::to_string(file.lights.size()) + " columns of values",
                    "three: the sensitivities behind the meter's X, Y and Z, in this order");
    }
    const auto light = [&](std::size_t k) { return file.lights[k].light; };
    const auto name = [&](std::size_t k) { return file.lights[k].name; };
    NamedMeter meter{
        meter_rows(
            {file.source, {light(0), light(1), light(2)}, {name(0), name(1), name(2)}, scale},
            sampling),
        file.understood};
    meter.warnings = in_order_of_file(file, meter);
    return meter;
}

}  // namespace samelight::io
