#pragma once
// The bodies of meter/selection/prospect.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/light_shape.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/meter/selection/prospect.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::optional<LikelyPoint> likely_xy(const Eigen::Vector3d& xyz,
                                            const Eigen::Matrix3d& covariance) {
    const double sum = xyz.sum();
    if (!(sum > 0.0) || !(xyz[1] > 0.0)) {
        return {};
    }
    const Eigen::Vector2d xy(xyz[0] / sum, xyz[1] / sum);
    Eigen::Matrix<double, 2, 3> by_xyz;
    by_xyz << 1.0 - xy[0], -xy[0], -xy[0], -xy[1], 1.0 - xy[1], -xy[1];
    by_xyz /= sum;
    return LikelyPoint{xy, dense::carried(by_xyz, covariance)};
}

inline double root_mean_square_xy(const LikelyPoint& point, const Eigen::Vector2d& truth) {
    return std::sqrt((point.mean - truth).squaredNorm() + std::max(0.0, point.covariance.trace()));
}

/// Covariance that the correction's own noise gives the corrected x, y.
inline Eigen::Matrix2d own_covariance(const Correction& correction, const Eigen::Vector3d& meter) {
    if (correction.covariance && meter[1] > 0.0 && meter.sum() > 0.0) {
        return Eigen::Matrix2d(certainty(correction, as_array(meter)).xy_covariance());
    }
    return Eigen::Matrix2d::Zero();
}

SAMELIGHT_INLINE std::optional<ExpectedError> expected_error(
    const Correction& correction, const LikelyAnswers& answers,
    const Eigen::Matrix<double, 3, 4>& truth) {
    const Eigen::Matrix3d matrix = correction.matrix();
    ExpectedError result;
    for (std::size_t k = 0; k < 4; ++k) {
        auto point = likely_xy(dense::times_3x3(matrix, answers.xyz(k)),
                               dense::carried(matrix, answers.covariance_of(k)));
        if (!point) {
            return {};
        }
        point->covariance += own_covariance(correction, answers.xyz(k));
        const Eigen::Vector3d r = truth.col(static_cast<Eigen::Index>(k));
        const Eigen::Vector2d xy(r[0] / r.sum(), r[1] / r.sum());
        if (k < 3) {
            result.primaries_xy = std::max(result.primaries_xy, root_mean_square_xy(*point, xy));
            continue;
        }
        result.white_xy = root_mean_square_xy(*point, xy);
        const std::array<double, 3> white = as_array(r);
        const auto error_at = [&](const Eigen::Vector2d& at) {
            return colour_error(xyz_from_xyY(at[0], at[1], r[1]), white, white);
        };
        result.white_uv = std::sqrt(
            mean_square(*point, [&](const Eigen::Vector2d& at) { return error_at(at).uv(); }));
        result.white_de00 = std::sqrt(
            mean_square(*point, [&](const Eigen::Vector2d& at) { return *error_at(at).de00; }));
    }
    return result;
}

/// Observer of a correction, where its values are X, Y, Z.
inline std::optional<Observer> judged_observer(const Correction& correction) {
    const Observer observer = observer_named(correction.observer);
    return observer.receptors() == Receptors::colour_matching ? std::optional(observer)
                                                              : std::nullopt;
}

/// What raw channels will say of lights, as far as their correction tells: corrected they are a filter meter like any other, which reads right the emitters of
/// the panel that the correction was made on; back through the matrix that is what they say.
inline LikelyAnswers raw_answers(const CandidateCorrection& known, const MeterSupposition& supposed,
                                 const Lights4& lights) {
    const Sampling& sampling = known.panel->sampling();
    const Eigen::Matrix3Xd rows = standard_observer<Cie1931_2deg>().on(sampling).rows();
    const Lights4 own = lights_of(*known.panel);
    const bool four = known.panel->white_is_base();
    std::vector<KnownReading> right;
    for (Eigen::Index k = 0; k < (four ? 4 : 3); ++k) {
        const Eigen::VectorXd light = own.col(k);
        right.push_back({{light.begin(), light.end()},
                         as_array(dense::response(rows, light)),
                         noise_of_shown(known.correction, four, k == 3)});
    }
    const LikelyAnswers corrected =
        LikelyMeter(sampling, supposed, std::move(right)).answers(lights);
    const Eigen::Matrix3d back = dense::inverse_3x3(known.correction.matrix());
    const Eigen::Index n = corrected.size();
    Eigen::VectorXd mean(n);
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; i += 3) {
        const auto light = static_cast<std::size_t>(i / 3);
        mean.segment<3>(i) = dense::times_3x3(back, corrected.xyz(light));
        covariance.block<3, 3>(i, i) = dense::carried(back, corrected.covariance_of(light));
    }
    return {{mean.begin(), mean.end()}, {covariance.data(), covariance.data() + covariance.size()}};
}

SAMELIGHT_INLINE void put_read(const ReadWhite& read, ExpectedError& error) {
    error.white_xy = read.xy;
    error.white_uv = read.uv;
    error.white_de00 = read.de00;
    error.white_read = true;
}

/// Why a correction of raw channels can't be judged; nothing where it can.
inline std::optional<CannotJudge> why_raw_cannot(const CandidateCorrection& known,
                                                 const ProspectBasis& basis) {
    if (!known.correction.raw_channels) {
        return {};
    }
    if (basis.meter_known && !basis.all_raw) {
        return CannotJudge::raw_beside_rows;
    }
    if (basis.meter_known || known.correction.observer == Cie1931_2deg::id) {
        return {};
    }
    return CannotJudge::raw_to_other_observer;
}

inline CorrectionProspect expected_prospect(const CandidateCorrection& known, const Panel& panel,
                                            const ProspectBasis& basis) {
    const bool meter_known = basis.meter_known;
    CorrectionProspect result;
    result.raw_channels = known.correction.raw_channels;
    result.whites_only = known.correction.valid_near.has_value();
    result.not_at_all = known.not_at_all;
    result.not_safe = known.not_safe;
    if (known.correction.verdict == FitVerdict::do_not_use) {
        result.not_at_all = NotAtAll::do_not_use;
    } else if (known.correction.verdict == FitVerdict::read_again && !result.not_safe) {
        result.not_safe = NotSafe::read_again_first;
    }
    if (known.panel) {
        result.panel_distance_nm = panel_distance_nm(*known.panel, panel);
    }
    if (!known.panel && !meter_known) {
        // Without them the supposed meter is any likely one, and not the one that the correction was made for.
        result.why_not = CannotJudge::no_panel_spectra;
        return result;
    }
    const auto observer = judged_observer(known.correction);
    if (!observer) {
        result.why_not = CannotJudge::cones;
        return result;
    }
    result.why_not = why_raw_cannot(known, basis);
    if (result.why_not) {
        return result;
    }
    const Lights4 lights = lights_of(panel);
    const Eigen::Matrix<double, 3, 4> truth =
        dense::responses(observer->on(panel.sampling()).rows(), lights);
    const LikelyAnswers answers = known.correction.raw_channels && !meter_known
                                      ? raw_answers(known, basis.supposed, lights)
                                      : basis.answers;
    if (known.correction.valid_near) {
        const auto read = xyY_from_xyz(as_array(answers.xyz(3)));
        const ChromaticityDisc& disc = *known.correction.valid_near;
        if (!disc.contains(read[0], read[1])) {
            result.why_not = CannotJudge::other_white;
            return result;
        }
    }
    result.error = expected_error(known.correction, answers, truth);
    if (!result.error) {
        result.why_not = CannotJudge::no_light;
    }
    return result;
}

SAMELIGHT_INLINE CorrectionProspect prospect(const CandidateCorrection& known, const Panel& panel,
                                             const ProspectBasis& basis) {
    CorrectionProspect result = expected_prospect(known, panel, basis);
    if (!known.read) {
        return result;
    }
    if (!result.error) {
        result.error = ExpectedError{};
        result.error->primaries_xy = std::numeric_limits<double>::quiet_NaN();
        result.why_not.reset();
    }
    put_read(*known.read, *result.error);
    if (!known.read->settled && !result.not_safe) {
        result.not_safe = NotSafe::white_not_settled;
    }
    return result;
}

}  // namespace samelight::detail
