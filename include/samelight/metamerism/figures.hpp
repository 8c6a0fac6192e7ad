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
    /// Two viewers in three have less.
    double two_in_three;
    /// Nine viewers in ten have less.
    double p90;
    /// 95 % have less
    double p95;
    double largest;
};

/// What is asked for.
struct PopulationIndexOptions {
    /// Over viewers, of the difference without lightness, 0 to 100.
    double percentile = 90.0;
    /// Share of a normal distribution inside ellipse and ellipsoid.
    double coverage = 0.95;
    /// From which on two viewers count as disagreeing.
    double pair_threshold_uv = 0.004;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// One colour of the set. Differences are those that each viewer sees between the two ways of showing it.
struct ColourDisagreement {
    /// Over viewers.
    double mean_de00;
    /// Of any viewer.
    double largest_de00;
    /// Distance in u', v'.
    double mean_uv;
    double largest_uv;
    /// Percentile over viewers of CIEDE2000 without lightness.
    double lightness_free;
    /// Delta E*ab: mean distance of the viewers' differences from their mean
    double mcdm;
    /// Of the distribution of differences in u', v'.
    double ellipse_area_uv;
    /// Of the distribution of differences in CIELAB, cubic Delta E*ab.
    double ellipsoid_volume;
    /// Pairs of viewers whose differences in u', v' lie more than the threshold apart.
    double pair_share;
};

/// The indices of observer metamerism of a set of m colours, shown in two ways, for a population of N viewers.
struct PopulationIndex {
    std::size_t viewers;
    PopulationIndexOptions options;
    /// m
    std::vector<ColourDisagreement> colours;

    /// Of each viewer's mean CIEDE2000 over the colours; its largest is the worst viewer's.
    ViewerSpread de00;
    /// Of each viewer's mean distance in u', v'.
    ViewerSpread uv;
    /// The one with the largest mean over viewers.
    std::size_t worst_colour;
    /// Of any viewer for any colour.
    double largest_de00;

    // Means over the colours.
    double lightness_free;
    double mcdm;
    double ellipse_area_uv;
    double ellipsoid_volume;
    double pair_share;

    /// N: each viewer's mean over the colours, in the population's order
    std::vector<double> viewer_de00;
    /// N
    std::vector<double> viewer_uv;
};

/// Where the mean CIEDE2000 of the whites lies for 95 % of the pairs of units.
struct UnitSpread {
    double low, high;
};

/// A special metamerism index in two measures.
struct SpecialIndex {
    /// Delta E*ab, the index as the CIE defines it
    double de_ab;
    /// The same pair by CIEDE2000.
    double de00;
    /// By what X, Y, Z of the second colour were multiplied; 1 for other corrections.
    std::array<double, 3> correction;
};

}  // namespace samelight
