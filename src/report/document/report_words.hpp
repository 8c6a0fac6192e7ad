#pragma once
// What every report has around its document: the owner's title and notes, and what made it.
#include <string>

#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// The document as a page that stands by itself, under the words' title and with their notes first.
std::string page_of(Document document, const ReportWords& words);

}  // namespace samelight::report
