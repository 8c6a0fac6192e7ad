// What `samelight visit` prints, and its report.
#include <string>

#include "report/document/report_words.hpp"
#include "report/visit/page/visit_document.hpp"
#include "samelight/report/check/visit_answer.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

std::string visit_page(const VisitPage& answer, const TextPage& page) {
    return text_of(visit_document(answer), page);
}

std::string visit_report(const VisitPage& answer, const ReportWords& words) {
    return page_of(
        words.audience == Audience::client ? visit_client_document(answer) : visit_document(answer),
        words);
}

}  // namespace samelight::report
