#include <string>

#include "report/document/report_words.hpp"
#include "report/spectrum/page/spectrum_client.hpp"
#include "report/spectrum/page/spectrum_document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

std::string spectrum_page(const SpectrumAnswer& answer, const TextPage& page) {
    return text_of(spectra_document({&answer, 1}), page);
}

std::string spectra_page(const SpectraAnswer& answer, const TextPage& page) {
    return text_of(without(spectra_document(answer.files), answer.errors), page);
}

std::string spectra_report(const SpectraAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? spectra_client_document(answer.files)
                                                      : spectra_document(answer.files),
                   words, answer.errors);
}

}  // namespace samelight::report
