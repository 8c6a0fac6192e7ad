#pragma once
// What can be wrong with a display or with how it was measured, and what is found of it.
#include <array>
#include <cstddef>
#include <string>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Causes. Behind each: what Fault::measured and Fault::intended are.
enum class FaultKind {
    /// The white isn't the one meant: distance in x, y of full white; 0.
    white_off,
    /// Full white isn't as bright as meant: cd/m2.
    luminance_off,
    /// All channels bend otherwise: effective exponent relative to the intended; 1. Where BT.1886 is meant and it is a plain power above the black,
    /// `other` is "power".
    gamma_other,
    /// One channel bends otherwise than the others: the same for that channel.
    channel_gamma,
    /// All channels are shifted in signal: the shift, of 0 to 1; 0.
    offset,
    /// One channel is.
    channel_offset,
    /// Added light, of the colour of white: its luminance as a share of white's; 0. Where black wasn't read and 0 is supposed, `other` is "unread".
    black_lifted,
    /// Added light of another colour: the same.
    black_tinted,
    /// A channel, or all, is at its end before the signal is: signal from which; 1.
    clipped,
    /// Dark levels are black: signal from which there is light; 0.
    crushed,
    /// Neighbouring levels give the same light: the upper's signal over the lower's light, as shares of the step meant; 1.
    merged_levels,
    /// A higher level is darker: step in luminance, relative; that meant.
    reversed_step,
    /// Bright pictures are held back: luminance that white has of what it would have without, as a share; 1.
    limiter,
    /// White has more light than its red, green and blue: as a share of white; 0.
    white_emitter,
    /// Light or colour changed while it was measured: luminance, relative, in the stretch from `patch` to `other`; 0.
    drift,
    /// One patch was misread, or shown wrongly: DE00 of it from what is meant; 0.
    misread,
    /// Two patches have each other's readings: DE00 of the first from what is meant, and CIELAB distance after exchanging.
    exchanged,
    /// Full-range signals on a display that takes them for limited (1), or the reverse (2); 0.
    wrong_range,
    /// Two channels have each other's signals: `other` is "red_green", "red_blue" or "green_blue".
    channels_exchanged,
    /// The primaries of another encoding, `other`.
    wrong_encoding,
    /// The panel holds less than the encoding, and shows what it can't as the nearest that its primaries, near those of the encoding `other`, make: largest
    /// DE00 of the patches outside; 0. `patch` is that of the largest, `patches` those outside.
    gamut_smaller,
    /// Another curve, `other`; "power" where BT.1886 is meant and it is the plain power of that exponent above the black: then as gamma_other, else 0.
    wrong_curve,
    /// PQ rolled off otherwise, from the programme's peak: cd/m2 measured and intended (0: cut).
    other_roll_off,
    /// All readings are off by the same factors of X and Z, or by one matrix of X, Y, Z, as an instrument makes them without its correction or with
    /// one that is wrong (a set whose white and three
    /// primaries all differ looks the same): 1 and the largest element that is added; 1.
    instrument_off,
    /// Colours are too strong or too weak: factor of saturation in signal; 1.
    saturation_off,
    /// Hues are turned: degrees; 0.
    hue_off,
    /// One primary isn't where it is meant to be: distance in x, y; 0.
    primary_off,
    /// The screen isn't even in luminance: largest difference from the centre, relative, at position `other`; 0.
    uneven_luminance,
    /// The screen isn't even in colour: the same in u', v'.
    uneven_colour,
    /// Repeats of `patch` disagree: CIELAB distance; 0.
    repeats_disagree
};

/// The kind's name with underscores: "white_off", ...
SAMELIGHT_API const char* code_of(FaultKind kind);

/// Which channel is meant.
enum class FaultChannel { none, red, green, blue, all };

/// "none", "red", "green", "blue" or "all".
inline const char* code_of(FaultChannel channel) {
    constexpr std::array<const char*, 5> codes = {"none", "red", "green", "blue", "all"};
    return codes.at(static_cast<std::size_t>(channel));
}

/// A cause that was found, and its facts.
struct Fault {
    FaultKind kind = FaultKind::white_off;
    FaultChannel channel = FaultChannel::none;
    /// See FaultKind.
    double measured = 0.0, intended = 0.0;
    /// How much it matters: the mean CIELAB distance that it makes over the patches that it moves by 0.5 or more; of single patches, theirs.
    double strength = 0.0;
    /// Patches that it moves by 0.5 or more.
    std::size_t patches = 0;
    /// The patch or position that it is about, and the second one, the encoding or the curve; may be empty.
    std::string patch = {}, other = {};
    /// Line of the file, where it is about one reading; 0: none.
    std::size_t line = 0;
    /// With white_off: x and y measured minus intended. With clipped white, nothing.
    std::array<double, 2> xy{};
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/fault.ipp"
#endif
