#include <span>
#include <string>

#include "report/document/report_words.hpp"
#include "report/white/page/white_document.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_page(const assess::WhiteAnswer& answer, const TextPage& page, BudgetOnPage budget,
                       std::span<const Error> left_out) {
    return text_of(without(white_document(answer, {}, budget), left_out), page);
}

}  // namespace samelight::report
