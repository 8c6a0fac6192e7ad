// What no mixture of a panel's lights makes of a white: by definition nothing of its own, whatever steps both were read at.
#include "samelight/display/left_over.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "display/coarse_files.hpp"
#include "numeric/test_random.hpp"

namespace samelight {
namespace {

using test::all_steps;
using test::at_step;
using test::Coarse;

constexpr double limit = 0.1;  // judge_white_origin()

// Every built-in type, every pair of steps, thinned or read: its own white is under the limit, every other type's white above.
TEST(LeftOver, TellsOwnWhitesFromOthersAtAllPairsOfSteps) {
    std::vector<PanelSpectra> fine;
    for (const GenericModel& model : generic_models()) {
        fine.push_back(test::fine_spectra(model));
    }
    double largest_own = 0.0;
    double least_other = 1.0;
    for (const Coarse how : {Coarse::thinned, Coarse::read}) {
        for (const int panel_step : all_steps) {
            for (std::size_t p = 0; p < fine.size(); ++p) {
                const std::string name(generic_models()[p].name());
                if (how == Coarse::thinned && panel_step == 10 && name == "laser-rgb") {
                    continue;  // no sample falls on its lines: there is no light
                }
                const Panel panel(name, at_step(fine[p], panel_step, how));
                for (const int white_step : all_steps) {
                    for (std::size_t w = 0; w < fine.size(); ++w) {
                        if (how == Coarse::thinned && white_step == 10 &&
                            generic_models()[w].name() == "laser-rgb") {
                            continue;
                        }
                        const SampledLight white =
                            rebin(at_step(test::some_white(fine[w]), white_step, how), {});
                        const double share = left_over_share(panel, white);
                        if (p == w) {
                            EXPECT_LT(share, limit) << name << panel_step << " " << white_step;
                            largest_own = std::max(largest_own, share);
                        } else {
                            EXPECT_GT(share, limit)
                                << name << panel_step << " " << w << " " << white_step;
                            least_other = std::min(least_other, share);
                        }
                    }
                }
            }
        }
    }
    std::printf(
        "left over at all pairs of steps: own white at most %.3f, another type's at least %.3f\n",
        largest_own, least_other);
    EXPECT_LT(largest_own, 0.09);
    EXPECT_GT(least_other, 0.17);
}

// Grids that don't fit the sampling: finer, beside it, coarser by no whole number of its steps, or fine in one half and coarse in the other.
TEST(LeftOver, KnowsOwnWhitesOnGridsOfAnyKind) {
    const auto on = [](const Spectrum& fine, const std::vector<double>& nm) {
        std::vector<double> values;
        for (const double wavelength : nm) {
            values.push_back(fine.at(wavelength));
        }
        return Spectrum(nm, values);
    };
    std::vector<std::vector<double>> grids;
    for (const auto& [first, step] : {std::pair{380.0, 0.5},
                                      {380.0, 0.7},
                                      {380.0, 0.75},
                                      {380.0, 0.8},
                                      {380.5, 1.0},
                                      {380.0, 3.3},
                                      {381.0, 3.5},
                                      {380.5, 5.0}}) {
        grids.emplace_back();
        for (double nm = first; nm <= 780.0; nm += step) {
            grids.back().push_back(nm);
        }
    }
    grids.emplace_back();
    for (double nm = 380.0; nm <= 780.0; nm += nm < 580.0 ? 0.5 : 2.0) {
        grids.back().push_back(nm);
    }
    for (const char* type : {"oled-rgb", "lcd-white-led", "oled-white", "lcd-quantum-dot"}) {
        const PanelSpectra fine = test::fine_spectra(generic_model(type));
        const Panel panel("fine", fine);
        const Spectrum own = test::some_white(fine);
        const Spectrum other = test::some_white(test::fine_spectra(generic_model("lcd-ccfl")));
        for (const std::vector<double>& grid : grids) {
            EXPECT_LT(left_over_share(panel, rebin(on(own, grid), {})), 0.03)
                << type << " from " << grid.front() << " by " << grid[1] - grid[0];
            EXPECT_GT(left_over_share(panel, rebin(on(other, grid), {})), 0.3) << type;
        }
    }
}

// Without a step to bridge it is plain least squares: a second light that the panel can't make is left over to the last digit.
TEST(LeftOver, IsWhatLeastSquaresLeave) {
    const Panel panel("fine", test::fine_spectra(generic_model("oled-rgb")));
    Eigen::VectorXd stranger = Eigen::VectorXd::Zero(401);
    test::Random random(5);
    for (Eigen::Index i = 0; i < 401; ++i) {
        stranger[i] = random.between(-1.0, 1.0);
    }
    // Gram and Schmidt, twice: orthogonal to all three.
    Eigen::MatrixXd q = panel.emitters();
    for (int round = 0; round < 2; ++round) {
        for (Eigen::Index k = 0; k < 3; ++k) {
            for (Eigen::Index j = 0; j < k; ++j) {
                q.col(k) -= q.col(j).dot(q.col(k)) * q.col(j);
            }
            q.col(k).normalize();
        }
        for (Eigen::Index k = 0; k < 3; ++k) {
            stranger -= q.col(k).dot(stranger) * q.col(k);
        }
    }
    const Eigen::VectorXd own = panel.emitters() * Eigen::Vector3d(0.4, 1.0, 0.7);
    const Eigen::VectorXd light = own + 0.25 * own.norm() / stranger.norm() * stranger;
    const SampledLight white{{}, {light.begin(), light.end()}};
    EXPECT_NEAR(left_over_share(panel, white), 0.25 / std::sqrt(1.0 + 0.25 * 0.25), 1e-6);
}

TEST(LeftOver, RefusesAnotherSampling) {
    const Panel panel("fine", test::fine_spectra(generic_model("oled-rgb")));
    EXPECT_THROW(
        static_cast<void>(left_over_share(panel, SampledLight{{400.0, 1.0, 2}, {1.0, 1.0}})),
        Error);
}

}  // namespace
}  // namespace samelight
