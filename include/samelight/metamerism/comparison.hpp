#pragma once
// Every pair of a list of panels compared, as plain values. What compares them is in panel_matrix.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where a panel's spectra come from; figures of the two kinds must not stand in one ranking unmarked.
enum class PanelOrigin { measured, generic };

/// How the panels are set before they are compared.
enum class Setting {
    /// White and colours read right to the CIE 1931 observer, or the white as it is set: no correction.
    by_instrument,
    /// The same, then red, green and blue light scaled to the white target of the chosen observer.
    white_matched,
    /// White and every colour matched for the chosen observer: what is left is how people differ from that one.
    all_matched
};

/// "as_set", "white_targets" or "all_matched".
inline const char* code_of(Setting setting) {
    constexpr std::array<const char*, 3> codes = {"as_set", "white_targets", "all_matched"};
    return codes.at(static_cast<std::size_t>(setting));
}

/// One pair of panels in one setting. Differences are those that viewers see between the two, adapted to the mean of the two whites.
struct PairFigures {
    /// Of the whites.
    ViewerSpread white_de00;
    /// Distance of the whites in u', v'.
    ViewerSpread white_uv;
    /// Pairs of viewers whose differences in u', v' lie more than the threshold apart.
    double white_pair_share;
    /// Of each viewer's mean over the colours.
    ViewerSpread colours_de00;
    /// Of any viewer for any colour.
    double largest_de00;
    /// Index, in the set as given, of the colour with the largest mean over viewers.
    std::size_t worst_colour;
    /// That mean.
    double worst_colour_de00;
    /// N: the whites', viewer by viewer in the population's order
    std::vector<double> viewer_white_de00;
    /// Every index of the whites and of the colours (their `colours` in the order of PanelMatrix::colours), where they were asked for.
    std::optional<PopulationIndex> white_index = std::nullopt;
    std::optional<PopulationIndex> colours_index = std::nullopt;
};

/// A pair of panels in every setting asked for.
struct MatrixPair {
    /// In the list, first < second.
    std::size_t first, second;
    /// One is measured and the other generic.
    bool mixed_origins;
    /// In the order of the settings.
    std::vector<PairFigures> figures;
    /// The least mean CIEDE2000 of the whites that was found at the reference's white: one display's white with its target (as in the first
    /// setting, where white_matched isn't asked for), the other's moved to what suits these viewers best
    /// (WhitesOfViewers::residual_mean_de00()), or a setting at that white where it leaves less. A pair whose white is set elsewhere may
    /// leave less there. Present where it was asked for.
    std::optional<double> least_white_de00 = std::nullopt;
};

/// A colour that was left out, and the panel that can't show it.
struct LeftOut {
    std::size_t colour;
    std::size_t panel;
};

/// The whole comparison.
struct SAMELIGHT_API PanelMatrix {
    std::vector<std::string> panels;
    std::vector<PanelOrigin> origins;
    std::vector<Setting> settings;
    /// For whom whites or colours were matched.
    std::string observer;
    std::size_t viewers;
    /// From which on two viewers count as disagreeing.
    double pair_threshold_uv;
    /// Those that every panel can show in every setting: one set for all pairs.
    std::vector<std::size_t> colours;
    std::vector<LeftOut> left_out;
    /// First panel with all later ones, then the second, ...
    std::vector<MatrixPair> pairs;
    std::vector<Warning> warnings;

    /// The pair of panels i and j, in either order. Throws Error (domain) where there is none.
    [[nodiscard]] const MatrixPair& pair(std::size_t i, std::size_t j) const;
};

/// In which numbers the differences of a comparison are worked out.
enum class MatrixPrecision {
    /// Means to 1e-9.
    full,
    /// Means of the colours to 3e-4, about twice as fast, for pages; the whites, and where every index is wanted, in full.
    tenths
};

/// What is asked for.
struct PanelMatrixOptions {
    std::vector<Setting> settings = {Setting::by_instrument, Setting::white_matched,
                                     Setting::all_matched};
    /// From which on two viewers count as disagreeing.
    double pair_threshold_uv = 0.004;
    /// Whether to look for the least that the whites can be brought to.
    bool least = true;
    MatrixPrecision precision = MatrixPrecision::full;
    /// In which of the settings every index is worked out, of whites and colours: it takes some times longer.
    std::vector<Setting> index_settings = {};
    /// Memory for that, about; a colour at a time needs what it needs.
    std::size_t index_bytes = std::size_t{1} << 26U;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What one setting buys against another, in means over viewers.
struct Bought {
    /// CIEDE2000 of the whites
    double white_before, white_after;
    /// CIEDE2000 of the colours
    double colours_before, colours_after;
    /// What `after` wins, CIEDE2000: of the whites, and of the colours; below 0 a loss.
    [[nodiscard]] double white() const { return white_before - white_after; }
    [[nodiscard]] double colours() const { return colours_before - colours_after; }
};

/// What `after` buys against `before` for a pair; what is left is white_after and colours_after. Throws Error (domain) for a setting
/// that wasn't asked for. Own figure.
SAMELIGHT_API Bought bought(const PanelMatrix& matrix, const MatrixPair& pair, Setting before,
                            Setting after);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/comparison.ipp"
#endif
