// A document as a page that stands by itself.
#include <string>
#include <variant>

#include "report/document/page_style.hpp"
#include "report/document/svg.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

using svg::escaped;

const char* class_of(Mood mood) {
    switch (mood) {
        case Mood::act:
            return "act";
        case Mood::done:
            return "done";
        case Mood::leave:
            return "leave";
        case Mood::look:
            return "look";
        case Mood::stop:
            return "stop";
    }
    return "act";
}

/// One piece after another; each knows its id.
class HtmlRenderer {
  public:
    explicit HtmlRenderer(std::string id) : id_(std::move(id)) {}

    std::string operator()(const VerdictLine& verdict) const {
        return "<p id=\"" + id_ + "\" class=\"verdict " + class_of(verdict.mood) + "\"><strong>" +
               escaped(verdict.verdict) + "</strong>" + escaped(verdict.between) +
               escaped(verdict.reason) + "</p>\n";
    }
    std::string operator()(const KeyFigures& all) const {
        std::string text = "<dl id=\"" + id_ + "\" class=\"figures\">\n";
        for (const KeyFigure& figure : all.figures) {
            text += "<dt>" + escaped(figure.label) + "</dt><dd><strong>" + escaped(figure.value) +
                    "</strong>" + (figure.note.empty() ? "" : " " + escaped(figure.note)) +
                    "</dd>\n";
        }
        return text + "</dl>\n";
    }
    std::string operator()(const Table& table) const {
        // Whoever moves by keyboard can reach what stands beyond the edge of a narrow screen.
        // What a table is about stays in sight when the table is moved.
        std::string text = table.caption.empty() ? ""
                                                 : "<p class=\"about\" id=\"" + id_ + "-about\">" +
                                                       escaped(table.caption) + "</p>\n";
        const std::string name = table.caption.empty() ? "aria-label=\"table\""
                                                       : "aria-labelledby=\"" + id_ + "-about\"";
        text += "<div id=\"" + id_ + "\" class=\"wide\" tabindex=\"0\" role=\"region\" " + name +
                ">\n<table>\n";
        text += "<thead><tr>";
        for (const Column& column : table.columns) {
            text += std::string("<th scope=\"col\"") + number_class(column) + ">" +
                    escaped(column.heading) + "</th>";
        }
        text += "</tr></thead>\n<tbody>\n";
        for (std::size_t i = 0; i < table.rows.size(); ++i) {
            text += static_cast<int>(i) == table.marked ? "<tr class=\"marked\">" : "<tr>";
            for (std::size_t k = 0; k < table.columns.size(); ++k) {
                text += std::string("<td") + number_class(table.columns[k]) + ">" +
                        (k < table.rows[i].size() ? escaped(table.rows[i][k]) : "") + "</td>";
            }
            text += "</tr>\n";
        }
        return text + "</tbody>\n</table>\n</div>\n";
    }
    std::string operator()(const Paragraph& paragraph) const {
        return "<p id=\"" + id_ + "\">" + escaped(paragraph.words) + "</p>\n";
    }
    std::string operator()(const List& list) const {
        std::string text = "<ul id=\"" + id_ + "\">\n";
        for (const std::string& item : list.items) {
            text += "<li>" + escaped(item) + "</li>\n";
        }
        return text + "</ul>\n";
    }
    std::string operator()(const Caution& caution) const {
        return "<p id=\"" + id_ + "\" class=\"caution\"><b>Note.</b> " + escaped(caution.words) +
               "</p>\n";
    }
    std::string operator()(const Chart& chart) const {
        const std::string drawing =
            std::visit([&](const auto& d) { return svg::drawn(chart, d, id_); }, chart.drawing);
        return "<figure id=\"" + id_ + "\">\n<figcaption>" + escaped(chart.title) +
               "</figcaption>\n" + drawing + "</figure>\n";
    }

  private:
    static const char* number_class(const Column& column) {
        return column.align == Align::right ? " class=\"number\"" : "";
    }

    std::string id_;
};

std::string section_of(const Section& section) {
    std::string open;
    std::string folded;
    for (const Block& block : section.blocks) {
        (block.level == Level::detail ? folded : open) +=
            std::visit(HtmlRenderer(block.id), block.content);
    }
    std::string text = "<section id=\"" + section.id + "\">\n";
    text += section.heading.empty() ? "" : "<h2>" + escaped(section.heading) + "</h2>\n";
    text += open;
    if (!folded.empty()) {
        text += "<details>\n<summary>Details</summary>\n" + folded + "</details>\n";
    }
    return text + "</section>\n";
}

}  // namespace

std::string html_of(const Document& document, const HtmlPage& page) {
    std::string text =
        "<!DOCTYPE html>\n<html lang=\"" + escaped(page.language) +
        "\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n<title>" +
        escaped(document.title) + "</title>\n<style>" + page_style +
        "</style>\n</head>\n<body>\n<main>\n<h1>" + escaped(document.title) + "</h1>\n";
    for (const Section& section : document.sections) {
        text += section_of(section);
    }
    text += "</main>\n";
    text += document.foot.empty() && page.imprint.empty() ? "" : "<footer>\n";
    for (const std::string& words : {document.foot, page.imprint}) {
        text += words.empty() ? "" : "<p>" + escaped(words) + "</p>\n";
    }
    text += document.foot.empty() && page.imprint.empty() ? "" : "</footer>\n";
    return text + "</body>\n</html>\n";
}

}  // namespace samelight::report
