#pragma once
// The bodies of check/visits/ageing_model.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/ageing_model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline LightXy light_xy(const LightXyz& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {xyz[0] / sum, xyz[1] / sum};
}

/// Chromaticity as channels read it whose X and Z gained exp(drift) against Y.
inline LightXy channels_drifted(const LightXy& xy, const LightXy& drift) {
    const double x = xy[0] * std::exp(drift[0]);
    const double z = (1.0 - xy[0] - xy[1]) * std::exp(drift[1]);
    return {x / (x + xy[1] + z), xy[1] / (x + xy[1] + z)};
}

/// A light moved by so much in x, y, ln Y.
inline LightXyz light_moved(const LightXyz& xyz, const double* by) {
    const LightXy xy = light_xy(xyz);
    const double x = xy[0] + by[0];
    const double y = xy[1] + by[1];
    const double luminance = xyz[1] * std::exp(by[2]);
    return {x / y * luminance, luminance, (1.0 - x - y) / y * luminance};
}

inline std::array<double, 9> inverse_rows(const std::array<double, 9>& matrix) {
    const SmallSolver solver(matrix, 3);
    std::array<double, 9> result{};
    for (std::size_t j = 0; j < 3; ++j) {
        LightXyz column{};
        column[j] = 1.0;
        solver.solve(column);
        for (std::size_t i = 0; i < 3; ++i) {
            result[3 * i + j] = column[i];
        }
    }
    return result;
}

inline LightXyz rows_times(const std::array<double, 9>& rows, const LightXyz& v) {
    LightXyz result{};
    multiply(rows, v, 3, 1, result);
    return result;
}

/// A light as a correction gives it whose elements and luminance factor are off by these.
inline LightXyz corrected_off(const Correction& correction, const LightXyz& xyz,
                              const double* off) {
    const LightXyz raw = rows_times(inverse_rows(correction.reference_from_meter), xyz);
    std::array<double, 9> elements{};
    std::copy(off, off + 9, elements.begin());
    const LightXyz more = rows_times(elements, raw);
    LightXyz result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = (1.0 + off[9]) * (xyz[i] + more[i]);
    }
    return result;
}

inline XyWeight inverse_weight(const XyWeight& w) {
    const double determinant = w[0] * w[2] - w[1] * w[1];
    return {w[2] / determinant, -w[1] / determinant, w[0] / determinant};
}

SAMELIGHT_INLINE AgeingModel::AgeingModel(const AgeingRequest& request, const LightScatter& scatter)
    : request_(request), scatter_(scatter) {
    for (std::size_t visit = 0; visit < 2; ++visit) {
        const VisitLights& all = visit == 0 ? request.then : request.now;
        const LightXyz black = all.mean(VisitLight::black);
        for (std::size_t k = 0; k < 4; ++k) {
            const auto light = static_cast<VisitLight>(k);
            LightXyz mean = all.mean(light);
            for (std::size_t i = 0; i < 3; ++i) {
                mean[i] -= black[i];
            }
            if (all.of(light).empty() || !(mean[1] > 0.0) || !(mean[0] + mean[2] > 0.0) ||
                !std::isfinite(mean[0] + mean[1] + mean[2])) {
                throw Error(ErrorKind::domain, "ageing_between",
                            std::string("no light of ") + code_of(light),
                            "red, green, blue and white above black at both visits");
            }
            means_[visit][k] = mean;
            counts_[visit][k] = static_cast<double>(all.of(light).size());
        }
    }
    for (std::size_t k = 0; k < 3; ++k) {
        const double share = 1.0 / counts_[0][k] + 1.0 / counts_[1][k];
        const double again = 2.0 * request.again_xy * request.again_xy;
        weights_[k] = inverse_weight({scatter.covariance(0, 0) * share + again,
                                      scatter.covariance(0, 1) * share,
                                      scatter.covariance(1, 1) * share + again});
    }
}

SAMELIGHT_INLINE const Correction* AgeingModel::correction(std::size_t visit) const {
    const auto& one =
        visit == 0 || request_.one_correction ? request_.then_correction : request_.now_correction;
    return one ? &*one : nullptr;
}

SAMELIGHT_INLINE std::array<std::array<LightXyz, 4>, 2> AgeingModel::lights(
    const AgeingVector& off) const {
    std::array<std::array<LightXyz, 4>, 2> result = means_;
    for (std::size_t visit = 0; visit < 2; ++visit) {
        const std::size_t at =
            AgeingInputs::corrections + (request_.one_correction ? 0 : 10 * visit);
        for (std::size_t k = 0; k < 4; ++k) {
            LightXyz& xyz = result[visit][k];
            xyz = light_moved(xyz, off.data() + AgeingInputs::light(visit, k));
            if (correction(visit) != nullptr) {
                xyz = corrected_off(*correction(visit), xyz, off.data() + at);
            }
            for (double& value : xyz) {
                value *= std::exp(off[AgeingInputs::aims + visit]);
            }
        }
    }
    return result;
}

SAMELIGHT_INLINE LightXy
AgeingModel::channel_drift(const std::array<std::array<LightXyz, 4>, 2>& lights) const {
    LightXy drift{};
    constexpr double step = 1e-5;
    for (int round = 0; round < 3; ++round) {
        XyWeight normal{};
        LightXy right{};
        for (std::size_t k = 0; k < 3; ++k) {
            const LightXy then = light_xy(lights[0][k]);
            const LightXy now = light_xy(lights[1][k]);
            const LightXy said = channels_drifted(then, drift);
            const LightXy by_x = channels_drifted(then, {drift[0] + step, drift[1]});
            const LightXy by_z = channels_drifted(then, {drift[0], drift[1] + step});
            const LightXy jx{(by_x[0] - said[0]) / step, (by_x[1] - said[1]) / step};
            const LightXy jz{(by_z[0] - said[0]) / step, (by_z[1] - said[1]) / step};
            const XyWeight& w = weights_[k];
            const auto product = [&w](const LightXy& a, const LightXy& b) {
                return a[0] * (w[0] * b[0] + w[1] * b[1]) + a[1] * (w[1] * b[0] + w[2] * b[1]);
            };
            const LightXy left{now[0] - said[0], now[1] - said[1]};
            normal[0] += product(jx, jx);
            normal[1] += product(jx, jz);
            normal[2] += product(jz, jz);
            right[0] += product(jx, left);
            right[1] += product(jz, left);
        }
        const XyWeight solved = inverse_weight(normal);
        drift[0] += solved[0] * right[0] + solved[1] * right[1];
        drift[1] += solved[1] * right[0] + solved[2] * right[1];
    }
    return drift;
}

/// White as the emitters' losses alone would leave it, then as the channels read that, then as it is.
SAMELIGHT_INLINE void AgeingModel::add_parts(const std::array<std::array<LightXyz, 4>, 2>& lights,
                                             AgeingFigures& f) const {
    LightXyz predicted = lights[0][3];
    double sum_then = 0.0;
    double sum_now = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double kept = lights[1][k][1] / lights[0][k][1];
        const double whole = lights[1][best][1] / lights[0][best][1];
        for (std::size_t i = 0; i < 3; ++i) {
            predicted[i] += (kept / whole - 1.0) * lights[0][k][i];
        }
        sum_then += lights[0][k][1];
        sum_now += lights[1][k][1];
    }
    const LightXy then = light_xy(lights[0][3]);
    const LightXy aged = light_xy(predicted);
    const LightXy read =
        channels_drifted(aged, {f[AgeingOutputs::channels], f[AgeingOutputs::channels + 1]});
    const LightXy now = light_xy(lights[1][3]);
    for (std::size_t i = 0; i < 2; ++i) {
        f[AgeingOutputs::parts + i] = aged[i] - then[i];
        f[AgeingOutputs::parts + 2 + i] = read[i] - aged[i];
        f[AgeingOutputs::parts + 4 + i] = now[i] - read[i];
        f[AgeingOutputs::whites + i] = then[i];
        f[AgeingOutputs::whites + 2 + i] = now[i];
    }
    f[AgeingOutputs::sum] = sum_now / lights[1][3][1] - sum_then / lights[0][3][1];
}

/// Sets x, y, ln Y of `to` against `from`.
inline void add_move(const LightXyz& from, const LightXyz& to, double* f) {
    const LightXy a = light_xy(from);
    const LightXy b = light_xy(to);
    f[0] = b[0] - a[0];
    f[1] = b[1] - a[1];
    f[2] = std::log(to[1] / from[1]);
}

SAMELIGHT_INLINE void AgeingModel::add_apart(const AgeingVector& off,
                                             const std::array<std::array<LightXyz, 4>, 2>& lights,
                                             AgeingFigures& f) const {
    if (!request_.one_correction && correction(0) != nullptr && correction(1) != nullptr) {
        // What the first correction makes of what the meter itself says now.
        const LightXyz uncorrected =
            rows_times(inverse_rows(correction(1)->xyz_from_meter()),
                       light_moved(means_[1][3], off.data() + AgeingInputs::light(1, 3)));
        const LightXyz by_first =
            corrected_off(*correction(0), rows_times(correction(0)->xyz_from_meter(), uncorrected),
                          off.data() + AgeingInputs::corrections);
        LightXyz now = lights[1][3];
        for (double& value : now) {
            value /= std::exp(off[AgeingInputs::aims + 1]);
        }
        add_move(now, by_first, f.data() + AgeingOutputs::corrections);
        add_move(lights[0][3], lights[1][3], f.data() + AgeingOutputs::corrections + 3);
    }
    if (request_.spectra) {
        const LightXyz then =
            light_moved(request_.spectra->then[3], off.data() + AgeingInputs::spectra + 9);
        const LightXyz now =
            light_moved(request_.spectra->now[3], off.data() + AgeingInputs::spectra + 21);
        double* to = f.data() + AgeingOutputs::spectra;
        add_move(then, now, to + 3);
        add_move(lights[0][3], lights[1][3], to);
        for (std::size_t i = 0; i < 3; ++i) {
            to[i] -= to[3 + i];
        }
    }
}

SAMELIGHT_INLINE AgeingFigures AgeingModel::figures(const AgeingVector& off) const {
    const auto all = lights(off);
    AgeingFigures f{};
    for (std::size_t k = 0; k < 4; ++k) {
        add_move(all[0][k], all[1][k], f.data() + AgeingOutputs::lights + 3 * k);
    }
    for (std::size_t k = 0; k < 3; ++k) {
        f[AgeingOutputs::against + k] =
            f[AgeingOutputs::lights + 3 * k + 2] - f[AgeingOutputs::lights + 3 * best + 2];
    }
    f[AgeingOutputs::common] = f[AgeingOutputs::lights + 3 * best + 2];
    const LightXy drift = channel_drift(all);
    f[AgeingOutputs::channels] = drift[0];
    f[AgeingOutputs::channels + 1] = drift[1];
    add_parts(all, f);
    add_apart(off, all, f);
    return f;
}

SAMELIGHT_INLINE std::array<double, 2> AgeingModel::misfits(const AgeingFigures& f) const {
    std::array<double, 2> chi{};
    for (std::size_t k = 0; k < 3; ++k) {
        const LightXy then = light_xy(means_[0][k]);
        const LightXy moved{f[AgeingOutputs::lights + 3 * k], f[AgeingOutputs::lights + 3 * k + 1]};
        const LightXy said =
            channels_drifted(then, {f[AgeingOutputs::channels], f[AgeingOutputs::channels + 1]});
        const LightXy left{then[0] + moved[0] - said[0], then[1] + moved[1] - said[1]};
        const XyWeight& w = weights_[k];
        chi[0] += w[0] * moved[0] * moved[0] + 2.0 * w[1] * moved[0] * moved[1] +
                  w[2] * moved[1] * moved[1];
        chi[1] +=
            w[0] * left[0] * left[0] + 2.0 * w[1] * left[0] * left[1] + w[2] * left[1] * left[1];
    }
    return chi;
}

SAMELIGHT_INLINE void AgeingModel::add_block(const std::vector<double>& derivatives, std::size_t at,
                                             const std::vector<double>& block,
                                             std::vector<double>& to) const {
    const auto n = static_cast<std::size_t>(std::lround(std::sqrt(block.size())));
    std::vector<double> part(AgeingOutputs::count * n);
    for (std::size_t i = 0; i < AgeingOutputs::count; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            part[n * i + j] = derivatives[AgeingInputs::count * i + at + j];
        }
    }
    add_carried(part, block, part, 1.0, to);
}

inline std::vector<double> correction_block(const Correction& correction) {
    std::vector<double> block(100, 0.0);
    if (correction.covariance) {
        for (std::size_t i = 0; i < 9; ++i) {
            for (std::size_t j = 0; j < 9; ++j) {
                block[10 * i + j] = correction.covariance->elements[9 * i + j];
            }
            block[10 * i + 9] = block[90 + i] = correction.covariance->with_luminance[i];
        }
        block[99] = correction.covariance->luminance;
    }
    return block;
}

SAMELIGHT_INLINE void AgeingModel::carry(const std::vector<double>& derivatives,
                                         std::vector<double>& to) const {
    for (std::size_t visit = 0; visit < 2; ++visit) {
        for (std::size_t k = 0; k < 4; ++k) {
            std::vector<double> block(9);
            for (std::size_t i = 0; i < 9; ++i) {
                const bool own_xy = i == 0 || i == 4;
                block[i] = scatter_.covariance[i] / counts_[visit][k] +
                           (own_xy ? request_.again_xy * request_.again_xy : 0.0);
            }
            add_block(derivatives, AgeingInputs::light(visit, k), block, to);
            // Spectra come without their scatter: as well as an instrument is set up again, and half a per cent of luminance.
            constexpr double spectra_luminance = 0.005;
            const double xy = request_.again_xy * request_.again_xy;
            add_block(derivatives, AgeingInputs::spectra + AgeingInputs::light(visit, k),
                      {xy, 0, 0, 0, xy, 0, 0, 0, spectra_luminance * spectra_luminance}, to);
        }
        add_block(derivatives, AgeingInputs::aims + visit,
                  {request_.again_luminance * request_.again_luminance}, to);
        if (correction(visit) != nullptr && !(visit == 1 && request_.one_correction)) {
            add_block(derivatives, AgeingInputs::corrections + 10 * visit,
                      correction_block(*correction(visit)), to);
        }
    }
}

SAMELIGHT_INLINE void AgeingModel::carry_repeats(const std::vector<double>& derivatives,
                                                 std::vector<double>& to) const {
    for (std::size_t visit = 0; visit < 2; ++visit) {
        for (std::size_t k = 0; k < 4; ++k) {
            std::vector<double> block(scatter_.covariance.begin(), scatter_.covariance.end());
            for (double& element : block) {
                element /= counts_[visit][k];
            }
            add_block(derivatives, AgeingInputs::light(visit, k), block, to);
        }
    }
}

SAMELIGHT_INLINE std::vector<double> ageing_derivatives(const AgeingModel& model) {
    std::vector<double> derivatives(AgeingOutputs::count * AgeingInputs::count);
    constexpr double step = 1e-6;
    for (std::size_t j = 0; j < AgeingInputs::count; ++j) {
        AgeingVector off{};
        off[j] = step;
        const AgeingFigures more = model.figures(off);
        off[j] = -step;
        const AgeingFigures less = model.figures(off);
        for (std::size_t i = 0; i < AgeingOutputs::count; ++i) {
            derivatives[AgeingInputs::count * i + j] = (more[i] - less[i]) / (2.0 * step);
        }
    }
    return derivatives;
}

}  // namespace samelight::detail
