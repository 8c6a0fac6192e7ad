// How far directions depend on each other. Second route: Eigen's singular values.
#include <cmath>
#include <limits>
#include <random>

#include <gtest/gtest.h>
#include <Eigen/SVD>

#include "samelight/numeric/condition.hpp"

namespace samelight {
namespace {

TEST(DirectionCondition, IsTheRatioOfSingularValues) {
    std::mt19937_64 words(11);
    std::uniform_real_distribution<double> any(0.0, 1.0);
    for (int trial = 0; trial < 500; ++trial) {
        Eigen::Matrix<double, 3, Eigen::Dynamic> columns(3, 3 + trial % 5);
        for (Eigen::Index i = 0; i < columns.size(); ++i) {
            columns.data()[i] = any(words);
        }
        const Eigen::MatrixXd directions = columns.colwise().normalized();
        const Eigen::VectorXd s = Eigen::JacobiSVD<Eigen::MatrixXd>(directions).singularValues();
        const double wanted = s[0] / s[2];
        // The squares lose twice the digits: the stated bound holds up to a hundred, and grows with the square beyond.
        EXPECT_NEAR(direction_condition(columns) / wanted, 1.0,
                    1e-10 * std::max(1.0, wanted * wanted / 1e4));
    }
}

TEST(DirectionCondition, IsOneForAxesWhateverTheirLengths) {
    const Eigen::Matrix3d axes = Eigen::Vector3d(2.0, 30.0, 0.4).asDiagonal();
    EXPECT_NEAR(direction_condition(axes), 1.0, 1e-14);
}

TEST(DirectionCondition, IsHugeInAPlaneAndNothingForNothing) {
    Eigen::Matrix3d plane;
    plane << 1, 0, 1, 0, 1, 1, 0, 0, 0;
    EXPECT_GT(direction_condition(plane), 1e7);
    plane(0, 0) = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(std::isnan(direction_condition(plane)));
}

}  // namespace
}  // namespace samelight
