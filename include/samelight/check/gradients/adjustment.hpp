#pragma once
// An adjustment as a panel makes it: controls that are turned, and a table of colours.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a move of an adjustment acts on: which control is turned.
enum class MoveKind {
    /// Two points: of a channel at the top.
    gain,
    /// Of a channel at the bottom.
    offset,
    /// A point of a list of levels, of a channel.
    point,
    /// Of one hue.
    saturation,
    /// Which way a hue is turned.
    hue,
    /// Of one hue.
    lightness
};

/// "gain", "offset", "point", "saturation", "hue" or "lightness".
inline const char* code_of(MoveKind kind) {
    constexpr std::array<const char*, 6> codes = {"gain",       "offset", "point",
                                                  "saturation", "hue",    "lightness"};
    return codes.at(static_cast<std::size_t>(kind));
}

/// True for a control of one hue.
inline bool is_of_hue(MoveKind kind) { return kind >= MoveKind::saturation; }

/// On which of a picture's signals a control acts.
enum class MoveChannel { red, green, blue, all };

/// "red", "green", "blue" or "all".
inline const char* code_of(MoveChannel channel) {
    constexpr std::array<const char*, 4> codes = {"red", "green", "blue", "all"};
    return codes.at(static_cast<std::size_t>(channel));
}

/// One move: a control, and how far it is turned. Signals are those of the panel, 0 to 1.
struct AdjustmentMove {
    MoveKind kind = MoveKind::gain;
    /// gain, offset and point.
    MoveChannel channel = MoveChannel::all;
    /// point: per cent of the signal, 0 to 100.
    double level_pct = 0.0;
    /// Controls of a hue: where, degrees of the hexagon of signals: red 0, yellow 60, green 120, cyan 180, blue 240, magenta 300.
    double hue_deg = 0.0;
    /// Controls of a hue: at which distance they end, degrees, above 0 to 180.
    double half_width_deg = 60.0;
    /// Per cent (gain, saturation, lightness: of what is there; offset, point: of the full signal), hue: degrees.
    double amount = 0.0;
};

namespace detail {

/// A colour on the hexagon of signals.
struct HexHue {
    /// 0 to 6: sixths of a turn from red.
    double sixth;
    double most, least;
};

}  // namespace detail

/// How a table of colours is read between its nodes.
enum class TableReading {
    /// In each cube by its eight corners.
    trilinear,
    /// In each cube by the four corners of the tetrahedron about its diagonal of greys: greys stay on that line.
    tetrahedral
};

/// "trilinear" or "tetrahedral".
inline const char* code_of(TableReading reading) {
    return reading == TableReading::trilinear ? "trilinear" : "tetrahedral";
}

/// A table of colours: signals out at nodes evenly spread over signals in.
struct SignalTable {
    /// On each side, 2 to 65.
    std::size_t nodes = 2;
    /// nodes^3 triples, blue changing fastest, then green.
    std::vector<std::array<double, 3>> out;
    TableReading reading = TableReading::tetrahedral;
};

/// Signals of three between the table's nodes; signals in are cut to 0 to 1. Exact at the nodes; 1e-14 of linear tables.
/// Throws Error (shape) for a table whose size isn't that of its nodes. Own rule: plain geometry.
SAMELIGHT_API std::array<double, 3> read_table(const SignalTable& table,
                                               const std::array<double, 3>& signal);

/// An adjustment: signals in, signals out. What is ours in it, since devices tell nothing of theirs:
/// - controls of a hue act first, all from the picture's own hue: with weight w = max(0, 1 - distance / half width) saturation (1 - least / largest
///   signal) grows by w amount per cent of itself, hue turns by w amount degrees, the largest signal grows by w amount per cent times the
///   saturation that went in; saturation is cut to 1. Greys have no hue and stay;
/// - then the table, then gain and offset (s + gain s + offset (1 - s)), then the lists of points: the amount is linear between listed levels, and
///   goes to 0 at 0 and 100 % where these aren't listed;
/// - in the end signals are cut to 0 to 1.
/// Own rule throughout.
class SAMELIGHT_API Adjustment {
  public:
    /// Without anything: what goes in comes out.
    Adjustment() = default;
    /// Throws Error (domain) for amounts that are no numbers or beyond 1000 per cent (hue: 180 degrees), levels outside 0 to 100, widths outside
    /// above 0 to 180, two points of one channel and level; Error (shape) as read_table().
    explicit Adjustment(std::vector<AdjustmentMove> controls,
                        std::optional<SignalTable> table = {});

    /// As given.
    [[nodiscard]] const std::vector<AdjustmentMove>& controls() const noexcept { return controls_; }
    [[nodiscard]] const std::optional<SignalTable>& table() const noexcept { return table_; }
    /// Nothing is changed by it: no table, all amounts 0.
    [[nodiscard]] bool is_none() const;

    /// The signals that come out, each 0 to 1. Range: signals of 0 to 1, others are cut to it.
    [[nodiscard]] std::array<double, 3> apply(const std::array<double, 3>& signal) const;
    /// What the table, gains, offsets and lists of points make of signals that have passed the controls of a hue: apply() without these.
    /// Range: as apply(); without a table each channel by itself.
    [[nodiscard]] std::array<double, 3> behind_hues(const std::array<double, 3>& signal) const;

    /// The same with each amount times its share (one for each control, the table's last where there is one; 0: none of it, 1: as it is); of the
    /// table the share of its way from the signals in. Throws Error (shape) for another number of shares; as the constructor.
    [[nodiscard]] Adjustment scaled(std::span<const double> shares) const;
    /// The same with one share, without unit, for all. Throws Error (domain) as the constructor.
    [[nodiscard]] Adjustment scaled(double share) const;
    /// How many shares scaled() takes: a count.
    [[nodiscard]] std::size_t parts() const { return controls_.size() + (table_ ? 1 : 0); }
    /// Only the control of this index (as scaled()), turned to this amount; for a table the share of it. Throws Error (domain) beyond parts().
    [[nodiscard]] Adjustment only(std::size_t part, double amount) const;

  private:
    struct LevelAmount {
        double level, amount;
    };
    [[nodiscard]] std::array<double, 3> hues_moved(const std::array<double, 3>& signal) const;
    [[nodiscard]] double levels_moved(std::size_t channel, double signal) const;

    std::vector<AdjustmentMove> controls_;
    std::optional<SignalTable> table_;
    bool of_hues_ = false;
    double table_share_ = 1.0;
    std::array<double, 3> gain_{}, offset_{};
    std::array<std::vector<LevelAmount>, 3> points_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/adjustment.ipp"
#endif
