#include <Eigen/LU>

#include "samelight/colour/adaptation.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_type.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/meter/choose.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/keep.hpp"
#include "samelight/meter/keep_verdict.hpp"
#include "samelight/meter/known_corrections.hpp"
#include "samelight/meter/reading_checks.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/spectrum/sampling.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "meter_panels.hpp"

namespace samelight::report {
namespace {

std::array<double, 2> xy_of(const char* option, const std::string& text) {
    const std::size_t comma = text.find(',');
    const auto x = samelight::detail::decimal_number(std::string_view(text).substr(0, comma));
    const auto y =
        comma == std::string::npos
            ? std::nullopt
            : samelight::detail::decimal_number(std::string_view(text).substr(comma + 1));
    if (!x || !y || !(*x > 0.0) || !(*y > 0.0) || !(*x + *y < 1.0)) {
        throw Error(ErrorKind::input, option, "\"" + text + "\"",
                    "x,y with a chromaticity, such as 0.3127,0.3290");
    }
    return {*x, *y};
}

/// What a correction file says against itself, and what in it means nothing here.
void warn_about_file(const std::string& file, const io::StoredCorrection& stored,
                     std::vector<Warning>& warnings) {
    if (!stored.ignored.empty()) {
        std::string keys;
        for (const std::string& key : stored.ignored) {
            keys += (keys.empty() ? "" : ", ") + key;
        }
        warnings.push_back({"unknown_keys", file +
                                                ": left alone what means nothing to this "
                                                "version: " +
                                                keys + "."});
    }
    const Correction& correction = stored.correction;
    if (correction.verdict && *correction.verdict != FitVerdict::read_again) {
        return;
    }
    const auto doubt =
        std::find_if(correction.warnings.begin(), correction.warnings.end(), [](const Warning& w) {
            return w.code == "odd_reading" || w.code == "odd_patch" || w.code == "drift";
        });
    if (doubt != correction.warnings.end()) {
        warnings.push_back(
            {"made_with_doubt", file + " was made with this doubt: " + doubt->message});
    }
}

KnownCorrection opened(const std::string& file, const Sampling& sampling,
                       MeterChooseAnswer& answer) {
    io::StoredCorrection stored = io::read_correction(file);
    warn_about_file(file, stored, answer.warnings);
    if (!(std::abs(Eigen::Matrix3d(stored.correction.matrix()).determinant()) > 1e-9)) {
        throw Error(ErrorKind::input, file, "reference_from_meter without an inverse",
                    "a matrix that keeps colours apart");
    }
    try {
        static_cast<void>(observer_named(stored.correction.observer));
    } catch (const Error&) {
        throw Error(ErrorKind::input, file,
                    "observer \"" + stored.correction.observer + "\", which isn't known here",
                    "one that samelight observer lists");
    }
    KnownCorrection known{file, std::move(stored.correction)};
    answer.corrections.push_back(file);
    answer.made_on.push_back(known.correction.provenance.panel);
    const std::vector<Warning>& doubts = known.correction.warnings;
    const auto other_panel = std::find_if(
        doubts.begin(), doubts.end(), [](const Warning& w) { return w.code == other_panel_code; });
    if (other_panel != doubts.end()) {
        answer.warnings.push_back({other_panel_code, file + ": " + other_panel->message});
    } else if (stored.panel_spectra) {
        known.panel = panel_from_stored(file, *stored.panel_spectra, sampling);
    } else {
        answer.warnings.push_back(
            {"no_panel_spectra", file +
                                     " keeps no spectra of the display that it was made on, so it "
                                     "can't be judged for another one, nor tell what the meter "
                                     "is like; make it with meter fit --panel, or give --meter."});
    }
    return known;
}

std::size_t stored_under(const MeterChooseRequest& request) {
    if (request.under.empty() && request.corrections.size() == 1) {
        return 0;
    }
    const auto found =
        std::find(request.corrections.begin(), request.corrections.end(), request.under);
    if (found == request.corrections.end()) {
        throw Error(ErrorKind::input, "--under",
                    request.under.empty() ? "nothing, with more than one correction or none"
                                          : "\"" + request.under + "\"",
                    "the correction file that the meter's white was read with, one of those given");
    }
    return static_cast<std::size_t>(found - request.corrections.begin());
}

/// The paired white decides first: what no longer holds is out of the choice, and what was read stands in place of what is expected.
void judge_paired_white(const MeterChooseRequest& request, std::vector<KnownCorrection>& known,
                        std::optional<ReadWhite>& none_read, MeterChooseAnswer& answer) {
    if (request.reference_white.empty() && request.meter_white.empty()) {
        return;
    }
    if (request.reference_white.empty() || request.meter_white.empty() ||
        request.panels.size() != 1) {
        throw Error(ErrorKind::input, "the paired white",
                    request.panels.size() != 1 ? std::to_string(request.panels.size()) + " panels"
                                               : "one instrument's reading",
                    "--reference-white and --meter-white, of one display");
    }
    const std::size_t under = stored_under(request);
    const Correction& stored = known[under].correction;
    KeepPart part;
    part.under = known[under].name;
    part.white = {xy_of("--reference-white", request.reference_white),
                  xy_of("--meter-white", request.meter_white), request.noise_xy, request.readings};
    part.verdict = keep_or_refit(stored, part.white, request.limit_uv);
    const auto with = [&](const std::string& name, const Correction& other) {
        const auto xy = white_with(other, stored, part.white.meter);
        part.others.push_back(
            {name, xy,
             std::hypot(xy[0] - part.white.reference[0], xy[1] - part.white.reference[1])});
        return read_white(other, stored, part.white, request.limit_uv);
    };
    if (stored.observer == Cie1931_2deg::id && !stored.raw_channels) {
        none_read = with("none", Correction{});
    }
    known[under].read = read_white(stored, stored, part.white, request.limit_uv);
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (i != under && known[i].correction.observer == stored.observer &&
            known[i].correction.raw_channels == stored.raw_channels) {
            known[i].read = with(known[i].name, known[i].correction);
        }
    }
    known[under].keep = part.verdict.verdict == Keep::keep;
    if (part.verdict.verdict == Keep::refit) {
        known[under].not_at_all = "the white read now says that it no longer holds";
    } else if (part.verdict.verdict == Keep::too_unsure) {
        known[under].not_at_all = "the white read now can't confirm it, nor can any other";
    } else if (part.verdict.verdict == Keep::read_again) {
        known[under].not_safe = "whether it still holds is not settled";
    }
    answer.keep = std::move(part);
}

}  // namespace

MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& request) {
    if (request.panels.empty()) {
        throw Error(ErrorKind::input, "meter choose", "no panel", "at least one");
    }
    if (!(request.mismatch_percent > 0.0) || !(request.mismatch_percent < 100.0)) {
        throw Error(ErrorKind::input, "--mismatch", to_text(request.mismatch_percent),
                    "an f1' above 0 and below 100 %");
    }
    if (!(request.limit_uv > 0.0) || !std::isfinite(request.limit_uv)) {
        throw Error(ErrorKind::input, "--limit", to_text(request.limit_uv),
                    "a u'v' distance above 0, such as 0.0011");
    }
    if (!(request.noise_xy >= 0.0) || !(request.readings >= 1)) {
        throw Error(
            ErrorKind::input, request.readings >= 1 ? "--noise" : "--readings",
            request.readings >= 1 ? to_text(request.noise_xy) : std::to_string(request.readings),
            request.readings >= 1 ? "a standard deviation of x and y, 0 or more"
                                  : "1 or more readings");
    }
    if (request.scale_on_a && request.meter.empty()) {
        throw Error(ErrorKind::input, "--scale-on-a", "without a meter's sensitivities",
                    "--meter METER.csv with it");
    }
    MeterChooseAnswer answer;
    std::vector<KnownCorrection> known;
    for (const std::string& file : request.corrections) {
        known.push_back(opened(file, request.sampling, answer));
    }
    ChooseOptions options;
    options.supposed.mismatch = 0.01 * request.mismatch_percent;
    options.safe_uv = request.limit_uv;
    if (!request.meter.empty()) {
        io::NamedMeter meter = io::open_meter(request.meter, request.scale_on_a, request.sampling);
        say_how_read(request.meter, meter.understood, answer.understood);
        answer.warnings.insert(answer.warnings.end(), meter.warnings.begin(), meter.warnings.end());
        options.meter = std::move(meter.rows);
        answer.meter_known = true;
        answer.meter = request.meter;
    }
    std::vector<Panel> panels;
    std::vector<bool> generic;
    for (const std::string& text : request.panels) {
        const io::NamedPanel named = io::open_panel(text, request.sampling);
        panels.push_back(panel_as_shown(named));
        generic.push_back(named.model != nullptr);
        say_how_read(text, named.understood, answer.understood);
        answer.warnings.insert(answer.warnings.end(), named.warnings.begin(), named.warnings.end());
    }
    judge_paired_white(request, known, options.none_read, answer);
    Choices choices = choose_corrections(panels, known, options);
    answer.believable = choices.believable;
    answer.supposed_mismatch_percent = 100.0 * choices.supposed_mismatch;
    answer.limit_uv = request.limit_uv;
    // What no meter can be comes before all else.
    answer.warnings.insert(choices.believable ? answer.warnings.end() : answer.warnings.begin(),
                           choices.warnings.begin(), choices.warnings.end());
    for (std::size_t i = 0; i < panels.size(); ++i) {
        choices.panels[i].panel = request.panels[i];
        answer.panels.push_back(
            {std::move(choices.panels[i]), generic[i], identify_panel(panels[i])});
    }
    return answer;
}

}  // namespace samelight::report
