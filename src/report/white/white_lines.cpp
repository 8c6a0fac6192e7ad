#include "samelight/report/white_lines.hpp"

#include <cstddef>
#include <utility>

#include <nlohmann/json.hpp>

#include "report/white/white_asked.hpp"
#include "report/white/white_json_parts.hpp"
#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/report/error_answer.hpp"

namespace samelight::report {
namespace {

WhiteLine line_of_failure(const std::string& panel, const Error& error) {
    return {json_line({{"name", panel}, {"error", error_parts(error_answer(error))}}), error};
}

}  // namespace

WhiteLines::WhiteLines(const WhiteRequest& request)
    : request_(request),
      series_(asked_without_panels(request_, notes_)),
      common_known_(request_.eyes.empty()) {
    if (!request_.now.empty()) {
        throw Error(ErrorKind::input, "the white as it stands", "displays one after another",
                    "one panel, that set's own");
    }
}

std::string WhiteLines::common() const {
    if (!common_known_) {
        return "";
    }
    assess::WhiteAnswer answer = series_.common();
    answer.viewer_notes.insert(answer.viewer_notes.begin(), notes_.begin(), notes_.end());
    return json_line(white_common_json(answer, "samelight/white-lines/1"));
}

WhiteLine WhiteLines::line_of(assess::PanelPart part) const {
    hint_at_options(series_.common().viewers, part);
    return {json_line(white_panel_json(series_.common(), part))};
}

std::vector<WhiteLine> WhiteLines::next(std::span<const std::string> panels) {
    std::vector<WhiteLine> lines(panels.size());
    std::vector<assess::WhitePanel> displays;
    std::vector<std::size_t> at;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        try {
            displays.push_back(panel_of(request_, panels[i]));
            at.push_back(i);
        } catch (const Error& error) {
            if (!common_known_) {
                throw;
            }
            lines[i] = line_of_failure(panels[i], error);
        }
        if (!common_known_ && i == 0) {
            static_cast<void>(series_.next(displays));
            common_known_ = true;
        }
    }
    const auto all_at_once = [&] {
        std::vector<assess::PanelPart> parts = series_.next(displays);
        for (std::size_t k = 0; k < parts.size(); ++k) {
            lines[at[k]] = line_of(std::move(parts[k]));
        }
    };
    try {
        all_at_once();
    } catch (const Error&) {
        // One of them can't be answered: which one, and what the others are, each says by itself.
        for (std::size_t k = 0; k < displays.size(); ++k) {
            try {
                lines[at[k]] = line_of(std::move(series_.next({&displays[k], 1}).front()));
            } catch (const Error& error) {
                lines[at[k]] = line_of_failure(panels[at[k]], error);
            }
        }
    }
    return lines;
}

}  // namespace samelight::report
