// What the commands about meters print, and their reports.
#include <string>

#include "report/document/report_words.hpp"
#include "report/meter/page/meter_choose_document.hpp"
#include "report/meter/page/meter_client.hpp"
#include "report/meter/page/meter_fit_document.hpp"
#include "report/meter/page/meter_model_document.hpp"
#include "report/meter/page/meter_table_document.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

std::string meter_model_page(const MeterModelAnswer& answer, const TextPage& page) {
    return text_of(meter_model_document(answer), page);
}

std::string meter_model_report(const MeterModelAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? meter_model_client_document(answer)
                                                      : meter_model_document(answer),
                   words);
}

std::string meter_table_page(const MeterTableAnswer& answer, const TextPage& page) {
    return text_of(without(meter_table_document(answer), answer.errors), page);
}

std::string meter_table_report(const MeterTableAnswer& answer, const ReportWords& words) {
    return page_of(meter_table_document(answer), words, answer.errors);
}

std::string meter_choose_page(const MeterChooseAnswer& answer, const TextPage& page) {
    return text_of(without(meter_choose_document(answer), answer.errors), page);
}

std::string meter_choose_report(const MeterChooseAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? meter_choose_client_document(answer)
                                                      : meter_choose_document(answer),
                   words, answer.errors);
}

std::string meter_fit_page(const MeterFitAnswer& answer, const TextPage& page) {
    return text_of(without(meter_fit_document(answer), answer.errors), page);
}

std::string meter_fit_report(const MeterFitAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? meter_fit_client_document(answer)
                                                      : meter_fit_document(answer),
                   words, answer.errors);
}

}  // namespace samelight::report
