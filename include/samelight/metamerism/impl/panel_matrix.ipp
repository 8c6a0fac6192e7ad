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
#include "samelight/numeric/parallel.hpp"
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
    /// CIEDE2000 of the colours from `first` on, as one viewer sees them: what is the viewer's own.
    template <class T>
    void add(std::size_t viewer, std::size_t first, std::span<const T> de00) {
        if (first == 0 && std::is_same_v<T, double>) {
            white_de00_[viewer] = static_cast<double>(de00[0]);
        }
        double sum = by_viewer_[viewer];
        for (std::size_t j = first == 0 ? 1 : 0; j < de00.size(); ++j) {
            sum += static_cast<double>(de00[j]);
        }
        by_viewer_[viewer] = sum;
    }
    /// The same differences: what is summed over viewers, whose turn must be their order.
    template <class T>
    void add_to_colours(std::size_t first, std::span<const T> de00) {
        double most = largest_;
        for (std::size_t j = first == 0 ? 1 : 0; j < de00.size(); ++j) {
            const auto value = static_cast<double>(de00[j]);
            most = std::max(most, value);
            by_colour_[first + j] += value;
        }
        largest_ = most;
    }
    /// A colour of them that all viewers have looked at.
    void add(const ColourByViewers& seen, std::size_t colour) {
        (colour == 0 ? white_index_ : colours_index_)->add(seen);
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

/// Some of the colours, from `first` on.
struct SomeColours {
    std::size_t first;
    std::size_t count;
};

/// The most at a time.
struct RoomFor {
    std::size_t viewers;
    std::size_t colours;
};

/// What some viewers see of some colours on all panels, for every pair, in numbers T.
template <class T>
class ViewOfPairs {
  public:
    /// pairs: a pair each, where the differences are kept for every index, in double alone; else none.
    ViewOfPairs(const SeenLights& seen, const Sides& sides, std::vector<PairDifferences>& pairs,
                const RoomFor& room)
        : seen_(seen),
          sides_(sides),
          kept_(pairs),
          most_(room.colours),
          shown_(sides.size(), SeenColours<T>(room.colours)),
          whites_(sides.size()),
          differences_(room.viewers * (sides.size() * (sides.size() - 1) / 2) * room.colours) {}

    /// Viewers `viewer` to `last` - 1.
    void look(std::size_t viewer, std::size_t last, const SomeColours& colours,
              std::vector<PairTally>& tallies) {
        viewers_ = 0;
        for (; viewer < last; ++viewer, ++viewers_) {
            look_once(viewer, colours, tallies);
        }
    }
    /// What they saw, when it is their turn.
    void add_to_colours(const SomeColours& colours, std::vector<PairTally>& tallies) const {
        for (std::size_t at = 0; at < tallies.size(); ++at) {
            for (std::size_t k = 0; k < viewers_; ++k) {
                tallies[at].add_to_colours(
                    colours.first,
                    std::span<const T>(differences_).subspan(place(k, at), colours.count));
            }
        }
    }

  private:
    [[nodiscard]] std::size_t place(std::size_t viewer, std::size_t pair) const {
        const std::size_t pairs = sides_.size() * (sides_.size() - 1) / 2;
        return (viewer * pairs + pair) * most_;
    }

    void look_once(std::size_t viewer, const SomeColours& colours,
                   std::vector<PairTally>& tallies) {
        for (std::size_t side = 0; side < sides_.size(); ++side) {
            shown_[side].fill(sides_, side, seen_.of(viewer), colours.first, colours.count,
                              !kept_.empty());
            whites_[side] = sides_.colour(side, seen_.of(viewer), 0);
        }
        std::size_t at = 0;
        for (std::size_t i = 0; i < sides_.size(); ++i) {
            for (std::size_t j = i + 1; j < sides_.size(); ++j, ++at) {
                const OwnXyz adapted = between("panel_matrix", whites_[i], whites_[j]);
                if (colours.first == 0) {
                    tallies[at].add_white(viewer, whites_[i], whites_[j]);
                }
                const std::span<T> de00 =
                    std::span(differences_).subspan(place(viewers_, at), colours.count);
                compare(viewer, at, {shown_[i], shown_[j], adapted}, de00);
                if (colours.first == 0 && !std::is_same_v<T, double>) {
                    tallies[at].set_white_de00(viewer, white_difference(i, j, adapted));
                }
                tallies[at].add(viewer, colours.first, std::span<const T>(de00));
            }
        }
    }

    /// Two sides, and what the viewer is adapted to.
    struct Compared {
        const SeenColours<T>& p;
        const SeenColours<T>& q;
        const OwnXyz& adapted;
    };

    void compare(std::size_t viewer, std::size_t pair, const Compared& of, std::span<T> de00) {
        if constexpr (std::is_same_v<T, double>) {
            if (!kept_.empty()) {
                kept_[pair].set(viewer, of.p, of.q, of.adapted);
                const auto kept = kept_[pair].differences(viewer);
                std::copy_n(kept.begin(), de00.size(), de00.begin());
                return;
            }
        }
        differences(of.p, of.q, of.adapted, de00);
    }

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
    std::vector<PairDifferences>& kept_;
    std::size_t most_;
    /// A side each.
    std::vector<SeenColours<T>> shown_;
    std::vector<OwnXyz> whites_;
    /// [viewer][pair][colour], of the viewers who looked last.
    std::vector<T> differences_;
    std::size_t viewers_ = 0;
};

/// How many viewers look before what they saw is added up: as many as leave it in the processor's cache.
inline std::size_t viewers_at_once(std::size_t pairs) {
    return std::clamp<std::size_t>(128 / pairs, 4, 32);
}

/// All viewers look at some colours, and the tallies learn of it.
template <class T>
void look_at_colours(std::vector<ViewOfPairs<T>>& views, const SomeColours& colours,
                     const parallel::BlocksOf& viewers, std::vector<PairTally>& tallies) {
    parallel::work_in_blocks(
        viewers.count(), views.size(),
        [&](std::size_t block, std::size_t worker) {
            views[worker].look(viewers.first(block), viewers.first(block + 1), colours, tallies);
        },
        [&](std::size_t, std::size_t worker) { views[worker].add_to_colours(colours, tallies); });
}

/// Every index of the colours that all viewers have looked at.
inline void tell_indices(const std::vector<PairDifferences>& pairs, const SomeColours& colours,
                         std::vector<ColourByViewers>& by_viewers,
                         std::vector<PairTally>& tallies) {
    parallel::work_in_blocks(
        pairs.size() * colours.count, by_viewers.size(),
        [&](std::size_t block, std::size_t worker) {
            by_viewers[worker].look(pairs[block / colours.count], block % colours.count);
        },
        [&](std::size_t block, std::size_t worker) {
            tallies[block / colours.count].add(by_viewers[worker],
                                               colours.first + block % colours.count);
        });
}

SAMELIGHT_INLINE std::vector<PairFigures> compare_pairs(const SeenLights& seen, const Sides& sides,
                                                        const std::vector<std::size_t>& colours,
                                                        const PanelMatrixOptions& wanted,
                                                        bool every_index) {
    const std::size_t pairs = sides.size() * (sides.size() - 1) / 2;
    const std::size_t all = sides.colours();
    const std::size_t most =
        every_index ? colours_at_once(all, pairs, seen.viewers(), wanted.index_bytes) : all;
    PopulationIndexOptions options;
    options.pair_threshold_uv = wanted.pair_threshold_uv;
    std::vector<PairTally> tallies(
        pairs, PairTally(seen.viewers(), all, every_index ? &options : nullptr));
    std::vector<PairDifferences> kept;
    for (std::size_t pair = 0; pair < pairs && every_index; ++pair) {
        kept.emplace_back(seen.viewers(), most);
    }
    std::vector<ColourByViewers> by_viewers(
        every_index ? parallel::workers_for(pairs * most, wanted.threads) : 0,
        ColourByViewers(seen.viewers(), options));
    const parallel::BlocksOf viewers{seen.viewers(), viewers_at_once(pairs)};
    const auto go_through = [&](const auto& view) {
        std::vector views(parallel::workers_for(viewers.count(), wanted.threads), view);
        for (std::size_t first = 0; first < all; first += most) {
            const SomeColours now{first, std::min(most, all - first)};
            look_at_colours(views, now, viewers, tallies);
            if (every_index) {
                tell_indices(kept, now, by_viewers, tallies);
            }
        }
    };
    if (wanted.precision == MatrixPrecision::full || every_index) {
        go_through(ViewOfPairs<double>(seen, sides, kept, {viewers.size, most}));
    } else {
        go_through(ViewOfPairs<float>(seen, sides, kept, {viewers.size, most}));
    }
    std::vector<PairFigures> result(pairs);
    parallel::work_in_blocks(pairs, wanted.threads, [&](std::size_t pair, std::size_t) {
        result[pair] = tallies[pair].figures(wanted.pair_threshold_uv, colours);
    });
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

/// Who look, and what is wanted.
struct MatrixAsked {
    const Population& population;
    const PanelMatrixOptions& options;
};

/// The least that was found at the reference's white, for every pair. How people disagree depends on the colour of the white: what a pair
/// leaves as it is set, at another white, has no say.
inline void find_least(std::span<const MatrixPanel> panels,
                       const std::vector<std::vector<Reproduction>>& shown,
                       const MatrixAsked& asked, PanelMatrix& matrix) {
    const auto targets =
        std::find(matrix.settings.begin(), matrix.settings.end(), Setting::white_matched);
    const auto from = targets == matrix.settings.end() ? matrix.settings.begin() : targets;
    const WhitesOfViewers whites(asked.population,
                                 shown[static_cast<std::size_t>(from - matrix.settings.begin())],
                                 asked.options.threads);
    // Either display of a pair may be the one that is moved.
    std::vector<double> by_moving(2 * matrix.pairs.size());
    parallel::work_in_blocks(
        by_moving.size(), asked.options.threads, [&](std::size_t at, std::size_t) {
            const MatrixPair& pair = matrix.pairs[at / 2];
            by_moving[at] = at % 2 == 0 ? whites.least_by_moving(pair.second, pair.first)
                                        : whites.least_by_moving(pair.first, pair.second);
        });
    for (std::size_t at = 0; at < matrix.pairs.size(); ++at) {
        MatrixPair& pair = matrix.pairs[at];
        const bool elsewhere = panels[pair.first].set_to || panels[pair.second].set_to;
        double least = std::min(by_moving[2 * at], by_moving[2 * at + 1]);
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
                lights.front().sampling(), Sides::lights(lights), options.threads);
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
        detail::find_least(panels, shown, {population, options}, matrix);
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
