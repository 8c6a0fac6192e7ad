#pragma once
// The bodies of meter/selection/choose.hpp.

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

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/light_shape.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/meter/selection/prospect.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The correction of the least error among those that may be used, or may be called safe; absent where none does better than none.
inline std::optional<std::size_t> least_error(const PanelChoice& choice, bool safe) {
    double least = choice.none_possible ? choice.none.white_uv - readable_difference
                                        : std::numeric_limits<double>::infinity();
    std::optional<std::size_t> best;
    for (std::size_t j = 0; j < choice.with.size(); ++j) {
        const CorrectionProspect& with = choice.with[j];
        const bool may = with.error && !with.not_at_all && (!safe || !with.not_safe);
        if (may && with.error->white_uv < least) {
            least = with.error->white_uv;
            best = j;
        }
    }
    return best;
}

/// A white that was just read outranks what is expected of the meter.
inline bool settle_by_white(PanelChoice& choice, std::span<const CandidateCorrection> corrections) {
    for (std::size_t j = 0; j < corrections.size(); ++j) {
        if (corrections[j].keep && choice.with[j].error && !choice.with[j].not_at_all) {
            choice.with[j].worse_than_none = false;
            choice.best = j;
            choice.verdict = Choice::safe;
            choice.good_enough = choice.settled_by_white = true;
            return true;
        }
    }
    return false;
}

SAMELIGHT_INLINE void judge(PanelChoice& choice, std::span<const CandidateCorrection> corrections,
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
    const auto flag = rows_flag(meter_mismatch(meter, standard_observer<Cie1931_2deg>()));
    if (flag) {
        warnings.insert(warnings.begin(), *flag);
    }
    return !flag;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Choices choose_corrections(std::span<const Panel> panels,
                                            std::span<const CandidateCorrection> corrections,
                                            const ChooseOptions& options) {
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
    for (const CandidateCorrection& known : corrections) {
        if (known.panel) {
            require_same_sampling("choose_corrections", sampling, known.panel->sampling());
        }
    }
    Choices result;
    detail::warn_about_meters(corrections, result.warnings);
    detail::warn_about_same(corrections, result.warnings);
    const bool all_raw = !corrections.empty() && std::all_of(corrections.begin(), corrections.end(),
                                                             [](const CandidateCorrection& k) {
                                                                 return k.correction.raw_channels;
                                                             });
    std::optional<LikelyMeter> likely;
    if (options.meter) {
        require_same_sampling("choose_corrections", sampling, options.meter->sampling);
        result.believable = all_raw || detail::believable_rows(*options.meter, result.warnings);
    } else {
        MeterSupposition supposed = options.supposed;
        detail::ShownMeter shown =
            detail::likely_meter(sampling, corrections, supposed, result.warnings);
        likely = std::move(shown.meter);
        result.supposed_mismatch = supposed.mismatch;
        result.believable = shown.believable;
    }
    const Sensitivities cie1931 = standard_observer<Cie1931_2deg>().on(sampling);
    for (const Panel& panel : panels) {
        const detail::Lights4 lights = detail::lights_of(panel);
        const LikelyAnswers answers =
            likely ? likely->answers(lights) : certain_answers(*options.meter, lights);
        PanelChoice choice;
        choice.panel = panel.name();
        const auto none =
            detail::expected_error(Correction{}, answers, dense::responses(cie1931.rows(), lights));
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
        for (const CandidateCorrection& known : corrections) {
            choice.with.push_back(detail::prospect(known, panel, basis));
        }
        detail::judge(choice, corrections, options, result.believable);
        result.panels.push_back(std::move(choice));
    }
    return result;
}

}  // namespace samelight
