#pragma once
// The bodies of check/gradients/coded_display.hpp.

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/check/gradients/coded_display.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// ITU-R BT.2100-2, Table 5: OETF^-1[max(0, (1 - beta) E' + beta)].
inline double raised_scene_light(double signal, const HlgDisplay& display) {
    const double raised = (1.0 - display.beta()) * signal + display.beta();
    return HlgScene::light(Signal(std::max(0.0, raised))).value();
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE CodedDisplay::CodedDisplay(IntendedDisplay display, int bits)
    : display_(std::move(display)), codes_(bits, SignalRange::full) {
    const CurveOptions& curve = display_.curve().options();
    if (curve.kind == CurveKind::hlg) {
        system_.emplace(Luminance(curve.white_cd_m2), Luminance(curve.black_cd_m2));
    }
    light_.reserve(static_cast<std::size_t>(last_code()) + 1);
    for (int code = 0; code <= last_code(); ++code) {
        const double signal = codes_.signal(code).value();
        light_.push_back(system_ ? detail::raised_scene_light(signal, *system_)
                                 : display_.curve().grey(signal));
    }
}

SAMELIGHT_INLINE void CodedDisplay::require(const std::array<int, 3>& codes) const {
    for (const int code : codes) {
        if (code < 0 || code > last_code()) {
            throw Error(ErrorKind::domain, "CodedDisplay", "code " + std::to_string(code),
                        "0 to " + std::to_string(last_code()));
        }
    }
}

SAMELIGHT_INLINE std::array<double, 3> CodedDisplay::channels(
    const std::array<int, 3>& codes) const {
    require(codes);
    const auto light = [&](std::size_t i) { return light_[static_cast<std::size_t>(codes[i])]; };
    const std::array<double, 3> rgb = {light(0), light(1), light(2)};
    return system_ ? system_->ootf({rgb[0], rgb[1], rgb[2]}).values() : rgb;
}

SAMELIGHT_INLINE std::array<double, 3> CodedDisplay::xyz(const std::array<int, 3>& codes) const {
    return display_.encoding().tristimulus(channels(codes)).values();
}

SAMELIGHT_INLINE SteppedColour CodedDisplay::colour(const std::array<int, 3>& codes) const {
    return stepped_colour(xyz(codes));
}

SAMELIGHT_INLINE std::array<int, 3> CodedDisplay::adjusted(const std::array<int, 3>& codes,
                                                           const Adjustment& adjustment) const {
    require(codes);
    const double last = last_code();
    const std::array<double, 3> out =
        adjustment.apply({codes[0] / last, codes[1] / last, codes[2] / last});
    std::array<int, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = static_cast<int>(out[i] * last + 0.5);
    }
    return result;
}

}  // namespace samelight
