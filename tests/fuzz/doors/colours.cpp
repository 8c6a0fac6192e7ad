// Any colours through the formulas that are offered both a colour and a column at a time: no column of any length may differ from the plain function by
// more than the header's bound, nothing but NaN may come of NaN, and an infinite or absurd number may spoil its own row alone.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "doors/calculators.hpp"
#include "samelight/colour/appearance/ciecam16_batch.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/signals/transfer_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"

namespace {

using namespace samelight;
using fuzz::demand;
using fuzz::Drawn;
using O = Cie1931_2deg;

template <class T>
struct Three {
    explicit Three(std::size_t n) : a(n), b(n), c(n) {}
    std::vector<T> a, b, c;
    Columns3<T> out() { return {std::span<T>(a), std::span<T>(b), std::span<T>(c)}; }
    Columns3<const T> in() const {
        return {std::span<const T>(a), std::span<const T>(b), std::span<const T>(c)};
    }
    std::array<double, 3> row(std::size_t i) const {
        return {static_cast<double>(a[i]), static_cast<double>(b[i]), static_cast<double>(c[i])};
    }
};

template <class T>
Three<T> drawn_columns(Drawn& drawn, std::size_t n, std::array<double, 3> low,
                       std::array<double, 3> high) {
    Three<T> three(n);
    for (std::size_t i = 0; i < n; ++i) {
        three.a[i] = static_cast<T>(drawn.number(low[0], high[0]));
        three.b[i] = static_cast<T>(drawn.number(low[1], high[1]));
        three.c[i] = static_cast<T>(drawn.number(low[2], high[2]));
    }
    return three;
}

bool within(const std::array<double, 3>& v, const std::array<double, 3>& low,
            const std::array<double, 3>& high) {
    bool is = true;
    for (std::size_t k = 0; k < 3; ++k) {
        is = is && v[k] >= low[k] && v[k] <= high[k];
    }
    return is;
}

void demand_near(const std::array<double, 3>& got, const std::array<double, 3>& want, double bound,
                 const char* what) {
    for (std::size_t k = 0; k < 3; ++k) {
        demand(std::abs(got[k] - want[k]) <= bound,
               std::string(what) + ": columns are the plain function");
    }
}

bool any_nan(const std::array<double, 3>& v) {
    return std::isnan(v[0]) || std::isnan(v[1]) || std::isnan(v[2]);
}

/// Lab there and back, and each row the same wherever it stands in its column.
template <class T>
void ask_lab(Drawn& drawn, std::size_t n) {
    constexpr bool is_double = sizeof(T) == 8;
    const Tristimulus<O> white(95.047, 100.0, 108.883);
    const std::array<double, 3> low{-0.9, -1.0, -1.0}, high{95.0, 100.0, 108.0};
    const Three<T> xyz = drawn_columns<T>(drawn, n, low, high);
    Three<T> got(n);
    lab_from_xyz(xyz.in(), white, got.out());
    for (std::size_t i = 0; i < n; ++i) {
        const std::array<double, 3> v = xyz.row(i);
        if (any_nan(v)) demand(any_nan(got.row(i)), "NaN of NaN");
        if (!within(v, low, high)) continue;
        const Lab<O> want = lab(Tristimulus<O>(v[0], v[1], v[2]), white);
        demand_near(got.row(i), {want.L(), want.a(), want.b()}, is_double ? 5e-13 : 2e-4, "Lab");
        Three<T> alone(1);
        Three<T> one(1);
        one.a[0] = xyz.a[i];
        one.b[0] = xyz.b[i];
        one.c[0] = xyz.c[i];
        lab_from_xyz(one.in(), white, alone.out());
        demand(alone.row(0) == got.row(i), "a row is the same by itself");
    }
}

template <class T>
void ask_differences(Drawn& drawn, std::size_t n) {
    const std::array<double, 3> low{0.0, -120.0, -120.0}, high{100.0, 120.0, 120.0};
    const Three<T> p = drawn_columns<T>(drawn, n, low, high);
    const Three<T> q = drawn_columns<T>(drawn, n, low, high);
    const Ciede2000Weights weights{drawn.number(0.5, 2.0), drawn.number(0.5, 2.0),
                                   drawn.number(0.5, 2.0)};
    std::vector<T> got(n, T(-7));
    const auto asked = fuzz::or_refused([&] {
        delta_e_2000<T>(p.in(), q.in(), std::span<T>(got), weights);
        return true;
    });
    const auto sane = [](double k) { return k >= 0.1 && k <= 10.0; };
    if (!asked) {
        demand(!(sane(weights.kL) && sane(weights.kC) && sane(weights.kH)),
               "weights are refused that are sane");
        return;
    }
    if (!(sane(weights.kL) && sane(weights.kC) && sane(weights.kH))) return;
    for (std::size_t i = 0; i < n; ++i) {
        if (!within(p.row(i), low, high) || !within(q.row(i), low, high)) continue;
        const double d = static_cast<double>(got[i]);
        demand(std::isfinite(d) && d >= 0.0, "CIEDE2000: a difference that is one");
        demand(p.row(i) != q.row(i) || d == 0.0, "CIEDE2000: none of a colour to itself");
    }
}

template <class T>
void ask_appearance(Drawn& drawn, std::size_t n) {
    ViewingConditions<O> viewing = {.white = Tristimulus<O>(95.047, 100.0, 108.883),
                                    .adapting_luminance_cd_m2 = drawn.number(0.1, 1000.0),
                                    .background_percent = drawn.number(1.0, 60.0)};
    const Three<T> xyz = drawn_columns<T>(drawn, n, {0.0, 0.0, 0.0}, {95.0, 100.0, 108.0});
    Three<T> jch(n);
    const auto asked = fuzz::or_refused([&] {
        const Ciecam16<O> model(viewing);
        jch_from_xyz(xyz.in(), model, jch.out());
        return true;
    });
    if (!asked) return;
    const Ciecam16<O> model(viewing);
    for (std::size_t i = 0; i < n; ++i) {
        const std::array<double, 3> v = xyz.row(i);
        if (any_nan(v)) demand(any_nan(jch.row(i)), "NaN of NaN");
        const auto plain =
            fuzz::or_refused([&] { return model.appearance(Tristimulus<O>(v[0], v[1], v[2])); });
        const std::array<double, 3> got = jch.row(i);
        if (!plain) {
            demand(!std::isfinite(got[0] + got[1] + got[2]),
                   "no number where the plain function refuses");
        } else if (within(v, {0.0, 0.0, 0.0}, {95.0, 100.0, 108.0})) {
            demand(got[2] >= 0.0 && got[2] < 360.0 && got[0] >= 0.0 && got[1] >= 0.0,
                   "J, C and h in their ranges: " + std::to_string(got[0]) + " " +
                       std::to_string(got[1]) + " " + std::to_string(got[2]) + " of " +
                       std::to_string(v[0]) + " " + std::to_string(v[1]) + " " +
                       std::to_string(v[2]) + " LA " +
                       std::to_string(viewing.adapting_luminance_cd_m2) + " Yb " +
                       std::to_string(viewing.background_percent));
        }
    }
}

template <class T>
void ask_signals(Drawn& drawn, std::size_t n) {
    constexpr bool is_double = sizeof(T) == 8;
    std::vector<T> signals(n);
    for (T& signal : signals) {
        signal = static_cast<T>(drawn.number(0.0, 1.0));
    }
    std::vector<T> light(n);
    std::vector<T> back(n);
    luminance_from_signal<T>(Pq{}, std::span<const T>(signals), std::span<T>(light));
    signal_from_luminance<T>(Pq{}, std::span<const T>(light), std::span<T>(back));
    for (std::size_t i = 0; i < n; ++i) {
        const double s = static_cast<double>(signals[i]);
        if (std::isnan(s)) demand(std::isnan(static_cast<double>(light[i])), "NaN of NaN");
        if (!(s >= 0.0 && s <= 1.0)) continue;
        const double l = static_cast<double>(light[i]);
        demand(l >= 0.0 && l <= 10000.0 * (1.0 + 1e-5), "PQ between 0 and 10,000 cd/m2");
        demand(std::abs(l - Pq{}.luminance(Signal(s)).cd_m2()) <=
                   (is_double ? 1e-14 : 5e-6) * l + (is_double ? 1e-300 : 1e-8),
               "PQ: columns are the plain function");
        demand(std::isfinite(static_cast<double>(back[i])), "PQ back: finite");
    }
}

template <class T>
void ask(Drawn& drawn) {
    const std::size_t n = drawn.count(19);
    switch (drawn.count(3)) {
        case 0:
            return ask_lab<T>(drawn, n);
        case 1:
            return ask_differences<T>(drawn, n);
        case 2:
            return ask_appearance<T>(drawn, n);
        default:
            return ask_signals<T>(drawn, n);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    if (drawn.one_in(2)) {
        ask<float>(drawn);
    } else {
        ask<double>(drawn);
    }
    return 0;
}
