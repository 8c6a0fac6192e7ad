// Comparisons of displays by several threads: matrices in either precision and with every index, indices of a population, units.
#include <cstddef>
#include <optional>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/numeric/error.hpp"
#include "threads/same_for_threads.hpp"

namespace samelight {
namespace {

using test::Bits;

void add_spread(Bits& bits, const ViewerSpread& spread) {
    bits.add(spread.mean).add(spread.median).add(spread.two_in_three);
    bits.add(spread.p90).add(spread.p95).add(spread.largest);
}

void add_index(Bits& bits, const PopulationIndex& index) {
    add_spread(bits, index.de00);
    add_spread(bits, index.uv);
    bits.add(index.largest_de00).add(index.lightness_free).add(index.mcdm);
    bits.add(index.ellipse_area_uv).add(index.ellipsoid_volume).add(index.pair_share);
    bits.add_all(index.viewer_de00).add_all(index.viewer_uv).add(index.worst_colour);
    for (const ColourDisagreement& colour : index.colours) {
        bits.add(colour.mean_de00).add(colour.largest_de00).add(colour.mean_uv);
        bits.add(colour.largest_uv).add(colour.lightness_free).add(colour.mcdm);
        bits.add(colour.ellipse_area_uv).add(colour.ellipsoid_volume).add(colour.pair_share);
    }
}

Bits bits_of(const PanelMatrix& matrix) {
    Bits bits;
    for (const MatrixPair& pair : matrix.pairs) {
        bits.add(pair.least_white_de00.value_or(-1.0));
        for (const PairFigures& f : pair.figures) {
            add_spread(bits, f.white_de00);
            add_spread(bits, f.white_uv);
            add_spread(bits, f.colours_de00);
            bits.add(f.white_pair_share).add(f.largest_de00).add(f.worst_colour);
            bits.add(f.worst_colour_de00).add_all(f.viewer_white_de00);
            if (f.white_index) {
                add_index(bits, *f.white_index);
                add_index(bits, *f.colours_index);
            }
        }
    }
    return bits;
}

Bits matrix_by(const std::vector<const char*>& panels, const PanelMatrixOptions& options) {
    return bits_of(panel_matrix(test::list(panels), {test::d65(), test::patches().leftCols(20)},
                                {test::eye(), test::people(75)}, options));
}

TEST(ThreadsOfMatrices, InEitherPrecisionTheyAreTheSame) {
    for (const MatrixPrecision precision : {MatrixPrecision::full, MatrixPrecision::tenths}) {
        test::expect_same_for_threads([&](std::size_t threads) {
            PanelMatrixOptions options;
            options.precision = precision;
            options.threads = threads;
            return matrix_by({"crt", "oled-rgb", "oled-white"}, options);
        });
    }
}

TEST(ThreadsOfMatrices, WithEveryIndexOfAFewColoursAtOnceTheyAreTheSame) {
    test::expect_same_for_threads([&](std::size_t threads) {
        PanelMatrixOptions options;
        options.index_settings = {Setting::by_instrument};
        options.least = false;
        options.index_bytes = 50000;  // a dozen colours of one pair
        options.threads = threads;
        return matrix_by({"crt", "oled-rgb"}, options);
    });
}

TEST(ThreadsOfMatrices, AnIndexOfColoursIsTheSame) {
    const WhiteAndColours scene{test::d65(), test::patches().leftCols(12)};
    const Reproduction first =
        reproduce(test::generic("crt"), scene, standard_observer<Cie1931_2deg>());
    const Reproduction second =
        reproduce(test::generic("laser-rgb"), scene, standard_observer<Cie1931_2deg>());
    test::expect_same_for_threads([&](std::size_t threads) {
        PopulationIndexOptions options;
        options.threads = threads;
        Bits bits;
        add_index(bits, population_index(test::people(150),
                                         {first.lights, second.lights, test::d65()}, options));
        return bits;
    });
}

TEST(ThreadsOfMatrices, UnitsSpreadTheSame) {
    const std::vector<TypedPanel> panels = {
        {{test::generic("crt"), PanelOrigin::measured}},
        {{test::generic("oled-rgb"), PanelOrigin::generic}, &generic_model("oled-rgb")},
        {{test::generic("oled-white"), PanelOrigin::generic}, &generic_model("oled-white")}};
    test::expect_same_for_threads([&](std::size_t threads) {
        Bits bits;
        for (const std::optional<UnitSpread>& spread :
             unit_spreads(panels, {Setting::white_matched, 21, threads}, test::d65(),
                          {test::eye(), test::people(20)})) {
            bits.add(spread.has_value() ? spread->low : -1.0);
            bits.add(spread.has_value() ? spread->high : -1.0);
        }
        return bits;
    });
}

TEST(ThreadsOfMatrices, RefuseTheSame) {
    const SampledLight dark = test::light_of(Eigen::VectorXd::Zero(401));
    for (const std::size_t threads : {1U, 2U, 8U}) {
        PopulationIndexOptions options;
        options.threads = threads;
        test::refusal(ErrorKind::domain, [&] {
            static_cast<void>(population_index(test::people(300),
                                               LightPair{test::d65(), test::d65(), dark}, options));
        });
    }
}

}  // namespace
}  // namespace samelight
