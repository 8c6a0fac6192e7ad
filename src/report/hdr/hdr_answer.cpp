#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/assess/error_words.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "report/words/meter_panels.hpp"

namespace samelight::report {

HdrAnswer answer_hdr(const HdrRequest& request) {
    ReadingsTyped typed = request.readings;
    typed.picture = PictureWindows::all;
    ReadingsOpened opened = open_patch_readings(typed);
    assess::HdrRequest asked;
    if (const auto white = chosen_white_typed(request.white)) {
        asked.white = std::array{white->x(), white->y()};
    }
    asked.readings = std::move(opened.readings);
    HdrAnswer answer;
    static_cast<assess::HdrAnswer&>(answer) =
        assess::about({request.readings.file}, [&] { return assess::answer_hdr(asked); });
    answer.source = request.readings.file;
    answer.readings = asked.readings.size();
    answer.corrected = opened.correction.has_value();
    say_how_read(request.readings.file, opened.understood, answer.understood);
    answer.warnings = doubts_of_white(request.white);
    std::move(opened.warnings.begin(), opened.warnings.end(), std::back_inserter(answer.warnings));
    return answer;
}

}  // namespace samelight::report
