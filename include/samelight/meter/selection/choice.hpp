#pragma once
// Which stored correction suits a panel, or none: the verdict as a value.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Two errors that differ by less, in x, y or in u', v', are the same: the last digit that instruments of the trade show and pages print is .0001 (common
/// practice, no source), a ninth of what can just be seen, and below it only rounding decides.
inline constexpr double readable_difference = 0.0001;

/// Whether an error is less than another by enough to be read. Both in x, y or both in u', v'. Own rule.
inline bool readably_less(double error, double other) {
    return error < other - readable_difference;
}

/// The error to be expected of a corrected reading: root mean squares over all that isn't known of the meter.
struct ExpectedError {
    /// Distance in x, y.
    double white_xy = 0.0;
    /// Distance in u', v'.
    double white_uv = 0.0;
    /// CIEDE2000 at equal luminance, the true white being the white of CIELAB
    double white_de00 = 0.0;
    /// The worst of red, green and blue, distance in x, y; NaN where nothing tells.
    double primaries_xy = 0.0;
    /// White's figures are no expectation but come from a white that both instruments read.
    bool white_read = false;
};

/// What a white that both instruments read now says of one way of reading it: with a correction, or with none.
struct ReadWhite {
    /// Distances from the reference's.
    double xy = 0.0, uv = 0.0, de00 = 0.0;
    /// Within the limit, uncertainty included; else it is beyond it, or not known well enough.
    bool settled = false;
};

/// Why a correction can't be judged on a panel; report/choice_words.hpp has it in English, as it has the two below.
enum class CannotJudge {
    /// It keeps no spectra of the display that it was made on, and the meter isn't known.
    no_panel_spectra,
    /// It gives cone responses, which have no u'v'.
    cones,
    /// It corrects raw channels, of which the meter's rows for X, Y, Z say nothing.
    raw_beside_rows,
    /// It corrects raw channels to another observer than CIE 1931.
    raw_to_other_observer,
    /// It was made from one white, which this panel's is too far from.
    other_white,
    /// It would turn this panel's light into none.
    no_light
};

/// "no_panel_spectra", "cones", "raw_beside_rows", "raw_to_other_observer", "other_white" or "no_light".
SAMELIGHT_API const char* code_of(CannotJudge why);

/// Why a correction is not to be called safe.
enum class NotSafe {
    /// Its readings left the verdict to read again first.
    read_again_first,
    /// The white read now leaves open whether it still holds.
    not_settled,
    /// The white read now does not settle that it is within the limit with it.
    white_not_settled
};

/// "read_again_first", "not_settled" or "white_not_settled".
SAMELIGHT_API const char* code_of(NotSafe why);

/// Why a correction is not to be used at all.
enum class NotAtAll {
    /// Its readings left the verdict not to use it.
    do_not_use,
    /// The white read now says that it no longer holds.
    no_longer_holds,
    /// The white read now can't confirm it, nor can any other.
    never_confirmed
};

/// "do_not_use", "no_longer_holds" or "never_confirmed".
SAMELIGHT_API const char* code_of(NotAtAll why);

/// What a correction promises on a panel.
struct CorrectionProspect {
    /// Absent where it can't be judged: `why_not` says why.
    std::optional<ExpectedError> error;
    std::optional<CannotJudge> why_not = {};
    /// panel_distance_nm() to the panel that it was made on
    std::optional<double> panel_distance_nm = {};
    /// By readable_difference or more.
    bool worse_than_none = false;
    /// It corrects raw channels, not X, Y, Z.
    bool raw_channels = false;
    /// Made from one white: what `error` says of the primaries is not meant.
    bool whites_only = false;
    /// Why it is never safe, whatever the error; nothing: nothing speaks against it.
    std::optional<NotSafe> not_safe = {};
    /// Why it is not to be used at all.
    std::optional<NotAtAll> not_at_all = {};
};

/// The verdict on a panel.
enum class Choice {
    /// The best stored correction is good enough.
    safe,
    /// The meter as it is is good enough, and no stored correction is expected to do better.
    use_none,
    /// Nothing at hand is good enough.
    measure_panel
};

/// "safe", "use none", "measure this panel".
SAMELIGHT_API const char* code_of(Choice choice);

/// What is to be done on one panel.
struct PanelChoice {
    std::string panel;
    /// Read without any correction.
    ExpectedError none;
    /// False where all corrections are of raw channels, which are no colours without one: `none` means nothing then.
    bool none_possible = true;
    /// One a correction, in their order.
    std::vector<CorrectionProspect> with;
    /// The correction that serves best: to be used with `safe`, with `measure_panel` until then; absent: none.
    std::optional<std::size_t> best = {};
    Choice verdict = Choice::measure_panel;
    /// Whether what is to be used stays within the limit.
    bool good_enough = false;
    /// A correction does better than none, but not by enough to be worth it.
    bool better_dropped = false;
    /// `best` is the correction that a white read now says to keep, whatever was expected of it
    bool settled_by_white = false;

    /// The error to be expected with what is to be used, if only until the panel is measured.
    [[nodiscard]] const ExpectedError& chosen() const { return best ? *with[*best].error : none; }
};

/// The whole answer.
struct Choices {
    std::vector<PanelChoice> panels;
    /// False where the rows, or what the corrections show, are those of no filter meter: no verdict is `safe` or `use_none` then.
    bool believable = true;
    /// As used, after what the corrections themselves show; 0 where the meter's rows are known.
    double supposed_mismatch = 0.0;
    std::vector<Warning> warnings;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/choice.ipp"
#endif
