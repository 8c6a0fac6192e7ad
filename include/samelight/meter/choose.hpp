#pragma once
// Which stored correction suits a panel, or none: the error to be expected with each, and a plain verdict.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/steps.hpp"
#include "samelight/display/light_shape.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/certainty.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/colour_error.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/known_corrections.hpp"
#include "samelight/meter/likely_meter.hpp"
#include "samelight/meter/mismatch.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/meter/prospect.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"

namespace samelight {

/// What is known beside the corrections.
struct ChooseOptions {
    std::optional<Sensitivities> meter =
        {};  ///< its rows, calibrated, where they are known; else what follows is supposed
    MeterSupposition supposed = {};
    double safe_uv = uv_step_radius;  ///< good enough: what can just be seen side by side
    /// A correction that isn't good enough is used for want of a better one only where it leaves at most this share of the error without
    /// (modelling choice): a smaller gain in white may be bought with worse colours.
    double worth_share = 0.8;
    std::optional<ReadWhite> none_read =
        {};  ///< of one panel: what a white read now says of the meter as it is, in place of what is expected
};

namespace detail {

/// The correction of the least error among those that may be used, or may be called safe; absent where none does better than none.
inline std::optional<std::size_t> least_error(const PanelChoice& choice, bool safe) {
    double least = choice.none_possible ? choice.none.white_uv - least_difference
                                        : std::numeric_limits<double>::infinity();
    std::optional<std::size_t> best;
    for (std::size_t j = 0; j < choice.with.size(); ++j) {
        const CorrectionProspect& with = choice.with[j];
        const bool may = with.error && with.not_at_all.empty() && (!safe || with.not_safe.empty());
        if (may && with.error->white_uv < least) {
            least = with.error->white_uv;
            best = j;
        }
    }
    return best;
}

/// A white that was just read outranks what is expected of the meter.
inline bool settle_by_white(PanelChoice& choice, std::span<const KnownCorrection> corrections) {
    for (std::size_t j = 0; j < corrections.size(); ++j) {
        if (corrections[j].keep && choice.with[j].error && choice.with[j].not_at_all.empty()) {
            choice.with[j].worse_than_none = false;
            choice.best = j;
            choice.verdict = Choice::safe;
            choice.good_enough = choice.settled_by_white = true;
            return true;
        }
    }
    return false;
}

inline void judge(PanelChoice& choice, std::span<const KnownCorrection> corrections,
                  const ChooseOptions& options, bool believable) {
    for (CorrectionProspect& with : choice.with) {
        with.worse_than_none = choice.none_possible && with.error &&
                               readably_less(choice.none.white_uv, with.error->white_uv);
    }
    if (settle_by_white(choice, corrections) || !believable) {
        return;  // nothing to be used, and nothing until then
    }
    const auto safe = least_error(choice, true);
    if (safe && choice.with[*safe].error->white_uv <= options.safe_uv) {
        choice.best = safe;
        choice.verdict = Choice::safe;
        choice.good_enough = true;
        return;
    }
    if (choice.none_possible && choice.none.white_uv <= options.safe_uv &&
        (!options.none_read || options.none_read->settled)) {
        choice.verdict = Choice::use_none;
        choice.good_enough = true;
        return;
    }
    choice.best = least_error(choice, false);
    if (choice.best && choice.none_possible &&
        choice.with[*choice.best].error->white_uv > options.worth_share * choice.none.white_uv) {
        choice.best.reset();
        choice.better_dropped = true;
    }
}

/// Warns of rows that no filter meter has. Whether the meter can be believed.
inline bool believable_rows(const Sensitivities& meter, std::vector<Warning>& warnings) {
    const auto doubt = doubt_about_rows(meter_mismatch(meter, standard_observer<Cie1931_2deg>()));
    if (doubt) {
        warnings.insert(warnings.begin(), *doubt);
    }
    return !doubt;
}

}  // namespace detail

/// The error to be expected of the white (and the primaries) of each panel when it is read without correction and with each of the
/// corrections at hand, and what follows from it.
///
/// With the meter's rows known, the errors are those rows' own. Without, they are root mean squares over the meters that are
/// likely (LikelyMeter): of the supposed mismatch, and agreeing with every correction whose panel's spectra were kept; one whose panel's
/// spectra were not kept can't be judged then. Each error is in the
/// values of the correction's own observer, without correction those of CIE 1931. A panel's error is that of its white; drift, noise and
/// the reference's own error are not in it; what the correction's own readings scattered (its covariance) is. What was read has the last word: where a
/// white read now says something of a correction (KnownCorrection::read) or of none (ChooseOptions::none_read), its figures stand in place of
/// those expected of white, and a correction that it says to keep is the one to use. Errors count as different from least_difference on. A
/// correction of raw channels tells nothing of X, Y, Z: by itself it is judged as what it makes of them, a filter meter that reads right the
/// emitters of its own panel, and with no other correction at hand there is no reading without one.
/// All panels, those of the corrections and the meter must be on one sampling. Throws Error (shape) otherwise, and Error (domain) for an unknown
/// observer or a limit not above 0. Where the rows or the corrections are those of no filter meter (unbelievable_mismatch), a warning
/// (no_such_meter) comes first and every verdict is to measure.
inline Choices choose_corrections(std::span<const Panel> panels,
                                  std::span<const KnownCorrection> corrections,
                                  const ChooseOptions& options = {}) {
    if (panels.empty()) {
        throw Error(ErrorKind::shape, "choose_corrections", "no panel", "one or more");
    }
    if (!(options.safe_uv > 0.0) || !std::isfinite(options.safe_uv)) {
        throw Error(ErrorKind::domain, "choose_corrections",
                    "a limit of " + to_text(options.safe_uv), "a u'v' distance above 0");
    }
    const Sampling& sampling = panels.front().sampling();
    for (const Panel& panel : panels) {
        require_same_sampling("choose_corrections", sampling, panel.sampling());
    }
    for (const KnownCorrection& known : corrections) {
        if (known.panel) {
            require_same_sampling("choose_corrections", sampling, known.panel->sampling());
        }
    }
    Choices result;
    detail::warn_about_meters(corrections, result.warnings);
    detail::warn_about_same(corrections, result.warnings);
    const bool all_raw = !corrections.empty() && std::all_of(corrections.begin(), corrections.end(),
                                                             [](const KnownCorrection& k) {
                                                                 return k.correction.raw_channels;
                                                             });
    std::optional<LikelyMeter> likely;
    if (options.meter) {
        require_same_sampling("choose_corrections", sampling, options.meter->sampling);
        result.believable = all_raw || detail::believable_rows(*options.meter, result.warnings);
    } else {
        MeterSupposition supposed = options.supposed;
        likely = detail::likely_meter(sampling, corrections, supposed, result.warnings);
        result.supposed_mismatch = supposed.mismatch;
        result.believable =
            std::none_of(result.warnings.begin(), result.warnings.end(),
                         [](const Warning& w) { return w.code == "no_such_meter"; });
    }
    const Sensitivities cie1931 = standard_observer<Cie1931_2deg>().on(sampling);
    for (const Panel& panel : panels) {
        const detail::Lights4 lights = detail::lights_of(panel);
        const LikelyAnswers answers =
            likely ? likely->answers(lights) : certain_answers(*options.meter, lights);
        PanelChoice choice;
        choice.panel = panel.name();
        const auto none = detail::expected_error(Correction{}, answers, cie1931.rows() * lights);
        if (!none && !all_raw) {
            throw Error(ErrorKind::domain, "choose_corrections (" + panel.name() + ")",
                        "a meter that does not answer to an emitter", "answers above 0");
        }
        choice.none = none.value_or(ExpectedError{});
        choice.none_possible = !all_raw;
        if (options.none_read) {
            detail::put_read(*options.none_read, choice.none);
        }
        const detail::ProspectBasis basis{answers, options.meter.has_value(), all_raw,
                                          options.supposed};
        for (const KnownCorrection& known : corrections) {
            choice.with.push_back(detail::prospect(known, panel, basis));
        }
        detail::judge(choice, corrections, options, result.believable);
        result.panels.push_back(std::move(choice));
    }
    return result;
}

}  // namespace samelight
