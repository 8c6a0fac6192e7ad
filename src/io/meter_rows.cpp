#include "samelight/io/meter_rows.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/meter/mismatch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <algorithm>
#include <cmath>

namespace samelight::io {
namespace {

void warn_if_cut(const SpectralFile& file, const LightColumn& column, const Sampling& sampling,
                 std::vector<Warning>& warnings) {
    const Spectrum& row = column.light;
    const double enough = 0.01 * row.peak();
    const bool below = row.first_nm() > sampling.first_nm() + row.band_nm(0) &&
                       std::abs(row.values().front()) > enough;
    const bool above = row.last_nm() < sampling.last_nm() - row.band_nm(row.size() - 1) &&
                       std::abs(row.values().back()) > enough;
    if (below || above) {
        warnings.push_back({"rows_cut", file.source + ", " + column.name +
                                            ": cut off at more than 1 % of its peak, at " +
                                            to_text(below ? row.first_nm() : row.last_nm()) +
                                            " nm; taken as 0 beyond."});
    }
}

Sensitivities rows_of(const SpectralFile& file, const Sampling& sampling) {
    Sensitivities rows{file.source, sampling, {}};
    for (const LightColumn& column : file.lights) {
        for (int i = 0; i < sampling.count(); ++i) {
            rows.values.push_back(column.light.at(sampling.wavelength_nm(i)));
        }
    }
    return rows;
}

}  // namespace

NamedMeter open_meter(const std::string& text, bool scale_on_a, const Sampling& sampling) {
    if (text.find_first_of("./\\") == std::string::npos || cone_conditions_named(text)) {
        const Observer observer = observer_named(text);
        if (observer.receptors() == Receptors::cones) {
            throw Error(ErrorKind::input, "meter " + text, "cones",
                        "an observer with x, y, z, or a CSV file of a meter's three rows");
        }
        if (scale_on_a) {
            throw Error(ErrorKind::input, "meter " + text, "an observer, and rows to be scaled",
                        "an observer as it is, or a CSV file of a meter's rows");
        }
        return {observer.on(sampling), RowScale::as_given, true, {}, {}};
    }
    const SpectralFile file = read_spectral_csv(text);
    if (file.lights.size() != 3) {
        throw Error(ErrorKind::input, file.source,
                    std::to_string(file.lights.size()) + " columns of values",
                    "three: the sensitivities behind the meter's X, Y and Z, in this order");
    }
    NamedMeter meter{rows_of(file, sampling), RowScale::as_given, false, file.understood, {}};
    for (const Warning& warning : file.warnings) {
        if (warning.code == "scale_unknown") {
            scale_on_a = true;
            meter.warnings.push_back(
                {"rows_scaled", file.source +
                                    ": its three columns have one peak, so their scales say "
                                    "nothing; each was scaled to read illuminant A right, as "
                                    "makers do."});
        } else if (warning.code != "unit_not_radiance") {
            meter.warnings.push_back(warning);
        }
    }
    for (const LightColumn& column : file.lights) {
        warn_if_cut(file, column, sampling, meter.warnings);
    }
    if (scale_on_a) {
        meter.rows = calibrated(std::move(meter.rows), standard_observer<Cie1931_2deg>());
        meter.scale = RowScale::illuminant_a;
    }
    return meter;
}

}  // namespace samelight::io
