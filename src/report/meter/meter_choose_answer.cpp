#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_choose.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/error_list.hpp"

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

bool names_display(const MeterChooseRequest& request) {
    return !request.panels.empty() || !io::places_in_options(request.lights).empty();
}

std::size_t under_of(const MeterChooseRequest& request,
                     const std::vector<assess::NamedCorrection>& corrections) {
    if (request.under.empty() && request.corrections.size() == 1) {
        return 0;
    }
    const auto found = std::find_if(corrections.begin(), corrections.end(),
                                    [&](const assess::NamedCorrection& correction) {
                                        return correction.name == request.under;
                                    });
    if (found == corrections.end()) {
        throw Error(ErrorKind::input, "--under",
                    request.under.empty() ? "nothing, with more than one correction or none"
                                          : "\"" + request.under + "\"",
                    "the correction file that the meter's white was read with, one of those given");
    }
    return static_cast<std::size_t>(found - corrections.begin());
}

assess::NamedCorrection usable_correction(const std::string& file, const Sampling& sampling) {
    assess::NamedCorrection named{file, io::read_correction(file)};
    try {
        assess::require_usable(named, sampling);
    } catch (const Error& error) {
        throw_in_command_words(error);
    }
    return named;
}

/// The corrections that can be used; what is wrong with the others stands among the errors.
void open_corrections(const MeterChooseRequest& request, assess::MeterChooseRequest& asked,
                      std::vector<Error>& errors) {
    for (const std::string& file : request.corrections) {
        try {
            asked.corrections.push_back(
                assess::about({file}, [&] { return usable_correction(file, request.sampling); }));
        } catch (const Error& error) {
            errors.push_back(error);
        }
    }
    require_enough(asked.corrections.size(), 1, errors);
}

/// The displays that were named and can show their white; what is wrong with the others.
std::vector<Error> open_named_displays(const MeterChooseRequest& request,
                                       assess::MeterChooseRequest& asked,
                                       MeterChooseAnswer& answer) {
    ListedPanels listed = listed_panels(request.panels, request.lights, request.sampling);
    for (assess::ListedPanel& panel : listed.panels) {
        try {
            assess::about({panel.name},
                          [&] { static_cast<void>(panel_as_shown(panel.panel, panel.set_to)); });
            say_how_read(panel.name, panel.understood, answer.understood);
            asked.panels.push_back(std::move(panel));
        } catch (const Error& error) {
            listed.errors.push_back(error);
        }
    }
    return std::move(listed.errors);
}

/// The displays that the corrections themselves hold; which hold none.
std::vector<Error> displays_held(const MeterChooseRequest& request,
                                 assess::MeterChooseRequest& asked, MeterChooseAnswer& answer) {
    std::vector<Error> errors;
    for (const assess::NamedCorrection& correction : asked.corrections) {
        try {
            asked.panels.push_back(assess::display_of(correction, request.sampling));
            answer.understood.push_back("The display is the one whose spectra " + correction.name +
                                        " holds.");
        } catch (const Error& error) {
            errors.push_back(error);
        }
    }
    return errors;
}

/// Corrections and displays as they are given, those that can be opened.
void open_files(const MeterChooseRequest& request, assess::MeterChooseRequest& asked,
                MeterChooseAnswer& answer) {
    open_corrections(request, asked, answer.errors);
    if (!request.meter.empty()) {
        io::NamedMeter meter = assess::about({request.meter}, [&] {
            return io::open_meter(request.meter,
                                  request.scale_on_a ? RowScale::illuminant_a : RowScale::as_given,
                                  request.sampling);
        });
        say_how_read(request.meter, meter.understood, answer.understood);
        asked.meter = std::move(meter);
    }
    std::vector<Error> errors = names_display(request) ? open_named_displays(request, asked, answer)
                                                       : displays_held(request, asked, answer);
    require_enough(asked.panels.size(), 1, errors);
    answer.errors.insert(answer.errors.end(), errors.begin(), errors.end());
}

std::optional<assess::WhiteReadNow> white_of(const MeterChooseRequest& request,
                                             const assess::MeterChooseRequest& asked) {
    if (request.reference_white.empty() && request.meter_white.empty()) {
        return {};
    }
    if (request.reference_white.empty() || request.meter_white.empty() ||
        asked.panels.size() != 1) {
        throw Error(ErrorKind::input, "the paired white",
                    asked.panels.size() != 1 ? std::to_string(asked.panels.size()) + " panels"
                                             : "one instrument's reading",
                    "--reference-white and --meter-white, of one display");
    }
    const std::size_t under = under_of(request, asked.corrections);
    return assess::WhiteReadNow{
        {xy_of("--reference-white", request.reference_white),
         xy_of("--meter-white", request.meter_white), request.noise_xy, request.readings},
        under};
}

/// What the answer is about: displays and corrections.
std::vector<std::string> chosen_among(const assess::MeterChooseRequest& asked) {
    std::vector<std::string> subjects;
    for (const assess::ListedPanel& panel : asked.panels) {
        subjects.push_back(panel.name);
    }
    for (const assess::NamedCorrection& correction : asked.corrections) {
        subjects.push_back(correction.name);
    }
    return subjects;
}

}  // namespace

MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& typed) {
    const MeterChooseRequest request = sorted(typed);
    if (!names_display(request) && request.corrections.empty()) {
        throw Error(ErrorKind::input, "meter choose", "neither a display nor a correction",
                    "PANEL, or a correction that was kept with its display's spectra");
    }
    if (!names_display(request)) {
        io::require_columns_used({}, request.lights);
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
    MeterChooseAnswer answer;
    open_files(request, asked, answer);
    asked.white = white_of(request, asked);
    static_cast<assess::MeterChooseAnswer&>(answer) =
        assess::about(chosen_among(asked), [&] { return assess::answer_meter_choose(asked); });
    return answer;
}

}  // namespace samelight::report
