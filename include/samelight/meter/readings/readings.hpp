#pragma once
// Paired readings: what the reference and the meter made of the same patches, grouped by patch.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "samelight/colour/xyY.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The two instruments of a calibration: the reference (a spectroradiometer, as a rule) and the meter that is to be corrected.
enum class Instrument { reference, meter };

/// What the meter's three values are.
enum class MeterValues {
    /// X, Y, Z, however wrong
    tristimulus,
    /// Amounts of its channels, of no colour before a correction.
    raw_channels
};

/// "reference" or "meter".
inline const char* code_of(Instrument instrument) {
    return instrument == Instrument::reference ? "reference" : "meter";
}

/// One reading of one instrument, as a file holds it.
struct InstrumentReading {
    /// Name of the colour shown ("white", "red", ...).
    std::string patch;
    Instrument instrument = Instrument::reference;
    /// Which time around, from 1; the `repeat` of a file.
    int round = 1;
    /// X, Y, Z, cd/m2; of a meter whose values are raw channels (MeterValues, which the fit is told) their amounts
    std::array<double, 3> xyz{};
    /// Seconds from any start.
    std::optional<double> time_s = {};
};

/// One reading of each instrument of the same showing of a patch.
struct PairedReading {
    std::string patch;
    /// X, Y, Z of the reference, cd/m2
    std::array<double, 3> reference{};
    /// X, Y, Z as the meter says them, cd/m2, or amounts of its channels (MeterValues)
    std::array<double, 3> meter{};
    int round = 1;
    /// Of the reference's reading where both have one.
    std::optional<double> time_s = {};
};

/// What the colours that a method names are called in the readings; letter case does not matter, and the first letter alone will do
/// ("W"; "K" for black).
struct PatchNames {
    std::string red = "red";
    std::string green = "green";
    std::string blue = "blue";
    std::string white = "white";
    std::string black = "black";
};

/// Whether a patch of that name is the colour that a PatchNames calls `name`: the same in letter case of any kind, or the first letter of it
/// alone ("k" for black). Throws nothing. Own rule.
[[nodiscard]] SAMELIGHT_API bool is_called(std::string_view patch, const std::string& name);

namespace detail {

/// Lower case of ASCII letters, whatever the locale.
std::string lower_case_name(std::string_view text);

}  // namespace detail

/// The readings in an order that the rows of a file have no say in: by round, within a round by time where all readings have one, else red, green, blue, white,
/// black and the others by name, the reference before the meter. Readings of one patch, round and instrument are put in the order of their times where all
/// readings of that patch and round have one; else they keep theirs, as nothing but the order tells the first white of a round from the
/// last. Own rule.
SAMELIGHT_API std::vector<InstrumentReading> in_one_order(std::vector<InstrumentReading> readings,
                                                          const PatchNames& names = {});

/// Puts together the readings of both instruments: within a patch and a round the first reading of the one belongs to the first of the other,
/// the second to the second, and so on (white may be read at both ends of a round). Letter case in names does not matter. The order is
/// the reference's.
/// Throws Error (shape) naming the patch where the counts of the two instruments differ in a round. Own rule.
SAMELIGHT_API std::vector<PairedReading> pair_readings(std::span<const InstrumentReading> readings);

/// All pairs of one patch and their means. The means are of x, y and Y, not of X and Z: where luminance flickers the chromaticities still have
/// equal weight.
struct Patch {
    std::string name;
    std::vector<PairedReading> pairs;
    /// Mean x, y, Y.
    std::array<double, 3> reference{};
    /// Mean x, y, Y.
    std::array<double, 3> meter{};

    /// How many pairs of readings, and the mean of one instrument's, x, y, Y.
    [[nodiscard]] std::size_t count() const noexcept { return pairs.size(); }
    [[nodiscard]] const std::array<double, 3>& of(Instrument instrument) const noexcept {
        return instrument == Instrument::reference ? reference : meter;
    }
};

/// The least luminance that counts as light, cd/m2: what is darker, no instrument of the trade tells from none.
inline constexpr double least_luminance = 1e-6;

/// Paired readings of a calibration, checked and grouped by patch in the order of their first appearance; black apart.
class SAMELIGHT_API ReadingSet {
  public:
    /// @param pairs    X, Y, Z in cd/m2, both instruments in the same unit
    /// @param names    what red, green, blue, white and black are called
    /// @param observer id of the observer that the reference's values belong to
    /// @param resolution  of what was written down, where the pairs are no longer that (black taken off); absent: found from them
    /// Throws Error (shape) for no readings at all, Error (domain) for a value that isn't finite and, black apart, a luminance below
    /// least_luminance or a sum X + Y + Z that isn't above 0; each names patch, repeat and instrument.
    explicit ReadingSet(std::vector<PairedReading> pairs, PatchNames names = {},
                        std::string observer = std::string(Cie1931_2deg::id),
                        const std::optional<Resolutions>& resolution = {});

    /// Without black.
    [[nodiscard]] const std::vector<Patch>& patches() const noexcept { return patches_; }
    /// Readings of black; may be none.
    [[nodiscard]] const std::vector<PairedReading>& black() const noexcept { return black_; }
    /// All pairs in their order, as given.
    [[nodiscard]] const std::vector<PairedReading>& pairs() const noexcept { return pairs_; }
    [[nodiscard]] const PatchNames& names() const noexcept { return names_; }
    [[nodiscard]] const std::string& observer() const noexcept { return observer_; }
    /// The digits that the readings were written down with.
    [[nodiscard]] const Resolutions& resolution() const noexcept { return resolution_; }
    [[nodiscard]] const Resolution& resolution(Instrument instrument) const noexcept {
        return instrument == Instrument::reference ? resolution_.reference : resolution_.meter;
    }

    /// Index of the patch of this name in patches(), if there is one.
    [[nodiscard]] std::optional<std::size_t> find(const std::string& name) const;

    /// The same. Throws Error (shape) naming `where` and the patches there are.
    [[nodiscard]] std::size_t require(const char* where, const std::string& name) const;

    /// Index of the white, or of the brightest patch (by the reference) where none is called white.
    [[nodiscard]] std::size_t white_or_brightest() const;

  private:
    static void require_usable(const PairedReading& pair, Instrument instrument,
                               const std::array<double, 3>& xyz, bool is_black);
    [[nodiscard]] std::vector<std::array<double, 3>> values(Instrument instrument) const;

    PatchNames names_;
    std::string observer_;
    std::vector<PairedReading> pairs_;
    std::vector<Patch> patches_;
    std::unordered_map<std::string, std::size_t>
        index_of_;  // of patches_, by name in small letters
    std::vector<PairedReading> black_;
    Resolutions resolution_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/readings.ipp"
#endif
