#pragma once
// Whole displays whose truth is known, read with noise and judged: of those stated to conform with a probability, how many do. What is true is made by the formulas of simulated_display.hpp.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "check/simulated_display.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {

/// What kind of errors brings the worst patch near the gate.
enum class JudgedKind { small_everywhere, outliers, white, gamma, saturation, correction };

/// One display judged.
struct JudgedDisplay {
    double probability = 0.0;
    bool conforms = false;
    /// True largest DE00 over the gate.
    double ratio = 0.0;
    /// Share of the draws below the true largest.
    double place = 0.0;
};

/// Draws displays of a kind. Noise of a reading, relative, is the caller's; repeats, the gate, and how far the worst patch truly is from it are drawn.
class JudgedDisplays {
  public:
    JudgedDisplays(JudgedKind kind, double noise, std::uint64_t seed)
        : kind_(kind), noise_(noise), random_(seed), list_(proof_patches(sdr_intent(), codes_)) {}

    JudgedDisplay next() {
        const double gate = std::array<double, 3>{2.0, 3.0, 5.0}.at(random_.next() % 3);
        const double ratio = 0.5 + 0.8 * random_.next_unit();
        const std::vector<Three> truth = true_lights(ratio * gate);
        return judged(truth, gate);
    }

  private:
    using Lights = std::vector<Three>;

    /// Shares of X, Y, Z that a patch is off by on its own, for an amount of 1.
    Lights own_errors() {
        Lights errors(list_.size());
        for (Three& e : errors) {
            const double common = draw_normal(random_);
            for (double& value : e) {
                value = common + 0.5 * draw_normal(random_);
            }
        }
        return errors;
    }

    Lights lights_of(const Injected& faults) const {
        Visit visit;
        visit.relative = 0.0;
        visit.floor = 0.0;
        visit.drive_bits = 16;
        Lights lights;
        for (const PatchReading& r : simulated_visit(intended_, list_, faults, visit)) {
            lights.push_back(r.xyz);
        }
        return lights;
    }

    static Lights moved(Lights lights, const Lights& errors, double amount) {
        for (std::size_t i = 0; i < lights.size(); ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                lights[i][k] *= std::max(1.0 + amount * errors[i][k], 0.05);
            }
        }
        return lights;
    }

    /// The display that it is meant to be, as bright as its white is.
    IntendedDisplay meant_beside(const Three& white) const {
        CurveOptions options = intended_.curve().options();
        options.white_cd_m2 = white[1];
        return {intended_.encoding(), SignalCurve(options)};
    }

    std::size_t white_at() const {
        std::size_t at = 0;
        while (list_[at].signal != Three{1, 1, 1}) {
            ++at;
        }
        return at;
    }

    double largest_of(const Lights& lights) const {
        const IntendedDisplay meant = meant_beside(lights[white_at()]);
        double largest = 0.0;
        for (std::size_t i = 0; i < lights.size(); ++i) {
            largest = std::max(
                largest, de00_of_lights(lights[i], meant.xyz(list_[i].signal), meant.white()));
        }
        return largest;
    }

    /// The amount at which the largest is so much.
    template <class Make>
    Lights brought_to(double wanted, const Make& make) const {
        double low = 0.0;
        double high = 1.0;
        for (int i = 0; i < 14; ++i) {
            const double middle = 0.5 * (low + high);
            (largest_of(make(middle)) < wanted ? low : high) = middle;
        }
        return make(0.5 * (low + high));
    }

    Lights true_lights(double wanted) {
        const Lights clean = lights_of({});
        const Lights own = own_errors();
        if (kind_ == JudgedKind::small_everywhere) {
            return brought_to(wanted, [&](double a) { return moved(clean, own, a); });
        }
        const double beside = 0.3 * random_.next_unit() * wanted;
        const Lights base = brought_to(beside, [&](double a) { return moved(clean, own, a); });
        if (kind_ == JudgedKind::outliers) {
            return with_outliers(base, wanted);
        }
        const JudgedKind kind =
            kind_ == JudgedKind::correction
                ? std::array<JudgedKind, 3>{JudgedKind::white, JudgedKind::gamma,
                                            JudgedKind::saturation}
                      .at(random_.next() % 3)
                : kind_;
        const double sign = random_.next() % 2 == 0 ? 1.0 : -1.0;
        const double part = random_.next_unit();
        const Lights off = errors_between(base, clean);
        return brought_to(wanted, [&](double a) {
            Injected faults;
            if (kind == JudgedKind::white) {
                faults.gains = {1.0 + 0.5 * sign * a * part, 1.0,
                                1.0 - 0.5 * sign * a * (1.0 - part)};
            } else if (kind == JudgedKind::gamma) {
                faults.exponents.fill(2.4 + sign * a);
            } else {
                faults.saturation = 1.0 + 0.6 * sign * a;
            }
            return moved(lights_of(faults), off, 1.0);
        });
    }

    static Lights errors_between(const Lights& there, const Lights& here) {
        Lights errors(there.size());
        for (std::size_t i = 0; i < there.size(); ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                errors[i][k] = here[i][k] > 0.0 ? there[i][k] / here[i][k] - 1.0 : 0.0;
            }
        }
        return errors;
    }

    Lights with_outliers(const Lights& base, double wanted) {
        const std::size_t count = 1 + random_.next() % 5;
        Lights far(base.size());
        for (std::size_t n = 0; n < count; ++n) {
            const std::size_t i = 1 + random_.next() % (base.size() - 1);
            if (i == white_at()) {
                continue;
            }
            const double size = 0.6 + 0.4 * random_.next_unit();
            for (double& value : far[i]) {
                value = size * draw_normal(random_);
            }
        }
        return brought_to(wanted, [&](double a) { return moved(base, far, a); });
    }

    /// What is read of them: repeats with noise, by an instrument whose correction is a little wrong.
    JudgedDisplay judged(const Lights& truth, double gate) {
        Correction correction;
        const Three white = truth[white_at()];
        Lights shown = truth;
        if (kind_ == JudgedKind::correction) {
            shown = through_correction(truth, correction, gate);
        }
        const int fewest = noise_ > 0.002 ? 2 : 1;
        const int repeats = fewest << (random_.next() % 4);
        std::vector<PatchReading> readings;
        for (int repeat = 1; repeat <= repeats; ++repeat) {
            for (std::size_t i = 0; i < list_.size(); ++i) {
                PatchReading reading;
                reading.patch = list_[i].name;
                reading.signal = list_[i].signal;
                reading.repeat = repeat;
                reading.line = readings.size() + 2;
                for (std::size_t k = 0; k < 3; ++k) {
                    reading.xyz[k] = shown[i][k] +
                                     std::hypot(noise_ * shown[i][k], 0.002) * draw_normal(random_);
                }
                readings.push_back(std::move(reading));
            }
        }
        const SignalNames names(list_, codes_);
        const ProofReadings sorted = sort_readings(readings, names, white, {"visit"});
        Three read_white{};
        for (const ProofPoint& point : sorted.points) {
            if (point.shown.signal == Three{1, 1, 1}) {
                read_white = point.xyz;
            }
        }
        ProofGate asked{gate, {}};
        if (kind_ == JudgedKind::correction) {
            asked.correction = correction;
        }
        const GateQuestion question = gate_question(sorted, meant_beside(read_white), asked);
        const double largest = largest_of(truth);
        const auto drawn = largest_draws(question);
        const auto below = [&](double value) {
            return static_cast<double>(std::upper_bound(drawn.begin(), drawn.end(), value) -
                                       drawn.begin()) /
                   static_cast<double>(drawn.size());
        };
        return {below(gate), largest <= gate, largest / gate, below(largest)};
    }

    /// Readings as a correction gives them that is off by what its covariance says; the white's luminance stays.
    Lights through_correction(const Lights& truth, Correction& correction, double gate) {
        const double sd = (0.0001 + 0.0005 * random_.next_unit()) * gate;
        ParameterCovariance covariance;
        std::array<double, 9> error{};
        for (std::size_t i = 0; i < 9; ++i) {
            covariance.elements[10 * i] = sd * sd;
            error[i] = sd * draw_normal(random_);
        }
        correction.reference_from_meter = {1, 0, 0, 0, 1, 0, 0, 0, 1};
        correction.covariance = covariance;
        correction.degrees_of_freedom = 1e6;
        // To the first order the inverse of 1 + error is 1 - error; the rest is made up by a second step.
        Lights shown = truth;
        for (int step = 0; step < 4; ++step) {
            for (std::size_t i = 0; i < truth.size(); ++i) {
                Three there = truth[i];
                for (std::size_t k = 0; k < 3; ++k) {
                    for (std::size_t m = 0; m < 3; ++m) {
                        there[k] -= error[3 * k + m] * shown[i][m];
                    }
                }
                shown[i] = there;
            }
        }
        const double keep = truth[white_at()][1] / shown[white_at()][1];
        for (Three& light : shown) {
            for (double& value : light) {
                value *= keep;
            }
        }
        return shown;
    }

    JudgedKind kind_;
    double noise_;
    PseudoRandom random_;
    Quantisation codes_{10, SignalRange::full};
    IntendedDisplay intended_ = sdr_intent();
    std::vector<SignalPatch> list_;
};

}  // namespace samelight::test
