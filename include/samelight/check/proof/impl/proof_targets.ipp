#pragma once
// The bodies of check/proof/proof_targets.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/proof/proof_targets.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ProofTargets::ProofTargets(const std::vector<PatchReading>& rows,
                                            const SignalNames& names, const ReadingsPlace& place) {
    for (const PatchReading& row : rows) {
        const ErrorPlace line{place.source, static_cast<int>(row.line), 0};
        std::optional<ShownPatch> shown = names.shown(row);
        if (!shown) {
            throw Error(ErrorKind::input, line,
                        row.patch.empty()
                            ? "a target without signal and without name"
                            : "a target of \"" + row.patch + "\", whose signal nobody knows",
                        "code values or a level beside it, or a name of the proof's list");
        }
        // Of a primary with z = 0 the digits of x, y and Y may leave a Z just below 0.
        const double rounding = 1e-4 * (row.xyz[0] + row.xyz[1] + row.xyz[2]);
        if (!std::all_of(row.xyz.begin(), row.xyz.end(),
                         [rounding](double v) { return v >= -rounding; })) {
            throw Error(ErrorKind::input, line, "a target with less than no light",
                        "X, Y, Z from 0");
        }
        Row target{std::move(*shown), row.xyz};
        for (double& value : target.xyz) {
            value = std::max(value, 0.0);
        }
        const auto key = detail::signal_key(target.shown.signal);
        rows_.insert_or_assign(key, std::move(target));
    }
    const auto white = rows_.find(detail::signal_key({1.0, 1.0, 1.0}));
    if (white == rows_.end() || !std::all_of(white->second.xyz.begin(), white->second.xyz.end(),
                                             [](double v) { return v > 0.0; })) {
        throw Error(ErrorKind::input, place.source, "targets without a full white",
                    "one row of white, with its light");
    }
    white_ = white->second.xyz;
}

SAMELIGHT_INLINE std::vector<SignalPatch> ProofTargets::patches() const {
    std::vector<SignalPatch> list;
    list.reserve(rows_.size());
    for (const auto& [key, row] : rows_) {
        list.push_back({row.shown.name, row.shown.group, row.shown.signal, {}});
    }
    return list;
}

SAMELIGHT_INLINE std::optional<std::array<double, 3>> ProofTargets::target(
    const std::array<double, 3>& signal, double white_cd_m2) const {
    const auto found = rows_.find(detail::signal_key(signal));
    if (found == rows_.end()) {
        return {};
    }
    std::array<double, 3> xyz = found->second.xyz;
    for (double& value : xyz) {
        value *= white_cd_m2 / white_[1];
    }
    return xyz;
}

SAMELIGHT_INLINE ProofReadings about_signals(ProofReadings readings,
                                             const IntendedDisplay& intended) {
    for (ProofPoint& point : readings.points) {
        if (point.target) {
            const auto meant = intended.xyz(point.shown.signal);
            for (std::size_t i = 0; i < 3; ++i) {
                point.xyz[i] += meant[i] - (*point.target)[i];
            }
            point.target.reset();
        }
    }
    return readings;
}

}  // namespace samelight
