#pragma once
// The bodies of meter/model/model.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/numeric/condition.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(SpectraMethod method) {
    constexpr std::array<const char*, 3> names = {"red, green and blue exact", "least squares",
                                                  "white exact"};
    return names.at(static_cast<std::size_t>(method));
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Responses of observer and meter to red, green, blue and white, column by column.
struct PairedResponses {
    Eigen::Matrix<double, 3, 4> reference;
    Eigen::Matrix<double, 3, 4> meter;
};

inline constexpr std::array<const char*, 4> emitter_names = {"red", "green", "blue", "white"};

inline PairedResponses paired_responses(const Sensitivities& meter, const Panel& panel,
                                        const Observer& observer) {
    Eigen::Matrix<double, Eigen::Dynamic, 4> lights(panel.sampling().count(), 4);
    lights << panel.emitters(), panel.white();
    const Sensitivities target = observer.on(panel.sampling());
    PairedResponses result{dense::responses(target.rows(), lights),
                           dense::responses(meter.rows(), lights)};
    for (Eigen::Index k = 0; k < 4; ++k) {
        if (!(result.meter.col(k).sum() > 0.0) || !(result.reference.col(k).sum() > 0.0)) {
            throw Error(ErrorKind::domain, "correction_from_spectra (" + panel.name() + ")",
                        std::string("a meter or an observer that does not answer to ") +
                            emitter_names.at(static_cast<std::size_t>(k)),
                        "rows whose three answers to each emitter have a sum above 0");
        }
    }
    return result;
}

/// The matrix M for which M m comes nearest to r over the four columns, those of the reference having the sum 1; exact for white if asked.
inline Eigen::Matrix3d least_squares_over_emitters(const PairedResponses& answers,
                                                   bool white_exact) {
    const Eigen::RowVector4d sums = answers.reference.colwise().sum();
    const Eigen::Matrix<double, 3, 4> r = answers.reference.array().rowwise() / sums.array();
    const Eigen::Matrix<double, 3, 4> m = answers.meter.array().rowwise() / sums.array();
    const Eigen::Matrix3d inverse = dense::inverse_3x3(dense::product_transposed(m, m));
    const Eigen::Matrix3d free = dense::product(dense::product_transposed(r, m), inverse);
    if (!white_exact) {
        return free;
    }
    // Lagrange: the correction of each row lies along the inverse Gram matrix times white.
    const Eigen::Vector3d direction = dense::times_3x3(inverse, m.col(3));
    const Eigen::Vector3d missing = r.col(3) - dense::times_3x3(free, m.col(3));
    return free + dense::product_transposed(missing, direction) / m.col(3).dot(direction);
}

inline Eigen::Matrix3d matrix_from_responses(const PairedResponses& answers, SpectraMethod method) {
    if (method == SpectraMethod::primaries_exact) {
        const Eigen::Matrix3d observer = answers.reference.leftCols<3>();
        const Eigen::Matrix3d meter = answers.meter.leftCols<3>();
        return dense::product(observer, dense::inverse_3x3(meter));
    }
    return least_squares_over_emitters(answers, method == SpectraMethod::white_exact);
}

/// What is left on red, green, blue and white. Cone observers have no CIELAB: no CIEDE2000 then.
inline std::vector<PatchResidual> residuals_of(const PairedResponses& answers,
                                               const Correction& correction,
                                               const Observer& observer) {
    std::optional<std::array<double, 3>> white;
    if (observer.receptors() == Receptors::colour_matching) {
        white = as_array(answers.reference.col(3));
    }
    std::vector<PatchResidual> result;
    for (Eigen::Index k = 0; k < 4; ++k) {
        const auto meter = as_array(answers.meter.col(k));
        const auto reference = as_array(answers.reference.col(k));
        result.push_back({emitter_names.at(static_cast<std::size_t>(k)), true,
                          colour_error(meter, reference, white),
                          colour_error(correction.corrected_xyz(meter), reference, white)});
    }
    return result;
}

/// @param measure  what the distances are in, as the warning's fact says it
inline void say_what_is_left(const Correction& correction, SpectraMethod method,
                             const char* measure, std::vector<Warning>& warnings) {
    double worst = 0.0;
    std::string where;
    for (const PatchResidual& residual : correction.residuals) {
        if (residual.after.xy() > worst) {
            worst = residual.after.xy();
            where = residual.patch;
        }
    }
    warnings.push_back(Warning{"four_emitters",
                               {{"method", code_of(method)},
                                {"measure", measure},
                                {"white_left", correction.residuals[3].after.xy()},
                                {"worst", where},
                                {"worst_left", worst}}});
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Correction correction_from_spectra(const Sensitivities& meter, const Panel& panel,
                                                    const Observer& observer,
                                                    const SpectraOptions& options) {
    require_same_sampling("correction_from_spectra", meter.sampling, panel.sampling());
    const detail::PairedResponses answers = detail::paired_responses(meter, panel, observer);
    Correction correction;
    correction.method = CorrectionMethod::spectra;
    correction.observer = observer.id();
    correction.provenance = options.provenance;
    correction.condition_number = direction_condition(answers.meter.leftCols<3>());
    if (!(correction.condition_number < 100.0)) {
        throw Error(ErrorKind::singular, "correction_from_spectra (" + panel.name() + ")",
                    "a meter that can't tell red, green and blue apart (condition number " +
                        to_text(correction.condition_number, 0) + ")",
                    "three rows that differ, in the observer's order (below 100)");
    }
    const bool four = panel.white_is_base();
    const SpectraMethod method = !four            ? SpectraMethod::primaries_exact
                                 : options.method ? *options.method
                                                  : SpectraMethod::white_exact;
    const Eigen::Matrix3d matrix = detail::matrix_from_responses(answers, method);
    const double kept = answers.meter.col(3).sum() / (matrix * answers.meter.col(3)).sum();
    Eigen::Map<Correction::Matrix>(correction.reference_from_meter.data()) = kept * matrix;
    correction.luminance_factor = 1.0 / kept;
    correction.residuals = detail::residuals_of(answers, correction, observer);
    if (four) {
        detail::say_what_is_left(correction, method,
                                 observer.receptors() == Receptors::cones ? "lm_shares" : "xy",
                                 correction.warnings);
    }
    return correction;
}

}  // namespace samelight
