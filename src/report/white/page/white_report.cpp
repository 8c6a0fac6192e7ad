#include <string>

#include "report/document/report_words.hpp"
#include "report/white/page/white_client.hpp"
#include "report/white/page/white_document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_report(const WhiteAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client
                       ? white_client_document(answer, answer.displays)
                       : white_document(answer, answer.displays),
                   words, answer.errors);
}

}  // namespace samelight::report
