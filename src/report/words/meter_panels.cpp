#include "report/words/meter_panels.hpp"

#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/error_list.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

ListedPanels listed_panels(const std::vector<std::string>& words, const io::LightOptions& options,
                           const Sampling& sampling) {
    io::require_columns_used(words, options);
    io::OpenedDisplays opened = io::open_displays(words, options, sampling);
    ListedPanels result{{}, std::move(opened.errors)};
    for (io::OpenedDisplay& one : opened.displays) {
        io::NamedPanel& named = one.display;
        result.panels.push_back({one.name, std::move(named.panel), named.model, named.set_to,
                                 std::move(named.understood), std::move(named.warnings)});
    }
    return result;
}

assess::ListedPanel only_panel(const std::vector<std::string>& words,
                               const io::LightOptions& options, const Sampling& sampling) {
    ListedPanels listed = listed_panels(words, options, sampling);
    require_enough(0, listed.errors.size(), listed.errors);
    if (listed.panels.size() != 1) {
        throw Error(ErrorKind::input, "PANEL", std::to_string(listed.panels.size()) + " displays",
                    "one");
    }
    return std::move(listed.panels.front());
}

void require_enough(std::size_t good, std::size_t least, const std::vector<Error>& errors) {
    if (errors.empty() || good >= least) return;
    if (errors.size() == 1) throw errors.front();
    throw ErrorList(errors);
}

void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood) {
    for (const std::string& sentence : sentences) {
        understood.push_back(&sentence == &sentences.front() ? file + ": " + sentence : sentence);
    }
}

}  // namespace samelight::report
