#pragma once
// The index: one header a job, each with a program that shows its use. This one includes all but batch.hpp; include the one that you need,
// since less of it compiles faster. Wavelengths are nm, luminances cd/m2, chromaticities CIE 1931 x, y unless a type says otherwise.
//
// ```cpp
// #include <cstdio>
// #include <samelight/samelight.hpp>
// int main() {
//     using namespace samelight;
//     try {
//         std::printf("samelight %s, ", version);
//         std::printf("%s\n", observer_named("cie2015-3deg").title().c_str());
//     } catch (const Error& e) {  // the library's only exception, one line in four parts
//         std::printf("%s wants %s\n", e.place().name.c_str(), e.wanted().c_str());
//     }
// }
// ```
//
// white.hpp        choose a white: what to dial in, how sure that is, and whether to move it at all
// metamerism.hpp   how far people will disagree about displays that an instrument reads alike
// meter.hpp        corrections of a filter colorimeter: fit, model, choose
// check.hpp        prove the work: targets, verdict, causes, about the chosen white and the plain one
// spectrum.hpp     what a spectrum holds and what is doubtful about it; bandwidth and shift taken out
// colour.hpp       chromaticity, uniform spaces, differences, appearance, transfer functions: one value at a time
// observers.hpp    standard observers, an age and a field, individuals, populations
// batch.hpp        many values at once (not included here: it brings the SIMD library)
#include "samelight/check.hpp"
#include "samelight/colour.hpp"
#include "samelight/metamerism.hpp"
#include "samelight/meter.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observers.hpp"
#include "samelight/spectrum.hpp"
#include "samelight/white.hpp"
