#pragma once
// What no setting can remove: the difference between two displays' whites that stays when one of them is set as suits its viewers best.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/difference_batch.hpp"
#include "samelight/colour/lab_batch.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/door.hpp"

namespace samelight {

namespace detail {

/// The least value of a function of three numbers, found from `start` by the downhill simplex (Nelder & Mead 1965, Comput. J. 7:308),
/// until its corners' values lie within `tolerance` of each other, relative, or after 300 values.
template <class F>
double least_of_three(const std::array<double, 3>& start, double step, double tolerance,
                      F&& value_at) {
    struct Corner {
        std::array<double, 3> at;
        double value;
    };
    std::array<Corner, 4> corners{};
    for (std::size_t k = 0; k < 4; ++k) {
        corners[k].at = start;
        if (k > 0) {
            corners[k].at[k - 1] += step;
        }
        corners[k].value = value_at(corners[k].at);
    }
    const auto by_value = [](const Corner& a, const Corner& b) { return a.value < b.value; };
    for (int values = 4; values < 300;) {
        std::sort(corners.begin(), corners.end(), by_value);
        if (!(corners[3].value - corners[0].value > tolerance * corners[0].value)) {
            break;
        }
        // From the worst corner through the middle of the others: t = 1 is the mirror image.
        const auto moved = [&](double t) {
            Corner corner{};
            for (std::size_t i = 0; i < 3; ++i) {
                const double middle =
                    (corners[0].at[i] + corners[1].at[i] + corners[2].at[i]) / 3.0;
                corner.at[i] = middle + t * (middle - corners[3].at[i]);
            }
            corner.value = value_at(corner.at);
            ++values;
            return corner;
        };
        const Corner mirrored = moved(1.0);
        if (mirrored.value < corners[0].value) {
            const Corner further = moved(2.0);
            corners[3] = further.value < mirrored.value ? further : mirrored;
        } else if (mirrored.value < corners[2].value) {
            corners[3] = mirrored;
        } else {
            const Corner nearer = moved(mirrored.value < corners[3].value ? 0.5 : -0.5);
            if (nearer.value < std::min(mirrored.value, corners[3].value)) {
                corners[3] = nearer;
                continue;
            }
            for (std::size_t k = 1; k < 4; ++k) {
                for (std::size_t i = 0; i < 3; ++i) {
                    corners[k].at[i] = 0.5 * (corners[k].at[i] + corners[0].at[i]);
                }
                corners[k].value = value_at(corners[k].at);
                ++values;
            }
        }
    }
    return std::min_element(corners.begin(), corners.end(), by_value)->value;
}

}  // namespace detail

/// The whites of several displays as every viewer of a population sees them, each with the lights that it is made of apart.
class WhitesOfViewers {
  public:
    /// shown: what each display shows, of which the white alone is taken. white: the light to which viewers are adapted, in the unit of
    /// what is shown. Throws Error (shape) for differing samplings.
    WhitesOfViewers(const Population& population, std::span<const Reproduction> shown,
                    const SampledLight& white)
        : viewers_(population.size()), values_(shown.size() * 3 * lights_a_side * viewers_) {
        const Eigen::MatrixXd lights = lights_of(shown, white);
        constexpr std::size_t block = 256;
        for (std::size_t first = 0; first < viewers_; first += block) {
            std::vector<Individual> people;
            for (std::size_t i = first; i < std::min(first + block, viewers_); ++i) {
                people.push_back(population.individual(i));
            }
            const PopulationResponses seen = population_responses(
                people, white.sampling, lights, {BatchPrecision::double_precision, true});
            for (std::size_t i = 0; i < people.size(); ++i) {
                const XyzFromLms xyz_from =
                    xyz_from_lms(people[i].conditions.field_deg, seen.equal_energy(i));
                keep(first + i, xyz_from.matrix() * seen.lms(i));
            }
        }
    }

    /// The least mean CIEDE2000 over viewers that the whites of displays i and j can be brought to by the red, green and blue light of one
    /// of them, whichever does better. No white target can leave less on average; what is left is people's disagreement. A white emitter
    /// goes on carrying as much of the white as it can.
    /// Error: found by a search, to about 1e-3 of it, never below what some setting reaches. Throws Error (domain) for a display that there isn't.
    [[nodiscard]] double least_mean_de00(std::size_t i, std::size_t j) const {
        if (i >= sides_.size() || j >= sides_.size()) {
            throw Error(ErrorKind::domain, "WhitesOfViewers::least_mean_de00",
                        std::to_string(i) + " and " + std::to_string(j),
                        "displays from 0 to " + std::to_string(sides_.size() - 1));
        }
        return std::min(least_by_moving(j, i), least_by_moving(i, j));
    }

  private:
    /// Of a side: what stays (black), red, green and blue at full drive, and the white emitter's white.
    static constexpr std::size_t lights_a_side = 5;

    /// How much of its lights a side's white has, and what the emitter's white contains of red, green and blue light.
    struct Side {
        std::array<double, 3> light;  ///< of red, green and blue in all, the emitter's included
        std::array<double, 3> content;
        bool emitter;
    };

    Eigen::MatrixXd lights_of(std::span<const Reproduction> shown, const SampledLight& white) {
        const auto columns = static_cast<Eigen::Index>(lights_a_side * shown.size() + 1);
        Eigen::MatrixXd lights = Eigen::MatrixXd::Zero(white.sampling.count(), columns);
        const Sensitivities t = standard_observer<Cie1931_2deg>().on(white.sampling);
        Eigen::Index at = 0;
        for (const Reproduction& display : shown) {
            require_same_sampling("WhitesOfViewers", display.lights.sampling(), white.sampling);
            const auto parts = display.lights.parts();
            const auto amounts = display.lights.amounts().col(0);
            Side side{{amounts[0], amounts[1], amounts[2]}, {}, display.white.white_emitter > 0.0};
            lights.middleCols(at + 1, 3) = parts.leftCols(3);
            if (side.emitter) {
                lights.col(at + 4) = parts.col(3);
                const Eigen::Vector3d content = solve_drive(
                    t.rows() * Eigen::MatrixXd(parts.leftCols(3)), t.rows() * parts.col(3));
                for (std::size_t k = 0; k < 3; ++k) {
                    side.content[k] = content[static_cast<Eigen::Index>(k)];
                    side.light[k] += amounts[3] * side.content[k];
                }
            }
            for (Eigen::Index k = side.emitter ? 4 : 3; k < parts.cols(); ++k) {
                lights.col(at) += amounts[k] * parts.col(k);
            }
            sides_.push_back(side);
            at += static_cast<Eigen::Index>(lights_a_side);
        }
        lights.col(at) = white.column();
        return lights;
    }

    /// A viewer's X, Y, Z of all lights, the last of which is the white: kept relative to it.
    void keep(std::size_t viewer, const Eigen::Matrix3Xd& xyz) {
        const Eigen::Index last = xyz.cols() - 1;
        for (Eigen::Index light = 0; light < last; ++light) {
            for (Eigen::Index row = 0; row < 3; ++row) {
                const auto column = static_cast<std::size_t>(3 * light + row);
                values_[column * viewers_ + viewer] = xyz(row, light) / xyz(row, last);
            }
        }
    }

    /// The amounts of a side's lights with its red, green and blue light multiplied.
    [[nodiscard]] std::array<double, lights_a_side> amounts(
        const Side& side, const std::array<double, 3>& gains) const {
        std::array<double, lights_a_side> result = {1.0, 0.0, 0.0, 0.0, 0.0};
        double& emitter = result[4];
        if (side.emitter) {
            emitter = std::max(0.0, std::min({gains[0] * side.light[0] / side.content[0],
                                              gains[1] * side.light[1] / side.content[1],
                                              gains[2] * side.light[2] / side.content[2]}));
        }
        for (std::size_t k = 0; k < 3; ++k) {
            result[k + 1] = gains[k] * side.light[k] - emitter * side.content[k];
        }
        return result;
    }

    /// CIELAB of a side's white with its red, green and blue light multiplied.
    void see(std::size_t which, const std::array<double, 3>& gains, std::span<double> xyz,
             std::span<double> lab) const {
        const std::size_t n = viewers_;
        const auto amount = amounts(sides_[which], gains);
        std::fill(xyz.begin(), xyz.end(), 0.0);
        for (std::size_t light = 0; light < lights_a_side; ++light) {
            if (amount[light] == 0.0) {
                continue;
            }
            // X, Y and Z of one light lie behind each other, as they do in `xyz`.
            const double* from = values_.data() + (which * lights_a_side + light) * 3 * n;
            for (std::size_t i = 0; i < 3 * n; ++i) {
                xyz[i] += amount[light] * from[i];
            }
        }
        const Tristimulus<Any> one(OfObserver<Any>("viewer"), {1.0, 1.0, 1.0});
        lab_from_xyz<double>({xyz.subspan(0, n), xyz.subspan(n, n), xyz.subspan(2 * n, n)}, one,
                             columns(lab));
    }

    [[nodiscard]] Columns3<double> columns(std::span<double> lab) const {
        return {lab.subspan(0, viewers_), lab.subspan(viewers_, viewers_),
                lab.subspan(2 * viewers_, viewers_)};
    }

    [[nodiscard]] double least_by_moving(std::size_t moved, std::size_t kept) const {
        std::vector<double> xyz(3 * viewers_);
        std::vector<double> fixed(3 * viewers_);
        std::vector<double> tried(3 * viewers_);
        std::vector<double> differences(viewers_);
        see(kept, {1.0, 1.0, 1.0}, xyz, fixed);
        return detail::least_of_three(
            {0.0, 0.0, 0.0}, 0.02, 1e-4, [&](const std::array<double, 3>& log_gains) {
                see(moved, {std::exp(log_gains[0]), std::exp(log_gains[1]), std::exp(log_gains[2])},
                    xyz, tried);
                delta_e_2000<double>(columns(fixed), columns(tried),
                                     std::span<double>(differences));
                return mean(differences);
            });
    }

    std::size_t viewers_;
    std::vector<double> values_;  ///< [side][light][X, Y, Z][viewer]
    std::vector<Side> sides_;
};

}  // namespace samelight
