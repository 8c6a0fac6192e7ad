#include "report/words/meter_panels.hpp"

#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/error_words.hpp"
#include "samelight/assess/listed_panel.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

assess::ListedPanel listed_panel(const std::string& text, const Sampling& sampling) {
    io::NamedPanel named = assess::about({text}, [&] { return io::open_panel(text, sampling); });
    return {text,         std::move(named.panel),      named.model,
            named.set_to, std::move(named.understood), std::move(named.warnings)};
}

void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood) {
    for (const std::string& sentence : sentences) {
        understood.push_back(&sentence == &sentences.front() ? file + ": " + sentence : sentence);
    }
}

}  // namespace samelight::report
