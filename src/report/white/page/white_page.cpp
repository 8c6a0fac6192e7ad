#include <string>

#include "report/white/page/white_document.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

std::string white_page(const assess::WhiteAnswer& answer, const TextPage& page,
                       BudgetOnPage budget) {
    return text_of(white_document(answer, {}, budget), page);
}

}  // namespace samelight::report
