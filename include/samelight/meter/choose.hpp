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
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/display/panel.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/colour_error.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/light_shape.hpp"
#include "samelight/meter/likely_meter.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"

namespace samelight {

/// A correction that is at hand, and the panel that it was made on, where its spectra were kept.
struct KnownCorrection {
    std::string name;
    Correction correction;
    std::optional<Panel> panel = {};
};

/// What is known beside the corrections.
struct ChooseOptions {
    std::optional<Sensitivities> meter =
        {};  ///< its rows, calibrated, where they are known; else what follows is supposed
    MeterSupposition supposed = {};
    /// Good enough: one step of the just noticeable u'v' circle, CIE TN 001:2014 (number from memory).
    double safe_uv = 0.0011;
    /// A correction that isn't good enough is used for want of a better one only where it leaves at most this share of the error without
    /// (modelling choice): a smaller gain in white may be bought with worse colours.
    double worth_share = 0.8;
};

namespace detail {

using Lights4 = Eigen::Matrix<double, Eigen::Dynamic, 4>;

/// Red, green, blue and white.
inline Lights4 lights_of(const Panel& panel) {
    Lights4 lights(panel.sampling().count(), 4);
    lights << panel.emitters(), panel.white();
    return lights;
}

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

/// The error of reading red, green, blue and white through `matrix`; nothing where a corrected reading would be no light at all.
inline std::optional<ExpectedError> expected_error(const Eigen::Matrix3d& matrix,
                                                   const LikelyAnswers& answers,
                                                   const Eigen::Matrix<double, 3, 4>& truth) {
    ExpectedError result;
    for (std::size_t k = 0; k < 4; ++k) {
        const auto point = likely_xy(matrix * answers.xyz(k),
                                     matrix * answers.covariance_of(k) * matrix.transpose());
        if (!point) {
            return {};
        }
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

/// What a correction tells about its meter: it has read the emitters of its panel, and the inverse matrix gives back what it said.
inline void add_what_it_shows(const KnownCorrection& known, std::vector<KnownReading>& readings) {
    if (!known.panel) {
        return;
    }
    const Observer observer = observer_named(known.correction.observer);
    const Lights4 lights = lights_of(*known.panel);
    const Eigen::Matrix3d meter_from_reference =
        (known.correction.luminance_factor * Eigen::Matrix3d(known.correction.matrix())).inverse();
    const Eigen::Matrix<double, 3, 4> said =
        meter_from_reference * (observer.on(known.panel->sampling()).rows() * lights);
    const bool four = known.panel->white_is_base();
    const Eigen::Index first = known.correction.valid_near ? 3 : 0;
    const Eigen::Index end = known.correction.valid_near || four ? 4 : 3;
    double noise = 0.002;  // what readings leave (modelling choice)
    if (four) {
        noise = 0.005;  // no matrix is exact for four emitters
    } else if (known.correction.method == CorrectionMethod::spectra) {
        noise = 1e-4;
    }
    for (Eigen::Index k = first; k < end; ++k) {
        const Eigen::VectorXd light = lights.col(k);
        readings.push_back(
            {{light.begin(), light.end()}, as_array(Eigen::Vector3d(said.col(k))), noise});
    }
}

/// The meter supposed, narrowed by the corrections. Where they show it worse than supposed, it is supposed worse.
inline LikelyMeter likely_meter(const Sampling& sampling,
                                std::span<const KnownCorrection> corrections,
                                MeterSupposition& supposed, std::vector<Warning>& warnings) {
    std::vector<KnownReading> readings;
    for (const KnownCorrection& known : corrections) {
        add_what_it_shows(known, readings);
    }
    LikelyMeter meter(sampling, supposed, readings);
    if (meter.surprise() > 1.0) {
        supposed.mismatch *= std::sqrt(meter.surprise());
        if (meter.surprise() > 4.0) {
            warnings.push_back({"meter_worse_than_supposed",
                                "The corrections at hand are those of a meter about " +
                                    to_text(std::sqrt(meter.surprise()), 1) +
                                    " times as far off as supposed, or of more than one meter; a "
                                    "mismatch of " +
                                    to_text(100.0 * supposed.mismatch, 0) + " % is taken."});
        }
        return LikelyMeter(sampling, supposed, std::move(readings));
    }
    return meter;
}

inline CorrectionProspect prospect(const KnownCorrection& known, const Panel& panel,
                                   const LikelyAnswers& answers) {
    CorrectionProspect result;
    if (known.panel) {
        result.panel_distance_nm = panel_distance_nm(*known.panel, panel);
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
    result.error = expected_error(Eigen::Matrix3d(known.correction.matrix()), answers, truth);
    if (!result.error) {
        result.why_not = "would turn this panel's light into no light at all";
    }
    return result;
}

inline void judge(PanelChoice& choice, const ChooseOptions& options) {
    double least = choice.none.white_uv;
    for (std::size_t j = 0; j < choice.with.size(); ++j) {
        CorrectionProspect& with = choice.with[j];
        if (!with.error) {
            continue;
        }
        with.worse_than_none = with.error->white_uv >= choice.none.white_uv;
        if (with.error->white_uv < least) {
            least = with.error->white_uv;
            choice.best = j;
        }
    }
    choice.good_enough = least <= options.safe_uv;
    if (!choice.good_enough && least > options.worth_share * choice.none.white_uv) {
        choice.best.reset();
    }
    choice.verdict = !choice.best         ? Choice::use_none
                     : choice.good_enough ? Choice::safe
                                          : Choice::measure_panel;
}

inline void warn_about_meters(std::span<const KnownCorrection> corrections,
                              std::vector<Warning>& warnings) {
    std::string first;
    for (const KnownCorrection& known : corrections) {
        const std::string& meter = known.correction.provenance.meter_instrument;
        if (first.empty()) {
            first = meter;
        } else if (!meter.empty() && meter != first) {
            warnings.push_back({"different_meters",
                                "The corrections say that they were made for different meters (" +
                                    first + "; " + meter + "): one says little of the other."});
            return;
        }
    }
}

}  // namespace detail

/// The error to be expected of the white (and the primaries) of each panel when it is read without correction and with each of the
/// corrections at hand, and what follows from it.
///
/// With the meter's rows known, the errors are those rows' own. Without, they are root mean squares over the meters that are
/// likely (LikelyMeter): of the supposed mismatch, and agreeing with every correction whose panel's spectra were kept. Each error is in the
/// values of the correction's own observer, without correction those of CIE 1931. A panel's error is that of its white; drift, noise and
/// the reference's own error are not in it.
/// All panels, those of the corrections and the meter must be on one sampling. Throws Error (shape) otherwise, and Error (domain) for an unknown
/// observer or a limit not above 0.
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
    } else {
        MeterSupposition supposed = options.supposed;
        likely = detail::likely_meter(sampling, corrections, supposed, result.warnings);
        result.supposed_mismatch = supposed.mismatch;
    }
    const Sensitivities cie1931 = standard_observer<Cie1931_2deg>().on(sampling);
    for (const Panel& panel : panels) {
        const detail::Lights4 lights = detail::lights_of(panel);
        const LikelyAnswers answers =
            likely ? likely->answers(lights) : certain_answers(*options.meter, lights);
        PanelChoice choice;
        choice.panel = panel.name();
        const auto none =
            detail::expected_error(Eigen::Matrix3d::Identity(), answers, cie1931.rows() * lights);
        if (!none) {
            throw Error(ErrorKind::domain, "choose_corrections (" + panel.name() + ")",
                        "a meter that does not answer to an emitter", "answers above 0");
        }
        choice.none = *none;
        for (const KnownCorrection& known : corrections) {
            choice.with.push_back(detail::prospect(known, panel, answers));
        }
        detail::judge(choice, options);
        result.panels.push_back(std::move(choice));
    }
    return result;
}

}  // namespace samelight
