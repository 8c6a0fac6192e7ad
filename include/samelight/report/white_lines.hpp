#pragma once
// The answer of `samelight white` a line a display, for more displays than shall be in memory at once.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// What became of one display: a line of JSON, and what was wrong where there is no answer.
struct WhiteLine {
    /// An object and a line feed.
    std::string json;
    std::optional<Error> error = {};
};

/// Displays one after another. Nothing of a display is kept once its line is made.
class WhiteLines {
  public:
    /// @param request  its panels are not asked for, and its `now` must be empty: there may be any number of displays
    /// The files of the display that its options name are read. Throws Error as answer_white().
    explicit WhiteLines(const WhiteRequest& request);

    /// What all displays have in common: an object, "schema": "samelight/white-lines/1", and a line feed. Empty until it is known, which
    /// with whites by eye takes the first display.
    [[nodiscard]] std::string common() const;

    /// The next displays, in their order, a display a word: files of one light each, which are one display to answer_white(), must be named in
    /// one word. A line is what white_json() has among "panels" for that display; of one that can't be opened or answered it is its name and
    /// "error", as error_json() has it. Throws Error where whites were set by eye and the first display, from which the viewers' eyes are
    /// learnt, is such a one.
    [[nodiscard]] std::vector<WhiteLine> next(std::span<const std::string> panels);

    /// The same for the display whose lights the request's options name in files of their own: a line, or none where they name none, and at
    /// a second call. Throws as next().
    [[nodiscard]] std::vector<WhiteLine> of_options();

    /// After the last display, a line of what was wrong for each option that was of use to none: a type, and nothing in numbers; a column,
    /// and no file of its own. Which displays will come, nobody knows before. Empty where all were of use.
    /// Throws as the constructor.
    [[nodiscard]] std::vector<WhiteLine> of_unused_options() const;

  private:
    /// A display as it was named, and what came of its files.
    struct Opened;
    template <class F>
    [[nodiscard]] Opened opened(const std::string& name, F&& open);
    [[nodiscard]] std::vector<WhiteLine> lines_of(std::vector<Opened> displays);
    [[nodiscard]] WhiteLine line_of(const assess::PanelPart& part) const;

    WhiteRequest request_;
    std::vector<Warning> notes_;
    io::OpenedDisplays in_options_;
    assess::WhiteSeries series_;
    bool common_known_;
    bool any_in_numbers_ = false;
    /// The first word of a file of its own, if any
    std::vector<std::string> takes_columns_;
};

}  // namespace samelight::report
