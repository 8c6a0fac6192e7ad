#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_choose.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/meter_panels.hpp"

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

/// The request with every correction that stands in the place of a display among the corrections.
MeterChooseRequest sorted(const MeterChooseRequest& request) {
    MeterChooseRequest result = request;
    result.panels.clear();
    for (const std::string& text : request.panels) {
        const bool correction = text.ends_with(".json") || text.ends_with(".JSON");
        (correction ? result.corrections : result.panels).push_back(text);
    }
    return result;
}

std::size_t under_of(const MeterChooseRequest& request) {
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

/// Corrections and displays as they are given; each is refused before the next is opened.
void open_files(const MeterChooseRequest& request, assess::MeterChooseRequest& asked,
                std::vector<std::string>& understood) {
    for (const std::string& file : request.corrections) {
        asked.corrections.push_back({file, io::read_correction(file)});
        try {
            assess::about({file}, [&] {
                assess::require_usable(asked.corrections.back(), request.sampling);
            });
        } catch (const Error& error) {
            throw_in_command_words(error);
        }
    }
    if (!request.meter.empty()) {
        io::NamedMeter meter = assess::about({request.meter}, [&] {
            return io::open_meter(request.meter,
                                  request.scale_on_a ? RowScale::illuminant_a : RowScale::as_given,
                                  request.sampling);
        });
        say_how_read(request.meter, meter.understood, understood);
        asked.meter = std::move(meter);
    }
    for (const std::string& text : request.panels) {
        asked.panels.push_back(listed_panel(text, request.sampling));
        const assess::ListedPanel& panel = asked.panels.back();
        assess::about({text},
                      [&] { static_cast<void>(panel_as_shown(panel.panel, panel.set_to)); });
        say_how_read(text, panel.understood, understood);
    }
    if (request.panels.empty()) {
        for (const assess::NamedCorrection& correction : asked.corrections) {
            asked.panels.push_back(assess::display_of(correction, request.sampling));
            for (const std::string& sentence : asked.panels.back().understood) {
                understood.push_back(sentence);
            }
        }
    }
}

std::optional<assess::WhiteReadNow> white_of(const MeterChooseRequest& request,
                                             std::size_t panels) {
    if (request.reference_white.empty() && request.meter_white.empty()) {
        return {};
    }
    if (request.reference_white.empty() || request.meter_white.empty() || panels != 1) {
        throw Error(ErrorKind::input, "the paired white",
                    panels != 1 ? std::to_string(panels) + " panels" : "one instrument's reading",
                    "--reference-white and --meter-white, of one display");
    }
    const std::size_t under = under_of(request);
    return assess::WhiteReadNow{
        {xy_of("--reference-white", request.reference_white),
         xy_of("--meter-white", request.meter_white), request.noise_xy, request.readings},
        under};
}

}  // namespace

MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& typed) {
    const MeterChooseRequest request = sorted(typed);
    if (request.panels.empty() && request.corrections.empty()) {
        throw Error(ErrorKind::input, "meter choose", "neither a display nor a correction",
                    "PANEL, or a correction that was kept with its display's spectra");
    }
    assess::MeterChooseRequest asked;
    asked.options = {request.mismatch_percent, request.limit_uv};
    as_options([&] {
        assess::require_valid(asked.options);
        assess::require_valid_noise({{}, {}, request.noise_xy, request.readings});
    });
    if (request.scale_on_a && request.meter.empty()) {
        throw Error(ErrorKind::input, "--scale-on-a", "without a meter's sensitivities",
                    "--meter METER.csv with it");
    }
    std::vector<std::string> understood;
    open_files(request, asked, understood);
    asked.white = white_of(request, asked.panels.size());
    std::vector<std::string> subjects = request.panels;
    subjects.insert(subjects.end(), request.corrections.begin(), request.corrections.end());
    MeterChooseAnswer answer{
        assess::about(subjects, [&] { return assess::answer_meter_choose(asked); }),
        std::move(understood)};
    name_options(answer.warnings);
    return answer;
}

}  // namespace samelight::report
