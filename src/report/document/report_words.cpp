#include "report/document/report_words.hpp"

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "report/words/short_name.hpp"
#include "samelight/io/text_for_people.hpp"
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

/// Each file once, whatever was wrong in it.
std::vector<std::string> names_left_out(std::span<const Error> left_out, Audience audience) {
    std::vector<std::string> names;
    for (const Error& error : left_out) {
        std::string name = audience == Audience::client ? plain_name(error.place().name)
                                                        : io::harmless(error.place().name);
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(std::move(name));
        }
    }
    return names;
}

}  // namespace

Document without(Document document, std::span<const Error> left_out, Audience audience) {
    if (left_out.empty()) {
        return document;
    }
    std::string names;
    for (const std::string& name : names_left_out(left_out, audience)) {
        names += (names.empty() ? "" : ", ") + name;
    }
    Section section{"left-out", ""};
    section.add("names", Level::essential,
                Paragraph{audience == Audience::client
                              ? "Could not be read, and is not in this: " + names + "."
                              : "Not in this answer: " + names + "."});
    std::size_t number = 0;
    for (const Error& error : left_out) {
        if (audience == Audience::practitioner) {
            section.add(std::to_string(++number), Level::reason, Caution{"left_out", error.what()});
        }
    }
    document.sections.insert(document.sections.begin(), std::move(section));
    return document;
}

std::string page_of(Document document, const ReportWords& words, std::span<const Error> left_out) {
    document = without(std::move(document), left_out, words.audience);
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
