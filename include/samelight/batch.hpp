#pragma once
// Many values at once: spectra to X, Y, Z, columns of colours to other spaces, differences and signals, lights as a whole population sees
// them. With xsimd as many numbers at a time as the processor takes, without it plain loops; numbers are float or double, units those of
// the functions for one value. samelight.hpp does not include this header.
//
// ```cpp
// #include <cstdio>
// #include <vector>
// #include <samelight/batch.hpp>
// int main() {
//     using namespace samelight;
//     const std::vector<double> X = {41.0, 20.0, 95.0}, Y = {36.0, 21.0, 100.0}, Z = {32.0, 25.0, 108.9};
//     std::vector<double> L(3), a(3), b(3);
//     lab_from_xyz({X, Y, Z}, Tristimulus<Cie1931_2deg>(95.05, 100.0, 108.88), Columns3<double>(L, a, b));
//     const SampledLight light = rebin(d_illuminant(6500), Sampling());
//     const auto seen = population_responses(Population(PopulationParameters{}), light.sampling, light.column());
//     std::printf("L* %.2f, %.2f, %.2f; %zu people\n", L[0], L[1], L[2], seen.size());
// }
// ```
//
// Columns3<T>                               three columns of one length, a colour to a row; they lend and own nothing
// tristimulus_batch()                       X, Y, Z of many spectra, a spectrum a row; ReadySensitivities for calls with a few at a time
// lab_from_xyz(), luv_from_xyz(), ictcp_from_bt2020(), jch_from_xyz(), ucs_from_xyz()    uniform spaces and appearance, and back
// delta_e_ab(), delta_e_cmc(), delta_e_94(), delta_e_2000(), delta_e_itp()               differences of many pairs
// luminance_from_signal(), signal_from_luminance()                                       transfer functions
// population_responses()                    L, M, S of every person of a Population to every light; xyz_from_lms() makes X, Y, Z of them
#include "samelight/colour/appearance/ciecam16_batch.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/signals/transfer_batch.hpp"
#include "samelight/colour/spaces/ictcp_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/colour/spaces/luv_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/observer/tristimulus_batch.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
