#include "report/gradient/page/gradient_words.hpp"

#include <array>
#include <cmath>
#include <cstddef>

#include "report/words/text_layout.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {

std::string hue_words(double hue_deg) {
    constexpr std::array<const char*, 6> hues = {"red",  "yellow", "green",
                                                 "cyan", "blue",   "magenta"};
    double sixth = std::fmod(hue_deg / 60.0, 6.0);
    sixth = sixth < 0.0 ? sixth + 6.0 : sixth;
    const auto low = static_cast<std::size_t>(sixth) % 6;
    const double part = sixth - std::floor(sixth);
    if (part < 0.25 || part > 0.75) {
        return hues.at((low + (part > 0.75 ? 1 : 0)) % 6);
    }
    return std::string("between ") + hues.at(low) + " and " + hues.at((low + 1) % 6);
}

std::string ramp_words(RampKind kind, int hue_deg, int saturation_pct) {
    switch (kind) {
        case RampKind::grey:
            return "from black to white";
        case RampKind::level:
            return "from black to " + hue_words(hue_deg);
        case RampKind::saturation:
            return "from grey to " + hue_words(hue_deg);
        case RampKind::hue:
            break;
    }
    return saturation_pct < 100 ? "around the pale hues" : "around the full hues";
}

std::string codes_words(const std::array<int, 3>& codes) {
    if (codes[0] == codes[1] && codes[1] == codes[2]) {
        return "code " + std::to_string(codes[0]);
    }
    return "R " + std::to_string(codes[0]) + " G " + std::to_string(codes[1]) + " B " +
           std::to_string(codes[2]);
}

std::string codes_words(const std::array<std::array<int, 3>, 2>& codes) {
    const auto pair = [&codes](std::size_t k) {
        return std::to_string(codes[0][k]) +
               (codes[0][k] == codes[1][k] ? "" : " to " + std::to_string(codes[1][k]));
    };
    const auto grey = [](const std::array<int, 3>& c) { return c[0] == c[1] && c[1] == c[2]; };
    return grey(codes[0]) && grey(codes[1]) ? "codes " + pair(0)
                                            : "R " + pair(0) + " G " + pair(1) + " B " + pair(2);
}

std::string control_words(const AdjustmentMove& control) {
    const std::string what = code_of(control.kind);
    if (is_of_hue(control.kind)) {
        return what + " of " + hue_words(control.hue_deg);
    }
    const std::string channel =
        control.channel == MoveChannel::all ? "" : std::string(" of ") + code_of(control.channel);
    if (control.kind == MoveKind::point) {
        return "point at " + to_text(control.level_pct) + " %" + channel;
    }
    return what + channel;
}

std::string amount_words(MoveKind kind, double amount) {
    return with_sign(amount, 1) + (kind == MoveKind::hue ? " degrees" : " %");
}

std::string light_words(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    if (!(sum > 0.0)) {
        return "no light";
    }
    return "x " + to_text(xyz[0] / sum, 4) + ", y " + to_text(xyz[1] / sum, 4) + ", " +
           to_text(xyz[1], xyz[1] < 1.0 ? 3 : 1) + " cd/m2";
}

std::string steps_words(const VisibleStep& step) { return to_text(step.largest(), 1); }

}  // namespace samelight::report
