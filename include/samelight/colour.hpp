#pragma once
// Colours one at a time: tristimulus values, chromaticity, temperature, uniform spaces, differences, appearance, adaptation, RGB encodings
// and transfer functions. The observer is part of a value's type. X, Y, Z are in the light's unit times nm, or relative; luminance is cd/m2,
// temperature K, hue degrees, signals 0 to 1.
//
// ```cpp
// #include <cstdio>
// #include <samelight/colour.hpp>
// int main() {
//     using namespace samelight;
//     const auto white = tristimulus<Cie1931_2deg>(d_illuminant(6500)).scaled_to(100.0);
//     const auto nearly = tristimulus(Chromaticity<Cie1931_2deg>(0.3100, 0.3250), 98.0);
//     if (const auto t = colour_temperature(chromaticity(nearly))) std::printf("%.0f K\n", t->cct_k);
//     std::printf("%.2f steps in u', v'\n", uv_steps(chromaticity(white), chromaticity(nearly)));
//     std::printf("CIEDE2000 %.2f\n", delta_e_2000(lab(white, white), lab(nearly, white)));
//     std::printf("PQ signal of 100 cd/m2: %.4f\n", Pq::signal(Luminance(100.0)).value());
// }
// ```
//
// tristimulus<O>(spectrum), Tristimulus<O>           X, Y, Z of observer O: Cie1931_2deg, Cie2015_2deg, ...; Any is known at run time only
// chromaticity(), uv1976(), uv1960()                 Chromaticity<O> and its uniform relatives; positions and offsets are different types
// colour_temperature(), ColourTemperature          correlated colour temperature and Duv; chromaticity() leads back
// uv_distance(), uv_steps(), within_uv_steps()       distances in u', v' and in steps that can just be seen
// lab(), luv(), ictcp(), tristimulus()               CIELAB, CIELUV, ICtCp and back
// delta_e_ab(), delta_e_cmc(), delta_e_94(), delta_e_2000(), delta_e_itp()    differences
// AppearanceModel, ViewingConditions                 CIECAM16, CAM16 and CAM16-UCS
// adaptation(), AdaptationTransform                   what a light must become under another white
// PlainGamma, Srgb, Bt1886, Pq, HlgScene, HlgDisplay transfer functions between Signal and Luminance or LinearLight; Quantisation: codes
// LinearRgb<Bt709>, RgbEncoding                      RGB from primaries and white
#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer.hpp"
#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/spaces/luv.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/spectrum.hpp"
