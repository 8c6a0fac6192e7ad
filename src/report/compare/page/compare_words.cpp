#include "report/compare/page/compare_words.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "report/visit/page/visit_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

using assess::WhiteLight;

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

constexpr const char* no_end = "no end in sight";

std::string whole_months(const std::optional<double>& months) {
    return months ? to_text(std::round(*months)) : std::string(no_end);
}

/// "7 months", "1 month".
std::string months_counted(const std::optional<double>& months) {
    const std::string number = whole_months(months);
    return number + (number == "1" ? " month" : " months");
}

/// "about 7 months (4 to 14)".
std::string months_in_words(const Horizon& months) {
    const std::string range =
        "(" + whole_months(months.least) + " to " + whole_months(months.most) + ")";
    return months.likely ? "about " + months_counted(months.likely) + " " + range
                         : "years, as far as can be told (" + months_counted(months.least) +
                               " to " + whole_months(months.most) + ")";
}

std::string spans_said(const std::optional<double>& spans) {
    return spans ? to_text(*spans, 1) : std::string(no_end);
}

/// "about 0.6 times as long as lay between the visits (0.5 to 0.7)".
std::string spans_in_words(const Horizon& spans) {
    const std::string range =
        " (" + spans_said(spans.least) + " to " + spans_said(spans.most) + ")";
    return spans.likely ? "about " + spans_said(spans.likely) +
                              " times as long as lay between the visits" + range
                        : "many times as long as lay between the visits" + range;
}

std::string horizon_in_words(const std::optional<Horizon>& months, const Horizon& spans) {
    return months ? months_in_words(*months) : spans_in_words(spans);
}

/// "White's light fell by half, 50.1 % (± 1.4)".
std::string light_moved_in_words(const WhiteLight& light) {
    const Change& change = light.log_luminance;
    const auto within = [&change](double factor) {
        return std::abs(change.value - std::log(factor)) <= change.doubt;
    };
    constexpr double half = 0.5;
    const std::string moved = within(half)         ? "fell by half, "
                              : within(1.0 / half) ? "doubled, up by "
                              : change.value < 0.0 ? "fell by "
                                                   : "rose by ";
    return "White's light " + moved + lost_with_doubt(change);
}

/// What to do about light that isn't what it was.
std::string see_to_light_words(const WhiteLight& light) {
    const std::string display = "see to backlight, brightness and energy saving";
    return light.owner == assess::LightOwner::display
               ? display + " (it is the display's, not the meter's)"
               : display + ", and read another light to know that it isn't the meter";
}

/// The verdict where white's light isn't what it was: that first, then what its colour asks for.
VerdictLine light_verdict_line(const ComparePage& answer, const std::string& distance) {
    const std::string moved = light_moved_in_words(answer.light);
    const std::string see = see_to_light_words(answer.light);
    const std::string limit = to_text(answer.life.limit_uv, 4);
    switch (answer.verdict) {
        case assess::CompareVerdict::set_white:
            return {moved + ", and its colour moved:",
                    see + "; then set the white again: " + distance + ", more than " + limit + ".",
                    Mood::act, " "};
        case assess::CompareVerdict::correct_first:
            return {moved + ", and the correction doesn't hold:",
                    see + "; then make the correction again: what the meter says of white (" +
                        distance + ") can't be trusted until then.",
                    Mood::stop, " "};
        default:
            break;
    }
    const bool near = answer.life.distance_now.most < answer.life.limit_uv;
    return {moved + ":",
            see + ". Leave its colour: " + distance +
                (near ? ", less than " + limit : ", too near " + limit + " to tell before that") +
                ".",
            Mood::act, " "};
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
    if (answer.light.changed) {
        return light_verdict_line(answer, distance);
    }
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
        case assess::CompareVerdict::see_to_light:
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
    std::vector<std::size_t> most_first = ageing.aged;
    std::sort(most_first.begin(), most_first.end(), [&](std::size_t a, std::size_t b) {
        return ageing.emitters.at(a).against_best.value < ageing.emitters.at(b).against_best.value;
    });
    for (const std::size_t k : most_first) {
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
    const TargetLife& life = answer.life;
    const std::string limit = to_text(life.limit_uv, 4);
    const std::string in_months =
        life.months ? "" : " --months, what lay between, says it in months.";
    if (answer.verdict == CompareVerdict::set_white) {
        return "At this pace a white set today stays within " + limit + " for " +
               horizon_in_words(life.months_if_set, life.spans_if_set) + "." + in_months;
    }
    return "At this pace white stays within " + limit + " for " +
           horizon_in_words(life.months, life.spans) + " more." + in_months;
}

std::string correction_life_sentence(const ComparePage& answer) {
    if (!answer.correction_life) {
        return "";
    }
    const assess::CorrectionLife& life = *answer.correction_life;
    const std::string what = std::string(life.of_now ? "Today's correction" : "The correction") +
                             " does, at this pace, ";
    const std::optional<double>& least = life.months ? life.months->least : life.spans.least;
    const bool told = (life.months ? life.months->most : life.spans.most).has_value();
    if (told) {
        return what + "for " + horizon_in_words(life.months, life.spans) + " more.";
    }
    const std::string at_least = life.months
                                     ? months_counted(least)
                                     : spans_said(least) + " times the span between the visits";
    const double one = life.months ? 1.0 : 0.1;
    if (least && *least < one) {
        return "How long " + std::string(life.of_now ? "today's correction" : "the correction") +
               " will do, these readings can't say: what the meter may have moved is lost in their "
               "scatter.";
    }
    return what + (least ? "for at least " + at_least : "longer than anybody can say") + " more.";
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
