#pragma once
// The bodies of meter/readings/panel_flag.hpp.

#include <array>
#include <cmath>
#include <optional>
#include <string>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/meter/readings/panel_flag.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<Warning> panel_flag(const std::string& name, const Panel& panel,
                                                   const ReadingSet& readings) {
    // A modelling choice: units of a type and instruments differ by less, types by more.
    constexpr double too_far = 0.02;
    const Sensitivities t = observer_named(readings.observer()).on(panel.sampling());
    const PatchNames& names = readings.names();
    std::optional<Warning> flag;
    double farthest = too_far;
    const auto compare = [&](const std::string& patch, const Eigen::VectorXd& light) {
        const auto found = readings.find(patch);
        if (!found) {
            return;
        }
        const Eigen::Vector3d xyz = t.rows() * (light + panel.black());
        const std::array<double, 2> by_spectra = {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
        const std::array<double, 3>& read = readings.patches()[*found].reference;
        const double distance = std::hypot(by_spectra[0] - read[0], by_spectra[1] - read[1]);
        if (distance > farthest) {
            farthest = distance;
            flag = Warning{other_panel_code,
                           {{"panel", name},
                            {"patch", patch},
                            {"spectra_x", by_spectra[0]},
                            {"spectra_y", by_spectra[1]},
                            {"reference_x", read[0]},
                            {"reference_y", read[1]}}};
        }
    };
    compare(names.red, panel.emitters().col(0));
    compare(names.green, panel.emitters().col(1));
    compare(names.blue, panel.emitters().col(2));
    if (panel.white_known()) {
        compare(names.white, panel.white());
    }
    return flag;
}

}  // namespace samelight
