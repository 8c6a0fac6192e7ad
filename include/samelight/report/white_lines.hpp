#pragma once
// The answer of `samelight white` a line a display, for more displays than shall be in memory at once.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/assess/white.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// What became of one display: a line of JSON, and what was wrong where there is no answer.
struct WhiteLine {
    std::string json;  ///< an object and a line feed
    std::optional<Error> error = {};
};

/// Displays one after another. Nothing of a display is kept once its line is made.
class WhiteLines {
  public:
    /// @param request  its panels are not asked for, and its `now` must be empty: there may be any number of displays
    /// Throws Error as answer_white().
    explicit WhiteLines(const WhiteRequest& request);

    /// What all displays have in common: an object, "schema": "samelight/white-lines/1", and a line feed. Empty until it is known, which
    /// with whites by eye takes the first display.
    [[nodiscard]] std::string common() const;

    /// The next displays, in their order. A line is what white_json() has among "panels" for that display; of one that can't be
    /// opened or answered it is its name and "error", as error_json() has it. Throws Error where whites were set by eye and the first
    /// display, from which the viewers' eyes are learnt, is such a one.
    [[nodiscard]] std::vector<WhiteLine> next(std::span<const std::string> panels);

  private:
    [[nodiscard]] WhiteLine line_of(assess::PanelPart part) const;

    WhiteRequest request_;
    std::vector<Warning> notes_;
    assess::WhiteSeries series_;
    bool common_known_;
};

}  // namespace samelight::report
