#pragma once
// The bodies of assess/meter_choose.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_choose.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/display/types/panel_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/meter/selection/keep.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What a correction says against itself, and what in it means nothing here.
inline void warn_about_stored(const assess::NamedCorrection& given,
                              std::vector<Warning>& warnings) {
    const StoredCorrection& stored = given.stored;
    if (!stored.ignored.empty()) {
        warnings.push_back(
            Warning{"unknown_keys", {{"correction", given.name}, {"keys", stored.ignored}}});
    }
    const Correction& correction = stored.correction;
    if (correction.verdict && *correction.verdict != FitVerdict::read_again) {
        return;
    }
    if (const std::optional<Warning> flag = stored_doubts(correction).readings) {
        Warning doubt{"made_with_doubt", {{"correction", given.name}, {"doubt", flag->code}}};
        doubt.facts.insert(doubt.facts.end(), flag->facts.begin(), flag->facts.end());
        warnings.push_back(std::move(doubt));
    }
}

/// The display that the correction was made on, where its light was kept and is that display's.
inline std::optional<Panel> panel_of_stored(const assess::NamedCorrection& given,
                                            const Sampling& sampling) {
    const StoredCorrection& stored = given.stored;
    if (!stored.panel_spectra || stored_doubts(stored.correction).other_panel) {
        return {};
    }
    return panel_from_stored(given.name, *stored.panel_spectra, sampling);
}

inline CandidateCorrection candidate_correction(const assess::NamedCorrection& given,
                                                const Sampling& sampling,
                                                assess::MeterChooseAnswer& answer) {
    assess::require_usable(given, sampling);
    warn_about_stored(given, answer.warnings);
    const Correction& correction = given.stored.correction;
    answer.corrections.push_back(given.name);
    answer.made_on.push_back(correction.provenance.panel);
    CandidateCorrection known{given.name, correction, panel_of_stored(given, sampling)};
    if (std::optional<Warning> told = stored_doubts(correction).other_panel) {
        told->facts.insert(told->facts.begin(), Fact{"correction", given.name});
        answer.warnings.push_back(std::move(*told));
    } else if (!known.panel) {
        answer.warnings.push_back(Warning{"no_panel_spectra", {{"correction", given.name}}});
    }
    return known;
}

inline std::size_t correction_under(const assess::MeterChooseRequest& request) {
    const std::size_t count = request.corrections.size();
    if (!request.white->under && count == 1) {
        return 0;
    }
    if (!request.white->under || *request.white->under >= count) {
        throw Error(ErrorKind::input, "the paired white",
                    request.white->under ? "correction " + std::to_string(*request.white->under) +
                                               " of " + std::to_string(count)
                                         : "no word on its correction, with more than one or none",
                    "the correction that the meter's white was read with, one of those given");
    }
    return *request.white->under;
}

/// What the white read now makes of the correction that it was read with.
inline void take_verdict(CandidateCorrection& known, Keep verdict) {
    known.keep = verdict == Keep::keep;
    if (verdict == Keep::refit) {
        known.not_at_all = NotAtAll::no_longer_holds;
    } else if (verdict == Keep::too_unsure) {
        known.not_at_all = NotAtAll::never_confirmed;
    } else if (verdict == Keep::read_again) {
        known.not_safe = NotSafe::not_settled;
    }
}

/// The paired white decides first: what no longer holds is out of the choice, and what was read stands in place of what is expected.
inline void judge_paired_white(const assess::MeterChooseRequest& request,
                               std::vector<CandidateCorrection>& known,
                               std::optional<ReadWhite>& none_read,
                               assess::MeterChooseAnswer& answer) {
    if (!request.white) {
        return;
    }
    if (request.panels.size() != 1) {
        throw Error(ErrorKind::input, "the paired white",
                    std::to_string(request.panels.size()) + " panels",
                    "both instruments' readings of one display");
    }
    const double limit_uv = request.options.limit_uv;
    const std::size_t under = correction_under(request);
    const Correction& stored = known[under].correction;
    assess::KeepPart part{known[under].name, request.white->white, {}, {}};
    part.verdict = keep_or_refit(stored, part.white, limit_uv);
    const auto with = [&](const std::string& name, const Correction& other) {
        const auto xy = white_with(other, stored, part.white.meter);
        part.others.push_back(
            {name, xy,
             std::hypot(xy[0] - part.white.reference[0], xy[1] - part.white.reference[1])});
        return read_white(other, stored, part.white, limit_uv);
    };
    if (stored.observer == Cie1931_2deg::id && !stored.raw_channels) {
        none_read = with("none", Correction{});
    }
    known[under].read = read_white(stored, stored, part.white, limit_uv);
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (i != under && known[i].correction.observer == stored.observer &&
            known[i].correction.raw_channels == stored.raw_channels) {
            known[i].read = with(known[i].name, known[i].correction);
        }
    }
    take_verdict(known[under], part.verdict.verdict);
    answer.keep = std::move(part);
}

inline void append_chosen(const assess::MeterChooseRequest& request,
                          const std::vector<Panel>& panels, Choices choices,
                          assess::MeterChooseAnswer& answer) {
    answer.believable = choices.believable;
    answer.supposed_mismatch_percent = 100.0 * choices.supposed_mismatch;
    // What no meter can be comes before all else.
    answer.warnings.insert(choices.believable ? answer.warnings.end() : answer.warnings.begin(),
                           choices.warnings.begin(), choices.warnings.end());
    for (std::size_t i = 0; i < panels.size(); ++i) {
        const assess::ListedPanel& given = request.panels[i];
        choices.panels[i].panel = given.name;
        answer.panels.push_back(
            {std::move(choices.panels[i]), given.model != nullptr, identify_panel(panels[i])});
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE void require_valid(const MeterChooseOptions& options) {
    const double mismatch = options.mismatch_percent;
    if (!(mismatch > 0.0) || !(mismatch < 100.0)) {
        throw Error(ErrorKind::input, "mismatch", to_text(mismatch),
                    "an f1' above 0 and below 100 %");
    }
    if (!(options.limit_uv > 0.0) || !std::isfinite(options.limit_uv)) {
        throw Error(ErrorKind::input, "limit", to_text(options.limit_uv),
                    "a u'v' distance above 0, such as 0.0011");
    }
}

SAMELIGHT_INLINE void require_valid_noise(const PairedWhite& white) {
    if (!(white.readings >= 1)) {
        throw Error(ErrorKind::input, "readings", std::to_string(white.readings),
                    "1 or more readings");
    }
    if (!(white.noise_xy >= 0.0)) {
        throw Error(ErrorKind::input, "noise", to_text(white.noise_xy),
                    "a standard deviation of x and y, 0 or more");
    }
}

SAMELIGHT_INLINE void require_usable(const NamedCorrection& correction, const Sampling& sampling) {
    const Correction& stored = correction.stored.correction;
    if (!(std::abs(Eigen::Matrix3d(stored.matrix()).determinant()) > 1e-9)) {
        throw Error(ErrorKind::input, correction.name, "reference_from_meter without an inverse",
                    "a matrix that keeps colours apart");
    }
    try {
        static_cast<void>(observer_named(stored.observer));
    } catch (const Error&) {
        throw Error(ErrorKind::input, correction.name,
                    "observer \"" + stored.observer + "\", which isn't known here",
                    "the id of a known observer");
    }
    static_cast<void>(detail::panel_of_stored(correction, sampling));
}

SAMELIGHT_INLINE ListedPanel display_of(const NamedCorrection& correction,
                                        const Sampling& sampling) {
    std::optional<Panel> panel = detail::panel_of_stored(correction, sampling);
    if (!panel) {
        const bool other = correction.stored.panel_spectra.has_value();
        throw Error(
            ErrorKind::input, correction.name,
            other ? "spectra of another display than the one that it was made on"
                  : "no spectra of the display that it was made on",
            "a display to answer for, or a correction that was kept with its display's spectra");
    }
    const std::string& made_on = correction.stored.correction.provenance.panel;
    return {made_on.empty() ? correction.name : made_on, std::move(*panel)};
}

SAMELIGHT_INLINE MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& request) {
    require_valid(request.options);
    if (request.panels.empty()) {
        throw Error(ErrorKind::input, "panels", "none", "at least one");
    }
    if (request.white) {
        require_valid_noise(request.white->white);
    }
    MeterChooseAnswer answer;
    answer.limit_uv = request.options.limit_uv;
    const Sampling& sampling = request.panels.front().panel.sampling();
    std::vector<CandidateCorrection> known;
    for (const NamedCorrection& given : request.corrections) {
        known.push_back(detail::candidate_correction(given, sampling, answer));
    }
    ChooseOptions options;
    options.supposed.mismatch = 0.01 * request.options.mismatch_percent;
    options.safe_uv = request.options.limit_uv;
    const auto append = [&](const std::vector<Warning>& more) {
        answer.warnings.insert(answer.warnings.end(), more.begin(), more.end());
    };
    if (request.meter) {
        append(request.meter->warnings);
        options.meter = request.meter->rows;
        answer.meter_known = true;
        answer.meter = request.meter->rows.observer;
    }
    std::vector<Panel> panels;
    for (const ListedPanel& given : request.panels) {
        panels.push_back(panel_as_shown(given.panel, given.set_to));
        append(given.warnings);
    }
    detail::judge_paired_white(request, known, options.none_read, answer);
    detail::append_chosen(request, panels, choose_corrections(panels, known, options), answer);
    return answer;
}

}  // namespace samelight::assess
