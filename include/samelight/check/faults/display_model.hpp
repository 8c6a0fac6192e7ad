#pragma once
// A display as it may be instead of as it is meant: each cause of a fault is a parameter, and together they say what light a signal gives.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Numbers that a display may differ by; all neutral values are 0.
enum class ModelNumber : std::size_t {
    /// ln of all light.
    scale,
    /// ln of red and of blue light, green and luminance kept apart by the scale.
    gain_red,
    gain_blue,
    /// ln of the exponent that light of 0 to 1 is raised to, of all channels and of each.
    gamma,
    gamma_red,
    gamma_green,
    gamma_blue,
    /// Of ITU-R BT.1886, whose curve begins where its black lies on the power: the signal that it begins further up, where black isn't known; and the
    /// share of that beginning that it hasn't, its black being added light. With 1 of the latter, a plain power above the black.
    lift,
    unlifted,
    /// Added to the signals.
    offset,
    offset_red,
    offset_green,
    offset_blue,
    /// 1 minus the signal that a channel ends at.
    clip,
    clip_red,
    clip_green,
    clip_blue,
    /// ln of the factor of saturation in signal; turn of hue in signal, degrees.
    saturation,
    hue,
    /// Moves of the primaries' x and y; the white stays.
    red_x,
    red_y,
    green_x,
    green_y,
    blue_x,
    blue_y,
    /// Light of the colour of white for the least of the three, as a share of white's.
    emitter,
    /// 1 minus the luminance, as a share of white's, that nothing exceeds.
    limit,
    /// Added light of white's colour, and of each channel, as shares of theirs at white.
    black,
    black_red,
    black_green,
    black_blue,
    /// ln of the factors of X and of Z.
    instrument_x,
    instrument_z,
    /// Shares of another of X, Y, Z, each over white's, that go into one: first what, then of what.
    instrument_xy,
    instrument_xz,
    instrument_yx,
    instrument_yz,
    instrument_zx,
    instrument_zy,
    count
};

/// What a signal's range was taken for.
enum class ModelRange { as_meant, full_taken_for_limited, limited_taken_for_full };

/// Whether a channel that is shifted beyond full light goes on there or stays at its end.
enum class ModelHeadroom { none, some };

/// The exponent of ITU-R BT.1886 (annex 1), no unit.
inline constexpr double bt1886_exponent = 2.4;

/// Whether other primaries show the signals as theirs, or the colours that are meant as far as they reach, each of their lights cut at its ends.
enum class ModelGamut { signals, colours };

/// One state of the model.
struct SAMELIGHT_API ModelState {
    std::array<double, static_cast<std::size_t>(ModelNumber::count)> numbers{};
    ModelRange range = ModelRange::as_meant;
    ModelHeadroom headroom = ModelHeadroom::none;
    /// Which signal each of red, green and blue has.
    std::array<std::size_t, 3> order = {0, 1, 2};
    /// Signals above the first of the two, up to the second, give the light of the first.
    std::vector<std::array<double, 2>> merged = {};
    /// In place of the intended ones.
    std::optional<SignalCurve> curve = {};
    std::optional<RgbEncoding> encoding = {};
    /// Of that encoding.
    ModelGamut gamut = ModelGamut::signals;

    /// A number, in its unit (see ModelNumber).
    [[nodiscard]] double& at(ModelNumber n) { return numbers[static_cast<std::size_t>(n)]; }
    [[nodiscard]] double at(ModelNumber n) const { return numbers[static_cast<std::size_t>(n)]; }
};

/// Light of signals by a model. Signals and their undisturbed lights are kept, so that many states are soon worked out.
class SAMELIGHT_API DisplayModel {
  public:
    /// signals: R', G', B' a patch.
    DisplayModel(IntendedDisplay intended, std::vector<std::array<double, 3>> signals);

    /// X, Y, Z of all signals, cd/m2. NaN where primaries are moved so far that they hold no white. Own model.
    [[nodiscard]] std::vector<std::array<double, 3>> lights(const ModelState& state) const;
    /// X, Y, Z of one signal, cd/m2, likewise.
    [[nodiscard]] std::array<double, 3> light(const ModelState& state,
                                              const std::array<double, 3>& signal) const;

    /// As given.
    [[nodiscard]] const IntendedDisplay& intended() const noexcept { return intended_; }
    [[nodiscard]] const std::vector<std::array<double, 3>>& signals() const noexcept {
        return signals_;
    }

  private:
    IntendedDisplay intended_;
    std::vector<std::array<double, 3>> signals_;
    std::vector<std::array<double, 3>> undisturbed_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/display_model.ipp"
#endif
