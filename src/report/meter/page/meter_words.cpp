#include "report/meter/page/meter_words.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "report/words/command_words.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

void add_meter_cautions(std::span<const Warning> warnings, Section& section) {
    std::size_t number = 0;
    for (const Warning& warning : warnings) {
        if (warning.code != "negative_noise") {
            section.add("caution-" + std::to_string(++number), Level::essential,
                        Caution{warning.code, command_sentence(warning)});
        }
    }
}

void add_meter_reading(std::span<const Warning> warnings,
                       const std::vector<std::string>& understood, Section& section,
                       const std::string& more) {
    std::string text;
    for (const Warning& warning : warnings) {
        if (warning.code == "negative_noise") {
            text += " " + command_sentence(warning);
        }
    }
    for (const std::string& sentence : understood) {
        text += " " + sentence;
    }
    text += more;
    if (!text.empty()) {
        section.add("read-so", Level::detail, Paragraph{"Read so:" + text});
    }
}

}  // namespace samelight::report
