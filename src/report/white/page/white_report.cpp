#include <cstddef>
#include <string>
#include <utility>

#include "report/document/report_words.hpp"
#include "report/white/page/white_client.hpp"
#include "report/white/page/white_document.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_report(const WhiteAnswer& answer, const ReportWords& words) {
    if (words.audience == Audience::client) {
        return page_of(white_client_document(answer, answer.displays), words);
    }
    Document document = white_document(answer, answer.displays);
    if (!answer.errors.empty()) {
        Section left_out{"left-out", "Left out"};
        std::size_t number = 0;
        for (const Error& error : answer.errors) {
            left_out.add(std::to_string(++number), Level::essential,
                         Caution{"left_out", error.what()});
        }
        document.sections.push_back(std::move(left_out));
    }
    return page_of(std::move(document), words);
}

}  // namespace samelight::report
