#include "report/document/report_words.hpp"

#include <cstddef>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

Audience audience_named(const std::string& name, const std::string& where) {
    if (name == "client") {
        return Audience::client;
    }
    if (name != "practitioner") {
        throw Error(ErrorKind::input, where, "\"" + name + "\"", "practitioner or client");
    }
    return Audience::practitioner;
}

std::string page_of(Document document, const ReportWords& words) {
    if (!words.title.empty()) {
        document.title = words.title;
    }
    if (!words.notes.empty()) {
        Section said{"notes", ""};
        std::size_t number = 0;
        for (const std::string& note : words.notes) {
            said.add(std::to_string(++number), Level::essential, Paragraph{note});
        }
        document.sections.insert(document.sections.begin(), std::move(said));
    }
    return html_of(document, {"en-GB", "samelight " + std::string(version)});
}

}  // namespace samelight::report
