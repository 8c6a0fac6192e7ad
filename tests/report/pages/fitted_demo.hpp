#pragma once
// The demo's correction, fitted once for all tests of what is said of it.
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::test {

inline const report::MeterFitAnswer& fitted_demo() {
    static const report::MeterFitAnswer answer = [] {
        report::MeterFitRequest request;
        request.files = {SAMELIGHT_DATA "/demo/client-set-readings.csv"};
        request.resamples = 200;
        return report::answer_meter_fit(request);
    }();
    return answer;
}

}  // namespace samelight::test
