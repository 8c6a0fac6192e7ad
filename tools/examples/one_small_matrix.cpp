// One small matrix
// ================
//
// Everything this library does with a display comes out of one product of two tables. This page derives its three uses. It is
// a program: each line of it is compiled, and every claim is checked whenever the tests run.

#include <array>

#include <gtest/gtest.h>
#include <Eigen/Dense>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::VectorXd;

// The two tables
// --------------
//
// A light is a column of n numbers, its power at n wavelengths. A panel mixes three lights, the columns of
//
//     P   n x 3   the light of red, green and blue at full drive.
//
// Whatever looks at it answers with three numbers. An eye has three kinds of cones, a meter three filters; to the algebra they are the
// same thing, three rows of sensitivities:
//
//     T   3 x n   how strongly each receptor answers to each wavelength.
//
// So the eye's answer to the drive w is T (P w) = (T P) w, and all that this eye can ever learn of this panel is in the small matrix
//
//     A = T P   3 x 3.

struct OneSmallMatrix : testing::Test {
    // Two panels, two observers and a meter of our own making, all on 380-780 nm by 1 nm.
    Panel oled = generic_panel(generic_model("oled-rgb"));
    Panel lcd = generic_panel(generic_model("lcd-white-led"));
    Sensitivities eye = standard_observer<Cie2015_2deg>().on(Sampling{});
    Sensitivities instrument = standard_observer<Cie1931_2deg>().on(Sampling{});

    // A meter's filters miss their targets: take 1931's rows, 3 nm too far to the red.
    Sensitivities meter = [] {
        Sensitivities rows{"a meter", Sampling{}, {}};
        for (std::size_t k = 0; k < 3; ++k) {
            for (int i = 0; i < rows.sampling.count(); ++i) {
                const double nm = rows.sampling.wavelength_nm(i);
                rows.values.push_back(standard_observer<Cie1931_2deg>().at(k, nm - 3.0));
            }
        }
        return rows;
    }();

    // The light that our white is to look like: a tube, set to 0.3127, 0.3290 by instrument.
    Reference tube = display_reference(generic_panel(generic_model("crt")),
                                       Chromaticity<Cie1931_2deg>(0.3127, 0.3290));
    VectorXd r = tube.light.column();

    static Matrix3d product(const Sensitivities& T, const Panel& P) {
        return T.rows() * P.emitters();
    }
    // The chromaticity of three answers.
    static Vector2d xy(const Vector3d& t) { return t.head<2>() / t.sum(); }
};

// First use: the white target
// ---------------------------
//
// Two lights look the same to the eye when its three answers are the same: A w = T r. Three equations, three unknowns. The
// drive w is the match, whatever the panel's spectra look like beside the reference's.

TEST_F(OneSmallMatrix, GivesTheDriveThatMatches) {
    const Vector3d w = product(eye, oled).inverse() * (eye.rows() * r);

    const VectorXd light = oled.emitters() * w;
    EXPECT_LT((eye.rows() * light - eye.rows() * r).norm(), 1e-12 * (eye.rows() * r).norm());
    EXPECT_GT((light - r).norm(), 0.5 * r.norm());  // the same to the eye, and nothing like it

    // The instrument has other rows, so it reads another number for it: not the tube's 0.3127, 0.3290, but the target for this panel.
    const Vector2d target = xy(product(instrument, oled) * w);
    EXPECT_GT((target - Vector2d(0.3127, 0.3290)).norm(), 0.005);

    // That is all white_target() does; the rest of it is manners.
    const Target answer = white_target(oled, tube, standard_observer<Cie2015_2deg>());
    EXPECT_NEAR(answer.xy.x(), target[0], 1e-12);
    EXPECT_NEAR(answer.xy.y(), target[1], 1e-12);
}

// Second use: metamerism
// ----------------------
//
// Now let another eye, of rows U, look at the same pair. It sees U P w beside U r. Put w in and the display drops out but for one matrix,
//
//     U P (T P)^-1   3 x 3,
//
// which turns the first eye's answers into the second's, for everything that this panel can show. What is left between
// that and U r is how far the pair comes apart: the panel's metamerism against the reference. Two panels that were matched
// for the first eye come apart for the second by the difference of their two matrices, and by nothing else.

TEST_F(OneSmallMatrix, TellsWhatAnotherEyeSees) {
    const Sensitivities other = standard_observer<Cie2015_10deg>().on(Sampling{});
    const Vector3d wanted = eye.rows() * r;

    const Matrix3d other_from_eye_oled = product(other, oled) * product(eye, oled).inverse();
    const Matrix3d other_from_eye_lcd = product(other, lcd) * product(eye, lcd).inverse();
    const Vector3d apart = (other_from_eye_oled - other_from_eye_lcd) * wanted;
    EXPECT_GT(apart.norm(), 0.005 * wanted.norm());  // matched for one eye, apart for the other

    // The long way round, light by light, gives the same.
    const Vector3d w_oled = product(eye, oled).inverse() * wanted;
    const Vector3d w_lcd = product(eye, lcd).inverse() * wanted;
    const VectorXd difference = oled.emitters() * w_oled - lcd.emitters() * w_lcd;
    EXPECT_LT((apart - other.rows() * difference).norm(), 1e-12 * wanted.norm());

    // An eye with the first one's rows in another order or mixture, as cones and x, y, z are, sees no difference: metamerism is between the
    // spaces that rows span, not between the rows.
    const Matrix3d mixed = Matrix3d{{0.4, 0.7, -0.1}, {-0.2, 1.1, 0.1}, {0.0, 0.1, 0.9}};
    const Vector3d none = mixed * (eye.rows() * difference);
    EXPECT_LT(none.norm(), 1e-12 * wanted.norm());
}

// Third use: the meter
// --------------------
//
// A meter is one more eye, of rows S. It says S P w. The matrix of the second use, with the meter first and the observer second,
//
//     M = T P (S P)^-1,
//
// turns what the meter says into what the observer sees: it is the meter's correction on this panel. Not on another: P is in it.

TEST_F(OneSmallMatrix, CorrectsAMeter) {
    const Matrix3d M = product(instrument, oled) * product(meter, oled).inverse();
    const Vector3d w(0.3, 0.8, 0.5);  // any colour
    const Vector3d truth = product(instrument, oled) * w;
    EXPECT_GT((xy(product(meter, oled) * w) - xy(truth)).norm(), 0.005);      // as it comes
    EXPECT_LT((xy(M * product(meter, oled) * w) - xy(truth)).norm(), 1e-12);  // corrected

    const Vector3d v(1, 1, 1);  // on the other panel the same matrix is a different story
    EXPECT_GT((xy(M * product(meter, lcd) * v) - xy(product(instrument, lcd) * v)).norm(), 0.002);

    // The library's own is M, its scale apart.
    const Correction c = correction_from_spectra(meter, oled, standard_observer<Cie1931_2deg>());
    EXPECT_LT((c.luminance_factor * c.matrix() - M).norm(), 1e-12 * M.norm());
}

// The three are one
// -----------------
//
// Nothing says that T must be 1931. Correct the meter to the eye itself, on each panel by that panel's own matrix, and the
// first use is contained in the third: A w = T r says that a set is right when its corrected meter reads T r, the same number on every
// panel. The target that differs from panel to panel, and the matrix that differs from panel to panel, are one answer.

TEST_F(OneSmallMatrix, AnswersTwiceTheSame) {
    const Vector2d one_target = xy(eye.rows() * r);
    for (const Panel* panel : {&oled, &lcd}) {
        const Target own = white_target(*panel, tube, standard_observer<Cie2015_2deg>());
        const Eigen::Map<const VectorXd> shown(own.match.light.data(), r.size());

        const Matrix3d M = product(eye, *panel) * product(meter, *panel).inverse();
        EXPECT_LT((xy(M * (meter.rows() * shown)) - one_target).norm(), 1e-9);
    }
    const auto target = [&](const Panel& panel) {
        return white_target(panel, tube, standard_observer<Cie2015_2deg>()).xy;
    };
    EXPECT_GT((target(oled) - target(lcd)).distance(), 0.005);  // yet in 1931 terms they differ
}

}  // namespace
}  // namespace samelight
