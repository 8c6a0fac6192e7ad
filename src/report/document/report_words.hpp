#pragma once
// What every report has around its document: the owner's title and notes, and what made it.
#include <span>
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// The document with the names of what it goes without, and why where its reader can mend it, before everything else.
Document without(Document document, std::span<const Error> left_out,
                 Audience audience = Audience::practitioner);

/// The document as a page that stands by itself, under the words' title and with their notes first.
/// @param left_out  what was wrong with files that the answer does without: the page is handed on, the terminal isn't
std::string page_of(Document document, const ReportWords& words,
                    std::span<const Error> left_out = {});

}  // namespace samelight::report
