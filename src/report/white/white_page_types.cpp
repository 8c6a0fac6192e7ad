#include "report/white/white_page_types.hpp"

#include <cstddef>
#include <string>

#include "report/words/people_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/display/types/generic_type.hpp"
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
           ". If the first looks like the reference it is " + std::string(first.model->name()) +
           ", if the second, " + std::string(second.model->name()) +
           (answer.panels.size() > 2 ? "; and so on." : ".");
}

}  // namespace

std::string types_text(const assess::WhiteAnswer& answer) {
    if (!answer.types_apart) {
        return "";
    }
    if (answer.panels.size() == 1) {
        return "\n" + paragraph("", "Of the types known here only " +
                                        std::string(answer.panels[0].model->name()) +
                                        " reads so; look whether it is one: " +
                                        std::string(answer.panels[0].model->recognise()));
    }
    std::string page =
        "\n" + paragraph("", "The type isn't known. These read so, and one look decides:");
    for (const assess::PanelPart& part : answer.panels) {
        page += paragraph("  - ", std::string(part.model->name()) + " (" +
                                      share_text(part.probability) +
                                      "): " + std::string(part.model->recognise()));
    }
    return page + paragraph("  ", match_by_eye_text(answer));
}

}  // namespace samelight::report
