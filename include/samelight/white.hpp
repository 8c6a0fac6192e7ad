#pragma once
// Choosing a white: what the instrument must read, in CIE 1931 x, y, on a display so that its white looks like a reference light, how sure
// that is, and whether to move the white at all. Spectra are radiance in W/(sr m2 nm) or relative power over nm, all columns of a display in
// one unit; ages are years, fields of view degrees.
//
// ```cpp
// #include <cstdio>
// #include <samelight/white.hpp>
// int main() {
//     using namespace samelight;
//     assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
//     tube.white = {WhiteSetTo{{0.3127, 0.3290}}};
//     const PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));  // or one's own
//     const assess::WhiteRequest request{assess::display_as_reference(tube), {assess::measured_panel("set", spectra)}};
//     const assess::PanelPart part = assess::answer_white(request).panels.front();
//     std::printf("x %.4f  y %.4f\n", part.dialled().xy.x(), part.dialled().xy.y());
//     if (part.budget && part.advice) std::printf("x within %.4f: %s\n", part.budget->half_width_x(), code_of(part.advice->verdict));
// }
// ```
//
// assess::answer_white(WhiteRequest)   the whole answer, WhiteAnswer: a PanelPart a display, and for several the ways to set them together
// assess::WhiteRequest                 reference, displays; observers, population, viewers (age, field), whites set by eye, instrument
// assess::measured_panel()             a display from its PanelSpectra: red, green, blue, white and black
// assess::generic_display()            a display of a built-in type; generic_models() lists them, generic_model() finds one
// NativeWhite, WhiteSetTo, WhiteAsItStands, assess::measured_white()    what a display shows before anything is moved
// assess::display_as_reference(), assess::measured_reference(), illuminant_reference("D65")     the light to look like
// assess::PanelPart                    dialled() is what to dial in; targets (and their warnings: code, facts), budget, advice, viewer_group
// Target, TargetBudget, Advice         a target in x, y with light and drive; its uncertainty cause by cause; MOVE, ASK THE EYES or LEAVE, why, by what
// white_target(), white_targets()      the target alone, without uncertainty and verdict
// Warning, white_warning_kinds, spectrum_warning_kinds, assess_warning_kinds     what is doubtful: codes, and the facts that each brings
// observer_named("cie2015-2deg")       an observer for WhiteRequest::observers
#include "samelight/assess/warning_kinds.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/spectrum/warning_kinds.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/warning_kinds.hpp"
