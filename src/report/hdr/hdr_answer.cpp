#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/assess/error_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "report/proof/readings_doubts.hpp"
#include "report/words/meter_panels.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {

HdrAnswer answer_hdr(const HdrRequest& request) {
    ReadingsTyped typed = request.readings;
    typed.picture = PictureWindows::all;
    ReadingsOpened opened = open_patch_readings(typed);
    assess::HdrRequest asked;
    if (const auto white = chosen_white_typed(request.white)) {
        asked.white = std::array{white->x(), white->y()};
    }
    const auto read_white = measured_ends(opened.readings).white_cd_m2;
    if (read_white && *read_white > 0.0 && *read_white <= most_relative_white_cd_m2) {
        throw Error(ErrorKind::input, ErrorPlace{io::harmless(request.readings.file)},
                    "a full white of " + to_text(std::round(*read_white * 1e4) / 1e4) +
                        " cd/m2: luminances relative to white, or of another unit",
                    "Y in cd/m2, without which nothing can be said of HDR");
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
