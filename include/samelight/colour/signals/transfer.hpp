#pragma once
// Transfer functions, between signal and light: all of them.
//
// How each takes a signal below black, or light below 0, is the standard's word where it has one and otherwise a choice of this
// library's:
//   PlainGamma  odd about black (own choice)
//   Srgb        odd (IEC 61966-2-1/Amd 1, for sYCC)
//   Bt1886      clamped to no light, as its formula says; no signal for light below 0
//   Pq          odd (own choice: the standard ends at 0)
//   Hlg         OETF and OOTF odd (own choice); EOTF clamped, as its formula says; no signal for display light below 0
#include "samelight/colour/signals/transfer_hlg.hpp"  // IWYU pragma: export
#include "samelight/colour/signals/transfer_pq.hpp"   // IWYU pragma: export
#include "samelight/colour/signals/transfer_sdr.hpp"  // IWYU pragma: export
