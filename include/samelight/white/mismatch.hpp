#pragma once
// What people see of a white that was set by instrument: how far it still looks from the reference, to each of them.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM {

class WhiteJudge;

/// A judge a panel, in the panels' order. The people are made once for all panels, and what is said of a panel doesn't depend on the others.
/// Throws as target_distributions(), and Error (shape) for nobody. Own construction.
SAMELIGHT_API std::vector<WhiteJudge> white_judges(std::span<const Panel> panels,
                                                   const Reference& reference,
                                                   std::span<const Individual> people,
                                                   const DistributionOptions& options = {});

/// One panel, one reference and some people, prepared so that any setting of the white can be judged quickly.
///
/// A setting is what the instrument reads (CIE 1931 x, y). The panel shows it as set_white() does, or, from a white as it stands,
/// by taking light away from that. A person's own X, Y, Z are those of xyz_from_lms().
class SAMELIGHT_API WhiteJudge {
  public:
    /// Throws as target_distributions(), and Error (shape) for nobody.
    WhiteJudge(const Panel& panel, const Reference& reference, std::span<const Individual> people,
               const DistributionOptions& options = {});

    /// How many people there are.
    [[nodiscard]] std::size_t size() const noexcept { return people_.size(); }

    /// What the instrument reads for the reference, and for the white that the judge started from.
    [[nodiscard]] Chromaticity<Cie1931_2deg> reference_xy() const {
        return read(instrument_.wanted);
    }
    [[nodiscard]] Chromaticity<Cie1931_2deg> base_xy() const {
        return read(instrument_.base + instrument_.black);
    }

    /// What each person sees of the setting `xy`: in the people's order.
    /// Throws Error (domain) for a setting that the panel can't show.
    [[nodiscard]] std::vector<SeenDifference> seen(const Chromaticity<Cie1931_2deg>& xy) const;
    /// The same in u'v' alone, which is much quicker: SeenDifference::de00 is NaN.
    [[nodiscard]] std::vector<SeenDifference> seen_in_uv(
        const Chromaticity<Cie1931_2deg>& xy) const;

    /// Whether the panel can show the setting `xy`.
    [[nodiscard]] bool can_show(const Chromaticity<Cie1931_2deg>& xy) const {
        return composition(xy).has_value();
    }

    /// Where the setting `xy` lies in each person's own u', v', in the people's order. Throws as seen().
    [[nodiscard]] std::vector<std::array<double, 2>> looks(
        const Chromaticity<Cie1931_2deg>& xy) const;

    /// Where the reference lies in each person's own u', v'.
    [[nodiscard]] std::vector<std::array<double, 2>> reference_looks() const;

  private:
    friend std::vector<WhiteJudge> white_judges(std::span<const Panel> panels,
                                                const Reference& reference,
                                                std::span<const Individual> people,
                                                const DistributionOptions& options);

    WhiteJudge(std::string panel, Base base, PanelResponses instrument)
        : panel_(std::move(panel)), base_(base), instrument_(std::move(instrument)) {}

    /// How the panel shows a setting.
    struct Shown {
        Composition made;
        /// Part of the base.
        double kept;
    };

    [[nodiscard]] std::optional<Composition> composition(
        const Chromaticity<Cie1931_2deg>& xy) const;

    [[nodiscard]] Shown show(const Chromaticity<Cie1931_2deg>& xy) const;

    static Chromaticity<Cie1931_2deg> read(const Eigen::Vector3d& xyz);

    static std::array<double, 2> uv_of(const Eigen::Vector3d& xyz);

    static double uv_apart(const Eigen::Vector3d& shown, const Eigen::Vector3d& reference);

    static double ciede2000(const Eigen::Vector3d& shown, const Eigen::Vector3d& reference);

    std::string panel_;
    Base base_;
    PanelResponses instrument_;
    std::vector<PanelResponses> people_;
};

/// What is expected of each of several estimated eyes before one setting of the white, in the eyes' order. `judge` holds
/// eyes_that_may_be() of each, one after another, `eyes_each` of them. u'v' and CIEDE2000 as WhiteJudge::seen has them; the range holds 95 of
/// 100 of an eye's possibilities, 2.5 left out at either end. Throws as WhiteJudge::seen, and Error (shape) where the judge's people aren't a
/// multiple of `eyes_each`. Own construction.
SAMELIGHT_API std::vector<ExpectedDifference> expected_differences(
    const WhiteJudge& judge, const Chromaticity<Cie1931_2deg>& xy, std::size_t eyes_each);

namespace detail {

/// Where a setting lies in each person's own u', v'.
using Looks = std::vector<std::array<double, 2>>;

/// One display's looks at a setting, and how they move with its x and y.
struct LinearLooks {
    Looks at;
    Looks by_x;
    Looks by_y;
};

/// Central differences. Throws as WhiteJudge::looks.
LinearLooks linear_looks(const WhiteJudge& display, const Chromaticity<Cie1931_2deg>& xy);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/mismatch.ipp"
#endif
