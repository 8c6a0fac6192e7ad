#include "check/simulated_display.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/tables/cie1931_2deg.hpp"

namespace samelight::test {
namespace {

using Square = std::array<Three, 3>;

Three light_of(const Square& m, const Three& v) {
    Three r{};
    for (std::size_t i = 0; i < 3; ++i) {
        r[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
    return r;
}

/// By Cramer's rule.
Three solve(const Square& m, const Three& v) {
    const auto det = [](const Square& a) {
        return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
               a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
               a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
    };
    Three r{};
    for (std::size_t k = 0; k < 3; ++k) {
        Square c = m;
        for (std::size_t i = 0; i < 3; ++i) {
            c[i][k] = v[i];
        }
        r[k] = det(c) / det(m);
    }
    return r;
}

/// SMPTE RP 177:1993, by its text.
Square npm(const std::array<std::array<double, 2>, 3>& primaries, const std::array<double, 2>& w) {
    Square p{};
    for (std::size_t k = 0; k < 3; ++k) {
        p[0][k] = primaries[k][0];
        p[1][k] = primaries[k][1];
        p[2][k] = 1.0 - primaries[k][0] - primaries[k][1];
    }
    const Three s = solve(p, {w[0] / w[1], 1.0, (1.0 - w[0] - w[1]) / w[1]});
    for (auto& row : p) {
        for (std::size_t k = 0; k < 3; ++k) {
            row[k] *= s[k];
        }
    }
    return p;
}

/// X, Y, Z of narrow emitters, as bells, seen by CIE 1931 moved along the wavelengths.
Square emitters(double shift_nm) {
    constexpr std::array<double, 3> centres{634.0, 528.0, 458.0};
    constexpr std::array<double, 3> widths{9.0, 11.0, 9.0};
    Square m{};
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t i = 0; i < tables::cie1931_2deg::x.size(); ++i) {
            const double nm = tables::cie1931_2deg::first_nm +
                              tables::cie1931_2deg::step_nm * static_cast<double>(i) + shift_nm;
            const double z = (nm - centres[k]) / widths[k];
            const double light = std::exp(-0.5 * z * z);
            m[0][k] += light * tables::cie1931_2deg::x[i];
            m[1][k] += light * tables::cie1931_2deg::y[i];
            m[2][k] += light * tables::cie1931_2deg::z[i];
        }
    }
    return m;
}

/// SMPTE ST 2084, by its text; cd/m2.
double pq(double e) {
    constexpr double m1 = 2610.0 / 16384.0, m2 = 2523.0 / 32.0, c1 = 3424.0 / 4096.0,
                     c2 = 2413.0 / 128.0, c3 = 2392.0 / 128.0;
    const double p = std::pow(std::max(e, 0.0), 1.0 / m2);
    return 10000.0 * std::pow(std::max(p - c1, 0.0) / (c2 - c3 * p), 1.0 / m1);
}

Three moved_signal(const Injected& f, Three v) {
    if (f.exchanged_channels) {
        std::swap(v[(*f.exchanged_channels)[0]], v[(*f.exchanged_channels)[1]]);
    }
    for (double& s : v) {
        s = std::round(s * 1023.0) / 1023.0;
        if (f.range == 1) {
            s = std::clamp((s * 255.0 - 16.0) / 219.0, 0.0, 1.0);
        } else if (f.range == 2) {
            s = (s * 219.0 + 16.0) / 255.0;
        }
    }
    if (f.saturation != 1.0 || f.hue_deg != 0.0) {
        const double y = 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2];
        const double cb = (v[2] - y) / 1.8556;
        const double cr = (v[0] - y) / 1.5748;
        const double t = f.hue_deg * std::numbers::pi / 180.0;
        const double b = f.saturation * (cb * std::cos(t) - cr * std::sin(t));
        const double r = f.saturation * (cb * std::sin(t) + cr * std::cos(t));
        v = {y + 1.5748 * r, y - (0.2126 * 1.5748 * r + 0.0722 * 1.8556 * b) / 0.7152,
             y + 1.8556 * b};
    }
    for (std::size_t k = 0; k < 3; ++k) {
        v[k] = std::clamp(v[k] + f.signal_offsets[k], 0.0, std::min(1.0, f.ends[k]));
        if (f.merged && v[k] > (*f.merged)[0] && v[k] < (*f.merged)[1]) {
            v[k] = (*f.merged)[0];
        }
    }
    return v;
}

/// Shares of full light.
Three linear_light(const IntendedDisplay& intended, const Injected& f, const Three& v) {
    const CurveOptions& curve = intended.curve().options();
    const double black = curve.black_cd_m2 / curve.white_cd_m2;
    Three linear{};
    for (std::size_t k = 0; k < 3; ++k) {
        if (f.curve) {
            linear[k] = std::pow(f.curve(v[k]), f.exponents[k] / 2.4);
        } else if (curve.kind == CurveKind::pq) {
            linear[k] = std::min(1.0, pq(v[k]) / curve.white_cd_m2);
            linear[k] = std::pow(linear[k], f.exponents[k] / 2.4);
        } else {
            linear[k] = std::pow(v[k], f.exponents[k]);
        }
        linear[k] *= f.gains[k];
        if (black > 0.0) {
            // ITU-R BT.1886, annex 1, by its text, where no plain power stands above the black; the panel's own leakage follows no gain.
            const double root = std::pow(black, 1.0 / f.exponents[k]);
            const double b = root / (1.0 - root);
            const double a = std::pow(1.0 - root, f.exponents[k]);
            const bool plain = f.plain_power || f.curve || curve.kind != CurveKind::bt1886;
            const double share =
                plain ? linear[k] * (1.0 - black)
                      : f.gains[k] * (a * std::pow(v[k] + b, f.exponents[k]) - black);
            linear[k] = black + share;
        }
    }
    return linear;
}

}  // namespace

IntendedDisplay sdr_intent() {
    using Xy = Chromaticity<Cie1931_2deg>;
    return IntendedDisplay(RgbEncoding::of<Bt709>(),
                           SignalCurve({CurveKind::power, 120.0, 0.0, 2.4}))
        .with_white(Xy(0.3067, 0.3180));
}

IntendedDisplay hdr_intent() {
    return {RgbEncoding::of<P3D65>(), SignalCurve({CurveKind::pq, 800.0, 0.0})};
}

std::vector<PatchReading> simulated_visit(const IntendedDisplay& intended,
                                          const std::vector<SignalPatch>& list, const Injected& f,
                                          const Visit& visit) {
    const RgbPrimaries& own = intended.encoding().primaries();
    const double white = intended.curve().options().white_cd_m2;
    const auto primaries =
        f.primaries.value_or(std::array<std::array<double, 2>, 3>{own.red, own.green, own.blue});
    const Square meant = npm(primaries, own.white);
    const Square panel = emitters(0.0);
    const Square read_by = emitters(f.instrument_shift_nm);
    const Three full = solve(panel, light_of(meant, {1, 1, 1}));
    // A panel whose channels reach some further than white needs them.
    const double reach = 3.0;
    const double steps = std::pow(2.0, visit.drive_bits) - 1.0;
    PseudoRandom random(visit.seed);
    std::vector<PatchReading> readings;
    for (int repeat = 1; repeat <= visit.repeats; ++repeat) {
        for (const SignalPatch& patch : list) {
            const Three v = moved_signal(f, patch.signal);
            Three linear = linear_light(intended, f, v);
            const double least = std::min({linear[0], linear[1], linear[2]});
            for (std::size_t k = 0; k < 3; ++k) {
                linear[k] += f.added[k] + f.emitter * least;
            }
            if (f.darker_level && patch.group == SignalGroup::grey &&
                std::abs(patch.signal[0] - (*f.darker_level)[0]) < 0.01) {
                for (double& l : linear) {
                    l *= (*f.darker_level)[1];
                }
            }
            const Three wanted = light_of(meant, linear);
            const double hold = std::min(1.0, f.limit / std::max(wanted[1], 1e-9));
            Three drive = solve(panel, wanted);
            for (std::size_t k = 0; k < 3; ++k) {
                const double share = std::clamp(drive[k] / (reach * full[k]), 0.0, 1.0);
                const double coded = std::round(std::pow(share, 1.0 / 2.4) * steps) / steps;
                drive[k] = hold * std::pow(coded, 2.4) * reach * full[k];
            }
            Three xyz = light_of(read_by, drive);
            const auto place = readings.size();
            double light = white;
            if (f.drift && static_cast<double>(place) >= (*f.drift)[0] &&
                static_cast<double>(place) < (*f.drift)[1]) {
                light *= (*f.drift)[2];
            }
            if (f.correction) {
                xyz = light_of(*f.correction, xyz);
            }
            xyz[0] *= f.instrument[0];
            xyz[2] *= f.instrument[1];
            for (double& value : xyz) {
                value *= light;
                value += std::hypot(visit.relative * value, visit.floor) * draw_normal(random);
            }
            PatchReading reading;
            reading.patch = patch.name;
            reading.signal = patch.signal;
            reading.xyz = xyz;
            reading.repeat = repeat;
            reading.line = place + 2;
            readings.push_back(std::move(reading));
        }
    }
    if (f.misread && *f.misread > 0) {
        readings[*f.misread].xyz = readings[*f.misread - 1].xyz;
    }
    if (f.exchanged) {
        std::swap(readings[(*f.exchanged)[0]].xyz, readings[(*f.exchanged)[1]].xyz);
    }
    return readings;
}

}  // namespace samelight::test
