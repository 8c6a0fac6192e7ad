#pragma once
// Observers as values: the standard ones, cone fundamentals for an age and a field, one person who differs from the average, and whole
// populations. Sensitivities are in energy units over nm; ages are years from 20 to 80, fields degrees from 1 to 10, densities per cent of
// the average, shifts of pigments nm.
//
// ```cpp
// #include <cstdio>
// #include <samelight/observers.hpp>
// int main() {
//     using namespace samelight;
//     const SampledLight light = rebin(d_illuminant(6500), Sampling());
//     const Tristimulus<Any> cones = tristimulus(observer_named("cie2006:64:4"), light);  // 64 years, 4 degrees
//     std::printf("L %.1f  M %.1f  S %.1f\n", cones.X(), cones.Y(), cones.Z());
//     const Population people(PopulationParameters{.ages = Ages::range(20, 70), .count = 256});
//     const Individual person = people.individual(7);
//     std::printf("%s\n", individual_id(person).c_str());
//     std::printf("Y %.1f\n", tristimulus(colour_matching_observer(person), light).Y());
// }
// ```
//
// observer_named("cie1931-2deg")            by name, or cie2006:AGE:FIELD; named_observers() lists the names
// standard_observer<O>(), standard_observers()    Cie1931_2deg, Cie1964_10deg, Cie2015_2deg, Cie2015_10deg, JuddVos1978
// Observer, Sensitivities                   its rows over its own wavelengths; on a Sampling, Observer::on()
// cone_fundamentals(), ConeConditions       the average eye of an age and a field
// Individual, Deviations, cone_observer(), colour_matching_observer()    one person's L, M, S, and X, Y, Z
// Population, PopulationParameters, Ages    people as a distribution of ages and deviations; person i is the same everywhere
// tristimulus(), Tristimulus<O>             what an observer makes of a light
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
