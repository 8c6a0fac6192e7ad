#pragma once
// How a display follows PQ: up to where, and what it does beyond.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is beyond the knee.
enum class PqEnd {
    /// Cut at the peak.
    clip,
    /// Rolled off as ITU-R BT.2390 has it.
    roll_off,
    /// Both fit alike, within a tenth of the residual, with knees more than 0.03 of the signal apart.
    either,
    /// Neither fits to 3 DE ITP (root mean square).
    neither
};

/// "clip", "roll_off", "either" or "neither".
inline const char* code_of(PqEnd end) {
    constexpr std::array<const char*, 4> codes = {"clip", "roll_off", "either", "neither"};
    return codes.at(static_cast<std::size_t>(end));
}

/// One grey of a PQ ladder.
struct PqGrey {
    /// 0 to 1
    double signal;
    /// As read, and as PQ has it without end and black, cd/m2.
    double read, pq;
    /// Intensity read less PQ's, in DE ITP: 720 times the difference of I, greys of the white's chromaticity taken for neutral.
    double off_itp = 0.0;
    /// Read less the better of the two fits, likewise.
    double residual_itp = 0.0;
};

/// A curve that was fitted: PQ to a peak, cut or rolled off.
struct PqFit {
    double peak_cd_m2 = 0.0;
    /// From where it is rolled off: the programme's peak; absent: cut.
    std::optional<double> programme_cd_m2 = {};
    /// Where it leaves PQ: signal, and luminance in cd/m2.
    double knee_signal = 0.0, knee_cd_m2 = 0.0;
    /// What is left, root mean square, DE ITP.
    double residual_itp = 0.0;
};

/// The whole answer.
struct PqTracking {
    std::vector<PqGrey> greys;
    PqFit clip = {}, roll_off = {};
    PqEnd end = PqEnd::neither;
    /// The lowest signal from which all greys lie below PQ by more than 1 DE ITP, as they were read; absent: none.
    std::optional<double> leaves_at_signal = {};
    /// Root mean square and worst of off_itp below the knee of the better fit.
    double tracking_itp = 0.0, worst_tracking_itp = 0.0;
    /// Of the greys.
    double window_pct = 10.0, black_cd_m2 = 0.0;
    /// The black that the fitted curves are lifted to, cd/m2: the one read, or 0 where the dark greys aren't lifted.
    double lifted_to_cd_m2 = 0.0;

    /// The better fit.
    [[nodiscard]] const PqFit& fit() const {
        return roll_off.residual_itp < clip.residual_itp ? roll_off : clip;
    }
};

/// Why greys tell nothing of how PQ is followed.
enum class NoPqTracking {
    /// Fewer than `fewest_pq_greys` of 0.05 cd/m2 or more.
    few_greys,
    /// The black is above a tenth of the brightest grey, or so bright that no curve of PQ is lifted to it.
    bright_black,
    /// A grey above 10,000 cd/m2, where PQ ends.
    beyond_pq
};

/// "few_greys", "bright_black" or "beyond_pq".
inline const char* code_of(NoPqTracking reason) {
    constexpr std::array<const char*, 3> codes = {"few_greys", "bright_black", "beyond_pq"};
    return codes.at(static_cast<std::size_t>(reason));
}

/// Greys of 0.05 cd/m2 or more that a tracking needs at least, full white counted. Own choice.
inline constexpr std::size_t fewest_pq_greys = 6;

/// The greys that a tracking rests on.
struct PqLadder {
    /// Of 0.05 cd/m2 or more, by signal, means of repeats; only `signal`, `read` and `pq` mean anything yet.
    std::vector<PqGrey> greys = {};
    /// Levels above 0 that were read and are darker.
    std::size_t too_dark = 0;
    /// Of the greys: per cent of the screen, cd/m2.
    double window_pct = 10.0, black_cd_m2 = 0.0;
    /// Absent: a tracking can be made.
    std::optional<NoPqTracking> obstacle = {};
};

/// The greys in the window that most of them were read in, and whether they are enough. Signals 0 to 1; Y in cd/m2. Throws as
/// require_readings(). Source: own rule.
SAMELIGHT_API PqLadder pq_ladder(std::span<const PatchReading> readings);

/// The tracking of greys by signal (means of repeats), in the window that most of them were read in. The curves are SignalCurve's, lifted to the
/// black as read or not, as fits better;
/// peak and programme's peak are those that leave least. Greys below 0.05 cd/m2 have no say.
/// Signals 0 to 1; Y in cd/m2. Error: knees to the spacing of the greys; on greys that have a curve exactly 0.005 of the signal (tested).
/// Throws Error (domain) where pq_ladder() names an obstacle, and as it does.
/// Sources: SMPTE ST 2084, ITU-R BT.2390-8 5.4.1, ITU-R BT.2124 (DE ITP; from memory); which end fits is our own rule.
SAMELIGHT_API PqTracking pq_tracking(std::span<const PatchReading> readings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/hdr/impl/pq_tracking.ipp"
#endif
