#pragma once
// The bodies of metamerism/panel_matrix.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/residual_metamerism.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// u', v' of a white.
inline std::array<double, 2> own_uv(const OwnXyz& white) {
    const double sum = white[0] + 15.0 * white[1] + 3.0 * white[2];
    return {4.0 * white[0] / sum, 9.0 * white[1] / sum};
}

/// What there is of one pair in one setting: the white, which is the first of the colours, and the others.
class PairTally {
  public:
    /// colours: the white and the others. Every index is put together where `options` are given.
    PairTally(std::size_t viewers, std::size_t colours, const PopulationIndexOptions* options)
        : white_de00_(viewers),
          white_u_(viewers),
          white_v_(viewers),
          by_viewer_(viewers, 0.0),
          by_colour_(colours, 0.0) {
        if (options != nullptr) {
            white_index_.emplace(viewers, *options);
            colours_index_.emplace(viewers, *options);
        }
    }

    void add_white(std::size_t viewer, const OwnXyz& first, const OwnXyz& second) {
        const auto from = own_uv(first);
        const auto to = own_uv(second);
        white_u_[viewer] = to[0] - from[0];
        white_v_[viewer] = to[1] - from[1];
    }
    void set_white_de00(std::size_t viewer, double de00) { white_de00_[viewer] = de00; }
    /// CIEDE2000 of the colours from `first` on, as one viewer sees them.
    template <class T>
    void add(std::size_t viewer, std::size_t first, std::span<const T> de00) {
        if (first == 0 && std::is_same_v<T, double>) {
            white_de00_[viewer] = static_cast<double>(de00[0]);
        }
        double sum = by_viewer_[viewer];
        double most = largest_;
        for (std::size_t j = first == 0 ? 1 : 0; j < de00.size(); ++j) {
            const auto value = static_cast<double>(de00[j]);
            sum += value;
            most = std::max(most, value);
            by_colour_[first + j] += value;
        }
        by_viewer_[viewer] = sum;
        largest_ = most;
    }
    /// The differences of the colours from `first` on.
    void add(const PairDifferences& differences, std::size_t first, std::size_t count) {
        for (std::size_t j = 0; j < count; ++j) {
            (first + j == 0 ? white_index_ : colours_index_)->add(differences, j);
        }
    }

    [[nodiscard]] PairFigures figures(double threshold,
                                      const std::vector<std::size_t>& colours) const {
        const auto worst = std::max_element(by_colour_.begin() + 1, by_colour_.end());
        const auto count = static_cast<double>(by_colour_.size() - 1);
        std::vector<double> uv;
        std::vector<double> means;
        for (std::size_t i = 0; i < by_viewer_.size(); ++i) {
            uv.push_back(std::hypot(white_u_[i], white_v_[i]));
            means.push_back(by_viewer_[i] / count);
        }
        PairFigures result{viewer_spread(white_de00_),
                           viewer_spread(uv),
                           pair_share(white_u_, white_v_, threshold),
                           viewer_spread(means),
                           largest_,
                           colours[static_cast<std::size_t>(worst - by_colour_.begin()) - 1],
                           *worst / static_cast<double>(by_viewer_.size()),
                           white_de00_};
        if (white_index_) {
            result.white_index = white_index_->index();
            result.colours_index = colours_index_->index();
        }
        return result;
    }

  private:
    /// One a viewer.
    std::vector<double> white_de00_, white_u_, white_v_, by_viewer_;
    /// Sums over viewers.
    std::vector<double> by_colour_;
    double largest_ = 0.0;
    std::optional<IndexOfColours> white_index_, colours_index_;
};

/// What one viewer sees of some colours on all panels, for every pair, in numbers T.
template <class T>
class ViewOfPairs {
  public:
    ViewOfPairs(const SeenLights& seen, const Sides& sides, std::size_t most)
        : seen_(seen),
          sides_(sides),
          shown_(sides.size(), SeenColours<T>(most)),
          whites_(sides.size()),
          differences_(most) {}

    /// From now on the differences are kept, for every index. In double alone.
    void keep_differences(std::size_t most) {
        pairs_.assign(sides_.size() * (sides_.size() - 1) / 2,
                      PairDifferences(seen_.viewers(), most));
    }

    void look(std::size_t viewer, std::size_t first, std::size_t count,
              std::vector<PairTally>& tallies) {
        for (std::size_t side = 0; side < sides_.size(); ++side) {
            shown_[side].fill(sides_, side, seen_.of(viewer), first, count, !pairs_.empty());
            whites_[side] = sides_.colour(side, seen_.of(viewer), 0);
        }
        std::size_t at = 0;
        for (std::size_t i = 0; i < sides_.size(); ++i) {
            for (std::size_t j = i + 1; j < sides_.size(); ++j, ++at) {
                const OwnXyz adapted = between("panel_matrix", whites_[i], whites_[j]);
                if (first == 0) {
                    tallies[at].add_white(viewer, whites_[i], whites_[j]);
                }
                if constexpr (std::is_same_v<T, double>) {
                    if (!pairs_.empty()) {
                        pairs_[at].set(viewer, shown_[i], shown_[j], adapted);
                        tallies[at].add(viewer, first, pairs_[at].differences(viewer).first(count));
                        continue;
                    }
                }
                const std::span<T> de00 = std::span(differences_).first(count);
                differences(shown_[i], shown_[j], adapted, de00);
                if (first == 0 && !std::is_same_v<T, double>) {
                    tallies[at].set_white_de00(viewer, white_difference(i, j, adapted));
                }
                tallies[at].add(viewer, first, std::span<const T>(de00));
            }
        }
    }
    /// After all viewers have looked.
    void tell_indices(std::size_t first, std::size_t count, std::vector<PairTally>& tallies) const {
        for (std::size_t at = 0; at < pairs_.size(); ++at) {
            tallies[at].add(pairs_[at], first, count);
        }
    }

  private:
    /// In full: two whites are about equally far from grey on opposite sides of it, where fewer digits may turn the mean hue round.
    [[nodiscard]] double white_difference(std::size_t i, std::size_t j,
                                          const OwnXyz& adapted) const {
        const auto lab_of = [&](const OwnXyz& white) {
            return lab_from_ratios(white[0] / adapted[0], white[1] / adapted[1],
                                   white[2] / adapted[2]);
        };
        return ciede2000(lab_of(whites_[i]), lab_of(whites_[j]), 1.0, 1.0, 1.0);
    }

    const SeenLights& seen_;
    const Sides& sides_;
    /// A side each.
    std::vector<SeenColours<T>> shown_;
    std::vector<OwnXyz> whites_;
    std::vector<T> differences_;
    /// A pair each, where every index is wanted.
    std::vector<PairDifferences> pairs_;
};

SAMELIGHT_INLINE std::vector<PairFigures> compare_pairs(const SeenLights& seen, const Sides& sides,
                                                        const std::vector<std::size_t>& colours,
                                                        const PanelMatrixOptions& wanted,
                                                        bool every_index) {
    const double threshold = wanted.pair_threshold_uv;
    const std::size_t pairs = sides.size() * (sides.size() - 1) / 2;
    const std::size_t all = sides.colours();
    const std::size_t most =
        every_index ? colours_at_once(all, pairs, seen.viewers(), wanted.index_bytes) : all;
    PopulationIndexOptions options;
    options.pair_threshold_uv = threshold;
    std::vector<PairTally> tallies(
        pairs, PairTally(seen.viewers(), all, every_index ? &options : nullptr));
    const auto go_through = [&](auto view) {
        if (every_index) {
            view.keep_differences(most);
        }
        for (std::size_t first = 0; first < all; first += most) {
            const std::size_t count = std::min(most, all - first);
            for (std::size_t viewer = 0; viewer < seen.viewers(); ++viewer) {
                view.look(viewer, first, count, tallies);
            }
            view.tell_indices(first, count, tallies);
        }
    };
    if (wanted.precision == MatrixPrecision::full || every_index) {
        go_through(ViewOfPairs<double>(seen, sides, most));
    } else {
        go_through(ViewOfPairs<float>(seen, sides, most));
    }
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
        matrix.warnings.push_back(Warning{"mixed_origins"});
    }
    if (matrix.colours.size() < asked) {
        matrix.warnings.push_back(
            Warning{"colours_left_out",
                    {{"left_out", static_cast<double>(asked - matrix.colours.size())},
                     {"asked", static_cast<double>(asked)}}});
    }
}

/// The least that was found at the reference's white, for every pair. How people disagree depends on the colour of the white: what a pair
/// leaves as it is set, at another white, has no say.
inline void find_least(std::span<const MatrixPanel> panels,
                       const std::vector<std::vector<Reproduction>>& shown,
                       const Population& population, PanelMatrix& matrix) {
    const auto targets =
        std::find(matrix.settings.begin(), matrix.settings.end(), Setting::white_matched);
    const auto from = targets == matrix.settings.end() ? matrix.settings.begin() : targets;
    const WhitesOfViewers whites(population,
                                 shown[static_cast<std::size_t>(from - matrix.settings.begin())]);
    for (MatrixPair& pair : matrix.pairs) {
        const bool elsewhere = panels[pair.first].set_to || panels[pair.second].set_to;
        double least = whites.residual_mean_de00(pair.first, pair.second);
        for (std::size_t s = 0; s < pair.figures.size(); ++s) {
            if (matrix.settings[s] != Setting::by_instrument || !elsewhere) {
                least = std::min(least, pair.figures[s].white_de00.mean);
            }
        }
        pair.least_white_de00 = least;
    }
}

/// Fills the pairs' figures, setting by setting. Each person is made once: a panel's lights are the same in every setting.
inline void compare_settings(const std::vector<std::vector<Reproduction>>& shown,
                             const Population& population, const PanelMatrixOptions& options,
                             PanelMatrix& matrix) {
    std::vector<std::size_t> white_and_common = {0};
    for (const std::size_t colour : matrix.colours) {
        white_and_common.push_back(colour + 1);
    }
    std::optional<SeenLights> seen;
    for (std::size_t s = 0; s < shown.size(); ++s) {
        std::vector<MixedLights> lights;
        for (const Reproduction& reproduction : shown[s]) {
            lights.push_back(reproduction.lights.chosen(white_and_common));
        }
        const Sides sides("panel_matrix", lights);
        if (!seen) {
            seen.emplace(
                population.size(), [&](std::size_t i) { return population.individual(i); },
                lights.front().sampling(), Sides::lights(lights));
        }
        const auto& wanted = options.index_settings;
        const bool every_index =
            std::find(wanted.begin(), wanted.end(), matrix.settings[s]) != wanted.end();
        auto figures = compare_pairs(*seen, sides, matrix.colours, options, every_index);
        for (std::size_t i = 0; i < figures.size(); ++i) {
            matrix.pairs[i].figures.push_back(std::move(figures[i]));
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PanelMatrix panel_matrix(std::span<const MatrixPanel> panels,
                                          const std::vector<std::vector<Reproduction>>& shown,
                                          const MatrixViewers& viewers,
                                          const PanelMatrixOptions& options) {
    const Observer& observer = viewers.observer;
    const Population& population = viewers.population;
    PanelMatrix matrix{};
    matrix.settings = options.settings;
    matrix.observer = observer.id();
    matrix.viewers = population.size();
    matrix.pair_threshold_uv = options.pair_threshold_uv;
    for (const MatrixPanel& entry : panels) {
        matrix.panels.push_back(entry.panel.name());
        matrix.origins.push_back(entry.origin);
    }
    detail::choose_common(shown, matrix);
    detail::warn_about_matrix(shown.front().front().colours.size(), matrix);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        for (std::size_t j = i + 1; j < panels.size(); ++j) {
            matrix.pairs.push_back({i, j, panels[i].origin != panels[j].origin, {}, {}});
        }
    }
    detail::compare_settings(shown, population, options, matrix);
    if (options.least) {
        detail::find_least(panels, shown, population, matrix);
    }
    return matrix;
}

SAMELIGHT_INLINE PanelMatrix panel_matrix(std::span<const MatrixPanel> panels,
                                          const WhiteAndColours& scene,
                                          const MatrixViewers& viewers,
                                          const PanelMatrixOptions& options) {
    const std::size_t people = viewers.population.size();
    if (panels.size() < 2 || people < 2 || scene.colours.cols() < 1) {
        throw Error(ErrorKind::shape, "panel_matrix",
                    std::to_string(panels.size()) + " panels, " +
                        std::to_string(scene.colours.cols()) + " colours, " +
                        std::to_string(people) + " viewers",
                    "two panels, a colour and two viewers at least");
    }
    if (options.settings.empty()) {
        throw Error(ErrorKind::domain, "panel_matrix", "no setting", "at least one");
    }
    return panel_matrix(panels, set_panels(panels, options.settings, scene, viewers.observer),
                        viewers, options);
}

}  // namespace samelight
