#include "samelight/report/white_lines.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "report/white/white_asked.hpp"
#include "report/white/white_json_parts.hpp"
#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/report/error_answer.hpp"

namespace samelight::report {
namespace {

WhiteLine line_of_failure(const std::string& panel, const Error& error) {
    return {json_line({{"name", panel}, {"error", error_parts(error_answer(error))}}), error};
}

}  // namespace

WhiteLines::WhiteLines(const WhiteRequest& request)
    : request_(request),
      in_options_(displays_of_options(request_)),
      series_(asked_without_panels(request_, notes_)),
      common_known_(request_.eyes.empty()) {
    if (!request_.now.empty()) {
        throw Error(ErrorKind::input, "the white as it stands", "displays one after another",
                    "one panel, that set's own");
    }
    require_type_known(request_);
}

std::string WhiteLines::common() const {
    if (!common_known_) {
        return "";
    }
    assess::WhiteAnswer answer = series_.common();
    answer.viewer_notes.insert(answer.viewer_notes.begin(), notes_.begin(), notes_.end());
    return json_line(white_common_json(answer, "samelight/white-lines/1"));
}

WhiteLine WhiteLines::line_of(const assess::PanelPart& part) const {
    return {json_line(white_panel_json(series_.common(), part))};
}

struct WhiteLines::Opened {
    std::string name;
    std::optional<assess::WhitePanel> display = {};
    std::optional<Error> error = {};
};

template <class F>
WhiteLines::Opened WhiteLines::opened(const std::string& name, F&& open) {
    try {
        const io::OpenedDisplays& found = open();
        any_in_numbers_ = any_in_numbers_ || !found.readings.empty();
        return {name, panel_opened(request_, found)};
    } catch (const Error& error) {
        return {name, {}, error};
    }
}

std::vector<WhiteLine> WhiteLines::next(std::span<const std::string> panels) {
    std::vector<Opened> displays;
    for (const std::string& name : panels) {
        displays.push_back(opened(name, [&] {
            if (takes_columns_.empty() && io::takes_columns(name)) takes_columns_ = {name};
            return io::open_display(name, request_.lights, request_.sampling,
                                    io::FilesOf::spectra_or_readings);
        }));
    }
    return lines_of(std::move(displays));
}

std::vector<WhiteLine> WhiteLines::of_options() {
    std::vector<Opened> displays;
    const io::OpenedDisplays found = std::exchange(in_options_, {});
    if (!found.displays.empty() || !found.readings.empty()) {
        const std::string& name =
            found.displays.empty() ? found.readings.front().name : found.displays.front().name;
        displays.push_back(opened(name, [&]() -> const io::OpenedDisplays& { return found; }));
    }
    for (const Error& error : found.errors) {
        displays.push_back({error.place().name, {}, error});
    }
    return lines_of(std::move(displays));
}

std::vector<WhiteLine> WhiteLines::of_unused_options() const {
    std::vector<WhiteLine> lines;
    if (!common_known_) return lines;
    if (!request_.type.empty() && !any_in_numbers_) {
        const Error error = type_of_nothing(request_.type);
        lines.push_back(line_of_failure(error.place().name, error));
    }
    try {
        io::require_columns_used(takes_columns_, request_.lights);
    } catch (const Error& error) {
        lines.push_back(line_of_failure(error.place().name, error));
    }
    return lines;
}

std::vector<WhiteLine> WhiteLines::lines_of(std::vector<Opened> displays) {
    std::vector<WhiteLine> lines(displays.size());
    std::vector<assess::WhitePanel> good;
    std::vector<std::size_t> at;
    for (std::size_t i = 0; i < displays.size(); ++i) {
        Opened& one = displays[i];
        if (one.error && !common_known_) {
            throw Error(*one.error);
        }
        if (one.error) {
            lines[i] = line_of_failure(one.name, *one.error);
            continue;
        }
        good.push_back(std::move(*one.display));
        at.push_back(i);
        if (!common_known_) {
            static_cast<void>(series_.next(good));
            common_known_ = true;
        }
    }
    const auto all_at_once = [&] {
        std::vector<assess::PanelPart> parts = series_.next(good);
        for (std::size_t k = 0; k < parts.size(); ++k) {
            lines[at[k]] = line_of(parts[k]);
        }
    };
    try {
        all_at_once();
    } catch (const Error&) {
        // One of them can't be answered: which one, and what the others are, each says by itself.
        for (std::size_t k = 0; k < good.size(); ++k) {
            try {
                lines[at[k]] = line_of(series_.next({&good[k], 1}).front());
            } catch (const Error& error) {
                lines[at[k]] = line_of_failure(displays[at[k]].name, error);
            }
        }
    }
    return lines;
}

}  // namespace samelight::report
