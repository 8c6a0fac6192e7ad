#pragma once
// The bodies of assess/check/check.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "samelight/assess/check/check.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/proof/proof_targets.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The proof's own list, and what the targets call their patches.
inline SignalNames names_understood(const assess::CheckedReadings& asked,
                                    const assess::CheckRequest& request) {
    std::vector<SignalPatch> list;
    if (request.targets) {
        list = request.targets->patches();
    }
    for (SignalPatch& patch : proof_patches(asked.plain, request.quantisation)) {
        list.push_back(std::move(patch));
    }
    return {list, request.quantisation};
}

/// The readings that the targets speak of; those that can't be understood stay, to be refused with their line.
inline std::vector<PatchReading> readings_with_targets(const assess::CheckedReadings& asked,
                                                       const assess::CheckRequest& request,
                                                       const SignalNames& names) {
    std::vector<PatchReading> kept = asked.readings;
    if (!request.targets) {
        return kept;
    }
    std::erase_if(kept, [&](const PatchReading& reading) {
        const auto shown = names.shown(reading);
        return shown && !request.targets->target(shown->signal, 1.0);
    });
    if (kept.empty()) {
        throw Error(ErrorKind::input, asked.source, "no patch that the targets have",
                    "readings of the patches of that list");
    }
    return kept;
}

inline void set_targets(const assess::CheckRequest& request, double white_cd_m2,
                        ProofReadings& readings) {
    if (request.targets) {
        for (ProofPoint& point : readings.points) {
            point.target = request.targets->target(point.shown.signal, white_cd_m2);
        }
    }
}

inline ProofGate asked_gate(const assess::CheckRequest& request) {
    ProofGate gate = request.gate;
    gate.white = request.white_level;
    return gate;
}

/// Whether the chosen white is another than the encoding's own, by more than four places of x, y say.
inline bool whites_differ(const assess::CheckedReadings& asked) {
    const auto xy = [](const std::array<double, 3>& xyz) {
        return chromaticity(Tristimulus<Cie1931_2deg>(xyz[0], xyz[1], xyz[2]));
    };
    return (xy(asked.chosen.white()) - xy(asked.plain.white())).distance() > 1e-4;
}

/// The patches that the panel can show, by themselves.
inline std::optional<GateAnswer> judge_inside(const ProofReadings& readings,
                                              const FoundFaults& found,
                                              const IntendedDisplay& intended,
                                              const ProofGate& gate) {
    const auto named = [](const Fault& f) { return f.kind == FaultKind::gamut_smaller; };
    if (std::none_of(found.faults.begin(), found.faults.end(), named)) {
        return {};
    }
    ProofReadings inside = readings;
    for (auto i = found.outside_gamut.rbegin(); i != found.outside_gamut.rend(); ++i) {
        inside.points.erase(inside.points.begin() + static_cast<std::ptrdiff_t>(*i));
    }
    if (inside.points.empty()) {
        return {};
    }
    return prove(inside, intended, gate).gate;
}

/// What is worked out of a visit's readings, each apart from the others.
struct VisitJudged {
    std::optional<ProofSide> plain = {}, chosen = {};
    std::optional<GreyTrack> greys = {};
    std::vector<Uniformity> screen = {};
    std::optional<FoundFaults> found = {};
};

/// plain: as sorted; targeted: with the targets that were given.
inline VisitJudged judge_readings(const assess::CheckedReadings& asked,
                                  const assess::CheckRequest& request, const ProofReadings& plain,
                                  const ProofReadings& targeted) {
    VisitJudged judged;
    const auto judge_faults = [&] {
        const ProofReadings carried = about_signals(targeted, asked.chosen);
        judged.greys = grey_track(carried, asked.chosen);
        judged.screen = uniformity(plain.placed, asked.chosen);
        judged.found = find_faults(
            {carried, asked.chosen, request.white_level, judged.screen, request.threads});
    };
    // Three blocks, the longest of which is divided by itself.
    parallel::work_in_blocks(3, request.threads, [&](std::size_t block, std::size_t) {
        if (block == 0 && request.white_chosen && whites_differ(asked)) {
            judged.plain = prove(plain, asked.plain, asked_gate(request));
        } else if (block == 1) {
            judged.chosen = prove(targeted, asked.chosen, asked_gate(request));
        } else if (block == 2) {
            judge_faults();
        }
    });
    return judged;
}

inline assess::CheckedVisit checked_visit(const assess::CheckedReadings& asked,
                                          const assess::CheckRequest& request) {
    const SignalNames names = names_understood(asked, request);
    const std::vector<PatchReading> kept = readings_with_targets(asked, request, names);
    const ProofReadings plain = sort_readings(kept, names, asked.chosen.white(), {asked.source});
    ProofReadings targeted = plain;
    set_targets(request, asked.chosen.white()[1], targeted);
    VisitJudged judged = judge_readings(asked, request, plain, targeted);
    std::optional<GateAnswer> inside =
        judge_inside(targeted, *judged.found, asked.chosen, asked_gate(request));
    return {asked.source,
            std::move(targeted),
            *std::move(judged.chosen),
            std::move(judged.plain),
            *std::move(judged.greys),
            std::move(judged.screen),
            *std::move(judged.found),
            std::move(inside),
            asked.readings.size() - kept.size()};
}

/// The visit without the patches that are in doubt themselves; nothing where none is or all are.
inline std::optional<ProofReadings> without_doubtful(const assess::CheckedVisit& visit) {
    ProofReadings rest = visit.readings;
    std::erase_if(rest.points, [&](const ProofPoint& point) {
        return std::any_of(
            visit.found.faults.begin(), visit.found.faults.end(), [&](const Fault& fault) {
                const bool single = fault.kind == FaultKind::misread ||
                                    fault.kind == FaultKind::exchanged ||
                                    fault.kind == FaultKind::repeats_disagree;
                return single &&
                       (fault.patch == point.shown.name || fault.other == point.shown.name);
            });
    });
    if (rest.points.empty() || rest.points.size() == visit.readings.points.size()) {
        return {};
    }
    return rest;
}

/// A patch's signal as whole numbers, which tell all codes of 16 bits apart.
inline std::array<long, 3> patch_shown(const ProofPoint& point) {
    const auto& s = point.shown.signal;
    return {std::lround(s[0] * 1e6), std::lround(s[1] * 1e6), std::lround(s[2] * 1e6)};
}

inline std::set<std::array<long, 3>> patches_shown(const assess::CheckedVisit& visit) {
    std::set<std::array<long, 3>> shown;
    for (const ProofPoint& point : visit.readings.points) {
        shown.insert(patch_shown(point));
    }
    return shown;
}

/// The groups of those patches of a visit that the other has, too.
inline std::vector<GroupSummary> groups_shared(const assess::CheckedVisit& visit,
                                               const std::set<std::array<long, 3>>& other) {
    std::vector<ColourGap> gaps;
    std::vector<SignalGroup> groups;
    for (std::size_t i = 0; i < visit.readings.points.size(); ++i) {
        const ProofPoint& point = visit.readings.points[i];
        if (other.contains(patch_shown(point))) {
            gaps.push_back(visit.chosen.gaps[i]);
            groups.push_back(point.shown.group);
        }
    }
    return summaries(gaps, groups);
}

inline assess::SharedPatches shared_patches(const assess::CheckedVisit& now,
                                            const assess::CheckedVisit& before) {
    const auto of_now = patches_shown(now);
    const auto of_before = patches_shown(before);
    assess::SharedPatches shared;
    for (const auto& patch : of_now) {
        ++(of_before.contains(patch) ? shared.in_both : shared.only_now);
    }
    shared.only_before = of_before.size() - shared.in_both;
    shared.now = groups_shared(now, of_before);
    shared.before = groups_shared(before, of_now);
    return shared;
}

inline assess::CheckVerdict plain_verdict(GateVerdict verdict) {
    switch (verdict) {
        case GateVerdict::pass:
            return assess::CheckVerdict::pass;
        case GateVerdict::fail:
            return assess::CheckVerdict::fail;
        case GateVerdict::cannot_tell:
            break;
    }
    return assess::CheckVerdict::cannot_tell;
}

/// How far the correction of another display moves a primary, in x, y, where no matrix is found of it: of 210, every two of six types of emitters by seven
/// meters whose filters miss by up to 4 nm and 5 %, these are 16, all of them less. Own simulation.
inline constexpr double correction_moves_primary_xy = 0.015;

/// Whether the readings are off in white and in primaries together, and these so little, or in either and nobody can tell whether too far.
inline bool may_be_correction(const assess::CheckedVisit& visit, assess::CheckVerdict verdict) {
    bool white = false;
    bool primaries = false;
    for (const Fault& fault : visit.found.faults) {
        white = white || fault.kind == FaultKind::white_off;
        primaries = primaries || fault.kind == FaultKind::primary_off;
        if (fault.kind == FaultKind::primary_off && fault.measured > correction_moves_primary_xy) {
            return false;
        }
    }
    return (white && primaries) ||
           ((white || primaries) && verdict == assess::CheckVerdict::cannot_tell);
}

/// The gate has the first word; readings in doubt have the last: what they alone bring down, or what an instrument does, is read again.
inline void judge_visit(const assess::CheckRequest& request, assess::CheckAnswer& answer) {
    const assess::CheckedVisit& visit = answer.now;
    answer.verdict = plain_verdict(visit.chosen.gate.verdict);
    const bool passes = answer.verdict == assess::CheckVerdict::pass;
    // Whatever the gate says of readings that are none.
    const auto instrument =
        std::find_if(visit.found.faults.begin(), visit.found.faults.end(),
                     [](const Fault& f) { return f.kind == FaultKind::instrument_off; });
    if (instrument != visit.found.faults.end() &&
        (instrument == visit.found.faults.begin() || !passes)) {
        answer.verdict = assess::CheckVerdict::read_again;
        answer.reason = assess::CheckReason::instrument;
        return;
    }
    if (passes) {
        return;
    }
    if (request.gate.correction && may_be_correction(visit, answer.verdict)) {
        answer.verdict = assess::CheckVerdict::read_again;
        answer.reason = assess::CheckReason::correction;
        return;
    }
    if (const auto rest = without_doubtful(visit)) {
        const ProofSide side = prove(*rest, visit.chosen.intended, asked_gate(request));
        if (side.gate.verdict == GateVerdict::pass) {
            answer.verdict = assess::CheckVerdict::read_again;
            answer.reason = assess::CheckReason::doubtful_patches;
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE bool of_readings(FaultKind kind) {
    return kind == FaultKind::misread || kind == FaultKind::exchanged || kind == FaultKind::drift ||
           kind == FaultKind::instrument_off || kind == FaultKind::repeats_disagree;
}

SAMELIGHT_INLINE bool of_correction_too(FaultKind kind) {
    return kind == FaultKind::white_off || kind == FaultKind::primary_off ||
           kind == FaultKind::wrong_encoding || kind == FaultKind::saturation_off ||
           kind == FaultKind::hue_off;
}

SAMELIGHT_INLINE CheckAnswer answer_check(const CheckRequest& request) {
    // One visit is divided within itself, two are done side by side.
    CheckRequest each = request;
    each.threads = request.before ? (threads_meant(request.threads) + 1) / 2 : request.threads;
    std::optional<CheckedVisit> now;
    std::optional<CheckedVisit> before;
    parallel::work_in_blocks(
        request.before ? 2 : 1, request.threads, [&](std::size_t block, std::size_t) {
            (block == 0 ? now : before) =
                samelight::detail::checked_visit(block == 0 ? request.now : *request.before, each);
        });
    CheckAnswer answer{CheckVerdict::cannot_tell,
                       CheckReason::conformity,
                       request.gate.gate,
                       0,
                       *std::move(now),
                       std::move(before),
                       {}};
    if (answer.before) {
        answer.shared = samelight::detail::shared_patches(answer.now, *answer.before);
    }
    for (const ColourGap& gap : answer.now.chosen.gaps) {
        answer.over_gate += gap.de00 > request.gate.gate ? 1 : 0;
    }
    detail::judge_visit(request, answer);
    return answer;
}

}  // namespace samelight::assess
