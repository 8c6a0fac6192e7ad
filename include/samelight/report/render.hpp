#pragma once
// A document shown: as text on a terminal, as a page that stands by itself.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/report/document.hpp"

namespace samelight::report {

/// Whether bold and colour mark what stands out. The words say it all without them.
enum class Emphasis { none, terminal };

/// How text is shown.
struct TextPage {
    /// Columns, at least 40.
    std::size_t width = 100;
    /// Pieces beyond it are left out.
    Level deepest = Level::essential;
    Emphasis emphasis = Emphasis::none;
};

/// The document as lines of at most page.width columns of a terminal, each ended; a longer word goes on in the next. Charts aren't
/// shown: what they show stands in the document in words and figures, too. What would steer a terminal is escaped wherever the document has it (io::harmless()), so that nothing but
/// the emphasis asked for does. Throws nothing of its own.
std::string text_of(const Document& document, const TextPage& page = {});

/// How a page is shown.
struct HtmlPage {
    std::string language = "en-GB";
    /// Behind the document's last line: what made the page.
    std::string imprint = {};
};

/// Who reads a report.
enum class Audience {
    /// Whoever sets displays up: verdicts, figures, how sure.
    practitioner,
    /// Whoever owns them: plain words, no tables of doubt.
    client
};

/// "practitioner" or "client". Throws Error (input), `where` first, for another name.
Audience audience_named(const std::string& name, const std::string& where);

/// What somebody says about a report.
struct ReportWords {
    /// The page's heading; empty: what was asked.
    std::string title = {};
    /// Paragraphs behind the heading.
    std::vector<std::string> notes = {};
    Audience audience = Audience::practitioner;
};

/// The document as one HTML file: no script, no request, light or dark as the reader's system is, for screens from 360 pixels and for A4.
/// Pieces of Level::detail are folded away. Whatever stands in the document is text on the page, markup in it included.
std::string html_of(const Document& document, const HtmlPage& page = {});

}  // namespace samelight::report
