#include "report/white/page/white_types.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"

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

Section types_section(const assess::WhiteAnswer& answer) {
    Section section{"types", ""};
    const auto say = [&](const char* name, std::string words) {
        section.add(name, Level::essential, Paragraph{std::move(words)});
    };
    const std::string known = std::to_string(generic_models().size());
    if (answer.panels.size() == 1) {
        const assess::PanelPart& part = answer.panels[0];
        const std::string name(part.model->name());
        say("only",
            "Of the " + known + " types known here " +
                (unlike_type(part) ? name + " comes nearest, though none of its units reads so"
                                   : "only " + name + " reads so") +
                "; look whether it is one, and don't use the white below if it isn't: " +
                std::string(part.model->recognise()));
    } else {
        say("several", "The type isn't known. Of the " + known +
                           " known here these read so, and a look at the display decides:");
        List types;
        for (const assess::PanelPart& part : answer.panels) {
            types.items.push_back(std::string(part.model->name()) + " (" +
                                  share_text(part.probability) +
                                  "): " + std::string(part.model->recognise()));
        }
        section.add("list", Level::essential, std::move(types));
        say("by-eye", match_by_eye_text(answer));
    }
    for (const Warning& warning : answer.types_apart->warnings) {
        section.add(warning.code, Level::essential,
                    Caution{warning.code, command_sentence(warning)});
    }
    return section;
}

}  // namespace samelight::report
