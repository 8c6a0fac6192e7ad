#include "samelight/report/check/targets_answer.hpp"
#include "samelight/assess/check/targets.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

#include "report/document/csv_cell.hpp"
#include "report/targets/made_for.hpp"
#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

/// How many patches of a list are such, and what the first is called.
struct PatchesFound {
    double count = 0.0;
    std::string first = {};

    template <class IsOne>
    PatchesFound(const std::vector<SignalPatch>& list, const IsOne& is_one) {
        for (const SignalPatch& patch : list) {
            if (is_one(patch) && ++count == 1.0) {
                first = io::harmless(patch.name);
            }
        }
    }
};

/// Signals of a list that no code of these stands for, whose targets are those of what is shown in their place; and codes above white or below black,
/// of which nobody knows whether the display shows them.
void ask_about_signals(const std::string& file, const std::vector<SignalPatch>& list,
                       const Quantisation& quantisation, std::vector<Warning>& warnings) {
    const auto is_cut = [&quantisation](const SignalPatch& patch) {
        return std::any_of(patch.signal.begin(), patch.signal.end(),
                           [&](double s) { return quantisation.code(Signal(s)).clipped; });
    };
    const PatchesFound cut(list, is_cut);
    const PatchesFound beyond(list, [&is_cut](const SignalPatch& patch) {
        return !is_cut(patch) && std::any_of(patch.signal.begin(), patch.signal.end(),
                                             [](double s) { return s < 0.0 || s > 1.0; });
    });
    if (cut.count > 0.0) {
        warnings.push_back(
            Warning{"signals_cut",
                    {{"file", io::harmless(file)}, {"patches", cut.count}, {"patch", cut.first}}});
    }
    if (beyond.count > 0.0) {
        warnings.push_back(Warning{
            "signals_beyond_white",
            {{"file", io::harmless(file)}, {"patches", beyond.count}, {"patch", beyond.first}}});
    }
}

/// Primaries of a display as its file has them may not hold the usual white; a list of patches then says so in its own words.
std::vector<SignalPatch> patches_typed(const TargetsRequest& request, const IntendedDisplay& plain,
                                       const Quantisation& quantisation,
                                       std::vector<std::string>& understood,
                                       std::vector<Warning>& warnings) {
    if (request.patches.empty()) {
        return proof_patches(plain, quantisation);
    }
    io::PatchList list = io::read_patch_list_csv(
        request.patches, {quantisation.bits(), quantisation.range(), !request.range.empty()});
    say_how_read(request.patches, list.understood, understood);
    warnings = std::move(list.warnings);
    ask_about_signals(request.patches, list.signals, quantisation, warnings);
    return coded(
        list.surfaces.empty() ? std::move(list.signals) : surface_patches(plain, list.surfaces),
        quantisation);
}

std::optional<assess::TargetDisplays> displays_typed(const TargetsRequest& request,
                                                     std::vector<std::string>& understood) {
    const bool panel = !request.panels.empty() || !io::places_in_options(request.lights).empty();
    if (!panel && request.reference.empty()) {
        io::require_columns_used({}, request.lights);
        return {};
    }
    if (!panel || request.reference.empty()) {
        throw Error(ErrorKind::input, panel ? "PANEL" : "--reference",
                    panel ? "no --reference beside it" : "no PANEL beside it",
                    "both displays for targets that are seen alike, or neither");
    }
    if (!request.intent.white.empty()) {
        throw Error(ErrorKind::input, "--white", "a white beside two displays",
                    "none: what looks alike decides the white");
    }
    assess::ListedPanel here = only_panel(request.panels, request.lights);
    assess::ListedPanel there = only_panel({request.reference}, {});
    say_how_read(here.name, here.understood, understood);
    say_how_read(there.name, there.understood, understood);
    return assess::TargetDisplays{std::move(here), std::move(there),
                                  observer_named(request.observer)};
}

}  // namespace

TargetsAnswer answer_targets(const TargetsRequest& request) {
    const Quantisation quantisation = codes_typed(request.bits, request.range);
    IntentOpened intent = open_intent(request.intent);
    TargetsAnswer answer;
    answer.white_chosen = intent.white_chosen;
    answer.made = {request.intent.curve, request.intent.encoding};
    answer.understood = std::move(intent.understood);
    auto displays = displays_typed(request, answer.understood);
    std::vector<Warning> warnings;
    auto patches = patches_typed(request, intent.plain, quantisation, answer.understood, warnings);
    const assess::TargetsRequest asked{std::move(intent.chosen), std::move(intent.plain),
                                       std::move(patches), quantisation, std::move(displays)};
    const std::string about =
        asked.displays ? asked.displays->panel.name + " beside " + asked.displays->reference.name
                       : "";
    static_cast<assess::TargetsAnswer&>(answer) =
        about.empty() ? assess::answer_targets(asked)
                      : assess::about({about}, [&] { return assess::answer_targets(asked); });
    answer.warnings.insert(answer.warnings.begin(), warnings.begin(), warnings.end());
    answer.warnings.insert(answer.warnings.begin(), intent.warnings.begin(), intent.warnings.end());
    return answer;
}

std::string targets_csv(const TargetsAnswer& answer) {
    std::string csv =
        fmt::format("# targets: {}{}\npatch,group,r,g,b,bits,range,x,y,Y,reach\n",
                    answer.kind == TargetKind::seen_alike ? "seen alike, for " + answer.eye
                                                          : std::string("white replaced"),
                    made_for(answer.made));
    const char* range = answer.quantisation.range() == SignalRange::full ? "full" : "limited";
    for (const PatchTarget& target : answer.targets) {
        const auto codes = codes_of(target.patch.signal, answer.quantisation);
        const double sum = target.xyz[0] + target.xyz[1] + target.xyz[2];
        const double x = sum > 0.0 ? target.xyz[0] / sum : 0.0;
        const double y = sum > 0.0 ? target.xyz[1] / sum : 0.0;
        fmt::format_to(std::back_inserter(csv), "{},{},{},{},{},{},{},{:.5f},{:.5f},{:.6g},{}\n",
                       csv_cell(io::harmless(target.patch.name)), code_of(target.patch.group),
                       codes[0], codes[1], codes[2], answer.quantisation.bits(), range, x, y,
                       target.xyz[1], code_of(target.reach));
    }
    return csv;
}

}  // namespace samelight::report
