#pragma once
// Proving the work: whether a display shows what it is meant to, about the white that was chosen, and what is wrong where it doesn't. Signals are
// R', G', B' from 0 (black) to 1 (white); readings are X, Y, Z of CIE 1931 in cd/m2, corrected.
//
// ```cpp
// #include <cstdio>
// #include <samelight/check.hpp>
// int main() {
//     using namespace samelight;
//     const IntendedDisplay plain(RgbEncoding::of<Bt709>(), SignalCurve({CurveKind::power, 100.0, 0.0, 2.4}));
//     const IntendedDisplay chosen = plain.with_white(Chromaticity<Cie1931_2deg>(0.3067, 0.3180));
//     std::vector<PatchReading> readings;
//     for (const SignalPatch& patch : proof_patches(plain, Quantisation(8, SignalRange::full))) {
//         readings.push_back({patch.name, plain.xyz(patch.signal), patch.signal});  // a set whose white was never moved
//     }
//     const auto answer = assess::answer_check({{"this set", readings, chosen, plain}, {}, true});
//     std::printf("%s, the largest DE00 %.1f\n", code_of(answer.verdict), answer.now.chosen.gate.largest);
//     for (const Fault& fault : answer.now.found.faults) {
//         std::printf("%s: x %+.4f, y %+.4f\n", code_of(fault.kind), fault.xy[0], fault.xy[1]);
//     }
// }
// ```
//
// assess::answer_check(CheckRequest)         verdict, groups, greys, screen and causes, about the chosen white and the plain one, before and now
// assess::answer_targets(TargetsRequest)     what the instrument must read on each patch: the white replaced, or each patch seen alike
// SignalCurve, IntendedDisplay               from signals to the light that is meant; with_white() replaces the white
// proof_patches(), SignalPatch               the 133 patches of a proof, and what they stand for
// PatchReading                               one reading of a patch
// colour_gap(), answer_gate()                measures of one patch; pass, fail or can't tell, with the probability of conformity (JCGM 106)
// find_faults(), Fault, FaultKind            causes, each beside the others; code_of() gives their codes
// grey_track(), uniformity()                 balance, gamma and what can't be measured near black; positions of the screen
#include "samelight/assess/check/check.hpp"
#include "samelight/assess/check/targets.hpp"
#include "samelight/check/faults/fault.hpp"
#include "samelight/check/faults/find_faults.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/check/patches/patch_target.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/proof/conformity.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/proof/uniformity.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
