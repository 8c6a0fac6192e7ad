#pragma once
// The bodies of check/patches/signal_patch.hpp.

#include <algorithm>
#include <cmath>
#include <utility>

#include <Eigen/Core>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The signals that whole codes of these stand for.
inline std::array<double, 3> coded_signal(const std::array<double, 3>& signal,
                                          const Quantisation& quantisation) {
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = quantisation.signal(quantisation.code(Signal(signal[i])).code).value();
    }
    return result;
}

inline void add_greys(std::vector<SignalPatch>& list) {
    for (const int percent : {0, 2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}) {
        const double s = percent / 100.0;
        list.push_back({"grey-" + std::to_string(percent), SignalGroup::grey, {s, s, s}, {}});
    }
}

inline void add_hues(std::vector<SignalPatch>& list) {
    struct Hue {
        const char* name;
        std::array<int, 3> lit;
    };
    constexpr std::array<Hue, 6> hues{{{"red", {1, 0, 0}},
                                       {"yellow", {1, 1, 0}},
                                       {"green", {0, 1, 0}},
                                       {"cyan", {0, 1, 1}},
                                       {"blue", {0, 0, 1}},
                                       {"magenta", {1, 0, 1}}}};
    for (const Hue& hue : hues) {
        for (const int saturation : {25, 50, 75, 100}) {
            for (const int level : {50, 100}) {
                const double most = level / 100.0;
                const double least = most * (1.0 - saturation / 100.0);
                SignalPatch patch{std::string(hue.name) + "-" + std::to_string(saturation) + "-" +
                                      std::to_string(level),
                                  saturation > 50 ? SignalGroup::saturated : SignalGroup::other,
                                  {},
                                  {}};
                for (std::size_t i = 0; i < 3; ++i) {
                    patch.signal[i] = hue.lit[i] == 1 ? most : least;
                }
                list.push_back(std::move(patch));
            }
        }
    }
}

/// All of skin, every second of foliage, forty of the saturated ones, evenly through the list.
inline std::vector<std::size_t> surfaces_to_prove() {
    std::array<std::vector<std::size_t>, 4> of_group;
    const auto surfaces = patch_set();
    for (std::size_t i = 0; i < surfaces.size(); ++i) {
        of_group.at(static_cast<std::size_t>(surfaces[i].group)).push_back(i);
    }
    constexpr std::array<std::pair<PatchGroup, std::size_t>, 3> wanted{
        {{PatchGroup::skin, 20}, {PatchGroup::foliage, 12}, {PatchGroup::saturated, 40}}};
    std::vector<std::size_t> result;
    for (const auto& [group, count] : wanted) {
        const std::vector<std::size_t>& all = of_group.at(static_cast<std::size_t>(group));
        for (std::size_t k = 0; k < count; ++k) {
            result.push_back(all[k * all.size() / count]);
        }
    }
    return result;
}

/// Amounts of the primaries, about the white of D65, that surfaces send back under it: 1 is the perfect white.
inline Eigen::Matrix3Xd surface_amounts(const RgbEncoding& encoding,
                                        std::span<const SurfacePatch> surfaces) {
    const SampledLight d65 = rebin(d_illuminant(6500.0), Sampling{});
    const Sensitivities rows = standard_observer<Cie1931_2deg>().on(Sampling{});
    const Eigen::Vector3d white = dense::response(rows.rows(), d65.column());
    const Eigen::Matrix3Xd xyz = dense::responses(rows.rows(), patch_lights(surfaces, d65));
    const RgbPrimaries& p = encoding.primaries();
    using Xy = Chromaticity<Cie1931_2deg>;
    const double sum = white.sum();
    const RgbEncoding about_d65(encoding.title(),
                                {Xy(p.red[0], p.red[1]), Xy(p.green[0], p.green[1]),
                                 Xy(p.blue[0], p.blue[1]), Xy(white.x() / sum, white.y() / sum)});
    Eigen::Matrix3Xd result(3, xyz.cols());
    for (Eigen::Index i = 0; i < xyz.cols(); ++i) {
        const auto amounts = about_d65.linear_rgb(
            {OfObserver<Cie1931_2deg>{},
             {xyz(0, i) / white.y(), xyz(1, i) / white.y(), xyz(2, i) / white.y()}});
        result.col(i) << amounts[0], amounts[1], amounts[2];
    }
    return result;
}

inline SignalGroup signal_group(PatchGroup group) {
    switch (group) {
        case PatchGroup::skin:
            return SignalGroup::skin;
        case PatchGroup::saturated:
            return SignalGroup::saturated;
        case PatchGroup::neutral:
        case PatchGroup::foliage:
            break;
    }
    return SignalGroup::other;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SignalGroup group_of(const std::array<double, 3>& signal) {
    const auto [least, most] = std::minmax({signal[0], signal[1], signal[2]});
    if (!(most - least > 1e-9)) {
        return SignalGroup::grey;
    }
    const double share = most > 0.0 ? least / most : 0.0;
    const bool red_first = signal[0] == most && signal[1] > signal[2];
    const double lean = (signal[1] - signal[2]) / (most - least);
    if (red_first && most > 0.2 && share > 0.35 && share < 0.85 && lean > 0.15 && lean < 0.75) {
        return SignalGroup::skin;
    }
    return share < 0.5 ? SignalGroup::saturated : SignalGroup::other;
}

SAMELIGHT_INLINE std::array<int, 3> codes_of(const std::array<double, 3>& signal,
                                             const Quantisation& quantisation) {
    std::array<int, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = quantisation.code(Signal(signal[i])).code;
    }
    return result;
}

SAMELIGHT_INLINE std::vector<SignalPatch> surface_patches(const IntendedDisplay& plain,
                                                          std::span<const SurfacePatch> surfaces) {
    const CurveOptions& curve = plain.curve().options();
    const bool hdr = curve.kind == CurveKind::pq || curve.kind == CurveKind::hlg;
    const double white = hdr ? std::min(203.0, curve.white_cd_m2) : curve.white_cd_m2;
    const Eigen::Matrix3Xd amounts = detail::surface_amounts(plain.encoding(), surfaces);
    std::vector<SignalPatch> list;
    for (std::size_t i = 0; i < surfaces.size(); ++i) {
        const auto column = amounts.col(static_cast<Eigen::Index>(i));
        const auto made =
            plain.curve().signals({white * column(0), white * column(1), white * column(2)});
        list.push_back(
            {surfaces[i].name, detail::signal_group(surfaces[i].group), made.signal, {}});
    }
    return list;
}

SAMELIGHT_INLINE std::vector<SignalPatch> coded(std::vector<SignalPatch> list,
                                                const Quantisation& quantisation) {
    for (SignalPatch& patch : list) {
        patch.signal = detail::coded_signal(patch.signal, quantisation);
    }
    return list;
}

SAMELIGHT_INLINE std::vector<SignalPatch> proof_patches(const IntendedDisplay& plain,
                                                        const Quantisation& quantisation) {
    std::vector<SignalPatch> list;
    detail::add_greys(list);
    detail::add_hues(list);
    const std::vector<SignalPatch> surfaces = surface_patches(plain, patch_set());
    for (const std::size_t i : detail::surfaces_to_prove()) {
        list.push_back(surfaces[i]);
        list.back().surface = i;
    }
    return coded(std::move(list), quantisation);
}

}  // namespace samelight
