#pragma once
// The bodies of check/gradients/coded_display.hpp.

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/check/gradients/coded_display.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE CodedDisplay::CodedDisplay(IntendedDisplay display, int bits)
    : display_(std::move(display)), codes_(bits, SignalRange::full) {
    if (display_.curve().options().kind == CurveKind::hlg) {
        return;
    }
    light_.reserve(static_cast<std::size_t>(last_code()) + 1);
    for (int code = 0; code <= last_code(); ++code) {
        light_.push_back(display_.curve().grey(codes_.signal(code).value()));
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

SAMELIGHT_INLINE SteppedColour CodedDisplay::colour(const std::array<int, 3>& codes) const {
    require(codes);
    if (light_.empty()) {
        return stepped_colour(
            display_.xyz({codes_.signal(codes[0]).value(), codes_.signal(codes[1]).value(),
                          codes_.signal(codes[2]).value()}));
    }
    const auto light = [&](std::size_t i) { return light_[static_cast<std::size_t>(codes[i])]; };
    return stepped_colour(display_.encoding().tristimulus({light(0), light(1), light(2)}).values());
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
