#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "samelight/numeric/text.hpp"
#include "samelight/report/white_answer.hpp"
#include "text_layout.hpp"

namespace samelight::report {
namespace {

/// A unit's own spectra bear four places; a generic model two or three, whose last is already in its range.
int places(const PanelPart& part, std::size_t index) {
    if (!part.ranges[index]) {
        return 4;
    }
    return std::max(part.ranges[index]->x, part.ranges[index]->y) > 0.02 ? 2 : 3;
}

std::string light_text(const Target& target) {
    if (target.outside) {
        return "out of gamut";
    }
    return target.luminance_ratio ? with_sign(100.0 * (*target.luminance_ratio - 1.0), 0) + " %"
                                  : "unknown";
}

std::string row(const std::string& name, const Target& target, int decimals) {
    return padded(name, 38) + padded_left(to_text(target.xy.x(), decimals), 9) +
           padded_left(to_text(target.xy.y(), decimals), 9) +
           padded_left(with_sign(target.from_reference.first(), decimals), 12) +
           padded_left(with_sign(target.from_reference.second(), decimals), 10) +
           padded_left(light_text(target), 15) + "\n";
}

/// A name that leaves room for its figures: the end of a long path is what tells files apart.
std::string short_name(const std::string& name) {
    constexpr std::size_t room = 34;
    return name.size() <= room ? name : "..." + name.substr(name.size() - room + 3);
}

/// An observer's name, or its id where the name is too long for the column.
const std::string& short_title(const Target& target) {
    constexpr std::size_t room = 34;
    return target.observer_title.size() <= room ? target.observer_title : target.observer;
}

std::string table(const WhiteAnswer& answer) {
    std::string page =
        "  " + padded("DISPLAY", 38) + "        x        y    OFFSET x         y          LIGHT\n";
    for (const PanelPart& part : answer.panels) {
        for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
            const Target& target = part.targets.targets[i];
            const std::string name =
                i == 0 ? short_name(part.targets.panel) : "    " + short_title(target);
            page += "  " + row(name, target, places(part, i));
        }
    }
    return page;
}

std::string left_text(const Target& target) {
    const LeftToGo& left = *target.left;
    if (left.matched) {
        return "Matched: what is left, x " + with_sign(left.offset.first(), 4) + ", y " +
               with_sign(left.offset.second(), 4) +
               ", is within what the instrument can tell. Leave it.";
    }
    return "Left to go: x " + with_sign(left.offset.first(), 4) + ", y " +
           with_sign(left.offset.second(), 4) + ". Red light " +
           with_sign(100.0 * left.light_change[0], 1) + " %, green " +
           with_sign(100.0 * left.light_change[1], 1) + " %, blue " +
           with_sign(100.0 * left.light_change[2], 1) + " %. Then measure and ask again.";
}

std::string dial_text(const PanelPart& part) {
    const Target& target = part.targets.targets.front();
    const int decimals = places(part, 0);
    std::string text = "Dial in x " + to_text(target.xy.x(), decimals) + ", y " +
                       to_text(target.xy.y(), decimals) + " (" + target.observer_title + ").";
    if (part.ranges.front()) {
        text += " Units of this type differ: 19 in 20 want x within " +
                to_text(part.ranges.front()->x, 3) + " and y within " +
                to_text(part.ranges.front()->y, 3) + " of that.";
    }
    if (target.without_white_emitter) {
        const double length = target.without_white_emitter->distance();
        text +=
            " Not unique: if red, green and blue made this white without the white emitter, it would have to read differently, by " +
            to_text(length, 4) + ".";
    }
    return text;
}

/// What to beware of, and how the files were read, each thing once. Noise below zero is how a file is, not a danger.
std::string warnings_and_reading(const std::string& indent, const std::vector<Warning>& warnings,
                                 const std::vector<std::string>& understood) {
    std::string page;
    std::vector<std::string> sentences;
    for (const Warning& warning : warnings) {
        if (warning.code == "negative_noise") {
            sentences.push_back(warning.message);
        } else {
            page += paragraph(indent + "! ", warning.message);
        }
    }
    for (const std::string& sentence : understood) {
        if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end()) {
            sentences.push_back(sentence);
        }
    }
    if (!sentences.empty()) {
        std::string text = "Read so:";
        for (const std::string& sentence : sentences) {
            text += " " + sentence;
        }
        page += paragraph(indent + "- ", text);
    }
    return page;
}

/// What comparing white with the primaries, and black with white, showed.
std::string checks_text(const PanelTargets& targets) {
    std::string text;
    if (targets.additivity && targets.additivity->additive()) {
        const Additivity& a = *targets.additivity;
        text += " Red + green + blue against white: luminance " +
                with_sign(100.0 * (a.luminance_ratio - 1.0), 1) + " %, x " +
                with_sign(a.offset.first(), 4) + ", y " + with_sign(a.offset.second(), 4) + ".";
    }
    if (targets.black_ratio) {
        text += *targets.black_ratio > 1e-6
                    ? " White is " + to_text(1.0 / *targets.black_ratio, 0) +
                          " times as bright as black."
                    : " Black is too dark to measure.";
    }
    return text;
}

std::string notes(const PanelPart& part) {
    std::string page =
        part.targets.panel + (part.title.empty() ? "" : " (" + part.title + ")") + "\n";
    page += paragraph("  ", dial_text(part));
    if (part.targets.targets.front().left) {
        page += paragraph("  ", left_text(part.targets.targets.front()));
    }
    page += paragraph("  ", "Rests on " + part.rests_on + checks_text(part.targets));
    page += warnings_and_reading("  ", part.targets.warnings, part.understood);
    return page;
}

/// What the columns are; the base of LIGHT depends on what was given.
std::string light_meaning(const WhiteAnswer& answer) {
    bool from_now = false;
    bool from_native = false;
    for (const PanelPart& part : answer.panels) {
        (part.as_it_stands ? from_now : from_native) = true;
    }
    return std::string("x, y are CIE 1931, as instruments read; LIGHT is luminance against ") +
           (from_native ? "the native white" : "") +
           (from_native && from_now ? ", or against " : "") +
           (from_now ? "the white as it stands where one was given" : "") + ".";
}

}  // namespace

std::string white_page(const WhiteAnswer& answer) {
    const Chromaticity<Cie1931_2deg> xy = answer.reference.xy();
    std::string page = paragraph("", "White that looks like " + answer.reference.name + ": " +
                                         answer.reference.meaning + " (x " + to_text(xy.x(), 4) +
                                         ", y " + to_text(xy.y(), 4) + ").");
    if (answer.reference.name == "D65") {
        page += paragraph(
            "", "To match a display rather than daylight, name it: --reference crt@0.3127,0.3290");
    }
    page += warnings_and_reading("", answer.reference.warnings, answer.reference_understood);
    page += "\n";
    page += table(answer);
    for (const PanelPart& part : answer.panels) {
        page += "\n";
        page += notes(part);
    }
    page += "\n" + paragraph("", light_meaning(answer));
    page += paragraph(
        "",
        "These observers describe normal trichromatic vision and are no medical statement. Note the settings before changing "
        "them; the equipment's own guidance and local rules come first.");
    return page;
}

}  // namespace samelight::report
