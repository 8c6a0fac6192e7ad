#include "report/compare/page/compare_words.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "report/visit/page/visit_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string percent_of(double share) { return to_text(100.0 * share, 1); }

/// "0.0041 (0.0035 to 0.0047)".
std::string distance_with_range(const LikelyRange& range) {
    return to_text(range.likely, 4) + " (" + to_text(range.least, 4) + " to " +
           to_text(range.most, 4) + ")";
}

bool was_found(const Ageing& ageing, AgeingFinding finding) {
    return std::find(ageing.findings.begin(), ageing.findings.end(), finding) !=
           ageing.findings.end();
}

const char* emitter_name(std::size_t k) { return code_of(static_cast<VisitLight>(k)); }

std::string lost_with_doubt(const Change& change) {
    return share_lost(change) + " (± " + percent_of(std::exp(change.value) * change.doubt) + ")";
}

/// "about 7 months (4 to 14)".
std::string months_in_words(const TargetLife::Months& months) {
    const auto whole = [](const std::optional<double>& m) {
        return m ? to_text(std::floor(*m)) : std::string("no end in sight");
    };
    const std::string range = "(" + whole(months.least) + " to " + whole(months.most) + ")";
    return months.likely ? "about " + whole(months.likely) + " months " + range
                         : "years, as far as can be told " + range;
}

}  // namespace

std::string share_lost(const Change& change) {
    return percent_of(std::abs(std::expm1(change.value))) + " %";
}

VerdictLine compare_verdict_line(const ComparePage& answer) {
    const std::string limit = to_text(answer.life.limit_uv, 4);
    const std::string from = answer.target_named ? "its target" : "where it was then";
    const std::string distance =
        "it is " + distance_with_range(answer.life.distance_now) + " in u', v' from " + from;
    switch (answer.verdict) {
        case assess::CompareVerdict::leave:
            return {"Leave the white as it is:", distance + ", less than " + limit + ".",
                    Mood::leave, " "};
        case assess::CompareVerdict::set_white:
            return {"Set the white again:", distance + ", more than " + limit + ".", Mood::act,
                    " "};
        case assess::CompareVerdict::read_again:
            return {"Read the white again before you touch it:",
                    distance + ", too near " + limit + " to tell.", Mood::look, " "};
        case assess::CompareVerdict::correct_first:
            break;
    }
    return {"Make the correction again first:",
            "what the meter says of white (" + distance + ") can't be trusted until then.",
            Mood::stop, " "};
}

std::string emitters_sentence(const Ageing& ageing) {
    if (ageing.aged.empty()) {
        double doubt = 0.0;
        for (const LightChange& light : ageing.emitters) {
            doubt = std::max(doubt, light.against_best.doubt);
        }
        return "No emitter lost light against the others, as far as " + percent_of(doubt) +
               " % can be told.";
    }
    std::string text;
    for (const std::size_t k : ageing.aged) {
        std::string name = emitter_name(k);
        if (text.empty()) {
            name[0] = static_cast<char>(name[0] - 'a' + 'A');
        }
        text += (text.empty() ? "" : ", ") + name + (text.empty() ? " lost " : " ") +
                lost_with_doubt(ageing.emitters[k].against_best);
    }
    return text + " of its light against " + emitter_name(ageing.best) +
           ", which kept most, unless controls were moved between the visits.";
}

std::string common_sentence(const ComparePage& answer) {
    const Ageing& a = answer.ageing;
    if (a.by_spectra && a.by_spectra->meter_log_luminance.told()) {
        const Change& gain = a.by_spectra->meter_log_luminance;
        return std::string("By the spectra the meter reads ") +
               (gain.value < 0.0 ? "less" : "more") + " light than then by " +
               lost_with_doubt(gain) + ": that is the meter's, not the display's.";
    }
    const std::string change = lost_with_doubt(a.common);
    if (!a.common.told()) {
        return "What is common to all three emitters, " + change +
               ", readings can't tell from nothing.";
    }
    return std::string("Besides, all three read ") +
           (a.common.value < 0.0 ? "darker" : "brighter") + " by " + change +
           ": the meter's gain or the display's own, which readings alone can't tell apart.";
}

std::string oddity_sentence(const Ageing& ageing) {
    std::string text;
    if (was_found(ageing, AgeingFinding::channels)) {
        text = "The primaries' x, y moved as they do where a meter's channels drift: X " +
               with_sign(100.0 * ageing.channels[0].value, 1) + " % and Z " +
               with_sign(100.0 * ageing.channels[1].value, 1) + " % against Y.";
    }
    if (was_found(ageing, AgeingFinding::spectra)) {
        text += std::string(text.empty() ? "" : " ") +
                "The primaries' x, y moved as neither lost light nor drifting channels explain: "
                "their spectra changed, a colour control was moved, or the meter's filters "
                "did; spectra of both visits would tell.";
    }
    if (was_found(ageing, AgeingFinding::sum)) {
        text += std::string(text.empty() ? "" : " ") + "Red, green and blue together are " +
                percent_of(ageing.additivity_then) + " % of white then and " +
                percent_of(ageing.additivity_then + ageing.additivity.value) +
                " % now: a limiter, a white emitter or a control changed.";
    }
    return text;
}

std::string correction_sentence(const ComparePage& answer) {
    using assess::CorrectionState;
    switch (answer.correction) {
        case CorrectionState::none:
            return "No correction was named, so whether one still holds isn't known.";
        case CorrectionState::holds:
            return answer.ageing.by_spectra
                       ? "The correction still holds: by the spectra the meter reads this display's "
                         "white as it did."
                       : "The correction still holds: the primaries' x, y stand where they stood.";
        case CorrectionState::make_again:
            return "The correction doesn't hold any longer: read the primaries with both "
                   "instruments and run `samelight meter fit`.";
        case CorrectionState::both_hold:
            return "The correction of then would still do: on today's white it differs from the new "
                   "one by less than matters.";
        case CorrectionState::first_expired:
            break;
    }
    return "The correction of then doesn't hold any longer, use the new one: between them white "
           "moved x " +
           with_sign(answer.ageing.by_corrections->meter.x.value, 4) + ", y " +
           with_sign(answer.ageing.by_corrections->meter.y.value, 4) + ", which is the meter's.";
}

std::string life_sentence(const ComparePage& answer) {
    using assess::CompareVerdict;
    if (answer.verdict == CompareVerdict::correct_first) {
        return "";
    }
    if (answer.verdict == CompareVerdict::set_white && answer.life.months_if_set) {
        return "At this pace a white set today stays within " + to_text(answer.life.limit_uv, 4) +
               " for " + months_in_words(*answer.life.months_if_set) + ".";
    }
    if (!answer.life.months) {
        return "How long a white lasts can be said where --months says what lay between the visits.";
    }
    return "At this pace white stays within " + to_text(answer.life.limit_uv, 4) + " for " +
           months_in_words(*answer.life.months) + " more.";
}

std::string today_sentence(const ComparePage& answer) {
    if (answer.today.empty()) {
        return "Today there is nothing more to do.";
    }
    std::string text;
    for (const assess::TodayStep& step : answer.today) {
        text += (text.empty() ? "" : ", ") + step_in_a_word(step.step);
    }
    return "Today: " + text + ": " + minutes_in_words(answer.today_min) +
           " with both instruments, once the display is warm.";
}

}  // namespace samelight::report
