#pragma once
// The list of causes of check/faults/model_causes.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline ModelCause cause_of(FaultKind kind, std::vector<ModelNumber> numbers,
                           std::vector<std::vector<double>> starts,
                           FaultChannel channel = FaultChannel::none) {
    ModelCause cause{kind, channel, std::move(numbers), std::move(starts)};
    return cause;
}

/// Black as the curve of BT.1886 begins with it.
inline bool begins_at_black(const IntendedDisplay& intended) {
    const CurveOptions& own = intended.curve().options();
    return own.kind == CurveKind::bt1886 && own.black_cd_m2 > 0.0;
}

inline void add_channel_causes(const IntendedDisplay& intended, std::vector<ModelCause>& causes) {
    constexpr std::array<FaultChannel, 3> channels{FaultChannel::red, FaultChannel::green,
                                                   FaultChannel::blue};
    const auto of = [](ModelNumber first, std::size_t k) {
        return static_cast<ModelNumber>(static_cast<std::size_t>(first) + k);
    };
    for (std::size_t k = 0; k < 3; ++k) {
        const FaultChannel c = channels[k];
        causes.push_back(
            cause_of(FaultKind::channel_gamma, {of(ModelNumber::gamma_red, k)}, {{0.0}}, c));
        for (const ModelHeadroom headroom : {ModelHeadroom::none, ModelHeadroom::some}) {
            causes.push_back(cause_of(FaultKind::channel_offset, {of(ModelNumber::offset_red, k)},
                                      {{0.01}, {-0.03}}, c));
            causes.back().headroom = headroom;
        }
        causes.push_back(
            cause_of(FaultKind::clipped, {of(ModelNumber::clip_red, k)}, {{0.08}, {0.25}}, c));
        causes.push_back(cause_of(
            FaultKind::primary_off,
            {of(ModelNumber::red_x, 2 * k), of(ModelNumber::red_x, 2 * k + 1)}, {{0.0, 0.0}}, c));
        ModelCause tinted =
            cause_of(FaultKind::black_tinted, {of(ModelNumber::black_red, k)}, {{0.001}}, c);
        if (begins_at_black(intended)) {
            // What is added is in the black that was read, though the curve doesn't begin there.
            tinted.numbers.push_back(ModelNumber::unlifted);
            tinted.starts = {{0.001, 0.0}};
        }
        causes.push_back(std::move(tinted));
    }
}

/// A display that adds its black to a plain power instead of beginning its curve there, with the exponent that is meant or another: one cause either way.
inline void add_plain_power(const IntendedDisplay& intended, std::vector<ModelCause>& causes) {
    if (!begins_at_black(intended)) {
        return;
    }
    causes.push_back(cause_of(FaultKind::wrong_curve, {ModelNumber::unlifted}, {{1.0}}));
    causes.back().other = code_of(CurveKind::power);
    causes.push_back(cause_of(FaultKind::gamma_other, {ModelNumber::gamma, ModelNumber::unlifted},
                              {{0.0, 1.0}}));
    causes.back().other = code_of(CurveKind::power);
}

inline bool same_primaries(const RgbPrimaries& a, const RgbPrimaries& b) {
    double far = 0.0;
    for (const auto& [p, q] : {std::pair{a.red, b.red}, {a.green, b.green}, {a.blue, b.blue}}) {
        far = std::max({far, std::abs(p[0] - q[0]), std::abs(p[1] - q[1])});
    }
    return far < primary_gate_xy;
}

/// Twice the area of a triangle of primaries, in x, y.
inline double area_xy(const RgbPrimaries& p) {
    return std::abs((p.green[0] - p.red[0]) * (p.blue[1] - p.red[1]) -
                    (p.blue[0] - p.red[0]) * (p.green[1] - p.red[1]));
}

/// A panel that holds less than the encoding, with the primaries of another.
inline void add_gamut(const IntendedDisplay& intended, const ModelCause& encoding,
                      std::vector<ModelCause>& causes) {
    if (!(area_xy(encoding.encoding->primaries()) <
          0.95 * area_xy(intended.encoding().primaries()))) {
        return;
    }
    ModelCause cause = encoding;
    cause.kind = FaultKind::gamut_smaller;
    cause.gamut = ModelGamut::colours;
    causes.push_back(std::move(cause));
}

template <StandardRgb E>
void add_encoding(const IntendedDisplay& intended, std::vector<ModelCause>& causes) {
    const RgbPrimaries& own = intended.encoding().primaries();
    if (same_primaries(own, E::primaries)) {
        return;
    }
    using Xy = Chromaticity<Cie1931_2deg>;
    ModelCause cause{FaultKind::wrong_encoding};
    const auto xy = [](const std::array<double, 2>& p) { return Xy(p[0], p[1]); };
    cause.encoding.emplace(std::string(E::title),
                           RgbEncoding::Primaries{xy(E::primaries.red), xy(E::primaries.green),
                                                  xy(E::primaries.blue), xy(own.white)});
    cause.other = std::string(E::id);
    add_gamut(intended, cause, causes);
    causes.push_back(std::move(cause));
}

inline void add_curve(const IntendedDisplay& intended, const CurveOptions& options,
                      const std::string& name, std::vector<ModelCause>& causes) {
    const CurveOptions& own = intended.curve().options();
    ModelCause cause{own.kind == CurveKind::pq && options.kind == CurveKind::pq
                         ? FaultKind::other_roll_off
                         : FaultKind::wrong_curve};
    try {
        cause.curve.emplace(options);
    } catch (const Error&) {  // A black or white that the other curve can't have.
        return;
    }
    cause.other = name;
    causes.push_back(std::move(cause));
}

inline void add_curves(const IntendedDisplay& intended, std::vector<ModelCause>& causes) {
    const CurveOptions& own = intended.curve().options();
    for (const CurveKind kind : {CurveKind::srgb, CurveKind::pq, CurveKind::hlg}) {
        if (kind != own.kind) {
            CurveOptions options = own;
            options.kind = kind;
            options.programme_peak_cd_m2 = {};
            add_curve(intended, options, code_of(kind), causes);
        }
    }
    if (own.kind == CurveKind::pq || own.kind == CurveKind::hlg || own.kind == CurveKind::srgb) {
        CurveOptions options = own;
        options.kind = CurveKind::bt1886;
        add_curve(intended, options, code_of(CurveKind::bt1886), causes);
    }
    if (own.kind != CurveKind::pq) {
        return;
    }
    if (own.programme_peak_cd_m2) {
        CurveOptions options = own;
        options.programme_peak_cd_m2 = {};
        add_curve(intended, options, "0", causes);
    }
    for (const double peak : {1000.0, 2000.0, 4000.0, 10000.0}) {
        if (peak > 1.2 * own.white_cd_m2 && own.programme_peak_cd_m2.value_or(0.0) != peak) {
            CurveOptions options = own;
            options.programme_peak_cd_m2 = peak;
            add_curve(intended, options, to_text(peak), causes);
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<ModelCause> model_causes(const IntendedDisplay& intended,
                                                      WhiteLevel white) {
    using detail::cause_of;
    std::vector<ModelCause> causes;
    causes.push_back(cause_of(FaultKind::white_off, {ModelNumber::gain_red, ModelNumber::gain_blue},
                              {{0.0, 0.0}}));
    causes.push_back(cause_of(FaultKind::gamma_other, {ModelNumber::gamma}, {{0.0}}));
    detail::add_plain_power(intended, causes);
    if (white == WhiteLevel::asked_for) {
        causes.push_back(cause_of(FaultKind::luminance_off, {ModelNumber::scale}, {{0.0}}));
    }
    for (const ModelHeadroom headroom : {ModelHeadroom::none, ModelHeadroom::some}) {
        causes.push_back(cause_of(FaultKind::offset, {ModelNumber::offset},
                                  {{0.01}, {-0.02}, {-0.06}}, FaultChannel::all));
        causes.back().headroom = headroom;
    }
    causes.push_back(cause_of(FaultKind::black_lifted, {ModelNumber::black}, {{0.002}}));
    causes.push_back(cause_of(FaultKind::clipped, {ModelNumber::clip}, {{0.001}, {0.08}, {0.25}},
                              FaultChannel::all));
    causes.push_back(cause_of(FaultKind::limiter, {ModelNumber::limit}, {{0.2}, {0.5}, {0.7}}));
    causes.push_back(cause_of(FaultKind::white_emitter, {ModelNumber::emitter}, {{0.3}, {1.0}}));
    if (white == WhiteLevel::asked_for) {
        // A peak that was asked for may be white's with the emitter in it.
        causes.push_back(cause_of(FaultKind::white_emitter,
                                  {ModelNumber::emitter, ModelNumber::scale},
                                  {{0.3, -0.26}, {1.0, -0.69}}));
    }
    causes.push_back(cause_of(FaultKind::saturation_off, {ModelNumber::saturation}, {{0.0}}));
    causes.push_back(cause_of(FaultKind::hue_off, {ModelNumber::hue}, {{0.0}}));
    causes.push_back(cause_of(FaultKind::instrument_off,
                              {ModelNumber::instrument_x, ModelNumber::instrument_z},
                              {{0.0, 0.0}}));
    causes.push_back(cause_of(
        FaultKind::instrument_off,
        {ModelNumber::instrument_x, ModelNumber::instrument_z, ModelNumber::instrument_xy,
         ModelNumber::instrument_xz, ModelNumber::instrument_yx, ModelNumber::instrument_yz,
         ModelNumber::instrument_zx, ModelNumber::instrument_zy},
        {std::vector<double>(8, 0.0)}));
    detail::add_channel_causes(intended, causes);
    constexpr std::array<std::pair<const char*, std::array<std::size_t, 3>>, 3> exchanges{
        {{"red_green", {1, 0, 2}}, {"red_blue", {2, 1, 0}}, {"green_blue", {0, 2, 1}}}};
    for (const auto& [name, order] : exchanges) {
        ModelCause cause{FaultKind::channels_exchanged};
        cause.order = order;
        cause.other = name;
        causes.push_back(std::move(cause));
    }
    for (const ModelRange range :
         {ModelRange::full_taken_for_limited, ModelRange::limited_taken_for_full}) {
        ModelCause cause{FaultKind::wrong_range};
        cause.range = range;
        causes.push_back(std::move(cause));
    }
    detail::add_encoding<Bt709>(intended, causes);
    detail::add_encoding<Bt2020>(intended, causes);
    detail::add_encoding<P3D65>(intended, causes);
    detail::add_encoding<SmpteC>(intended, causes);
    detail::add_curves(intended, causes);
    return causes;
}

}  // namespace samelight
