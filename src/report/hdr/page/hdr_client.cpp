#include "report/hdr/page/hdr_client.hpp"

#include <cmath>
#include <string>
#include <utility>

#include "report/words/people_words.hpp"

namespace samelight::report {
namespace {

/// "about 1,040 cd/m2": to three figures, which is what a peak is known to.
std::string brightness_for_client(double cd_m2) {
    const double unit = cd_m2 >= 1000.0 ? 10.0 : cd_m2 >= 100.0 ? 5.0 : 1.0;
    return "about " +
           counted(static_cast<std::size_t>(std::llround(cd_m2 / unit) *
                                            static_cast<long long>(unit))) +
           " cd/m2";
}

std::string verdict_for_client(const HdrAnswer& answer) {
    switch (answer.verdict) {
        case assess::HdrVerdict::white_off:
            return "In HDR your screen's white isn't the one that was chosen. It is set in that mode "
                   "as well.";
        case assess::HdrVerdict::pq_off:
            return "In HDR your screen shows dark or middle parts of a picture darker or brighter "
                   "than they are meant to be. Its picture mode is looked at first.";
        case assess::HdrVerdict::white_moves:
            return "In HDR your screen's white changes its tint with how much of the screen is "
                   "bright. It is set for small bright parts, which films have most.";
        case assess::HdrVerdict::holds:
            return "In HDR your screen does what it is meant to do, as far as its light goes.";
        case assess::HdrVerdict::holds_in_part:
            return "What was measured of your screen in HDR is as it is meant to be; not all was "
                   "measured.";
        case assess::HdrVerdict::cannot_tell:
            break;
    }
    return "Too little was measured of your screen in HDR to say how well it does.";
}

std::string peak_for_client(const HdrAnswer& answer) {
    if (answer.whites.empty()) {
        return "";
    }
    const assess::HdrWhite* peak = &answer.whites.front();
    for (const assess::HdrWhite& white : answer.whites) {
        peak = white.xyz[1] > peak->xyz[1] ? &white : peak;
    }
    std::string text =
        "At its brightest it gives " + brightness_for_client(peak->xyz[1]) + " in " +
        (peak->window_pct < 50.0 ? "small bright parts of a picture" : "bright parts of a picture");
    if (answer.limiter && answer.limiter->falls_at_pct) {
        text += ", and " + brightness_for_client(answer.whites.back().xyz[1]) +
                " where a large part of the screen is white: it holds its light back there to save "
                "itself, which is no fault";
    }
    return text + ".";
}

std::string end_for_client(const HdrAnswer& answer) {
    if (!answer.tracking) {
        return "";
    }
    switch (answer.tracking->end) {
        case PqEnd::clip:
            return "What is brighter in a film than it can show, it shows as plain white; a player "
                   "that adapts films to screens should be told how bright this one is.";
        case PqEnd::roll_off:
            return "What is brighter in a film than it can show, it darkens by itself; a player that "
                   "adapts films to screens should leave that to it.";
        case PqEnd::either:
        case PqEnd::neither:
            break;
    }
    return "";
}

}  // namespace

Document hdr_client_document(const HdrAnswer& answer) {
    Document document{"What your screen does in HDR", {}};
    Section section{"screen", "Your screen"};
    section.add("holds", Level::essential, Paragraph{verdict_for_client(answer)});
    const assess::HdrWhite* least = answer.least_sum();
    const bool white_emitter =
        least != nullptr && *least->sum_over_white < assess::HdrAnswer::adds_up;
    for (const auto& [name, words] :
         {std::pair{"peak", peak_for_client(answer)}, std::pair{"end", end_for_client(answer)},
          std::pair{
              "white-emitter",
              std::string(white_emitter ? "Its white is brighter than its colours together, so "
                                          "that bright colours stay darker than white; it is "
                                          "built so."
                                        : "")}}) {
        if (!words.empty()) {
            section.add(name, Level::essential, Paragraph{words});
        }
    }
    document.sections.push_back(std::move(section));
    return document;
}

}  // namespace samelight::report
