#pragma once
// The bodies of meter/selection/candidates.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool is_same_correction(const CandidateCorrection& a,
                                         const CandidateCorrection& b) {
    const bool same_panel = a.panel.has_value() == b.panel.has_value() &&
                            (!a.panel || (a.panel->sampling() == b.panel->sampling() &&
                                          a.panel->emitters() == b.panel->emitters() &&
                                          a.panel->white() == b.panel->white()));
    return same_panel && a.correction.reference_from_meter == b.correction.reference_from_meter &&
           a.correction.luminance_factor == b.correction.luminance_factor &&
           a.correction.observer == b.correction.observer &&
           a.correction.raw_channels == b.correction.raw_channels;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Lights4 lights_of(const Panel& panel) {
    Lights4 lights(panel.sampling().count(), 4);
    lights << panel.emitters(), panel.white();
    return lights;
}

/// Whether a correction keeps white exact where four emitters leave it a choice.
inline bool keeps_white(const Correction& correction) {
    switch (correction.method) {
        case CorrectionMethod::four_colour:
        case CorrectionMethod::white_exact_least_squares:
        case CorrectionMethod::white_only:
            return true;
        case CorrectionMethod::spectra: {
            const auto white =
                std::find_if(correction.residuals.begin(), correction.residuals.end(),
                             [](const PatchResidual& r) { return r.patch == "white"; });
            return white != correction.residuals.end() && white->after.xy() < 1e-6;
        }
        default:
            return false;
    }
}

SAMELIGHT_INLINE double noise_of_shown(const Correction& correction, bool four_emitters,
                                       bool white) {
    if (four_emitters && !(white && keeps_white(correction))) {
        return 0.005;
    }
    if (correction.method == CorrectionMethod::spectra) {
        return 1e-4;
    }
    return white && keeps_white(correction) ? 0.001 : 0.002;
}

/// What a correction tells about its meter: it has read the emitters of its panel, and the inverse matrix gives back what it said. Raw channels say nothing
/// of X, Y, Z.
inline void add_what_it_shows(const CandidateCorrection& known,
                              std::vector<KnownReading>& readings) {
    if (!known.panel || known.not_at_all || known.correction.raw_channels ||
        known.correction.verdict == FitVerdict::do_not_use) {
        return;
    }
    const Observer observer = observer_named(known.correction.observer);
    const Lights4 lights = lights_of(*known.panel);
    const Eigen::Matrix3d meter_from_reference =
        dense::inverse_3x3(known.correction.luminance_factor * known.correction.matrix());
    const Eigen::Matrix<double, 3, 4> said =
        dense::product(meter_from_reference,
                       dense::responses(observer.on(known.panel->sampling()).rows(), lights));
    const bool four = known.panel->white_is_base();
    const Eigen::Index first = known.correction.valid_near ? 3 : 0;
    const Eigen::Index end = known.correction.valid_near || four ? 4 : 3;
    for (Eigen::Index k = first; k < end; ++k) {
        const Eigen::VectorXd light = lights.col(k);
        readings.push_back({{light.begin(), light.end()},
                            as_array(Eigen::Vector3d(said.col(k))),
                            noise_of_shown(known.correction, four, k == 3)});
    }
}

/// Index of an earlier one that is the same correction.
inline std::optional<std::size_t> first_of_same(std::span<const CandidateCorrection> corrections,
                                                std::size_t at) {
    for (std::size_t i = 0; i < at; ++i) {
        if (is_same_correction(corrections[i], corrections[at])) {
            return i;
        }
    }
    return {};
}

SAMELIGHT_INLINE void warn_about_same(std::span<const CandidateCorrection> corrections,
                                      std::vector<Warning>& warnings) {
    for (std::size_t i = 0; i < corrections.size(); ++i) {
        if (const auto first = first_of_same(corrections, i)) {
            warnings.push_back(Warning{
                "same_correction",
                {{"correction", corrections[i].name}, {"same_as", corrections[*first].name}}});
        }
    }
}

SAMELIGHT_INLINE ShownMeter likely_meter(const Sampling& sampling,
                                         std::span<const CandidateCorrection> corrections,
                                         MeterSupposition& supposed,
                                         std::vector<Warning>& warnings) {
    std::vector<KnownReading> readings;
    for (std::size_t i = 0; i < corrections.size(); ++i) {
        if (!first_of_same(corrections, i)) {
            add_what_it_shows(corrections[i], readings);
        }
    }
    LikelyMeter meter(sampling, supposed, readings);
    if (meter.surprise() > 1.0) {
        supposed.mismatch *= std::sqrt(meter.surprise());
        const bool believable = !(supposed.mismatch > unbelievable_mismatch);
        if (!believable) {
            warnings.insert(
                warnings.begin(),
                Warning{"no_such_meter",
                        {{"reason", "corrections"}, {"off_percent", 100.0 * supposed.mismatch}}});
        } else if (meter.surprise() > 4.0) {
            warnings.push_back(Warning{"meter_worse_than_supposed",
                                       {{"times", std::sqrt(meter.surprise())},
                                        {"mismatch_percent", 100.0 * supposed.mismatch}}});
        }
        return {LikelyMeter(sampling, supposed, std::move(readings)), believable};
    }
    return {std::move(meter)};
}

SAMELIGHT_INLINE void warn_about_meters(std::span<const CandidateCorrection> corrections,
                                        std::vector<Warning>& warnings) {
    std::string first;
    for (const CandidateCorrection& known : corrections) {
        const std::string& meter = known.correction.provenance.meter_instrument;
        if (first.empty()) {
            first = meter;
        } else if (!meter.empty() && meter != first) {
            warnings.push_back(Warning{"different_meters", {{"first", first}, {"second", meter}}});
            return;
        }
    }
}

}  // namespace samelight::detail
