#include "report/meter/page/meter_client.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>

#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {
namespace {

constexpr const char* why_corrected =
    "A quick colour meter sees through coloured filters, and every kind of screen meets their "
    "imperfection differently. So its readings are put right for each screen.";

constexpr const char* left_alone = "Nothing was changed on the screen itself for this.";

/// How far off the meter as it is reads this screen's white.
std::optional<double> white_de00_before(const MeterFitAnswer& answer) {
    if (answer.stored.correction.raw_channels || !answer.white || answer.white->meter[1] <= 0.0) {
        return std::nullopt;
    }
    return colour_error(answer.white->meter, answer.white->reference, answer.white->reference).de00;
}

std::string before_said(const MeterFitAnswer& answer) {
    const std::string compared =
        "It was compared with a more exact instrument on this screen, on " +
        std::to_string(answer.patch_count) + (answer.patch_count == 1 ? " colour" : " colours");
    const std::optional<double> before = white_de00_before(answer);
    return before
               ? compared + ": as it came it misread the white " + misread_in_words(*before) + "."
               : compared + ".";
}

/// What is left on colours that had no part in making the correction.
std::string after_said(const MeterFitAnswer& answer) {
    double worst = -1.0;
    for (const ProvenError& e : answer.quality.left_out) {
        worst = std::max(worst, e.error.de00.value_or(-1.0));
    }
    return worst < 0.0 ? ""
                       : " At worst, colours that had no part in finding it are then misread " +
                             misread_in_words(worst) + ".";
}

std::string fit_said(const MeterFitAnswer& answer) {
    switch (answer.judgement.verdict) {
        case FitVerdict::use:
            return "On this screen it is used with a correction." + after_said(answer);
        case FitVerdict::use_unproven:
            return "On this screen it is used with a correction, made of few colours; how well it "
                   "does on others wasn't tried." +
                   after_said(answer);
        case FitVerdict::not_needed:
            return "On this screen it needs no correction, and is used as it is.";
        case FitVerdict::read_again:
            return "The comparison isn't good enough yet, and is to be made again before the meter "
                   "is relied on.";
        case FitVerdict::do_not_use:
            break;
    }
    return "The comparison went wrong, and nothing is set by this meter before it has been made again.";
}

/// A document with what the meter is and why it is corrected.
std::pair<Document, Section> begun_meter_page(const std::string& screen) {
    Section section{"meter", screen};
    section.add("why", Level::essential, Paragraph{why_corrected});
    return {Document{"How the meter was made to read your screen", {}}, std::move(section)};
}

Document ended_meter_page(Document document, Section section) {
    section.add("alone", Level::essential, Paragraph{left_alone});
    document.sections.push_back(std::move(section));
    return document;
}

std::string model_said(const MeterModelAnswer& answer) {
    const auto white = std::find_if(answer.residuals.begin(), answer.residuals.end(),
                                    [](const PatchResidual& r) { return r.patch == "white"; });
    const std::string off = white != answer.residuals.end() && white->before.de00
                                ? " As it came it would misread the white " +
                                      misread_in_words(*white->before.de00) + "."
                                : "";
    switch (answer.verdict) {
        case assess::ModelVerdict::use:
            return "On this screen the meter is used with a correction worked out from the screen's "
                   "own light and what is known of the meter's filters." +
                   off;
        case assess::ModelVerdict::use_on_type:
            return "Until this screen's own light has been measured, the meter is used with a "
                   "correction worked out for screens of its kind." +
                   off;
        case assess::ModelVerdict::do_not_use:
            break;
    }
    return "No correction could be worked out that can be relied on, so none is used.";
}

std::string choice_said(const assess::ChosenPanel& panel, const MeterChooseAnswer& answer) {
    const PanelChoice& choice = panel.choice;
    if (choice.verdict == Choice::use_none) {
        return "The meter is used as it is: it reads this screen well enough.";
    }
    if (choice.verdict == Choice::safe && choice.best) {
        return std::string("The meter is used with a stored correction, which suits this screen") +
               (choice.with[*choice.best].whites_only
                    ? "'s white; other colours aren't judged by it."
                    : ".");
    }
    return std::string(answer.corrections.empty()
                           ? "There is no correction for this screen yet"
                           : "No correction at hand is sure to suit this screen") +
           ": it is to be measured by a more exact instrument first.";
}

std::string keep_said(const assess::KeepPart& keep) {
    switch (keep.verdict.verdict) {
        case Keep::keep:
            return "The meter's correction from the last visit still holds.";
        case Keep::read_again:
            return "Whether the meter's correction from the last visit still holds can't be told "
                   "yet; the white is to be read again.";
        case Keep::refit:
        case Keep::too_unsure:
            break;
    }
    return "The meter's correction from the last visit is no longer relied on; a new one is to be made.";
}

}  // namespace

Document meter_fit_client_document(const MeterFitAnswer& answer) {
    auto [document, section] =
        begun_meter_page(plain_name(answer.stored.correction.provenance.panel));
    section.add("before", Level::essential, Paragraph{before_said(answer)});
    section.add("used", Level::essential, Paragraph{fit_said(answer)});
    return ended_meter_page(std::move(document), std::move(section));
}

Document meter_model_client_document(const MeterModelAnswer& answer) {
    auto [document, section] =
        begun_meter_page(answer.generic ? answer.panel_title : plain_name(answer.panel));
    section.add("used", Level::essential, Paragraph{model_said(answer)});
    return ended_meter_page(std::move(document), std::move(section));
}

Document meter_choose_client_document(const MeterChooseAnswer& answer) {
    auto [document, section] = begun_meter_page("");
    if (answer.keep) {
        section.add("keep", Level::essential, Paragraph{keep_said(*answer.keep)});
    }
    document.sections.push_back(std::move(section));
    std::size_t number = 0;
    for (const assess::ChosenPanel& panel : answer.panels) {
        Section screen{"screen-" + std::to_string(++number), plain_name(panel.choice.panel)};
        screen.add(
            "used", Level::essential,
            Paragraph{answer.believable
                          ? choice_said(panel, answer)
                          : "What is known of the meter can't be right; nothing is set by it "
                            "before that is settled."});
        document.sections.push_back(std::move(screen));
    }
    return ended_meter_page(std::move(document), Section{"alone", ""});
}

}  // namespace samelight::report
