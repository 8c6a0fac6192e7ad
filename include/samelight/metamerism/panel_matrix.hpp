#pragma once
// Every pair of a list of panels: how far people will disagree, what a white target buys, and what no setting can remove.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/pair_share.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/least_difference.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/door.hpp"

namespace samelight {

/// Where a panel's spectra come from; figures of the two kinds must not stand in one ranking unmarked.
enum class PanelOrigin { measured, generic };

/// A panel of the list.
struct MatrixPanel {
    Panel panel;
    PanelOrigin origin;
    std::optional<Chromaticity<Cie1931_2deg>> set_to =
        std::nullopt;  ///< what its white reads as it is set, where that isn't what `white` reads
};

/// How the panels are set before they are compared.
enum class Setting {
    by_instrument,  ///< white and colours read right to the CIE 1931 observer, or the white as it is set: no correction
    white_matched,  ///< the same, then red, green and blue light scaled to the white target of the chosen observer
    all_matched  ///< white and every colour matched for the chosen observer: the most that a setting can do for them
};

/// One pair of panels in one setting. Differences are those that viewers see between the two.
struct PairFigures {
    ViewerSpread white_de00;  ///< of the whites
    ViewerSpread white_uv;    ///< distance of the whites in u', v'
    double
        white_pair_share;  ///< pairs of viewers whose differences in u', v' lie more than the threshold apart
    ViewerSpread colours_de00;  ///< of each viewer's mean over the colours
    double largest_de00;        ///< of any viewer for any colour
    std::size_t
        worst_colour;  ///< index, in the set as given, of the colour with the largest mean over viewers
    double worst_colour_de00;  ///< that mean
};

/// A pair of panels in every setting asked for.
struct MatrixPair {
    std::size_t first, second;         ///< in the list, first < second
    bool mixed_origins;                ///< one is measured and the other generic
    std::vector<PairFigures> figures;  ///< in the order of the settings
    /// What no setting can remove: the mean CIEDE2000 of the whites where the white of one of the two is set as suits these viewers
    /// best (least_white_difference()); present where it was asked for.
    std::optional<double> least_white_de00 = std::nullopt;
};

/// A colour that was left out, and the panel that can't show it.
struct LeftOut {
    std::size_t colour;
    std::size_t panel;
};

/// The whole comparison.
struct PanelMatrix {
    std::vector<std::string> panels;
    std::vector<PanelOrigin> origins;
    std::vector<Setting> settings;
    std::string observer;  ///< for whom whites or colours were matched
    std::size_t viewers;
    std::vector<std::size_t>
        colours;  ///< those that every panel can show in every setting: one set for all pairs
    std::vector<LeftOut> left_out;
    std::vector<MatrixPair> pairs;  ///< first panel with all later ones, then the second, ...
    std::vector<Warning> warnings;

    /// The pair of panels i and j, in either order. Throws Error (domain) where there is none.
    [[nodiscard]] const MatrixPair& pair(std::size_t i, std::size_t j) const {
        for (const MatrixPair& pair : pairs) {
            if (pair.first == std::min(i, j) && pair.second == std::max(i, j)) {
                return pair;
            }
        }
        throw Error(ErrorKind::domain, "PanelMatrix::pair",
                    std::to_string(i) + " and " + std::to_string(j), "two panels of the list");
    }
};

/// What is asked for.
struct PanelMatrixOptions {
    std::vector<Setting> settings = {Setting::by_instrument, Setting::white_matched,
                                     Setting::all_matched};
    double pair_threshold_uv = 0.004;  ///< from which on two viewers count as disagreeing
    bool least = true;                 ///< whether to look for what no setting can remove
};

/// What one setting buys against another, in means over viewers.
struct Bought {
    double white_before, white_after;      ///< CIEDE2000 of the whites
    double colours_before, colours_after;  ///< CIEDE2000 of the colours
    [[nodiscard]] double white() const { return white_before - white_after; }
    [[nodiscard]] double colours() const { return colours_before - colours_after; }
};

/// What `after` buys against `before` for a pair; what is left is white_after and colours_after. Throws Error (domain) for a setting
/// that wasn't asked for.
inline Bought bought(const PanelMatrix& matrix, const MatrixPair& pair, Setting before,
                     Setting after) {
    const auto figures = [&](Setting setting) -> const PairFigures& {
        const auto at = std::find(matrix.settings.begin(), matrix.settings.end(), setting);
        if (at == matrix.settings.end()) {
            throw Error(ErrorKind::domain, "bought", "a setting that isn't in this matrix",
                        "one of its settings");
        }
        return pair.figures.at(static_cast<std::size_t>(at - matrix.settings.begin()));
    };
    const PairFigures& from = figures(before);
    const PairFigures& to = figures(after);
    return {from.white_de00.mean, to.white_de00.mean, from.colours_de00.mean, to.colours_de00.mean};
}

namespace detail {

/// The panel's white at `xy`, as bright to the CIE 1931 observer as `white`.
inline SampledLight white_as_set(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy,
                                 const SampledLight& white) {
    SampledLight light{panel.sampling(), set_white(panel, xy).light, 0.0};
    const double factor =
        tristimulus<Cie1931_2deg>(white).Y() / tristimulus<Cie1931_2deg>(light).Y();
    for (double& value : light.values) {
        value *= factor;
    }
    return light;
}

}  // namespace detail

/// A white and colours on a panel in one setting: reproduce() and its kin as Setting says.
/// Throws as reproduce(), and Error (domain) for a set_to that the panel can't show.
inline Reproduction set_panel(const MatrixPanel& entry, Setting setting, const SampledLight& white,
                              const Eigen::Ref<const Eigen::MatrixXd>& colours,
                              const Observer& observer) {
    const Panel& panel = entry.panel;
    const Observer& instrument = standard_observer<Cie1931_2deg>();
    switch (setting) {
        case Setting::by_instrument:
            return entry.set_to ? reproduce_with_white_set(
                                      panel, white, colours, instrument,
                                      detail::white_as_set(panel, *entry.set_to, white), instrument)
                                : reproduce(panel, white, colours, instrument);
        case Setting::white_matched:
            return reproduce_with_white_for(panel, white, colours, instrument, observer);
        case Setting::all_matched:
            return reproduce(panel, white, colours, observer);
    }
    throw Error(ErrorKind::domain, "set_panel", "an unknown setting", "a Setting");
}

namespace detail {

/// Running sums of one pair in one setting.
struct PairTally {
    std::vector<double> white_de00, white_uv, white_u, white_v, colours_de00;  ///< one a viewer
    std::vector<double> colour_sums;                                           ///< one a colour
    double largest = 0.0;

    /// differences: the white's, then the colours'.
    void add(std::span<const double> differences) {
        white_de00.push_back(differences[0]);
        double sum = 0.0;
        double most = largest;
        for (std::size_t j = 1; j < differences.size(); ++j) {
            sum += differences[j];
            most = std::max(most, differences[j]);
            colour_sums[j - 1] += differences[j];
        }
        largest = most;
        colours_de00.push_back(sum / static_cast<double>(differences.size() - 1));
    }

    /// du, dv: the white's difference, second minus first.
    void add_white(double du, double dv) {
        white_u.push_back(du);
        white_v.push_back(dv);
        white_uv.push_back(std::hypot(du, dv));
    }

    [[nodiscard]] PairFigures figures(double threshold,
                                      const std::vector<std::size_t>& colours) const {
        const auto worst = static_cast<std::size_t>(
            std::max_element(colour_sums.begin(), colour_sums.end()) - colour_sums.begin());
        return {viewer_spread(white_de00),
                viewer_spread(white_uv),
                pair_share(white_u, white_v, threshold),
                viewer_spread(colours_de00),
                largest,
                colours[worst],
                colour_sums[worst] / static_cast<double>(white_de00.size())};
    }
};

/// All pairs in one setting. sides: the white and the common colours on each panel. One figure a pair, in the order of the pairs.
inline std::vector<PairFigures> compare_pairs(const Population& population,
                                              std::span<const MixedLights> sides,
                                              const SampledLight& white,
                                              const std::vector<std::size_t>& colours,
                                              double threshold) {
    const std::size_t panels = sides.size();
    const std::size_t m = colours.size();
    std::vector<PairTally> tallies(panels * (panels - 1) / 2);
    for (PairTally& tally : tallies) {
        tally.colour_sums.assign(m, 0.0);
    }
    std::vector<double> differences(m + 1);
    for_each_viewer(
        "panel_matrix", population, sides, white, [&](std::size_t, const ViewerColours& seen) {
            std::size_t at = 0;
            for (std::size_t i = 0; i < panels; ++i) {
                for (std::size_t j = i + 1; j < panels; ++j, ++at) {
                    delta_e_2000<double>(seen.lab(i), seen.lab(j), std::span<double>(differences));
                    tallies[at].add(differences);
                    tallies[at].add_white(seen.u(j)[0] - seen.u(i)[0], seen.v(j)[0] - seen.v(i)[0]);
                }
            }
        });
    std::vector<PairFigures> result;
    for (const PairTally& tally : tallies) {
        result.push_back(tally.figures(threshold, colours));
    }
    return result;
}

/// The colours that every panel shows in every setting; what is missing goes into left_out.
inline void choose_common(const std::vector<std::vector<Reproduction>>& shown,
                          PanelMatrix& matrix) {
    const std::size_t m = shown.front().front().colours.size();
    for (std::size_t colour = 0; colour < m; ++colour) {
        bool everywhere = true;
        for (std::size_t panel = 0; panel < matrix.panels.size(); ++panel) {
            const bool here = std::all_of(shown.begin(), shown.end(),
                                          [&](const std::vector<Reproduction>& in_setting) {
                                              return in_setting[panel].colours[colour].shown();
                                          });
            if (!here) {
                matrix.left_out.push_back({colour, panel});
                everywhere = false;
            }
        }
        if (everywhere) {
            matrix.colours.push_back(colour);
        }
    }
    if (matrix.colours.empty()) {
        throw Error(ErrorKind::domain, "panel_matrix", "no colour that all the panels can show",
                    "at least one");
    }
}

inline void warn_about_matrix(std::size_t asked, PanelMatrix& matrix) {
    const auto generic =
        std::count(matrix.origins.begin(), matrix.origins.end(), PanelOrigin::generic);
    if (generic > 0 && static_cast<std::size_t>(generic) < matrix.origins.size()) {
        matrix.warnings.push_back(
            {"mixed_origins",
             "Some of these panels were measured and some are generic models: compare figures of one "
             "kind only, since a generic model stands for a type and not for a unit."});
    }
    if (matrix.colours.size() < asked) {
        matrix.warnings.push_back(
            {"colours_left_out",
             std::to_string(asked - matrix.colours.size()) + " of " + std::to_string(asked) +
                 " colours can't be shown by every panel and were left out of every pair."});
    }
}

/// What no setting can remove, for every pair.
inline void find_least(const std::vector<Reproduction>& shown, const SampledLight& white,
                       const Population& population, PanelMatrix& matrix) {
    const WhitesOfViewers whites(population, shown, white);
    for (MatrixPair& pair : matrix.pairs) {
        pair.least_white_de00 = whites.least_mean_de00(pair.first, pair.second);
    }
}

}  // namespace detail

/// Compares every pair of a list of panels by what the people of a population see.
///
/// Every panel is set to look like `white`, and its colours like `colours` under it, as each Setting says: without correction, with the
/// white-target correction for `observer`, and with every colour matched for `observer`. What the last leaves is what people see
/// differently from that observer: no setting of three primaries removes it for all.
///
/// panels: 2 or more on one sampling. white: n x 1 on it; viewers are adapted to it. colours: n x m in its unit, m >= 1; patch_lights()
/// under that white, say. All pairs use the colours that all panels can show.
/// Cost: sides' parts times people for the responses, then pairs times colours times people CIEDE2000s; they dominate. Memory: 40 bytes a
/// pair and viewer. Error: means below 1e-9.
/// Throws Error (shape) for too few panels, viewers or colours or differing samplings; Error (domain) for a panel that can't make the white, no
/// setting, or no colour that all panels show.
inline PanelMatrix panel_matrix(std::span<const MatrixPanel> panels, const SampledLight& white,
                                const Eigen::Ref<const Eigen::MatrixXd>& colours,
                                const Observer& observer, const Population& population,
                                const PanelMatrixOptions& options = {}) {
    if (panels.size() < 2 || population.size() < 2 || colours.cols() < 1) {
        throw Error(ErrorKind::shape, "panel_matrix",
                    std::to_string(panels.size()) + " panels, " + std::to_string(colours.cols()) +
                        " colours, " + std::to_string(population.size()) + " viewers",
                    "two panels, a colour and two viewers at least");
    }
    if (options.settings.empty()) {
        throw Error(ErrorKind::domain, "panel_matrix", "no setting", "at least one");
    }
    PanelMatrix matrix{};
    matrix.settings = options.settings;
    matrix.observer = observer.id();
    matrix.viewers = population.size();
    for (const MatrixPanel& entry : panels) {
        matrix.panels.push_back(entry.panel.name());
        matrix.origins.push_back(entry.origin);
    }
    std::vector<std::vector<Reproduction>> shown;
    for (const Setting setting : options.settings) {
        shown.emplace_back();
        for (const MatrixPanel& entry : panels) {
            shown.back().push_back(set_panel(entry, setting, white, colours, observer));
        }
    }
    detail::choose_common(shown, matrix);
    detail::warn_about_matrix(static_cast<std::size_t>(colours.cols()), matrix);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        for (std::size_t j = i + 1; j < panels.size(); ++j) {
            matrix.pairs.push_back({i, j, panels[i].origin != panels[j].origin, {}, {}});
        }
    }
    std::vector<std::size_t> white_and_common = {0};
    for (const std::size_t colour : matrix.colours) {
        white_and_common.push_back(colour + 1);
    }
    for (const std::vector<Reproduction>& in_setting : shown) {
        std::vector<MixedLights> sides;
        for (const Reproduction& reproduction : in_setting) {
            sides.push_back(reproduction.lights.chosen(white_and_common));
        }
        const auto figures = detail::compare_pairs(population, sides, white, matrix.colours,
                                                   options.pair_threshold_uv);
        for (std::size_t i = 0; i < figures.size(); ++i) {
            matrix.pairs[i].figures.push_back(figures[i]);
        }
    }
    if (options.least) {
        detail::find_least(shown.front(), white, population, matrix);
    }
    return matrix;
}

}  // namespace samelight
