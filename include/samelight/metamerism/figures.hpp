#pragma once
// Figures of how far people disagree about a pair of lights, as plain values. What works them out is in population_index, unit_spread
// and special_index; a page that only says them need not build those.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a figure spreads over viewers.
struct ViewerSpread {
    double mean;
    double median;
    double two_in_three;  ///< two viewers in three have less
    double p90;           ///< nine viewers in ten have less
    double p95;           ///< 95 % have less
    double largest;
};

/// What is asked for.
struct PopulationIndexOptions {
    double percentile = 90.0;  ///< over viewers, of the difference without lightness, 0 to 100
    double coverage = 0.95;    ///< share of a normal distribution inside ellipse and ellipsoid
    double pair_threshold_uv = 0.004;  ///< from which on two viewers count as disagreeing
};

/// One colour of the set. Differences are those that each viewer sees between the two ways of showing it.
struct ColourDisagreement {
    double mean_de00;     ///< over viewers
    double largest_de00;  ///< of any viewer
    double mean_uv;       ///< distance in u', v'
    double largest_uv;
    double lightness_free;  ///< percentile over viewers of CIEDE2000 without lightness
    double mcdm;  ///< Delta E*ab: mean distance of the viewers' differences from their mean
    double ellipse_area_uv;   ///< of the distribution of differences in u', v'
    double ellipsoid_volume;  ///< of the distribution of differences in CIELAB, cubic Delta E*ab
    double
        pair_share;  ///< pairs of viewers whose differences in u', v' lie more than the threshold apart
};

/// The indices of observer metamerism of a set of m colours, shown in two ways, for a population of N viewers.
struct PopulationIndex {
    std::size_t viewers;
    PopulationIndexOptions options;
    std::vector<ColourDisagreement> colours;  ///< m

    ViewerSpread
        de00;  ///< of each viewer's mean CIEDE2000 over the colours; its largest is the worst viewer's
    ViewerSpread uv;           ///< of each viewer's mean distance in u', v'
    std::size_t worst_colour;  ///< the one with the largest mean over viewers
    double largest_de00;       ///< of any viewer for any colour

    // Means over the colours.
    double lightness_free;
    double mcdm;
    double ellipse_area_uv;
    double ellipsoid_volume;
    double pair_share;

    std::vector<double>
        viewer_de00;  ///< N: each viewer's mean over the colours, in the population's order
    std::vector<double> viewer_uv;  ///< N
};

/// Where the mean CIEDE2000 of the whites lies for 95 % of the pairs of units.
struct UnitSpread {
    double low, high;
};

/// A special metamerism index in two measures.
struct SpecialIndex {
    double de_ab;  ///< Delta E*ab, the index as the CIE defines it
    double de00;   ///< the same pair by CIEDE2000
    std::array<double, 3>
        correction;  ///< by what X, Y, Z of the second colour were multiplied; 1 for other corrections
};

}  // namespace samelight
