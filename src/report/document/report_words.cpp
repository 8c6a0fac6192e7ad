#include "report/document/report_words.hpp"

#include <cstddef>
#include <span>
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

namespace {

Section left_out_section(const ReportWords& words, std::span<const Error> left_out) {
    Section section{"left-out", "Left out"};
    if (words.audience == Audience::client) {
        section.add("number", Level::essential,
                    Paragraph{std::to_string(left_out.size()) +
                              " of the files that were to be looked at could not be read, and what "
                              "they hold is not on this page."});
        return section;
    }
    std::size_t number = 0;
    for (const Error& error : left_out) {
        section.add(std::to_string(++number), Level::essential, Caution{"left_out", error.what()});
    }
    return section;
}

}  // namespace

std::string page_of(Document document, const ReportWords& words, std::span<const Error> left_out) {
    if (!left_out.empty()) {
        document.sections.push_back(left_out_section(words, left_out));
    }
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
