#pragma once
// How far people will disagree about displays that an instrument reads alike: for every pair of a list, what people of all ages see between
// the whites and over measured surface colours, as set by instrument, with white targets, and at best. Differences are CIEDE2000 without
// unit; spectra are radiance in W/(sr m2 nm) or relative power over nm; ages are years, fields of view degrees.
//
// ```cpp
// #include <cstdio>
// #include <samelight/metamerism.hpp>
// int main() {
//     using namespace samelight;
//     assess::MetamerismRequest request{illuminant_reference("D65"), {}};
//     for (const char* type : {"crt", "oled-rgb"})  // or one's own: {"left", Panel("left", spectra)}
//         request.panels.push_back({type, generic_panel(generic_model(type)), &generic_model(type)});
//     const assess::MetamerismAnswer answer = assess::answer_metamerism(request);
//     const PairFigures& with_targets = answer.matrix.pairs.front().figures[1];
//     std::printf("white: two people in three see less than %.1f\n", with_targets.white_de00.two_in_three);
// }
// ```
//
// assess::answer_metamerism(MetamerismRequest)   the whole answer, MetamerismAnswer; metamerism_left_out() says what it goes without
// assess::MetamerismRequest     the white that all are set to, 2 to 26 displays, observer, population, viewers, deviation functions
// assess::ListedPanel           a display of the list: its name and Panel; for a built-in type its model as well
// PanelMatrix, MatrixPair, PairFigures    the figures of every pair: as set, with white targets, every colour matched
// assess::MetamerismPair        beside them: whether the two look alike, which eyes see the most, what units of a type differ by
// assess::Ranking               pairs from the best to the worst, measured and generic ones apart
// illuminant_reference(), light_reference(), display_reference()    the white
// Population, Ages              who looks
// Warning, metamerism_warning_kinds, ...    what is doubtful: codes, and the facts that each brings
#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/assess/warning_kinds.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/metamerism/warning_kinds.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/spectrum/warning_kinds.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/warning_kinds.hpp"
