#pragma once
// The bodies of metamerism/unit_spread.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Panel unit_of(const GenericModel& model, std::size_t index, std::uint64_t stream,
                               const Sampling& sampling) {
    const PseudoRandom random(mix_bits(stream));
    std::vector<double> values;
    for (const ModelParameter& parameter : model.parameters()) {
        const double share = random.unit(index * 64 + values.size());
        values.push_back(parameter.low + share * (parameter.high - parameter.low));
    }
    return generic_panel(model, values, sampling);
}

SAMELIGHT_INLINE std::uint64_t stream_of(std::span<const TypedPanel> panels, std::size_t i) {
    std::uint64_t stream = 0;
    if (panels[i].model == nullptr) {
        return stream;
    }
    for (const char c : panels[i].model->name()) {
        stream = mix_bits(stream + static_cast<unsigned char>(c));
    }
    for (std::size_t k = 0; k < i; ++k) {
        stream += panels[k].model == panels[i].model ? 1U : 0U;
    }
    return stream;
}

/// The white that units are set to look like, and for whom.
struct WhiteAsSeen {
    const SampledLight& white;
    const Observer& observer;
};

/// The whites of some units of a panel's type, n x units; for a measured panel its own, again and again. NaN where a unit can't make it.
inline MixedLights whites_of_units(std::span<const TypedPanel> panels, std::size_t which,
                                   const UnitDraws& draws, const WhiteAsSeen& asked) {
    const TypedPanel& panel = panels[which];
    const Sampling& sampling = asked.white.sampling;
    const Eigen::MatrixXd colour = asked.white.column();
    const auto white_of = [&](const MatrixPanel& entry) {
        return Eigen::VectorXd(
            set_panel(entry, draws.setting, {asked.white, colour}, asked.observer)
                .lights.chosen({0})
                .lights()
                .col(0));
    };
    Eigen::MatrixXd whites(sampling.count(), static_cast<Eigen::Index>(draws.units));
    if (panel.model == nullptr) {
        whites.colwise() = white_of(panel.entry);
        return MixedLights(sampling, whites);
    }
    const std::uint64_t stream = stream_of(panels, which);
    parallel::work_in_blocks(draws.units, draws.threads, [&](std::size_t u, std::size_t) {
        auto white = whites.col(static_cast<Eigen::Index>(u));
        try {
            white = white_of({unit_of(*panel.model, u, stream, sampling), panel.entry.origin,
                              panel.entry.set_to});
        } catch (const Error&) {
            white.setConstant(std::numeric_limits<double>::quiet_NaN());
        }
    });
    return MixedLights(sampling, whites);
}

/// Sums over viewers of how different the whites of units look, for every pair.
using SumsOfUnits = std::vector<std::vector<double>>;

/// Units `first` to `last` - 1, as all viewers see them.
inline void add_units_seen(const SeenLights& seen, const Sides& shown, std::size_t first,
                           std::size_t last, SumsOfUnits& sums) {
    const std::size_t sides = shown.size();
    std::vector<double> differences(last - first);
    std::vector<std::vector<double>> xyz(3 * sides, std::vector<double>(last - first));
    for (std::size_t viewer = 0; viewer < seen.viewers(); ++viewer) {
        for (std::size_t k = 0; k < xyz.size(); ++k) {
            shown.mix(k / 3, seen.of(viewer), k % 3, first, xyz[k]);
        }
        std::size_t at = 0;
        for (std::size_t i = 0; i < sides; ++i) {
            for (std::size_t j = i + 1; j < sides; ++j, ++at) {
                differences_about_mean({xyz[3 * i], xyz[3 * i + 1], xyz[3 * i + 2], xyz[3 * j],
                                        xyz[3 * j + 1], xyz[3 * j + 2]},
                                       differences);
                for (std::size_t u = first; u < last; ++u) {
                    sums[at][u] += differences[u - first];
                }
            }
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<std::optional<UnitSpread>> unit_spreads(
    std::span<const TypedPanel> panels, const UnitDraws& draws, const SampledLight& white,
    const MatrixViewers& viewers) {
    const std::size_t units = draws.units;
    const Population& population = viewers.population;
    if (units < 20) {
        throw Error(ErrorKind::domain, "unit_spreads", std::to_string(units) + " units",
                    "20 or more");
    }
    std::vector<MixedLights> sides;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        sides.push_back(detail::whites_of_units(panels, i, draws, {white, viewers.observer}));
    }
    const std::size_t count = panels.size();
    detail::SumsOfUnits sums(count * (count - 1) / 2, std::vector<double>(units));
    const detail::Sides shown("unit_spreads", sides);
    const detail::SeenLights seen(
        population.size(), [&](std::size_t i) { return population.individual(i); }, white.sampling,
        detail::Sides::lights(sides), draws.threads);
    parallel::for_blocks({units, 8}, draws.threads,
                         [&](std::size_t first, std::size_t last, std::size_t) {
                             detail::add_units_seen(seen, shown, first, last, sums);
                         });
    std::vector<std::optional<UnitSpread>> result;
    std::size_t at = 0;
    const auto n = static_cast<double>(population.size());
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j, ++at) {
            const bool typed = panels[i].model != nullptr || panels[j].model != nullptr;
            sums[at].erase(std::remove_if(sums[at].begin(), sums[at].end(),
                                          [](double sum) { return !std::isfinite(sum); }),
                           sums[at].end());
            result.push_back(typed && sums[at].size() >= units / 2
                                 ? std::optional(UnitSpread{sample_quantile(sums[at], 0.025) / n,
                                                            sample_quantile(sums[at], 0.975) / n})
                                 : std::nullopt);
        }
    }
    return result;
}

}  // namespace samelight
