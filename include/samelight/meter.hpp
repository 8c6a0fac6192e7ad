#pragma once
// Correcting a filter colorimeter: a correction from paired readings, one from the meter's sensitivities and a display's spectra, and which
// of several is safe on a display. Readings are X, Y, Z in cd/m2; sensitivities and spectra are over nm, in any unit that is the same for
// all of one meter or display.
//
// ```cpp
// #include <cstdio>
// #include <samelight/meter.hpp>
// int main() {
//     using namespace samelight;
//     constexpr auto reference = Instrument::reference, meter = Instrument::meter;
//     const assess::MeterFitRequest request{{"this display",  // patch, instrument, round, X, Y, Z in cd/m2
//         {{"red", reference, 1, {48.5, 25.0, 2.3}}, {"red", meter, 1, {47.8, 24.1, 2.6}},
//          {"green", reference, 1, {42.5, 85.0, 14.2}}, {"green", meter, 1, {43.8, 84.3, 14.9}},
//          {"blue", reference, 1, {22.5, 9.0, 118.5}}, {"blue", meter, 1, {22.7, 9.7, 113.9}},
//          {"white", reference, 1, {113.5, 119.0, 135.0}}, {"white", meter, 1, {114.3, 118.1, 131.4}}}}};
//     const FitJudgement found = assess::answer_meter_fit(request).judgement;
//     std::printf("%s: %s\n", code_of(found.verdict), code_of(found.reason));
// }
// ```
//
// assess::answer_meter_fit(MeterFitRequest)        from paired readings: verdict, uncertainty, colours left out, other methods, what to read next
// assess::answer_meter_model(MeterModelRequest)    from sensitivities and spectra, to any observer
// assess::answer_meter_choose(MeterChooseRequest)  which stored correction suits a display, or none; whether last year's still holds
// assess::answer_meter_table(MeterTableRequest)    what the correction made on each display does on each of the others
// assess::DisplayReadings, InstrumentReading       readings of one display by both instruments; xyz_from_xyY() for x, y, Y
// MeterRows, meter_rows()                          a meter's sensitivities, from MeterResponses or from an observer
// assess::ListedPanel, assess::NamedCorrection     a display of a list; a correction that is at hand
// Correction, StoredCorrection                     a correction, and with what is kept beside it; corrected_reading() applies it
// FitJudgement, assess::ModelVerdict, PanelChoice  the verdicts, their reasons as enumerators, and the facts; code_of() gives their codes
// Warning, meter_warning_kinds, ...                what is doubtful: codes, and the facts that each brings
#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_choose.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/assess/warning_kinds.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/warning_kinds.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/spectrum/warning_kinds.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/warning_kinds.hpp"
