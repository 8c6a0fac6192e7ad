#pragma once
// The bodies of white/units_that_read.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/units_that_read.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Which part of a parameter's range the readings leave open.
struct OpenRange {
    double low;
    double high;
};

inline std::vector<OpenRange> open_ranges(const BentUnit& unit) {
    // Wide enough that cutting off there makes the spread within no narrower than by 2 in 100.
    constexpr double standard_deviations = 8.0;
    constexpr double least_share = 0.02;  // of the range: a unit outside all ranges lies at an end
    std::vector<OpenRange> ranges;
    for (std::size_t i = 0; i < unit.values.size(); ++i) {
        const ModelParameter& p = unit.model->parameters()[i];
        const double reach =
            std::max(standard_deviations * unit.spread[i], least_share * (p.high - p.low));
        ranges.push_back(
            {std::max(p.low, unit.values[i] - reach), std::min(p.high, unit.values[i] + reach)});
    }
    return ranges;
}

/// One unit's drawn parameters.
inline std::vector<double> values_of_unit(const std::vector<OpenRange>& ranges,
                                          const LowDiscrepancy& points, std::size_t unit) {
    std::vector<double> values;
    for (const OpenRange& range : ranges) {
        const double share = points.unit(unit, static_cast<int>(values.size()));
        values.push_back(range.low + share * (range.high - range.low));
    }
    return values;
}

/// A light that a unit shows: from which white, and what is wanted of it.
struct UnitShows {
    const Eigen::MatrixXd& lights;
    const Eigen::VectorXd& white;
    Base base;
};

/// The light that looks as wanted to whoever has these sensitivities; none where the unit has none.
inline std::optional<Eigen::VectorXd> shown_by_unit(const UnitShows& from, const Sensitivities& eye,
                                                    const Eigen::Vector3d& wanted) {
    const auto t = eye.rows();
    const std::optional<Composition> made = compose(
        {dense::responses_of_three(t, from.lights.leftCols(3)), dense::response(t, from.white),
         Eigen::Vector3d::Zero(), wanted, from.lights.cols() == 4},
        from.base);
    if (!made) {
        return {};
    }
    const double kept = from.base == Base::as_it_stands ? 1.0 : made->white_emitter;
    Eigen::VectorXd light = kept * from.white;
    for (Eigen::Index k = 0; k < 3; ++k) {
        light += made->added.at(static_cast<std::size_t>(k)) * from.lights.col(k);
    }
    return light;
}

/// The native white of these lights that reads as was read, with as much of an emitter's light as it can hold. None where they can't make it.
inline std::optional<Eigen::VectorXd> white_of_lights(const Eigen::MatrixXd& lights,
                                                      const Sensitivities& instrument,
                                                      const Eigen::Vector3d& read) {
    const auto t = instrument.rows();
    const Eigen::Matrix3d amounts_from_xyz =
        dense::inverse_3x3(dense::responses_of_three(t, lights.leftCols(3)));
    Eigen::Vector3d added = dense::times_3x3(amounts_from_xyz, read);
    double emitter = 0.0;
    if (lights.cols() == 4) {
        const Eigen::Vector3d content =
            dense::times_3x3(amounts_from_xyz, dense::response(t, lights.col(3)));
        emitter = std::numeric_limits<double>::infinity();
        for (Eigen::Index k = 0; k < 3; ++k) {
            if (content[k] > 0.0) {
                emitter = std::min(emitter, added[k] / content[k]);
            }
        }
        added -= emitter * content;
    }
    if (!(added.minCoeff() > -1e-9) || !std::isfinite(emitter)) {
        return {};
    }
    Eigen::VectorXd white =
        added[0] * lights.col(0) + added[1] * lights.col(1) + added[2] * lights.col(2);
    if (lights.cols() == 4) {
        white += emitter * lights.col(3);
    }
    return white;
}

/// The targets of a type's units, NaN where a unit has none.
class UnitTargets {
  public:
    UnitTargets(const UnitsThatRead& given, const TargetAsked& asked)
        : asked_(asked),
          eye_(asked.observer.on(given.sampling())),
          instrument_(standard_observer<Cie1931_2deg>().on(given.sampling())),
          wanted_(tristimulus(eye_, asked.reference.light).column()),
          read_(tristimulus(given.readings().white.xy).column()) {}

    [[nodiscard]] Eigen::Vector2d of(const Eigen::MatrixXd& lights) const {
        const double nan = std::numeric_limits<double>::quiet_NaN();
        const std::optional<Eigen::VectorXd> light = light_of(lights);
        if (!light) {
            return {nan, nan};
        }
        const Eigen::Vector3d xyz = dense::response(instrument_.rows(), *light);
        return {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
    }

  private:
    [[nodiscard]] std::optional<Eigen::VectorXd> light_of(const Eigen::MatrixXd& lights) const {
        const WhiteBase& base = asked_.options.base;
        if (const SampledLight* stands = light_as_it_stands(base)) {
            const Eigen::VectorXd now = stands->column();
            return shown_by_unit({lights, now, Base::as_it_stands}, eye_, wanted_);
        }
        const std::optional<Eigen::VectorXd> white = white_of_lights(lights, instrument_, read_);
        if (!white) {
            return {};
        }
        const UnitShows native{lights, *white, Base::native_white};
        if (const auto set_to = xy_set_to(base)) {
            const auto now = shown_by_unit(native, instrument_, tristimulus(*set_to).column());
            return now ? shown_by_unit({lights, *now, Base::as_it_stands}, eye_, wanted_)
                       : std::nullopt;
        }
        return shown_by_unit(native, eye_, wanted_);
    }

    const TargetAsked& asked_;
    Sensitivities eye_;
    Sensitivities instrument_;
    Eigen::Vector3d wanted_;
    Eigen::Vector3d read_;
};

/// The drawn units' readings, an instrument's noise added, about those of the one unit: units x 6, in standard deviations of each.
inline Eigen::MatrixXd readings_about(const UnitsThatRead& given) {
    const PseudoRandom random(0x6c69676874);
    Eigen::MatrixXd about = given.drawn_readings();
    std::uint64_t number = 0;
    for (Eigen::Index i = 0; i < about.rows(); ++i) {
        for (Eigen::Index k = 0; k < 6; ++k) {
            about(i, k) += given.readings().noise_xy * normal_quantile(random.unit(number++));
        }
    }
    for (Eigen::Index k = 0; k < 6; ++k) {
        const double mean = about.col(k).mean();
        const double spread = std::sqrt((about.col(k).array() - mean).square().sum() /
                                        static_cast<double>(about.rows()));
        const auto& xy = given.readings().primaries.at(static_cast<std::size_t>(k / 2)).xy;
        about.col(k) = (about.col(k).array() - (k % 2 == 0 ? xy.x() : xy.y())) / spread;
    }
    return about;
}

/// The square of each unit's distance from the readings, by how all of them scatter (Mahalanobis 1936).
inline Eigen::VectorXd distances_squared(const Eigen::MatrixXd& about) {
    const Eigen::MatrixXd centred = about.rowwise() - about.colwise().mean();
    const Eigen::MatrixXd covariance =
        dense::transposed_product(centred, centred) / static_cast<double>(about.rows());
    const Eigen::MatrixXd weighed = dense::product(about, dense::inverse(covariance));
    return weighed.cwiseProduct(about).rowwise().sum();
}

/// How many units count as much as all of them do by their weights.
inline double effective(const Eigen::VectorXd& weights) {
    return weights.sum() * weights.sum() / weights.squaredNorm();
}

/// Weights that fall off with distance, wide enough that so many units count.
inline Eigen::VectorXd weights_near(const Eigen::VectorXd& distance_squared, double wanted) {
    const double nearest = distance_squared.minCoeff();
    const auto weights_at = [&](double width) -> Eigen::VectorXd {
        return ((nearest - distance_squared.array()) / (2.0 * width * width)).exp().matrix();
    };
    double low = 0.05;
    double high = 100.0;
    for (int round = 0; round < 40; ++round) {
        const double middle = std::sqrt(low * high);
        (effective(weights_at(middle)) < wanted ? low : high) = middle;
    }
    return weights_at(high);
}

/// 1, the six and all their products of two: units x 28.
inline Eigen::MatrixXd to_second_degree(const Eigen::MatrixXd& about) {
    Eigen::MatrixXd terms(about.rows(), 28);
    terms.col(0).setOnes();
    Eigen::Index at = 1;
    for (Eigen::Index k = 0; k < 6; ++k) {
        terms.col(at++) = about.col(k);
        for (Eigen::Index l = 0; l <= k; ++l) {
            terms.col(at++) = about.col(k).cwiseProduct(about.col(l));
        }
    }
    return terms;
}

/// Targets of units that read so, each with a weight.
struct WeighedTargets {
    /// Units x 2.
    Eigen::MatrixXd xy;
    Eigen::VectorXd weights;
};

/// The drawn units' targets moved to the readings along the regression.
inline WeighedTargets moved_to_readings(const UnitsThatRead& given,
                                        const Eigen::MatrixXd& targets) {
    const double units_that_count = 0.4 * static_cast<double>(given.size());
    const Eigen::MatrixXd about = readings_about(given);
    Eigen::VectorXd weights = weights_near(distances_squared(about), units_that_count);
    Eigen::MatrixXd known = targets;
    for (Eigen::Index i = 0; i < targets.rows(); ++i) {
        if (!std::isfinite(targets(i, 0)) || !std::isfinite(targets(i, 1))) {
            weights[i] = 0.0;
            known.row(i).setZero();
        }
    }
    const Eigen::MatrixXd terms = to_second_degree(about);
    const Eigen::MatrixXd weighed = terms.array().colwise() * weights.array();
    Eigen::MatrixXd sums = dense::transposed_product(weighed, terms);
    for (Eigen::Index k = 1; k < sums.rows(); ++k) {
        sums(k, k) *=
            1.0 + 1e-9;  // six readings of a type with fewer parameters depend on each other
    }
    const Eigen::MatrixXd fitted =
        dense::solve_positive(sums, dense::transposed_product(weighed, known));
    const double count = effective(weights);
    const double freedom = std::sqrt(count / std::max(count - 28.0, 1.0));
    Eigen::MatrixXd xy = freedom * (known - dense::product(terms, fitted));
    xy.rowwise() += fitted.row(0);
    return {std::move(xy), std::move(weights)};
}

/// What 95 % of the weights are within.
inline double within_95(const Eigen::VectorXd& distances, const Eigen::VectorXd& weights) {
    std::vector<std::size_t> order(static_cast<std::size_t>(distances.size()));
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto at = [](const Eigen::VectorXd& v, std::size_t i) {
        return v[static_cast<Eigen::Index>(i)];
    };
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return at(distances, a) < at(distances, b); });
    const double whole = weights.sum();
    double sum = 0.0;
    for (const std::size_t i : order) {
        sum += at(weights, i);
        if (sum >= 0.95 * whole) {
            return at(distances, i);
        }
    }
    return at(distances, order.back());
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE UnitsThatRead::UnitsThatRead(const BentUnit& unit, const PrimaryReadings& readings,
                                              const Sampling& sampling, const UnitsDrawn& asked)
    : unit_(unit),
      readings_(readings),
      sampling_(sampling),
      drawn_(static_cast<Eigen::Index>(asked.count), 6) {
    const std::size_t count = asked.count;
    require_readings(readings, "UnitsThatRead");
    if (count < 128) {
        throw Error(ErrorKind::shape, "units of " + std::string(model().name()),
                    std::to_string(count) + " units", "128 or more");
    }
    const LowDiscrepancy points(0x756e697473);
    const std::vector<detail::OpenRange> ranges = detail::open_ranges(unit);
    const auto instrument = standard_observer<Cie1931_2deg>().on(sampling);
    const Eigen::Vector3d white_read = tristimulus(readings.white.xy).column();
    lights_.resize(count);
    std::vector<char> makes_white(count);
    const auto draw_unit = [&](std::size_t i) {
        const EmissionSpectra drawn =
            model().emission(detail::values_of_unit(ranges, points, i), sampling);
        Eigen::MatrixXd lights(sampling.count(), drawn.white ? 4 : 3);
        lights.col(0) = rebin(drawn.red, sampling).column();
        lights.col(1) = rebin(drawn.green, sampling).column();
        lights.col(2) = rebin(drawn.blue, sampling).column();
        if (drawn.white) {
            lights.col(3) = rebin(*drawn.white, sampling).column();
        }
        for (Eigen::Index k = 0; k < 3; ++k) {
            const Eigen::Vector3d xyz = dense::response(instrument.rows(), lights.col(k));
            drawn_(static_cast<Eigen::Index>(i), 2 * k) = xyz[0] / xyz.sum();
            drawn_(static_cast<Eigen::Index>(i), 2 * k + 1) = xyz[1] / xyz.sum();
        }
        makes_white[i] = detail::white_of_lights(lights, instrument, white_read) ? 1 : 0;
        lights_[i] = std::move(lights);
    };
    parallel::for_blocks({count, 8}, asked.threads,
                         [&](std::size_t first, std::size_t last, std::size_t) {
                             for (std::size_t i = first; i < last; ++i) {
                                 draw_unit(i);
                             }
                         });
    without_white_ =
        static_cast<std::size_t>(std::count(makes_white.begin(), makes_white.end(), char{0}));
}

SAMELIGHT_INLINE TargetsThatRead targets_that_read(const UnitsThatRead& given,
                                                   const TargetAsked& asked,
                                                   const Chromaticity<Cie1931_2deg>& said) {
    const detail::UnitTargets targets(given, asked);
    Eigen::MatrixXd of_units(static_cast<Eigen::Index>(given.size()), 2);
    std::size_t without = 0;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const Eigen::Vector2d xy = targets.of(given.lights(i));
        of_units.row(static_cast<Eigen::Index>(i)) = xy.transpose();
        without += std::isfinite(xy[0]) ? 0U : 1U;
    }
    if (2 * without > given.size()) {
        throw Error(ErrorKind::domain, "targets_that_read",
                    "a white that most units of the type " + std::string(given.model().name()) +
                        " can't make",
                    "readings of a display of that type");
    }
    const detail::WeighedTargets moved = detail::moved_to_readings(given, of_units);
    const Eigen::VectorXd dx = (moved.xy.col(0).array() - said.x()).matrix();
    const Eigen::VectorXd dy = (moved.xy.col(1).array() - said.y()).matrix();
    const Eigen::VectorXd share = moved.weights / moved.weights.sum();
    const double xy = share.dot(dx.cwiseProduct(dy));
    return {{detail::within_95(dx.cwiseAbs(), share), detail::within_95(dy.cwiseAbs(), share)},
            {{share.dot(dx.cwiseProduct(dx)), xy, xy, share.dot(dy.cwiseProduct(dy))},
             {share.dot(dx), share.dot(dy)}}};
}

}  // namespace samelight
