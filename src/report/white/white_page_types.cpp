#include "report/white/white_page_types.hpp"

#include <algorithm>
#include <string>

#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// What a match by eye tells of the type.
std::string match_by_eye_text(const assess::WhiteAnswer& answer) {
    const assess::PanelPart& first = answer.panels[0];
    const assess::PanelPart& second = answer.panels[1];
    const std::string apart = to_text(answer.types_apart->uv, 4) + " u'v'";
    if (!answer.types_apart->seen) {
        return "Their whites lie no more than " + apart +
               " apart, which can't be seen: any of them will do.";
    }
    const auto white = [](const assess::PanelPart& part) {
        return "x " + to_text(part.dialled().xy.x(), 3) + ", y " +
               to_text(part.dialled().xy.y(), 3);
    };
    return "Or by eye, as their whites lie up to " + apart + " apart: set the display to " +
           white(first) + " and look at it beside the reference, then to " + white(second) +
           (answer.panels.size() > 2 ? ", and so on" : "") +
           ". Keep the one that looks nearer, whatever the type: to that eye it is the better white.";
}

/// Whether not even the nearest of its units reads so.
bool unlike_type(const assess::PanelPart& part) {
    return std::any_of(
        part.targets.warnings.begin(), part.targets.warnings.end(),
        [](const Warning& warning) { return warning.code == "readings_unlike_type"; });
}

}  // namespace

std::string types_text(const assess::WhiteAnswer& answer) {
    if (!answer.types_apart) {
        return "";
    }
    std::string page = "\n";
    if (answer.panels.size() == 1) {
        const assess::PanelPart& part = answer.panels[0];
        const std::string name(part.model->name());
        page += paragraph(
            "", "Of the " + std::to_string(generic_models().size()) + " types known here " +
                    (unlike_type(part) ? name + " comes nearest, though none of its units reads so"
                                       : "only " + name + " reads so") +
                    "; look whether it is one: " + std::string(part.model->recognise()));
    } else {
        page += paragraph("", "The type isn't known. Of the " +
                                  std::to_string(generic_models().size()) +
                                  " known here these read so, and a look at the display decides:");
        for (const assess::PanelPart& part : answer.panels) {
            page += paragraph("  - ", std::string(part.model->name()) + " (" +
                                          share_text(part.probability) +
                                          "): " + std::string(part.model->recognise()));
        }
        page += paragraph("  ", match_by_eye_text(answer));
    }
    for (const Warning& warning : answer.types_apart->warnings) {
        page += paragraph("! ", command_sentence(warning));
    }
    return page;
}

}  // namespace samelight::report
