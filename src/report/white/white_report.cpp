#include <string>
#include <utility>

#include "report/white/white_document.hpp"
#include "report/words/command_words.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_report(const WhiteAnswer& answer, const ReportWords& words) {
    Document document = white_document(answer, answer.displays);
    if (!words.title.empty()) {
        document.title = words.title;
    }
    Section said{"about", "", {}};
    std::size_t number = 0;
    for (const std::string& note : words.notes) {
        said.add("note-" + std::to_string(++number), Level::essential, Paragraph{note});
    }
    const auto xy = answer.reference.xy();
    said.add("reference", Level::essential,
             Paragraph{"The white is to look like " + answer.reference.name + ": " +
                       answer.reference.meaning + " (x " + to_text(xy.x(), 4) + ", y " +
                       to_text(xy.y(), 4) + ")."});
    for (const Warning& warning : answer.reference.warnings) {
        said.add("reference-" + warning.code, Level::essential,
                 Caution{warning.code, command_sentence(warning)});
    }
    document.sections.insert(document.sections.begin(), std::move(said));
    return html_of(
        document,
        {"en-GB",
         "samelight " + std::string(version) +
             ". x, y are CIE 1931, as instruments read. These observers describe normal "
             "trichromatic vision and are no medical statement. Note the settings before changing "
             "them; the equipment's own guidance and local rules come first."});
}

}  // namespace samelight::report
