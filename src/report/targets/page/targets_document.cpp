#include "report/targets/page/targets_document.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "report/document/report_words.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/proof/judged_by.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/check/patches/patch_target.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t target_name_room = 40;

std::array<double, 2> target_xy(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return sum > 0.0 ? std::array{xyz[0] / sum, xyz[1] / sum} : std::array{0.0, 0.0};
}

std::string curve_words(const CurveOptions& curve) {
    const std::string ends = ", white " + to_text(curve.white_cd_m2, 1) + " cd/m2, black " +
                             to_text(curve.black_cd_m2, 3) + " cd/m2";
    switch (curve.kind) {
        case CurveKind::bt1886:
            return "BT.1886" + ends;
        case CurveKind::power:
            return "a power of " + to_text(curve.exponent, 2) + ends;
        case CurveKind::srgb:
            return "sRGB's curve" + ends;
        case CurveKind::pq:
            return "PQ" + ends +
                   (curve.programme_peak_cd_m2
                        ? ", rolled off from a programme of " +
                              to_text(*curve.programme_peak_cd_m2, 0) + " cd/m2"
                        : ", cut at the peak");
        case CurveKind::hlg:
            break;
    }
    return "HLG" + ends;
}

VerdictLine targets_verdict(const TargetsAnswer& answer) {
    const std::string count = std::to_string(answer.targets.size()) + " patches";
    if (answer.kind == TargetKind::seen_alike) {
        return {"Seen alike",
                count + ", each matched in spectrum: read so, " +
                    short_name(answer.panel, target_name_room) + " looks like " +
                    short_name(answer.reference, target_name_room) + " to " + answer.eye + ".",
                Mood::act};
    }
    return {
        "White replaced",
        count +
            (answer.white_chosen
                 ? ". The primaries keep their x, y; the chosen white stands for the encoding's."
                 : ". No white was chosen: these are about the encoding's own."),
        Mood::act};
}

std::string gain_words(const assess::TargetsGain& gain) {
    const std::string head =
        "Over " + std::to_string(gain.surfaces) + " surfaces the two displays differ by DE00 " +
        to_text(gain.seen_alike_de00, 2) + " on average over " + std::to_string(gain.viewers) +
        " viewers; with the white alone matched by " + to_text(gain.white_replaced_de00, 2) + ".";
    return gain.seen_alike_de00 < gain.white_replaced_de00
               ? head
               : head + " For these two the white alone does as well.";
}

std::string reach_words(const TargetsAnswer& answer) {
    std::string words;
    if (answer.nearest > 0) {
        words = std::to_string(answer.nearest) +
                " of the patches lie outside this panel's gamut: " +
                "their targets are the nearest in u'v' at the same luminance.";
    }
    if (answer.reference_lacks > 0) {
        words += (words.empty() ? "" : " ") + std::to_string(answer.reference_lacks) +
                 " lie outside the reference's gamut: nobody has seen them there.";
    }
    return words;
}

std::vector<std::string> target_row(const PatchTarget& target, const Quantisation& quantisation) {
    const auto codes = codes_of(target.patch.signal, quantisation);
    const auto xy = target_xy(target.xyz);
    return {
        target.patch.name,
        std::to_string(codes[0]) + " " + std::to_string(codes[1]) + " " + std::to_string(codes[2]),
        to_text(xy[0], 4),
        to_text(xy[1], 4),
        to_text(target.xyz[1], target.xyz[1] < 1.0 ? 4 : 2),
        target.reach == PatchReach::shown     ? ""
        : target.reach == PatchReach::nearest ? "nearest"
                                              : "not on the reference"};
}

Table targets_table(const TargetsAnswer& answer) {
    Table table{"What the instrument must read.",
                {{"PATCH", Align::left}, {"R G B"}, {"x"}, {"y"}, {"Y cd/m2"}, {"", Align::left}},
                {}};
    for (const PatchTarget& target : answer.targets) {
        table.rows.push_back(target_row(target, answer.quantisation));
    }
    return table;
}

Chart targets_chart(const TargetsAnswer& answer) {
    Series points{"targets", {}, Ink::accent, Stroke::solid, Mark::dot, Series::Shape::points};
    for (const PatchTarget& target : answer.targets) {
        const double sum = target.xyz[0] + 15.0 * target.xyz[1] + 3.0 * target.xyz[2];
        if (sum > 0.0) {
            points.points.push_back({4.0 * target.xyz[0] / sum, 9.0 * target.xyz[1] / sum});
        }
    }
    Plot plot{"u'", "v'", {0.0, 0.65}, {0.0, 0.65}, true};
    plot.series.push_back(std::move(points));
    return {"Targets in u'v'", "Every patch's target as a dot in u', v'.", std::move(plot)};
}

std::string what_is_next(const TargetsAnswer& answer) {
    return answer.written.empty()
               ? "Write them with --write FILE, read the patches, then: samelight check READINGS --targets FILE."
               : "Written to " + answer.written +
                     ". Read the patches, then: samelight check READINGS --targets FILE.";
}

Section targets_answer_section(const TargetsAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, targets_verdict(answer));
    const auto xy = target_xy(answer.white);
    section.add("white", Level::essential,
                KeyFigures{{{"White", "x " + to_text(xy[0], 4) + ", y " + to_text(xy[1], 4),
                             "Y " + to_text(answer.white[1], 2) + " cd/m2"},
                            {"Made for", curve_short(answer.curve) + ",",
                             encoding_short(answer.encoding)}}});
    if (answer.gain) {
        section.add("gain", Level::essential, Paragraph{gain_words(*answer.gain)});
    }
    if (const std::string words = reach_words(answer); !words.empty()) {
        section.add("reach", Level::essential, Paragraph{words});
    }
    std::size_t number = 0;
    for (const Warning& warning : answer.warnings) {
        if (warning.code != "negative_noise") {
            section.add("caution-" + std::to_string(++number), Level::essential,
                        Caution{warning.code, command_sentence(warning)});
        }
    }
    section.add("next", Level::essential, Paragraph{what_is_next(answer)});
    return section;
}

}  // namespace

Document targets_document(const TargetsAnswer& answer) {
    Document document{"What each patch must read", {}};
    document.sections.push_back(targets_answer_section(answer));
    Section patches{"patches", "Patch by patch"};
    patches.heading_level = Level::reason;
    patches.add("chart", Level::reason, targets_chart(answer));
    patches.add("table", Level::reason, targets_table(answer));
    document.sections.push_back(std::move(patches));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    const bool full = answer.quantisation.range() == SignalRange::full;
    foundation.add("rests-on", Level::reason,
                   Paragraph{"Signals of " + answer.encoding + " by " + curve_words(answer.curve) +
                             "; codes of " + std::to_string(answer.quantisation.bits()) +
                             " bits, " + (full ? "full" : "limited") +
                             " range. Targets are of the light that those whole codes stand for."});
    add_meter_reading({}, answer.understood, foundation);
    document.sections.push_back(std::move(foundation));
    return document;
}

std::string targets_page(const TargetsAnswer& answer, const TextPage& page) {
    return text_of(targets_document(answer), page);
}

std::string targets_report(const TargetsAnswer& answer, const ReportWords& words) {
    return page_of(targets_document(answer), words);
}

}  // namespace samelight::report
