#pragma once
// The bodies of white/mismatch.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WhiteJudge::WhiteJudge(const Panel& panel, const Reference& reference,
                                        std::span<const Individual> people,
                                        const DistributionOptions& options)
    : WhiteJudge(std::move(
          white_judges(std::span<const Panel>(&panel, 1), reference, people, options).front())) {}

SAMELIGHT_INLINE std::vector<WhiteJudge> white_judges(std::span<const Panel> panels,
                                                      const Reference& reference,
                                                      std::span<const Individual> people,
                                                      const DistributionOptions& options) {
    if (people.empty()) {
        throw Error(ErrorKind::shape,
                    "WhiteJudge" + (panels.empty() ? "" : " (" + panels.front().name() + ")"),
                    "nobody to judge", "at least one person");
    }
    const std::vector<std::optional<SampledLight>> nows = detail::lights_before(panels, options);
    const Sampling& sampling = reference.light.sampling;
    const detail::LightColumns columns = detail::gather(panels, reference, nows);
    const Eigen::Matrix<double, 3, Eigen::Dynamic> read =
        dense::responses(standard_observer<Cie1931_2deg>().on(sampling).rows(), columns.lights);
    std::vector<WhiteJudge> judges;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        judges.push_back({panels[p].name(), nows[p] ? Base::as_it_stands : Base::native_white,
                          detail::panel_responses(read, columns.panels[p], columns.reference)});
        judges.back().people_.resize(people.size());
    }
    const PopulationResponses responses = population_responses(
        people, sampling, columns.lights, {options.precision, true, options.threads});
    const auto show_people = [&](std::size_t first, std::size_t last, std::size_t) {
        for (std::size_t i = first; i < last; ++i) {
            const XyzFromLms own =
                xyz_from_lms(people[i].conditions.field_deg, responses.equal_energy(i));
            Eigen::Matrix<double, 3, Eigen::Dynamic> xyz = responses.lms(i);
            for (Eigen::Index k = 0; k < xyz.cols(); ++k) {
                xyz.col(k) = dense::times_3x3(own.matrix(), xyz.col(k));
            }
            for (std::size_t p = 0; p < panels.size(); ++p) {
                judges[p].people_[i] =
                    detail::panel_responses(xyz, columns.panels[p], columns.reference);
            }
        }
    };
    parallel::for_blocks({people.size(), 128}, options.threads, show_people);
    return judges;
}

SAMELIGHT_INLINE std::vector<SeenDifference> WhiteJudge::seen(
    const Chromaticity<Cie1931_2deg>& xy) const {
    const Shown shown = show(xy);
    std::vector<SeenDifference> result;
    result.reserve(people_.size());
    for (const PanelResponses& person : people_) {
        const Eigen::Vector3d own = detail::instrument_reads(person, shown.made, shown.kept);
        result.push_back({uv_apart(own, person.wanted), ciede2000(own, person.wanted)});
    }
    return result;
}

SAMELIGHT_INLINE std::vector<SeenDifference> WhiteJudge::seen_in_uv(
    const Chromaticity<Cie1931_2deg>& xy) const {
    const Shown shown = show(xy);
    std::vector<SeenDifference> result;
    result.reserve(people_.size());
    for (const PanelResponses& person : people_) {
        const Eigen::Vector3d own = detail::instrument_reads(person, shown.made, shown.kept);
        result.push_back({uv_apart(own, person.wanted), std::nan("")});
    }
    return result;
}

SAMELIGHT_INLINE std::vector<std::array<double, 2>> WhiteJudge::looks(
    const Chromaticity<Cie1931_2deg>& xy) const {
    const Shown shown = show(xy);
    std::vector<std::array<double, 2>> result;
    result.reserve(people_.size());
    for (const PanelResponses& person : people_) {
        result.push_back(uv_of(detail::instrument_reads(person, shown.made, shown.kept)));
    }
    return result;
}

SAMELIGHT_INLINE std::vector<std::array<double, 2>> WhiteJudge::reference_looks() const {
    std::vector<std::array<double, 2>> result;
    result.reserve(people_.size());
    for (const PanelResponses& person : people_) {
        result.push_back(uv_of(person.wanted));
    }
    return result;
}

SAMELIGHT_INLINE std::optional<Composition> WhiteJudge::composition(
    const Chromaticity<Cie1931_2deg>& xy) const {
    if (!(xy.x() > 0.0 && xy.y() > 0.0 && xy.x() + xy.y() < 1.0)) {
        return std::nullopt;
    }
    PanelResponses setting = instrument_;
    setting.wanted = tristimulus(xy).column();
    std::optional<Composition> made = compose(setting, base_);
    return made && (base_ == Base::as_it_stands || made->in_gamut()) ? made : std::nullopt;
}

SAMELIGHT_INLINE WhiteJudge::Shown WhiteJudge::show(const Chromaticity<Cie1931_2deg>& xy) const {
    const std::optional<Composition> made = composition(xy);
    if (!made) {
        throw Error(ErrorKind::domain, "WhiteJudge (" + panel_ + ")",
                    "x " + to_text(xy.x(), 4) + ", y " + to_text(xy.y(), 4),
                    "a white that this panel can show");
    }
    return {*made, base_ == Base::as_it_stands ? 1.0 : made->white_emitter};
}

SAMELIGHT_INLINE Chromaticity<Cie1931_2deg> WhiteJudge::read(const Eigen::Vector3d& xyz) {
    return {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
}

SAMELIGHT_INLINE std::array<double, 2> WhiteJudge::uv_of(const Eigen::Vector3d& xyz) {
    const double d = xyz[0] + 15.0 * xyz[1] + 3.0 * xyz[2];
    return {4.0 * xyz[0] / d, 9.0 * xyz[1] / d};
}

SAMELIGHT_INLINE double WhiteJudge::uv_apart(const Eigen::Vector3d& shown,
                                             const Eigen::Vector3d& reference) {
    const auto a = uv_of(shown);
    const auto b = uv_of(reference);
    return std::hypot(a[0] - b[0], a[1] - b[1]);
}

SAMELIGHT_INLINE double WhiteJudge::ciede2000(const Eigen::Vector3d& shown,
                                              const Eigen::Vector3d& reference) {
    const Eigen::Vector3d ratio =
        ((shown / shown[1]).array() / (reference / reference[1]).array()).matrix();
    const auto lab_shown = detail::lab_from_ratios(ratio[0], ratio[1], ratio[2]);
    return detail::ciede2000(lab_shown, detail::LabOf<double>{100.0, 0.0, 0.0}, 1.0, 1.0, 1.0);
}

SAMELIGHT_INLINE std::vector<ExpectedDifference> expected_differences(
    const WhiteJudge& judge, const Chromaticity<Cie1931_2deg>& xy, std::size_t eyes_each) {
    if (eyes_each == 0 || judge.size() % eyes_each != 0) {
        throw Error(ErrorKind::shape, "expected_differences",
                    std::to_string(judge.size()) + " eyes, " + std::to_string(eyes_each) + " each",
                    "as many for everybody");
    }
    const std::vector<SeenDifference> seen = judge.seen(xy);
    std::vector<ExpectedDifference> result;
    for (std::size_t from = 0; from < seen.size(); from += eyes_each) {
        std::vector<double> uv;
        std::vector<double> de00;
        for (std::size_t i = from; i < from + eyes_each; ++i) {
            uv.push_back(seen[i].uv);
            de00.push_back(seen[i].de00);
        }
        result.push_back({mean(uv), mean(de00), percentile(de00, 2.5), percentile(de00, 97.5)});
    }
    return result;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE LinearLooks linear_looks(const WhiteJudge& display,
                                          const Chromaticity<Cie1931_2deg>& xy) {
    constexpr double step = 1e-5;
    LinearLooks result{display.looks(xy), {}, {}};
    const auto slope = [&](double dx, double dy) {
        Looks up = display.looks({xy.x() + dx, xy.y() + dy});
        const Looks down = display.looks({xy.x() - dx, xy.y() - dy});
        for (std::size_t i = 0; i < up.size(); ++i) {
            for (std::size_t c = 0; c < 2; ++c) {
                up[i][c] = (up[i][c] - down[i][c]) / (2.0 * step);
            }
        }
        return up;
    };
    result.by_x = slope(step, 0.0);
    result.by_y = slope(0.0, step);
    return result;
}

}  // namespace samelight::detail
