#pragma once
// The bodies of check/proof/patch_difference.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/readings/light_places.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline MeasureSummary summary_of(const std::vector<double>& values,
                                 const std::vector<std::size_t>& patches) {
    MeasureSummary summary;
    if (values.empty()) {
        return summary;
    }
    double sum = 0.0;
    summary.at = patches.front();
    for (std::size_t i = 0; i < values.size(); ++i) {
        sum += values[i];
        if (values[i] > summary.largest) {
            summary.largest = values[i];
            summary.at = patches[i];
        }
    }
    summary.mean = sum / static_cast<double>(values.size());
    summary.percentile_95 = sample_quantile(values, 0.95);
    return summary;
}

inline GroupSummary group_summary(std::string name, std::span<const ColourGap> gaps,
                                  const std::vector<std::size_t>& members) {
    GroupSummary result{std::move(name), members.size(), {}, {}, {}, {}};
    std::vector<double> de00;
    std::vector<double> without;
    std::vector<double> itp;
    std::vector<double> uv;
    std::vector<std::size_t> with_uv;
    for (const std::size_t i : members) {
        de00.push_back(gaps[i].de00);
        without.push_back(gaps[i].de00_without_lightness);
        itp.push_back(gaps[i].de_itp);
        if (gaps[i].uv) {
            uv.push_back(gaps[i].duv());
            with_uv.push_back(i);
        }
    }
    result.de00 = summary_of(de00, members);
    result.de00_without_lightness = summary_of(without, members);
    result.de_itp = summary_of(itp, members);
    result.duv = summary_of(uv, with_uv);
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double ColourGap::duv() const { return uv ? std::hypot((*uv)[0], (*uv)[1]) : 0.0; }

SAMELIGHT_INLINE double de00_of_lights(const std::array<double, 3>& a,
                                       const std::array<double, 3>& b,
                                       const std::array<double, 3>& white) {
    return detail::ciede2000(detail::lab_beside(a, white), detail::lab_beside(b, white), 1.0, 1.0,
                             1.0);
}

SAMELIGHT_INLINE ColourGap colour_gap(const std::array<double, 3>& measured,
                                      const std::array<double, 3>& intended,
                                      const std::array<double, 3>& white) {
    using Light = Tristimulus<Cie1931_2deg>;
    for (const double value : white) {
        if (!(value > 0.0)) {
            throw Error(ErrorKind::domain, "colour_gap", "a white of " + to_text(value),
                        "X, Y and Z above 0");
        }
    }
    ColourGap gap;
    gap.de00 = de00_of_lights(measured, intended, white);
    gap.de_itp = delta_e_itp(Light(measured[0], measured[1], measured[2]),
                             Light(intended[0], intended[1], intended[2]));
    if (measured[1] > 0.0 && intended[1] > 0.0) {
        const double k = intended[1] / measured[1];
        gap.de00_without_lightness =
            de00_of_lights({k * measured[0], intended[1], k * measured[2]}, intended, white);
    }
    if (intended[1] > 0.0) {
        gap.luminance = measured[1] / intended[1] - 1.0;
    }
    const auto m = detail::uv_of_light(measured);
    const auto i = detail::uv_of_light(intended);
    if (m && i) {
        gap.uv = std::array<double, 2>{(*m)[0] - (*i)[0], (*m)[1] - (*i)[1]};
    }
    return gap;
}

SAMELIGHT_INLINE std::vector<GroupSummary> summaries(std::span<const ColourGap> gaps,
                                                     std::span<const SignalGroup> groups) {
    if (gaps.size() != groups.size()) {
        throw Error(ErrorKind::shape, "summaries", std::to_string(groups.size()) + " groups",
                    "one a patch");
    }
    std::vector<GroupSummary> result;
    for (const SignalGroup group : {SignalGroup::grey, SignalGroup::skin, SignalGroup::saturated}) {
        std::vector<std::size_t> members;
        for (std::size_t i = 0; i < groups.size(); ++i) {
            if (groups[i] == group) {
                members.push_back(i);
            }
        }
        if (!members.empty()) {
            result.push_back(detail::group_summary(code_of(group), gaps, members));
        }
    }
    std::vector<std::size_t> all(gaps.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i] = i;
    }
    if (!all.empty()) {
        result.push_back(detail::group_summary("all", gaps, all));
    }
    return result;
}

}  // namespace samelight
