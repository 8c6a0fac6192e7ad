// The laws of matrix R, for every observer: a projector that leaves what is seen as it is.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>
#include <Eigen/LU>

#include "numeric/refusals.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/decomposition.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::refusal;

const char* const observers[] = {"cie1931-2deg",  "cie1964-10deg", "cie2015-2deg", "cie2015-10deg",
                                 "judd-vos-1978", "cie2006-2deg",  "cie2006:65:4"};

class MatrixRLaws : public testing::TestWithParam<const char*> {
  protected:
    Observer observer() const { return observer_named(GetParam()); }
};

// Source of the laws: Cohen & Kappauf 1982 (they define an orthogonal projector on three dimensions).
TEST_P(MatrixRLaws, IsASymmetricProjectorOfTraceThree) {
    for (const Sampling& sampling : {Sampling(), Sampling(380.0, 5.0, 81)}) {
        const Eigen::MatrixXd r = MatrixR(observer().on(sampling)).matrix();
        EXPECT_LT((r * r - r).cwiseAbs().maxCoeff(), 1e-12);
        EXPECT_LT((r - r.transpose()).cwiseAbs().maxCoeff(), 1e-12);
        EXPECT_NEAR(r.trace(), 3.0, 1e-12);
    }
}

TEST_P(MatrixRLaws, LeavesTheTristimulusValuesUnchanged) {
    const Sensitivities t = observer().on({});
    const MatrixR r(t);
    const auto lights = patch_lights(patch_set(), rebin(d_illuminant(6500), {}));
    for (Eigen::Index j = 0; j < lights.cols(); j += 7) {
        const Eigen::Vector3d seen = t.rows() * lights.col(j);
        EXPECT_LT((t.rows() * r.fundamental(lights.col(j)) - seen).norm(), 1e-12 * seen.norm());
        EXPECT_LT((t.rows() * r.residual(lights.col(j))).norm(), 1e-12 * seen.norm());
    }
}

// Second route: R = A (A'A)^-1 A' as it is written.
TEST_P(MatrixRLaws, IsWhatTheFormulaSays) {
    const Sampling sampling(380.0, 5.0, 81);
    const Sensitivities t = observer().on(sampling);
    const Eigen::MatrixXd a = t.rows().transpose();
    const Eigen::Matrix3d gram = a.transpose() * a;
    const Eigen::MatrixXd expected = a * gram.inverse() * a.transpose();
    EXPECT_LT((MatrixR(t).matrix() - expected).cwiseAbs().maxCoeff(), 1e-12);
}

INSTANTIATE_TEST_SUITE_P(EveryObserver, MatrixRLaws, testing::ValuesIn(observers));

// Two sets of rows that span the same three dimensions have one R (Cohen & Kappauf 1982).
TEST(MatrixR, DoesNotDependOnHowTheThreeAreMixed) {
    const Sensitivities t = standard_observer<Cie2015_2deg>().on({});
    Eigen::Matrix3d mixing;
    mixing << 0.2, 1.5, -0.3, 40.0, 1.0, 0.5, 0.1, -0.2, 3.0;
    const Sensitivities::Rows rows = mixing * t.rows();
    const Sensitivities mixed{"mixed", t.sampling, {rows.data(), rows.data() + rows.size()}};
    EXPECT_LT((MatrixR(t).matrix() - MatrixR(mixed).matrix()).cwiseAbs().maxCoeff(), 1e-12);
}

TEST(MatrixR, MetamersHaveOneFundamental) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Panel other = generic_panel(generic_model("lcd-white-led"));
    const Sensitivities t = standard_observer<Cie2015_10deg>().on(panel.sampling());
    const SampledLight white{other.sampling(), {other.white().begin(), other.white().end()}, 0.0};
    const Match match = samelight::match(panel, t, white);
    const Eigen::Map<const Eigen::VectorXd> light(match.light.data(), 401);
    const double scale = (t.rows() * light)[1] / (t.rows() * white.column())[1];
    const MatrixR r(t);
    const Eigen::VectorXd difference = light - scale * white.column();
    EXPECT_LT(r.fundamental(difference).norm(), 1e-12 * difference.norm());
    EXPECT_GT(difference.norm(), 0.1 * light.norm());
    EXPECT_NEAR(r.black_share(difference), 1.0, 1e-12);
}

TEST(MatrixR, BlackShareIsBetweenNothingAndAll) {
    const Sensitivities t = standard_observer<Cie1931_2deg>().on({});
    const MatrixR r(t);
    EXPECT_NEAR(r.black_share(t.rows().row(1).transpose()), 0.0, 1e-14);
    EXPECT_EQ(r.black_share(Eigen::VectorXd::Zero(401)), 0.0);
    const double of_white = r.black_share(rebin(illuminant_e(Sampling()), {}).column());
    const double of_laser = r.black_share(generic_panel(generic_model("laser-rgb")).white());
    // A smooth light is mostly seen; three lines are mostly not.
    EXPECT_GT(of_white, 0.0);
    EXPECT_LT(of_white, 0.5);
    EXPECT_GT(of_laser, 0.8);
    EXPECT_LE(of_laser, 1.0);
    // The parts of a spectrum stand at right angles, so their energies add.
    const Eigen::VectorXd laser = generic_panel(generic_model("laser-rgb")).white();
    EXPECT_NEAR(r.fundamental(laser).squaredNorm() + r.residual(laser).squaredNorm(),
                laser.squaredNorm(), 1e-12 * laser.squaredNorm());
}

// Fairman 1987: the corrected sample has the standard's colour under the reference illuminant and its own metameric black.
TEST(Parameric, MakesANearMetamerAnExactOne) {
    const SampledLight d65 = rebin(d_illuminant(6500), {380.0, 10.0, 41});
    const Sensitivities t = standard_observer<Cie1964_10deg>().on(d65.sampling);
    const MatrixR r(t, d65);
    const auto reflectance = [&](std::size_t index) {
        Eigen::VectorXd values(41);
        for (Eigen::Index i = 0; i < 41; ++i) {
            values[i] = held_reflectance(patch_set()[index].reflectance,
                                         380.0 + 10.0 * static_cast<double>(i));
        }
        return values;
    };
    const auto seen = [&](const Eigen::VectorXd& surface) {
        return Eigen::Vector3d(t.rows() * surface.cwiseProduct(d65.column()));
    };
    const Eigen::VectorXd standard = reflectance(10);
    const Eigen::VectorXd sample = reflectance(25);
    ASSERT_GT((seen(standard) - seen(sample)).norm(), 0.1 * seen(standard).norm());
    const Eigen::VectorXd corrected = parameric_correction(r, standard, sample);
    EXPECT_LT((seen(corrected) - seen(standard)).norm(), 1e-12 * seen(standard).norm());
    EXPECT_LT((r.residual(corrected) - r.residual(sample)).norm(), 1e-13);
    // What already matches stays as it is, and correcting twice is correcting once.
    EXPECT_LT((parameric_correction(r, standard, standard) - standard).norm(), 1e-13);
    EXPECT_LT((parameric_correction(r, standard, corrected) - corrected).norm(), 1e-12);
}

TEST(MatrixR, RefusesWhatCannotBe) {
    Sensitivities t = standard_observer<Cie1931_2deg>().on({});
    for (std::size_t i = 0; i < 401; ++i) {
        t.values[802 + i] = 2.0 * t.values[i] - t.values[401 + i];
    }
    refusal(ErrorKind::singular, [&] { static_cast<void>(MatrixR(t)); });
    const MatrixR r(standard_observer<Cie1931_2deg>().on({}));
    refusal(ErrorKind::shape, [&] { static_cast<void>(r.fundamental(Eigen::VectorXd::Ones(81))); });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(MatrixR(standard_observer<Cie1931_2deg>().on({}),
                                  rebin(d_illuminant(6500), {380.0, 5.0, 81})));
    });
}

}  // namespace
}  // namespace samelight
