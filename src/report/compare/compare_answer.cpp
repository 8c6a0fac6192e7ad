#include "samelight/report/check/compare_answer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "report/words/meter_panels.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace samelight::report {
namespace {

/// Which of the four lights a file lacks everywhere, for an error that helps.
std::string lights_missing(const std::vector<PatchReading>& readings) {
    std::array<bool, 4> has{};
    for (const PatchReading& reading : readings) {
        const auto light = visit_light_of(reading);
        if (light && *light != VisitLight::black) {
            has.at(static_cast<std::size_t>(*light)) = true;
        }
    }
    std::string text;
    for (std::size_t k = 0; k < has.size(); ++k) {
        text += has.at(k)
                    ? ""
                    : std::string(text.empty() ? "" : ", ") + code_of(static_cast<VisitLight>(k));
    }
    return text;
}

std::vector<LightsPlace> places_of(const ReadingsOpened& opened) {
    std::vector<LightsPlace> places = lights_places(opened.readings);
    if (places.empty()) {
        const std::string missing = lights_missing(opened.readings);
        throw Error(ErrorKind::input, ErrorPlace{opened.source},
                    missing.empty() ? "red, green, blue and white never in one mode and window"
                                    : "no reading of " + missing,
                    "red, green, blue and white at full signal in one mode and window");
    }
    return places;
}

std::string place_in_words(const LightsPlace& place) {
    std::string text = place.mode.empty() ? "" : "mode " + place.mode;
    if (place.window_pct) {
        text += (text.empty() ? "" : ", ") + std::string("a window of ") +
                to_text(*place.window_pct) + " %";
    }
    return text;
}

/// The first place that both have, in the order of now.
LightsPlace common_place(const ReadingsOpened& then, const ReadingsOpened& now,
                         const std::string& mode, std::vector<std::string>& understood) {
    const std::vector<LightsPlace> before = places_of(then);
    std::vector<LightsPlace> places = places_of(now);
    std::erase_if(places, [&](const LightsPlace& place) {
        return std::find(before.begin(), before.end(), place) == before.end() ||
               (!mode.empty() && place.mode != mode);
    });
    if (places.empty()) {
        throw Error(ErrorKind::input, ErrorPlace{now.source},
                    mode.empty() ? "no mode and window that " + then.source + " has, too"
                                 : "no mode " + mode + " that " + then.source + " has, too",
                    "red, green, blue and white read alike at both visits");
    }
    const std::string words = place_in_words(places.front());
    if (places.size() > 1) {
        understood.push_back("Of " + std::to_string(places.size()) +
                             " modes and windows that both have, the first of " + now.source +
                             " is compared: " + words + ".");
    } else if (!words.empty()) {
        understood.push_back("Compared: " + words + ".");
    }
    return places.front();
}

void take_words(ReadingsOpened& opened, ComparePage& page) {
    say_how_read(opened.source, opened.understood, page.understood);
    page.warnings.insert(page.warnings.end(), opened.warnings.begin(), opened.warnings.end());
}

void open_spectra(const CompareTyped& typed, assess::CompareRequest& request, ComparePage& page) {
    if (typed.then_spectra.empty() != typed.now_spectra.empty()) {
        throw Error(ErrorKind::input,
                    ErrorPlace{typed.then_spectra.empty() ? "--now-spectra" : "--then-spectra"},
                    "spectra of one visit", "--then-spectra and --now-spectra");
    }
    if (typed.then_spectra.empty()) {
        return;
    }
    assess::ListedPanel then = only_panel({typed.then_spectra}, {});
    assess::ListedPanel now = only_panel({typed.now_spectra}, {});
    for (const assess::ListedPanel* panel : {&then, &now}) {
        say_how_read(panel->name, panel->understood, page.understood);
        page.warnings.insert(page.warnings.end(), panel->warnings.begin(), panel->warnings.end());
    }
    request.spectra = assess::VisitSpectra{std::move(then.panel), std::move(now.panel)};
}

/// Months from the first reading of then to the first of now; nothing where one file has no date, or both are of one day.
std::optional<double> months_by_dates(const ReadingsOpened& then, const ReadingsOpened& now) {
    constexpr double days_of_month = 365.2425 / 12.0;
    const auto before = first_day(then.readings);
    const auto after = first_day(now.readings);
    if (!before || !after || *before == *after) {
        return {};
    }
    if (*after < *before) {
        throw Error(ErrorKind::input, ErrorPlace{now.source},
                    "readings of " + io::date_text(*after) + ", before those of " + then.source +
                        " of " + io::date_text(*before),
                    "the earlier visit first, then today's");
    }
    return (*after - *before) / days_of_month;
}

/// What was typed goes before the dates; where they disagree it is said.
void take_months(const ReadingsOpened& then, const ReadingsOpened& now,
                 assess::CompareRequest& request, ComparePage& page) {
    const std::optional<double> dated = months_by_dates(then, now);
    if (!dated) {
        return;
    }
    if (!request.months) {
        request.months = dated;
        page.understood.push_back(
            "Between the visits: " + to_text(std::round(10.0 * *dated) / 10.0) +
            " months, by their dates.");
        return;
    }
    // Who types whole months means them so.
    if (std::abs(*request.months - *dated) > std::max(0.75, 0.1 * *dated)) {
        page.warnings.push_back(
            Warning{"months_differ", {{"typed", *request.months}, {"dated", *dated}}});
    }
}

void take_numbers(const CompareTyped& typed, assess::CompareRequest& request) {
    if (typed.months && !(*typed.months > 0.0 && *typed.months <= 1200.0)) {
        throw Error(ErrorKind::input, ErrorPlace{"--months"}, to_text(*typed.months),
                    "above 0, up to 1200");
    }
    if (!(typed.limit_uv > 0.0 && typed.limit_uv <= 0.1)) {
        throw Error(ErrorKind::input, ErrorPlace{"--limit"}, to_text(typed.limit_uv),
                    "above 0, up to .1 in u', v'");
    }
    request.months = typed.months;
    request.limit_uv = typed.limit_uv;
    if (const auto white = chosen_white_typed(typed.white)) {
        request.target = {white->x(), white->y()};
    }
}

}  // namespace

ComparePage answer_compare(const CompareTyped& typed) {
    ComparePage page;
    page.warnings = doubts_of_white(typed.white);
    assess::CompareRequest request;
    take_numbers(typed, request);
    const std::string& first =
        typed.then_correction.empty() ? typed.correction : typed.then_correction;
    if (!typed.then_correction.empty() && typed.correction.empty()) {
        throw Error(ErrorKind::input, ErrorPlace{"--then-correction"}, "a correction of then alone",
                    "--correction for now as well");
    }
    ReadingsOpened then = open_patch_readings({typed.then, first});
    ReadingsOpened now = open_patch_readings({typed.now, typed.correction});
    take_words(then, page);
    take_words(now, page);
    take_months(then, now, request, page);
    page.place = common_place(then, now, typed.mode, page.understood);
    request.then = visit_lights(then.readings, page.place);
    request.now = visit_lights(now.readings, page.place);
    if (then.correction) {
        request.then_correction = then.correction->correction;
        request.now_correction = now.correction->correction;
        request.one_correction = first == typed.correction;
    }
    open_spectra(typed, request, page);
    static_cast<assess::CompareAnswer&>(page) = assess::about(
        {typed.then + " and " + typed.now}, [&] { return assess::answer_compare(request); });
    page.then_name = typed.then;
    page.now_name = typed.now;
    page.correction_name = typed.correction;
    page.months_between = request.months;
    return page;
}

}  // namespace samelight::report
