#include <algorithm>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/report/white_lines.hpp"
#include "shared/display_options.hpp"
#include "shared/failure.hpp"
#include "shared/name_list.hpp"
#include "shared/output.hpp"
#include "shared/progress.hpp"
#include "shared/report_options.hpp"
#include "shared/terminal.hpp"
#include "shared/threads_option.hpp"

namespace samelight::command {

namespace {

struct WhiteCommand {
    report::WhiteRequest request;
    std::string list;
    bool json = false;
    bool lines = false;
    bool budget = false;
    ReportOptions shown;
};

/// The answer's lines, each as soon as it is known; where one says what was wrong, a line on standard error says it, too.
class LinesOut {
  public:
    explicit LinesOut(const report::WhiteRequest& request) : lines_(request) { say_common(); }

    void answer(std::span<const std::string> panels) { say(lines_.next(panels)); }
    void answer_of_options() { say(lines_.of_options()); }
    void say_unused_options() { say(lines_.of_unused_options()); }
    [[nodiscard]] bool any() const { return any_; }
    [[nodiscard]] bool failed() const { return failed_; }

  private:
    void say(const std::vector<report::WhiteLine>& lines) {
        say_common();
        for (const report::WhiteLine& line : lines) {
            if (line.error) {
                Progress::make_room();
                fmt::print(stderr, "samelight: {}\n", error_line(*line.error));
                failed_ = true;
            }
            print_page(line.json);
        }
        flush_answer();  // whoever reads the lines waits for each
        any_ = any_ || !lines.empty();
    }
    void say_common() {
        if (common_said_) return;
        const std::string common = lines_.common();
        print_page(common);
        flush_answer();
        common_said_ = !common.empty();
    }
    report::WhiteLines lines_;
    bool common_said_ = false;
    bool any_ = false;
    bool failed_ = false;
};

void answer_in_lines(const WhiteCommand& command) {
    // The list first: where it is standard input, nothing else can be.
    std::optional<NameList> list;
    if (!command.list.empty()) list.emplace(command.list);
    LinesOut out(command.request);
    std::span<const std::string> typed = command.request.panels;
    while (!typed.empty()) {
        const std::size_t count = std::min(typed.size(), NameList::most_at_once);
        out.answer(typed.first(count));
        typed = typed.subspan(count);
    }
    if (list) {
        for (auto names = list->next(); !names.empty(); names = list->next()) {
            out.answer(names);
        }
    }
    out.answer_of_options();
    if (!out.any()) throw no_name_in(command.list);
    out.say_unused_options();
    if (out.failed()) throw Said{};
}

/// The files that the answer is made from, and names that are none.
std::vector<std::string> files_read(const WhiteCommand& command) {
    const report::WhiteRequest& request = command.request;
    std::vector<std::string> files = io::files_named(request.panels, request.lights);
    files.insert(files.end(), {request.reference, request.now, request.ages, command.list});
    return files;
}

void answer_at_once(WhiteCommand& command) {
    if (!command.list.empty()) {
        NameList list(command.list);
        std::vector<std::string>& panels = command.request.panels;
        // No more is read than shows that there are too many.
        for (auto names = list.next();
             !names.empty() && panels.size() <= assess::most_white_displays; names = list.next()) {
            panels.insert(panels.end(), names.begin(), names.end());
        }
        const report::WhiteRequest& asked = command.request;
        if (asked.panels.empty() && asked.primaries.empty() &&
            io::places_in_options(asked.lights).empty()) {
            throw no_name_in(command.list);
        }
    }
    const Output& page = command.shown.page;
    page.require_free("--report", command.json, files_read(command));
    const report::WhiteAnswer answer = report::answer_white(command.request);
    if (page.wanted()) {
        page.write(report::white_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::white_json(answer));
    } else {
        page.print_shown(report::white_page(answer, page.page_shown(command.shown.details),
                                            command.budget ? report::BudgetOnPage::part_by_part
                                                           : report::BudgetOnPage::summed_up,
                                            answer.errors),
                         command.shown.details);
    }
    say_left_out(answer.errors);
}

}  // namespace

void add_white(CLI::App& app) {
    const auto options = std::make_shared<WhiteCommand>();
    CLI::App* white = app.add_subcommand(
        "white",
        "what the instrument must read so that this display's white looks like the reference");
    white->add_option(
        "PANEL", options->request.panels,
        std::string("one or more, each ") + display_forms +
            ".\nOr a CSV file of readings:\nname and x,y,Y or X,Y,Z of red, green, blue, white");
    white->add_option(
        "--panels-from", options->list,
        "a file with a PANEL a line, behind those that are typed; -: standard\ninput, which no other name can mean then");
    white->add_option(
        "--primaries", options->request.primaries,
        "instead: a display in numbers, \"red=x,y,Y green=x,y,Y blue=x,y,Y\nwhite=x,y,Y\", with or without Y");
    white->add_option(
        "--type", options->request.type,
        "the type of a display in numbers (see: samelight panel); without it\nthe answer says which types read so");
    white
        ->add_option(
            "--reference", options->request.reference,
            "the light to look like: a CIE illuminant, a file, or a display\n(crt@0.3127,0.3290); x,y alone is read as daylight")
        ->capture_default_str();
    white
        ->add_option(
            "--observer", options->request.observers,
            "for whom; may be repeated (see: samelight observer). CIE 2015, 2 and\n10 degrees unless given. The first one's field is also the people's")
        ->expected(1)
        ->take_all();
    white->add_option(
        "--now", options->request.now,
        "the white as the display shows it now, as a file or as x,y[,Y]; the\nanswer says what is left to go");
    white
        ->add_option("--noise", options->request.instrument_noise_xy,
                     "standard deviation of one reading's x and y")
        ->capture_default_str();
    white
        ->add_option(
            "--viewer", options->request.viewers,
            "someone who watches, AGE or AGE:FIELD in years and degrees (AGE may\nbe unknown); may be repeated: A, B, ... Z. The white dialled in is\nthen theirs")
        ->expected(1)
        ->take_all();
    white
        ->add_option(
            "--eye", options->request.eyes,
            "A=x,y: the white that viewer A set by eye on the first panel, as the\ninstrument reads it; without --viewer someone of unknown age")
        ->expected(1)
        ->take_all();
    white
        ->add_option(
            "--ages", options->request.ages,
            "of the people whose differences are told: 20-70, or a file of ages\nand numbers of people")
        ->capture_default_str();
    white
        ->add_option(
            "--spread", options->request.spread,
            "how they differ at one age: matches (as real matches do) or\nliterature (wider)")
        ->capture_default_str();
    white
        ->add_option("--people", options->request.people,
                     "how many of them are worked out, 1 to 100000")
        ->capture_default_str();
    white->add_option(
        "--instrument", options->request.instrument,
        "what is known of it: shift, bandwidth, step (nm), stray, noise (of\nthe peak), such as bandwidth=5,shift=0.3");
    white
        ->add_option("--floor", options->request.additivity_floor_xy,
                     "doubt in x and y that no observer function explains; 0 leaves it out")
        ->capture_default_str();
    add_display_options(*white, options->request.lights);
    add_threads_option(*white, options->request.threads);
    white->add_flag("--budget", options->budget, "a line for each cause of doubt");
    CLI::Option* page = add_report_options(*white, options->shown);
    add_report_audience(*white, page, options->shown);
    add_report_notes(*white, page, options->shown);
    CLI::Option* json = white->add_flag("--json", options->json, "the answer as one JSON object");
    white
        ->add_flag(
            "--lines-of-json", options->lines,
            "for any number of panels: JSON as lines, what all have in common\nfirst, then an object a panel, as soon as it is known; displays aren't\nset together, nor files of one light each without a red=FILE,...; one\nthat can't be read doesn't stop the others")
        ->excludes(json)
        ->excludes(page);
    white->callback([options] {
        if (options->list.empty() && options->request.primaries.empty()) {
            require_named(options->request.panels, options->request.lights, "PANEL");
        }
        if (options->lines && !options->request.now.empty()) {
            throw CLI::ValidationError(
                "--now", "the white of one display, and --lines-of-json; wanted one of the two");
        }
        if (options->lines) {
            answer_in_lines(*options);
        } else {
            answer_at_once(*options);
        }
    });
}

}  // namespace samelight::command
