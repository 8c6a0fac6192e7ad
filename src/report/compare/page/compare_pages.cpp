// What `samelight compare` prints, and its reports.
#include <string>

#include "report/compare/page/compare_document.hpp"
#include "report/document/report_words.hpp"
#include "samelight/report/check/compare_answer.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

std::string compare_page(const ComparePage& answer, const TextPage& page) {
    return text_of(compare_document(answer), page);
}

std::string compare_report(const ComparePage& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? compare_client_document(answer)
                                                      : compare_document(answer),
                   words);
}

}  // namespace samelight::report
