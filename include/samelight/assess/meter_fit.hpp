#pragma once
// A correction from paired readings: made, judged, tried on other displays, and what to read next.
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Readings of one display by both instruments. Whoever has them in memory fills in the first two.
struct DisplayReadings {
    /// Of the display or its file, for messages.
    std::string name;
    /// In the order of their taking.
    std::vector<InstrumentReading> readings;
    /// Where each stands in its file; empty: in none.
    std::vector<std::size_t> lines = {};
    /// Of all of them; empty: not known, or several.
    std::string picture_mode = {};
    /// Likewise: the patch's size.
    std::string window = {};
    /// What is doubtful about the file.
    std::vector<Warning> warnings = {};
};

/// How a correction is to be made and judged.
struct MeterFitOptions {
    /// Any but spectra.
    CorrectionMethod method = CorrectionMethod::four_colour;
    /// Absent: the repeats' scatter where there are any, else what a plain least-squares fit of six colours or more leaves over.
    std::optional<NoiseFrom> noise_from = {};
    /// With NoiseFrom::stated (stated_noise()).
    std::optional<ReadingNoise> stated = {};
    /// Expanded uncertainty of the corrected white's x and y, coverage 95 %.
    double wanted_half_width = 0.0005;
    /// Of the reference itself; 0: not known.
    double reference_uncertainty_xy = 0.0;
    /// Id: of the reference's values; one with X, Y, Z.
    std::string observer = "cie1931-2deg";
    /// The meter's three values are no X, Y, Z.
    bool raw_channels = false;
    PatchNames names = {};
    /// Mode and window, where empty, are those of the readings.
    Provenance provenance = {};
    /// 2 to 1,000,000
    std::size_t resamples = 2000;
    std::uint64_t seed = 1;
    /// Threads that the resamples are divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What is asked for.
struct MeterFitRequest {
    /// To be fitted.
    DisplayReadings display;
    /// Of other displays, to try the correction on.
    std::vector<DisplayReadings> others = {};
    /// The display's spectra, to be kept with it.
    std::optional<ListedPanel> panel = {};
    MeterFitOptions options = {};
};

/// What the noise of the readings was taken from.
enum class NoiseTaken {
    /// There are no repeats, and nobody stated it.
    unknown,
    /// All of it.
    stated,
    /// x and y as stated, Y from the repeats
    stated_luminance_repeats,
    /// x and y as stated
    stated_luminance_unknown,
    /// What the fit leaves over.
    residuals,
    /// Each patch's own repeats.
    each_patch,
    /// The repeats of all patches.
    pooled
};

/// What another method makes of the same readings.
struct OtherMethod {
    CorrectionMethod method = CorrectionMethod::four_colour;
    /// Why it can't be; the rest is empty then.
    std::string refusal = {};
    /// Corrected.
    std::optional<std::array<double, 2>> white_xy = {};
    /// Expanded uncertainties of it, coverage 95 %.
    std::optional<std::array<double, 2>> half_widths = {};
    /// Root mean square.
    std::optional<double> left_out_xy = {};
};

/// The correction on another display.
struct OtherDisplay {
    std::string name;
    OnAnotherDisplay found;
};

/// The mean white, X, Y, Z, black taken off.
struct WhiteReadings {
    std::array<double, 3> meter{}, reference{};
};

/// The whole answer.
struct MeterFitAnswer {
    /// Of the display that was fitted.
    std::string name;
    std::size_t pair_count = 0, patch_count = 0;
    int round_count = 0;
    StoredCorrection stored = {};
    NoiseTaken noise_taken = NoiseTaken::unknown;
    FitQuality quality = {};
    /// The verdict.
    FitJudgement judgement = {};
    /// To be used, but white is not known as well as was wanted yet.
    bool read_on = false;
    std::optional<WhiteReadings> white = {};
    std::optional<Bootstrap> bootstrap = {};
    /// "repeats" or "patches"
    std::string bootstrap_of = {};
    double wanted_half_width = 0.0;
    /// StopReason::read_again and do_not_use where the verdict says so; out_of_reach with the verdict read_again: not good enough yet.
    std::optional<StopAdvice> advice = {};
    std::vector<NextPatch> next = {};
    std::vector<OtherMethod> other_methods = {};
    std::vector<OtherDisplay> other_displays = {};
    std::optional<Black> black = {};
    /// Of readings, panel, fit and quality, each once.
    std::vector<Warning> warnings = {};
};

/// Throws Error (input) for numbers out of their ranges.
SAMELIGHT_API void require_valid(const MeterFitOptions& options);

/// Throws Error (domain) for an unknown observer and Error (input) for one of cones, whose values readings don't have.
SAMELIGHT_API void require_readable_observer(const std::string& id);

/// The readings paired, as a fit takes them. Throws Error (input, shape), which begins with the display's name: a reading that is no light,
/// a patch that one instrument alone read.
SAMELIGHT_API ReadingSet paired_readings(const DisplayReadings& display,
                                         const MeterFitOptions& options = {});

/// Makes the correction, judges it on its own readings, on colours and rounds left out and on the other displays, tries the other methods
/// and says what to read next.
/// Throws Error, one line that begins with the name of the readings that it is about, for anything that can't be: as require_valid(),
/// paired_readings(), fit_correction() and panel_as_shown(), and (input) for another display whose readings are those of the first.
SAMELIGHT_API MeterFitAnswer answer_meter_fit(const MeterFitRequest& request);

}  // namespace samelight::assess

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Fills in `advice`, `next` and `read_on` from the correction, its quality and its judgement, and lets the verdict have the last word.
void plan_readings(const assess::MeterFitOptions& options, assess::MeterFitAnswer& answer);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_fit.ipp"
#include "samelight/assess/impl/meter_fit_plan.ipp"
#endif
