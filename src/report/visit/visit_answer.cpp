#include "samelight/report/check/visit_answer.hpp"
#include "samelight/report/check/proof_typed.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/proof/readings_doubts.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

[[noreturn]] void refuse_visit(const char* option, const std::string& found, const char* wanted) {
    throw Error(ErrorKind::input, ErrorPlace{option}, found, wanted);
}

bool named_hdr(const std::string& mode) {
    std::string low = mode;
    std::transform(low.begin(), low.end(), low.begin(), [](char c) {
        return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    });
    return low.find("hdr") != std::string::npos;
}

std::vector<std::string> parts_between_commas(std::string_view text) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    while (from <= text.size()) {
        const std::size_t comma = std::min(text.find(',', from), text.size());
        parts.emplace_back(text.substr(from, comma - from));
        from = comma + 1;
    }
    return parts;
}

VisitDisplay display_typed(const std::string& typed, bool hdr) {
    const std::size_t colon = typed.find(':');
    VisitDisplay display{typed.substr(0, colon), {}, {}};
    if (display.name.empty()) {
        refuse_visit("DISPLAY", "\"" + typed + "\"",
                     "a name, or a name and modes (hall:cinema,game)");
    }
    if (colon != std::string::npos) {
        for (const std::string& mode :
             parts_between_commas(std::string_view(typed).substr(colon + 1))) {
            const bool again = std::any_of(display.modes.begin(), display.modes.end(),
                                           [&](const VisitMode& m) { return m.name == mode; });
            if (mode.empty() || again) {
                refuse_visit("DISPLAY", "\"" + typed + "\"",
                             "modes with names of their own, a comma between them");
            }
            display.modes.push_back({mode, hdr && named_hdr(mode)});
        }
    } else {
        display.modes.push_back({"", false});
    }
    const bool has_windows = std::any_of(display.modes.begin(), display.modes.end(),
                                         [](const VisitMode& m) { return m.windows; });
    if (hdr && !has_windows) {
        display.modes.push_back({"hdr", true});
    }
    return display;
}

ReadingTimes seconds_typed(const char* option, const std::string& typed,
                           const ReadingTimes& otherwise) {
    if (typed.empty()) {
        return otherwise;
    }
    const std::vector<std::string> parts = parts_between_commas(typed);
    std::array<double, 3> values{};
    for (std::size_t i = 0; i < 3; ++i) {
        values.at(i) = parts.size() == 3 ? detail::number_or_nan(parts[i]) : -1.0;
        if (!(values.at(i) > 0.0 && values.at(i) <= 3600.0)) {
            refuse_visit(option, "\"" + typed + "\"",
                         "seconds for bright,dim,dark light, each above 0 and up to 3600");
        }
    }
    return {values[0], values[1], values[2]};
}

VisitInstruments instruments_typed(const std::string& typed) {
    if (typed != "both" && typed != "meter") {
        refuse_visit("--instruments", "\"" + typed + "\"", "both or meter");
    }
    return typed == "both" ? VisitInstruments::both : VisitInstruments::meter;
}

VisitRequest visit_typed(const VisitTyped& typed) {
    VisitRequest request;
    for (const std::string& display : typed.displays) {
        request.displays.push_back(display_typed(display, typed.hdr));
        const std::string& name = request.displays.back().name;
        if (std::count_if(request.displays.begin(), request.displays.end(),
                          [&](const VisitDisplay& d) { return d.name == name; }) > 1) {
            refuse_visit("DISPLAY", "\"" + name + "\" twice",
                         "each display once, with all its modes");
        }
    }
    if (!(typed.minutes > 0.0 && typed.minutes <= 1e4)) {
        refuse_visit("--minutes", to_text(typed.minutes), "above 0, up to 10,000");
    }
    if (!(typed.on_for_min >= 0.0 && typed.on_for_min <= 1e6)) {
        refuse_visit("--on-for", to_text(typed.on_for_min), "minutes, 0 or more");
    }
    request.minutes = typed.minutes;
    request.instruments = instruments_typed(typed.instruments);
    request.on_for_min = typed.on_for_min;
    VisitTimes& times = request.times;
    times.meter = seconds_typed("--meter-seconds", typed.meter_seconds, times.meter);
    times.reference =
        seconds_typed("--reference-seconds", typed.reference_seconds, times.reference);
    times.warm_up_min = typed.warm_up_min.value_or(times.warm_up_min);
    if (!(times.warm_up_min >= 0.0 && times.warm_up_min <= 1e4)) {
        refuse_visit("--warm-up-minutes", to_text(times.warm_up_min), "0 to 10,000");
    }
    request.quantisation = codes_typed(typed.bits, typed.range);
    return request;
}

/// "DISPLAY=FILE" or "FILE".
std::pair<std::size_t, std::string> warm_up_typed(const std::string& typed,
                                                  const std::vector<VisitDisplay>& displays) {
    const std::size_t equals = typed.find('=');
    for (std::size_t d = 0; equals != std::string::npos && d < displays.size(); ++d) {
        if (displays[d].name == typed.substr(0, equals)) {
            return {d, typed.substr(equals + 1)};
        }
    }
    if (displays.size() > 1) {
        refuse_visit("--warm-up", "\"" + typed + "\" for one of several displays",
                     "DISPLAY=FILE with the name of one of them");
    }
    return {0, typed};
}

bool is_white_at_full(const PatchReading& reading) {
    return !reading.signal || std::all_of(reading.signal->begin(), reading.signal->end(),
                                          [](double s) { return s > 0.999; });
}

/// White over time: of a file that names patches or signals, its whites.
assess::DisplayWarmingUp open_warm_up(std::size_t display, const std::string& name,
                                      std::vector<std::string>& understood,
                                      std::vector<Warning>& warnings) {
    const io::PatchReadingsFile file = io::read_patch_readings_csv(name);
    require_columns_in_order({name, file.rows}, warnings);
    warnings.insert(warnings.end(), file.warnings.begin(), file.warnings.end());
    assess::DisplayWarmingUp warming{display, {}};
    for (const PatchReading& reading : file.rows) {
        if (!is_white_at_full(reading) || (!reading.signal && !is_called(reading.patch, "white"))) {
            continue;
        }
        if (!reading.time_s) {
            throw Error(ErrorKind::input, ErrorPlace{name, static_cast<int>(reading.line)},
                        "a white without a time", "a column time_s with seconds on each white");
        }
        if (!(reading.xyz[1] > 0.0)) {
            throw Error(ErrorKind::input, ErrorPlace{name, static_cast<int>(reading.line)},
                        "a white of Y " + to_text(reading.xyz[1]), "a luminance above 0");
        }
        warming.readings.push_back({*reading.time_s, reading.xyz});
    }
    understood.insert(understood.end(), file.understood.begin(), file.understood.end());
    return warming;
}

}  // namespace

VisitPage answer_visit(const VisitTyped& typed) {
    assess::VisitAsked asked{visit_typed(typed)};
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
    for (const std::string& file : typed.warm_up) {
        const auto [display, name] = warm_up_typed(file, asked.visit.displays);
        const std::size_t index = display;
        if (std::any_of(asked.warming_up.begin(), asked.warming_up.end(),
                        [&](const auto& w) { return w.display == index; })) {
            refuse_visit("--warm-up", "\"" + file + "\" for a display that has a file",
                         "one file a display");
        }
        asked.warming_up.push_back(open_warm_up(display, name, understood, warnings));
        const std::size_t count = asked.warming_up.back().readings.size();
        constexpr std::size_t fewest = 4;
        if (count < fewest) {
            throw Error(ErrorKind::input, ErrorPlace{name},
                        std::to_string(count) + " readings of white", "4 or more over time");
        }
    }
    return {assess::answer_visit(asked), std::move(understood), std::move(warnings)};
}

}  // namespace samelight::report
