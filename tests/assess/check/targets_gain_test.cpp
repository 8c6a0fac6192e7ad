// What matching every patch buys, beside the same lights mixed here by three equations each.
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/assess/check/targets.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::test {
namespace {

/// Lights of a panel's primaries that make these responses of an observer: n x m.
Eigen::MatrixXd lights_making(const Panel& panel, const Observer& observer,
                              const Eigen::MatrixXd& responses) {
    const Eigen::MatrixXd emitters = panel.emitters();
    const Eigen::MatrixXd rows = observer.on(panel.sampling()).rows();
    const Eigen::Matrix3d of_emitters = rows * emitters;
    return emitters * of_emitters.fullPivLu().solve(responses);
}

SampledLight light_in(const Sampling& sampling, const Eigen::VectorXd& light) {
    return {sampling, {light.begin(), light.end()}, 0.0};
}

// A tube and three lasers, whose gamut holds all of the tube's: no surface is left out that BT.709 holds, and no light below black.
TEST(TargetsGain, IsWhatViewersSeeBetweenTheSurfacesOfBothDisplays) {
    CurveOptions curve;
    curve.kind = CurveKind::power;
    const IntendedDisplay plain(RgbEncoding::of<Bt709>(), SignalCurve(curve));
    const Panel tube = generic_panel(generic_model("crt"));
    const Panel lasers = generic_panel(generic_model("laser-rgb"));
    const Observer& eye = standard_observer<Cie2015_2deg>();
    const std::vector<SignalPatch> surfaces = surface_patches(plain, patch_set());
    assess::TargetsRequest request{plain, plain, {surfaces.front()}};
    request.displays = assess::TargetDisplays{{"lasers", lasers}, {"tube", tube}, eye};
    request.viewers = 32;
    const assess::TargetsAnswer answer = assess::answer_targets(request);
    ASSERT_TRUE(answer.gain);
    EXPECT_EQ(answer.gain->viewers, 32U);

    // White first. What the instrument reads on the tube is what is meant; the lasers' light looks like the tube's to the eye.
    Eigen::MatrixXd meant(3, static_cast<Eigen::Index>(surfaces.size()) + 1);
    for (Eigen::Index i = 0; i < meant.cols(); ++i) {
        const auto xyz =
            i == 0 ? plain.white() : plain.xyz(surfaces[static_cast<std::size_t>(i - 1)].signal);
        meant.col(i) = Eigen::Vector3d(xyz[0], xyz[1], xyz[2]);
    }
    const Eigen::MatrixXd on_tube = lights_making(tube, standard_observer<Cie1931_2deg>(), meant);
    const Eigen::MatrixXd rows = eye.on(tube.sampling()).rows();
    const Eigen::MatrixXd on_lasers = lights_making(lasers, eye, rows * on_tube);
    // What a tube's primaries can't make of BT.709 is left out.
    const Eigen::MatrixXd drives = (standard_observer<Cie1931_2deg>().on(tube.sampling()).rows() *
                                    Eigen::MatrixXd(tube.emitters()))
                                       .fullPivLu()
                                       .solve(meant);
    std::vector<Eigen::Index> shown;
    for (Eigen::Index i = 1; i < meant.cols(); ++i) {
        if (drives.col(i).minCoeff() > -1e-9) {
            shown.push_back(i);
        }
    }
    ASSERT_EQ(answer.gain->surfaces, shown.size());
    EXPECT_GT(shown.size(), 100U);
    const Sampling& sampling = tube.sampling();
    const SampledLight white = light_in(sampling, 0.5 * (on_tube.col(0) + on_lasers.col(0)));
    PopulationParameters parameters;
    parameters.count = 32;
    const Eigen::MatrixXd first = on_tube(Eigen::all, shown);
    const Eigen::MatrixXd second = on_lasers(Eigen::all, shown);
    const double seen =
        population_index(Population(parameters),
                         {MixedLights(sampling, first), MixedLights(sampling, second), white})
            .de00.mean;
    EXPECT_NEAR(answer.gain->seen_alike_de00, seen, 1e-9);
    EXPECT_GT(seen, 0.1);
}

}  // namespace
}  // namespace samelight::test
