#pragma once
// The answer of `samelight meter choose`: which stored correction suits a display, or none, and whether last year's still holds.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/steps.hpp"
#include "samelight/display/panel_likeness.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/keep_verdict.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MeterChooseRequest {
    std::vector<std::string> panels;       ///< names or files (io::open_panel)
    std::vector<std::string> corrections;  ///< correction files
    std::string
        meter;  ///< file of the meter's sensitivities or observer (io::open_meter); empty: not known
    bool scale_on_a = false;
    double mismatch_percent = 5.0;     ///< supposed f1' of a meter that isn't known
    double limit_uv = uv_step_radius;  ///< good enough, u'v'
    std::string reference_white;       ///< x,y of one white now by the reference; empty: none
    std::string meter_white;  ///< x,y of the same by the meter, with the correction `under`
    std::string under;        ///< a file of `corrections`; empty: the only one
    double noise_xy = 0.0005;
    int readings = 1;
    Sampling sampling;
};

/// A display and the type that its light belongs to.
struct ChosenPanel {
    PanelChoice choice;
    bool generic = false;
    PanelType type;
};

/// What another correction would have made of the paired white.
struct WhiteWith {
    std::string name;  ///< a file, or "none"
    std::array<double, 2> xy;
    double off_xy;  ///< distance from the reference's
};

/// Last year's correction, or not.
struct KeepPart {
    std::string under;
    PairedWhite white;
    KeepVerdict verdict;
    std::vector<WhiteWith>
        others;  ///< none first, then every other correction of the same observer
};

/// The whole answer.
struct MeterChooseAnswer {
    std::vector<std::string> corrections;  ///< files, in the order of PanelChoice::with
    std::vector<std::string> made_on;      ///< what each says of its display; may be empty
    std::vector<ChosenPanel> panels;
    bool believable = true;  ///< false where rows or corrections are those of no filter meter
    bool meter_known = false;
    std::string meter;  ///< its file, where it is known
    double supposed_mismatch_percent = 0.0;
    double limit_uv = 0.0;
    std::optional<KeepPart> keep = {};
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Works the answer out. Throws Error, one line, for anything that can't be.
MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& request);

/// The answer for people. UTF-8, lines of at most 100 characters.
std::string meter_choose_page(const MeterChooseAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/meter-choose/1". An error's "white_from" says whether its white was read by both
/// instruments ("reading", which has the last word) or is to be expected ("expectation"); "primaries_xy" is null where nothing tells it. Without a
/// correction raw channels are no colours: "without_correction" and "worse_than_none" are null where all corrections are of such.
std::string meter_choose_json(const MeterChooseAnswer& answer);

}  // namespace samelight::report
