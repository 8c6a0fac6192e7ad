#pragma once
// What is found of a simulated visit, and how it is compared with what was injected.
#include <algorithm>
#include <cstdlib>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "check/injected_faults.hpp"
#include "check/simulated_display.hpp"
#include "samelight/check/faults/find_faults.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/shown_patch.hpp"

namespace samelight::test {

inline bool all_cases() { return std::getenv("SAMELIGHT_ALL_CASES") != nullptr; }

inline std::vector<SignalPatch> proof_list(const IntendedDisplay& intended) {
    return proof_patches(intended, Quantisation(10, SignalRange::full));
}

/// Whether the black of the curve is as intended, or the measured one, 0 where black wasn't read.
enum class LookedBlack { as_intended, as_measured };

/// The faults of a display, whose white's level is taken as measured.
inline FoundFaults look_at(const IntendedDisplay& intended, const std::vector<SignalPatch>& list,
                           const std::vector<PatchReading>& readings,
                           LookedBlack black = LookedBlack::as_intended) {
    CurveOptions options = intended.curve().options();
    if (black == LookedBlack::as_measured) {
        options.black_cd_m2 = 0.0;
    }
    for (const PatchReading& r : readings) {
        if (*r.signal == Three{1.0, 1.0, 1.0}) {
            options.white_cd_m2 = r.xyz[1];
        }
        if (black == LookedBlack::as_measured && *r.signal == Three{}) {
            options.black_cd_m2 = std::max(0.0, r.xyz[1]);
        }
    }
    const IntendedDisplay meant(intended.encoding(), SignalCurve(options));
    const SignalNames names(list, Quantisation(10, SignalRange::full));
    return find_faults(
        {sort_readings(readings, names, meant.white(), {"visit"}), meant, WhiteLevel::as_measured});
}

/// The same where the peak is asked for.
inline FoundFaults look_beside_peak(const IntendedDisplay& intended,
                                    const std::vector<SignalPatch>& list,
                                    const std::vector<PatchReading>& readings) {
    const SignalNames names(list, Quantisation(10, SignalRange::full));
    return find_faults({sort_readings(readings, names, intended.white(), {"visit"}), intended,
                        WhiteLevel::asked_for});
}

inline bool names_it(const FoundFaults& found, const FaultCase& wanted) {
    return std::any_of(found.faults.begin(), found.faults.end(), [&](const Fault& fault) {
        return fault.kind == wanted.kind &&
               (wanted.channel == FaultChannel::none || fault.channel == wanted.channel);
    });
}

inline std::string said(const FoundFaults& found) {
    std::string text;
    for (const Fault& fault : found.faults) {
        text += std::string(" ") + code_of(fault.kind) + "/" + code_of(fault.channel);
    }
    return text;
}

/// Pairs that aren't there together, or that readings don't tell apart. Two that bend one thing are of one family. What merges where an offset or another
/// range moves it lies beside the levels that are read, and of the two exchanged patches one is of a merged level, of which no reading is called misread;
/// what clips above the signals that a limited range leaves isn't reached; the curve of sRGB is a power of 2.4 of a signal lifted by 5.5 % but in the
/// darkest levels, so that beside another error of colours either may be named; a matrix of X, Y, Z moves white and all primaries, so that neither white
/// nor the primaries of another encoding beside it can be told from it.
/// Beside a matrix of nine numbers the search names a channel's offset for its exponent, or the reverse, and weak colours or what all channels clip hide the
/// matrix: these four pairs are its own limit.
inline bool apart(const FaultCase& a, const FaultCase& b) {
    static const std::set<std::pair<std::string, std::string>> not_told = {
        {"red offset", "merged levels"},
        {"green offset", "merged levels"},
        {"blue offset", "merged levels"},
        {"dark levels crushed", "merged levels"},
        {"brightness up", "merged levels"},
        {"merged levels", "full taken for limited"},
        {"merged levels", "limited taken for full"},
        {"merged levels", "exchanged patches"},
        {"all clipped", "limited taken for full"},
        {"wrong encoding", "srgb curve"},
        {"srgb curve", "saturation up"},
        {"wrong encoding", "correction for another spectrum"},
        {"white off by 0.003", "correction for another spectrum"},
        {"white off by 0.01", "correction for another spectrum"},
        {"blue clipped", "limited taken for full"},
        {"red exponent", "correction for another spectrum"},
        {"green offset", "correction for another spectrum"},
        {"all clipped", "correction for another spectrum"},
        {"correction for another spectrum", "saturation down"},
        {"srgb curve", "hue turned"}};
    return a.family != b.family && !not_told.contains({a.name, b.name});
}

}  // namespace samelight::test
