#pragma once
// The difference between two displays' whites that stays when one of them is set to whatever suits its viewers best beside the other.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/reproduction.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The whites of several displays as every viewer of a population sees them, each with the lights that it is made of apart.
class SAMELIGHT_API WhitesOfViewers {
  public:
    /// shown: what each display shows, of which the white alone is taken. Throws Error (shape) for no display or differing samplings.
    WhitesOfViewers(const Population& population, std::span<const Reproduction> shown,
                    std::size_t threads = 1);

    /// The least mean CIEDE2000 over viewers that the whites of displays i and j can be brought to by the red, green and blue light of one
    /// of them, whichever does better, the other staying as it is. Each viewer is adapted to the mean of the two whites, so that nothing is
    /// won by leading both away from some third white. What is left is people's disagreement: no target for the one beside the other
    /// leaves less on average. A white emitter goes on carrying as much of the white as it can.
    /// Error: found by a search on the first 256 people and then worked out for all, to about 3e-3 of it, never below what some setting
    /// reaches, nor above what the whites have as they are. Throws Error (domain) for a display that there isn't.
    [[nodiscard]] double residual_mean_de00(std::size_t i, std::size_t j) const;

    /// The same where the light of `moved` is what is set and `kept` stays as it is. Throws Error (domain) for a display that there isn't.
    [[nodiscard]] double least_by_moving(std::size_t moved, std::size_t kept) const;

  private:
    /// Of a side: what stays (black), red, green and blue at full drive, and the white emitter's white.
    static constexpr std::size_t lights_a_side = 5;

    /// How much of its lights a side's white has, and what the emitter's white contains of red, green and blue light.
    struct Side {
        /// Of red, green and blue in all, the emitter's included.
        std::array<double, 3> light;
        std::array<double, 3> content;
        bool emitter;
    };

    Eigen::MatrixXd lights_of(std::span<const Reproduction> shown);

    /// The amounts of a side's lights with its red, green and blue light multiplied.
    [[nodiscard]] std::array<double, lights_a_side> amounts(
        const Side& side, const std::array<double, 3>& gains) const;

    /// X, then Y, then Z, as the first `count` viewers see a side's white with its red, green and blue light multiplied.
    void see(std::size_t which, const std::array<double, 3>& gains, std::size_t count,
             std::span<double> xyz) const;

    /// The mean over the first `count` viewers where one display's white is multiplied by the exponentials of `log_gains`.
    class Moved {
      public:
        Moved(const WhitesOfViewers& whites, std::size_t moved, std::size_t kept, std::size_t count)
            : whites_(whites),
              moved_(moved),
              count_(count),
              tried_(3 * count),
              fixed_(3 * count),
              differences_(count) {
            whites_.see(kept, {1.0, 1.0, 1.0}, count_, fixed_);
        }
        double operator()(const std::array<double, 3>& log_gains);

      private:
        const WhitesOfViewers& whites_;
        std::size_t moved_, count_;
        std::vector<double> tried_, fixed_, differences_;
    };

    void require_display(std::size_t i, std::size_t j) const;

    std::size_t viewers_;
    /// [side][light][X, Y, Z][viewer]
    std::vector<double> values_;
    std::vector<Side> sides_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/residual_metamerism.ipp"
#endif
