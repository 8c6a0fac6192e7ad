// samelight for C, and for whatever calls C: what the instrument must read so that displays look alike, how sure that is, who will
// disagree, corrections of filter meters, and the proof of the work.
//
// ```c
// #include <samelight/c/samelight.h>
// #include <stdio.h>
// int main(void) {
//     samelight_panel *crt = NULL, *oled = NULL, *as_set = NULL;
//     samelight_reference *reference = NULL;
//     samelight_white_answer *answer = NULL;
//     samelight_error error;
//     samelight_white_part part;
//     samelight_white_part_defaults(&part);
//     if (samelight_panel_generic("crt", &crt, &error) == SAMELIGHT_OK &&
//         samelight_panel_with_white(crt, 0.3127, 0.3290, &as_set, &error) == SAMELIGHT_OK &&
//         samelight_reference_panel(as_set, &reference, &error) == SAMELIGHT_OK &&
//         samelight_panel_generic("oled-rgb", &oled, &error) == SAMELIGHT_OK &&
//         samelight_white(reference, (const samelight_panel *const *)&oled, 1, NULL, &answer, &error) == SAMELIGHT_OK &&
//         samelight_white_answer_part(answer, 0, &part, &error) == SAMELIGHT_OK)
//         printf("x %.4f  y %.4f  within %.4f, %.4f: %s\n", part.x, part.y, part.half_width_x, part.half_width_y, part.verdict_code);
//     else
//         fprintf(stderr, "%s\n", error.message);
//     samelight_white_answer_destroy(answer);
//     samelight_reference_destroy(reference);
//     samelight_panel_destroy(as_set);
//     samelight_panel_destroy(oled);
//     samelight_panel_destroy(crt);
//     return error.status == SAMELIGHT_OK ? 0 : 1;
// }
// ```
//
// What holds everywhere:
// - A function that can fail returns a samelight_status and takes `error` last, which may be null; where it isn't, it is filled in at every call,
//   with status SAMELIGHT_OK and an empty message where all went well. There is no other place for errors: no state, global or by thread.
// - On an error outputs are as they were, but that a handle's or a text's is set to null. Texts and handles that come out are the caller's, to be given to
//   the type's _destroy, which takes null. No exception leaves the library.
// - A pointer must not be null unless it is said that it may. A text is UTF-8 and ends in 0; one with a length need not.
// - Const handles may be used by any number of threads at once. Nothing that a function was given is kept or changed but what isn't const.
// - Counts are of rows or entries, strides are in doubles from one row to the next, 0 for rows that lie close together. A stride may not be smaller than
//   a row. Inputs and outputs may be the same memory.
// - Structs that begin with `size` are filled by their _defaults function first and can grow: a program that was built for an earlier version goes on.
//   A null pointer for one that is const stands for the defaults, where it is said that it may be null.
// - Spectra are radiance in W/(sr m2 nm) or relative power, over wavelengths in nm, ascending, even or not; all lights of a display in one unit.
//   X, Y, Z of instruments are cd/m2. Problems are solved on 380-780 nm by 1 nm (samelight_sampling, where another may be named).
// - Verdicts and the like are told by codes, short lower-case texts that never change and live as long as the program.
//
// One file a subject:
// base.h         errors, versions, texts, arrays
// spectra.h      observers, spectra and colours
// panels.h       displays, and the light that whites are to look like
// people.h       populations, and where their targets lie
// white.h        what to dial in, how sure that is, and whether to move a white at all
// metamerism.h   how people will disagree
// corrections.h  corrections of a filter meter
// check.h        the proof of the work
#ifndef SAMELIGHT_C_SAMELIGHT_H
#define SAMELIGHT_C_SAMELIGHT_H

#include "samelight/c/base.h"
#include "samelight/c/check.h"
#include "samelight/c/corrections.h"
#include "samelight/c/metamerism.h"
#include "samelight/c/panels.h"
#include "samelight/c/people.h"
#include "samelight/c/spectra.h"
#include "samelight/c/white.h"

#endif
