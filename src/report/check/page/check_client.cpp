#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "report/check/page/check_document.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/check_words.hpp"

namespace samelight::report {
namespace {

/// A DE00 as people speak of it. Common practice, no source.
std::string seen_in_words(double de00) {
    if (de00 < 1.0) {
        return "too little for anybody to see";
    }
    if (de00 < 2.0) {
        return "so little that it is seen side by side at best";
    }
    return de00 < 3.0 ? "so little that few would notice it" : "enough to be noticed";
}

std::string shown_words(const CheckAnswer& answer) {
    const MeasureSummary& all = answer.now.chosen.groups.back().de00;
    std::string text = (answer.before ? "After the work " : "") +
                       std::to_string(answer.now.readings.points.size()) +
                       " colours were measured on your screen. On average they are off by " +
                       seen_in_words(all.mean) + "; the farthest is off by " +
                       seen_in_words(all.largest) + ".";
    if (answer.shared && answer.shared->in_both > 0) {
        const assess::SharedPatches& shared = *answer.shared;
        const MeasureSummary& then = shared.before.back().de00;
        text += (shared.all()
                     ? " Before the work the average was off by "
                     : " Of the " + std::to_string(shared.in_both) +
                           " that were measured before the work as well the average was off by ") +
                seen_in_words(then.mean) + " (in the trade's measure " + to_text(then.mean, 1) +
                ", now " + to_text(shared.now.back().de00.mean, 1) + ").";
    }
    return text;
}

std::string client_verdict(const CheckAnswer& answer) {
    switch (answer.verdict) {
        case assess::CheckVerdict::pass:
            return "Your screen shows what it is meant to show.";
        case assess::CheckVerdict::fail:
            return "Your screen doesn't yet show all that it is meant to show.";
        case assess::CheckVerdict::cannot_tell:
            return "Your screen is so near to what it is meant to show that the instrument can't tell on which side of the limit it is.";
        case assess::CheckVerdict::read_again:
            break;
    }
    return "Some of the readings are in doubt and are to be taken again before anything is said of your screen.";
}

}  // namespace

Document check_client_document(const CheckAnswer& answer) {
    Document document{"How well your screen shows what it is meant to show", {}};
    Section section{"screen", "Your screen"};
    section.add("verdict", Level::essential, Paragraph{client_verdict(answer)});
    section.add("shown", Level::essential, Paragraph{shown_words(answer)});
    if (answer.now.plain) {
        section.add(
            "white", Level::essential,
            Paragraph{
                "The white of this screen was moved on purpose, so that to your eyes it looks like "
                "that of the reference. An instrument set to the usual white of standards will call "
                "it off, by " +
                to_text(answer.now.plain->groups.back().de00.largest, 1) +
                " in the trade's measure at most; that is the choice that was made, and no fault of the screen."});
    }
    if (answer.verdict != assess::CheckVerdict::pass) {
        List left;
        for (const Fault& fault : answer.now.found.faults) {
            std::string words = fault_for_client(fault);
            if (left.items.size() < 4 &&
                std::find(left.items.begin(), left.items.end(), words) == left.items.end()) {
                left.items.push_back(std::move(words));
            }
        }
        if (!left.items.empty()) {
            section.add("left", Level::essential, std::move(left));
        }
    }
    document.sections.push_back(std::move(section));
    return document;
}

}  // namespace samelight::report
