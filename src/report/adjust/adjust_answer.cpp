#include "samelight/report/check/adjust_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/adjusting/control.hpp"
#include "samelight/io/control_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/proof/readings_doubts.hpp"
#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

std::vector<std::string> parts_at_commas(const std::string& text) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;", at), text.size());
        std::string_view part = std::string_view(text).substr(at, end - at);
        while (part.starts_with(' '))
            part.remove_prefix(1);
        while (part.ends_with(' '))
            part.remove_suffix(1);
        parts.emplace_back(part);
        at = end + 1;
    }
    return parts;
}

[[noreturn]] void refuse_points(const std::string& typed) {
    throw Error(ErrorKind::input, "--points", "\"" + io::harmless(typed) + "\"",
                "how many (2 to 100), or levels above 0 to 100 per cent, ascending: 5,10,20");
}

std::vector<double> points_typed(const std::string& typed) {
    if (typed.empty()) {
        return {};
    }
    const std::vector<std::string> parts = parts_at_commas(typed);
    std::vector<double> levels;
    for (const std::string& part : parts) {
        const double value = samelight::detail::number_or_nan(part);
        const double before = levels.empty() ? 0.0 : levels.back();
        if (!(value > 100.0 * before && value <= 100.0)) {
            refuse_points(typed);
        }
        levels.push_back(value / 100.0);
    }
    if (levels.size() > 1) {
        return levels;
    }
    const double count = 100.0 * levels[0];
    if (std::abs(count - std::round(count)) > 1e-9 || count < 1.5) {
        refuse_points(typed);
    }
    return equal_levels(static_cast<int>(std::lround(count)));
}

/// "red gain -3": a control's name and a whole number, with a sign or without.
std::optional<assess::MovedControl> move_typed(const std::string& text) {
    const std::size_t space = text.find_last_of(' ');
    if (space == std::string::npos) {
        return {};
    }
    std::string_view number = std::string_view(text).substr(space + 1);
    if (number.starts_with('+')) {
        number.remove_prefix(1);
    }
    const double steps = samelight::detail::number_or_nan(number);
    const auto control = control_named(std::string_view(text).substr(0, space));
    if (!control || !(std::abs(steps) <= 1000.0) || steps != std::round(steps)) {
        return {};
    }
    return assess::MovedControl{*control, static_cast<int>(steps)};
}

std::vector<assess::MovedControl> moves_typed(const std::string& typed) {
    std::vector<assess::MovedControl> moves;
    if (typed.empty()) {
        return moves;
    }
    for (const std::string& part : parts_at_commas(typed)) {
        const auto move = move_typed(part);
        const bool twice = move && std::any_of(moves.begin(), moves.end(), [&move](const auto& m) {
                               return m.control == move->control;
                           });
        if (!move || twice) {
            throw Error(ErrorKind::input, "--moved",
                        (twice ? "a second \"" : "\"") + io::harmless(part) + "\"",
                        "each control once, with its steps: \"red gain -3, blue gain 5\"");
        }
        moves.push_back(*move);
    }
    return moves;
}

/// What stands then: what was set before, and what is to be set now.
std::string moved_text(std::vector<assess::MovedControl> moves, const AdjustAnswer& answer) {
    const auto add = [&moves](const Control& control, int steps) {
        const auto at = std::find_if(moves.begin(), moves.end(),
                                     [&control](const auto& m) { return m.control == control; });
        if (at == moves.end()) {
            moves.push_back({control, steps});
        } else {
            at->steps += steps;
        }
    };
    for (const PlannedStep& step : answer.plan.steps) {
        add(step.control, step.steps);
    }
    std::string text;
    for (const assess::MovedControl& move : moves) {
        if (move.steps != 0) {
            text += (text.empty() ? "" : ", ") + name_of(move.control) + " " +
                    std::to_string(move.steps);
        }
    }
    return text;
}

/// Readings of controls as those of greys: a control moves them less than exchanged columns do.
std::vector<PatchReading> greys_of(const std::vector<ControlReading>& controls) {
    std::vector<PatchReading> greys;
    for (const ControlReading& control : controls) {
        const double level = control.level.value_or(1.0);
        PatchReading& grey = greys.emplace_back();
        grey.xyz = control.xyz;
        grey.signal = std::array{level, level, level};
        grey.line = control.line;
    }
    return greys;
}

}  // namespace

AdjustAnswer answer_adjust(const AdjustRequest& request) {
    std::vector<double> points = points_typed(request.points);
    std::vector<assess::MovedControl> moves = moves_typed(request.moved);
    ReadingsTyped typed = request.greys;
    typed.picture = PictureWindows::one;
    ReadingsOpened greys = open_patch_readings(typed);
    IntentOpened intent =
        assess::about({request.intent.white_cd_m2 ? "--peak" : request.greys.file},
                      [&] { return open_intent(request.intent, measured_ends(greys.readings)); });
    AdjustAnswer answer;
    say_how_read(request.greys.file, greys.understood, answer.understood);
    answer.understood.insert(answer.understood.end(), intent.understood.begin(),
                             intent.understood.end());
    std::vector<std::string> subjects = {request.greys.file};
    assess::AdjustRequest asked{
        std::move(greys.readings), std::move(intent.chosen), {}, std::move(points), moves};
    if (!request.controls.empty()) {
        io::ControlReadingsFile controls = io::read_control_readings_csv(request.controls);
        say_how_read(request.controls, controls.understood, answer.understood);
        asked.controls = std::move(controls.rows);
        require_columns_in_order({request.controls, greys_of(asked.controls)}, greys.warnings);
    }
    static_cast<assess::AdjustAnswer&>(answer) =
        assess::about(subjects, [&] { return assess::answer_adjust(asked); });
    answer.greys = request.greys.file;
    answer.controls = request.controls;
    answer.encoding = asked.intended.encoding().title();
    answer.curve = asked.intended.curve().options();
    answer.white_chosen = intent.white_chosen;
    answer.corrected = greys.correction.has_value();
    answer.warnings = std::move(intent.warnings);
    std::move(greys.warnings.begin(), greys.warnings.end(), std::back_inserter(answer.warnings));
    answer.moved_then = moved_text(std::move(moves), answer);
    return answer;
}

}  // namespace samelight::report
