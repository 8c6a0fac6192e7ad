#pragma once
// Which stored correction suits a panel, or none: the error to be expected with each, and a plain verdict.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/steps.hpp"
#include "samelight/display/light_shape.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/certainty.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/colour_error.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/known_corrections.hpp"
#include "samelight/meter/likely_meter.hpp"
#include "samelight/meter/mismatch.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"

namespace samelight {

/// What is known beside the corrections.
struct ChooseOptions {
    std::optional<Sensitivities> meter =
        {};  ///< its rows, calibrated, where they are known; else what follows is supposed
    MeterSupposition supposed = {};
    double safe_uv = uv_step_radius;  ///< good enough: what can just be seen side by side
    /// A correction that isn't good enough is used for want of a better one only where it leaves at most this share of the error without
    /// (modelling choice): a smaller gain in white may be bought with worse colours.
    double worth_share = 0.8;
};

namespace detail {

/// Mean and covariance of x and y where those of X, Y, Z are given, to first order.
struct LikelyPoint {
    Eigen::Vector2d mean;
    Eigen::Matrix2d covariance;
};

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
    return LikelyPoint{xy, by_xyz * covariance * by_xyz.transpose()};
}

/// Mean square of f over a normal distribution in the plane, from four points that have its mean and covariance.
template <class F>
double mean_square(const LikelyPoint& point, F&& f) {
    // Any root of the covariance will do: Cholesky's, of a matrix that may be singular.
    const Eigen::Matrix2d& c = point.covariance;
    const double first = std::sqrt(std::max(0.0, c(0, 0)));
    const double cross = first > 0.0 ? c(0, 1) / first : 0.0;
    const double second = std::sqrt(std::max(0.0, c(1, 1) - cross * cross));
    double sum = 0.0;
    for (const Eigen::Vector2d& root :
         {Eigen::Vector2d(first, cross), Eigen::Vector2d(0.0, second)}) {
        const Eigen::Vector2d step = std::sqrt(2.0) * root;
        for (const double side : {-1.0, 1.0}) {
            const double value = f(Eigen::Vector2d(point.mean + side * step));
            sum += 0.25 * value * value;
        }
    }
    return sum;
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

/// The error of reading red, green, blue and white through the correction; nothing where a corrected reading would be no light at all.
inline std::optional<ExpectedError> expected_error(const Correction& correction,
                                                   const LikelyAnswers& answers,
                                                   const Eigen::Matrix<double, 3, 4>& truth) {
    const Eigen::Matrix3d matrix = correction.matrix();
    ExpectedError result;
    for (std::size_t k = 0; k < 4; ++k) {
        auto point = likely_xy(matrix * answers.xyz(k),
                               matrix * answers.covariance_of(k) * matrix.transpose());
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

/// @param meter_known  whether the meter's rows are known and not supposed
inline CorrectionProspect prospect(const KnownCorrection& known, const Panel& panel,
                                   const LikelyAnswers& answers, bool meter_known) {
    CorrectionProspect result;
    result.whites_only = known.correction.valid_near.has_value();
    result.not_at_all = known.not_at_all;
    result.not_safe = known.not_safe;
    if (known.correction.verdict == FitVerdict::do_not_use) {
        result.not_at_all = "it was made with the verdict not to use it";
    } else if (known.correction.verdict == FitVerdict::read_again && result.not_safe.empty()) {
        result.not_safe = "it was made with the verdict to read again first";
    }
    if (known.panel) {
        result.panel_distance_nm = panel_distance_nm(*known.panel, panel);
    }
    if (!known.panel && !meter_known) {
        // Without them the supposed meter is any likely one, and not the one that the correction was made for.
        result.why_not =
            "can't be judged from afar, as it keeps no spectra of the display that it was made on";
        return result;
    }
    const auto observer = judged_observer(known.correction);
    if (!observer) {
        result.why_not = "gives cone responses, which have no u'v' to judge by";
        return result;
    }
    const Eigen::Matrix<double, 3, 4> truth =
        observer->on(panel.sampling()).rows() * lights_of(panel);
    if (known.correction.valid_near) {
        const auto read = xyY_from_xyz(as_array(answers.xyz(3)));
        const ChromaticityDisc& disc = *known.correction.valid_near;
        if (!disc.contains(read[0], read[1])) {
            result.why_not = "made from one white, which this panel's is too far from";
            return result;
        }
    }
    result.error = expected_error(known.correction, answers, truth);
    if (!result.error) {
        result.why_not = "would turn this panel's light into no light at all";
    }
    return result;
}

/// The correction of the least error among those that may be used, or may be called safe; absent where none does better than none.
inline std::optional<std::size_t> least_error(const PanelChoice& choice, bool safe) {
    double least = choice.none.white_uv;
    std::optional<std::size_t> best;
    for (std::size_t j = 0; j < choice.with.size(); ++j) {
        const CorrectionProspect& with = choice.with[j];
        const bool may = with.error && with.not_at_all.empty() && (!safe || with.not_safe.empty());
        if (may && with.error->white_uv < least) {
            least = with.error->white_uv;
            best = j;
        }
    }
    return best;
}

inline void judge(PanelChoice& choice, const ChooseOptions& options, bool believable) {
    for (CorrectionProspect& with : choice.with) {
        with.worse_than_none = with.error && with.error->white_uv >= choice.none.white_uv;
    }
    if (!believable) {
        return;  // nothing to be used, and nothing until then
    }
    const auto safe = least_error(choice, true);
    if (safe && choice.with[*safe].error->white_uv <= options.safe_uv) {
        choice.best = safe;
        choice.verdict = Choice::safe;
        choice.good_enough = true;
        return;
    }
    if (choice.none.white_uv <= options.safe_uv) {
        choice.verdict = Choice::use_none;
        choice.good_enough = true;
        return;
    }
    choice.best = least_error(choice, false);
    if (choice.best &&
        choice.with[*choice.best].error->white_uv > options.worth_share * choice.none.white_uv) {
        choice.best.reset();
        choice.better_dropped = true;
    }
}

/// Warns of rows that no filter meter has. Whether the meter can be believed.
inline bool believable_rows(const Sensitivities& meter, std::vector<Warning>& warnings) {
    const auto doubt = doubt_about_rows(meter_mismatch(meter, standard_observer<Cie1931_2deg>()));
    if (doubt) {
        warnings.insert(warnings.begin(), *doubt);
    }
    return !doubt;
}

}  // namespace detail

/// The error to be expected of the white (and the primaries) of each panel when it is read without correction and with each of the
/// corrections at hand, and what follows from it.
///
/// With the meter's rows known, the errors are those rows' own. Without, they are root mean squares over the meters that are
/// likely (LikelyMeter): of the supposed mismatch, and agreeing with every correction whose panel's spectra were kept; one whose panel's
/// spectra were not kept can't be judged then. Each error is in the
/// values of the correction's own observer, without correction those of CIE 1931. A panel's error is that of its white; drift, noise and
/// the reference's own error are not in it; what the correction's own readings scattered (its covariance) is.
/// All panels, those of the corrections and the meter must be on one sampling. Throws Error (shape) otherwise, and Error (domain) for an unknown
/// observer or a limit not above 0. Where the rows or the corrections are those of no filter meter (unbelievable_mismatch), a warning
/// (no_such_meter) comes first and every verdict is to measure.
inline Choices choose_corrections(std::span<const Panel> panels,
                                  std::span<const KnownCorrection> corrections,
                                  const ChooseOptions& options = {}) {
    if (panels.empty()) {
        throw Error(ErrorKind::shape, "choose_corrections", "no panel", "one or more");
    }
    if (!(options.safe_uv > 0.0) || !std::isfinite(options.safe_uv)) {
        throw Error(ErrorKind::domain, "choose_corrections",
                    "a limit of " + to_text(options.safe_uv), "a u'v' distance above 0");
    }
    const Sampling& sampling = panels.front().sampling();
    for (const Panel& panel : panels) {
        require_same_sampling("choose_corrections", sampling, panel.sampling());
    }
    for (const KnownCorrection& known : corrections) {
        if (known.panel) {
            require_same_sampling("choose_corrections", sampling, known.panel->sampling());
        }
    }
    Choices result;
    detail::warn_about_meters(corrections, result.warnings);
    std::optional<LikelyMeter> likely;
    if (options.meter) {
        require_same_sampling("choose_corrections", sampling, options.meter->sampling);
        result.believable = detail::believable_rows(*options.meter, result.warnings);
    } else {
        MeterSupposition supposed = options.supposed;
        likely = detail::likely_meter(sampling, corrections, supposed, result.warnings);
        result.supposed_mismatch = supposed.mismatch;
        result.believable =
            std::none_of(result.warnings.begin(), result.warnings.end(),
                         [](const Warning& w) { return w.code == "no_such_meter"; });
    }
    const Sensitivities cie1931 = standard_observer<Cie1931_2deg>().on(sampling);
    for (const Panel& panel : panels) {
        const detail::Lights4 lights = detail::lights_of(panel);
        const LikelyAnswers answers =
            likely ? likely->answers(lights) : certain_answers(*options.meter, lights);
        PanelChoice choice;
        choice.panel = panel.name();
        const auto none = detail::expected_error(Correction{}, answers, cie1931.rows() * lights);
        if (!none) {
            throw Error(ErrorKind::domain, "choose_corrections (" + panel.name() + ")",
                        "a meter that does not answer to an emitter", "answers above 0");
        }
        choice.none = *none;
        for (const KnownCorrection& known : corrections) {
            choice.with.push_back(
                detail::prospect(known, panel, answers, options.meter.has_value()));
        }
        detail::judge(choice, options, result.believable);
        result.panels.push_back(std::move(choice));
    }
    return result;
}

}  // namespace samelight
