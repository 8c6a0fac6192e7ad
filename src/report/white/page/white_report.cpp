#include <cstddef>
#include <string>
#include <utility>

#include "report/white/page/white_document.hpp"
#include "report/words/report_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_report(const WhiteAnswer& answer, const ReportWords& words) {
    return page_of(white_document(answer, answer.displays), words);
}

}  // namespace samelight::report
