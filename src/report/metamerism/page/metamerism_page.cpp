#include <string>

#include "report/document/report_words.hpp"
#include "report/metamerism/page/metamerism_client.hpp"
#include "report/metamerism/page/metamerism_document.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

std::string metamerism_page(const MetamerismAnswer& answer, const TextPage& page) {
    return text_of(without(metamerism_document(answer), answer.errors), page);
}

std::string metamerism_report(const MetamerismAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? metamerism_client_document(answer)
                                                      : metamerism_document(answer),
                   words, answer.errors);
}

}  // namespace samelight::report
