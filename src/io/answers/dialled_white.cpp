// The white to dial in, out of a JSON answer.
#include "samelight/io/dialled_white.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

#include <nlohmann/json.hpp>

#include "io/answers/kept_json.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io {

namespace {

using WhiteAnswerJson = nlohmann::ordered_json;

std::string name_in(const WhiteAnswerJson& panel) {
    const auto name = panel.is_object() ? panel.find("name") : panel.end();
    return name != panel.end() && name->is_string() ? name->get<std::string>() : std::string();
}

Chromaticity<Cie1931_2deg> white_of_panel(const WhiteAnswerJson& panel, const std::string& file) {
    const auto advice = panel.is_object() ? panel.find("advice") : panel.end();
    if (advice != panel.end() && advice->is_object()) {
        const auto white = advice->find("white");
        if (white != advice->end() && white->is_object()) {
            const auto x = white->find("x");
            const auto y = white->find("y");
            if (x != white->end() && y != white->end() && x->is_number() && y->is_number() &&
                y->get<double>() > 0.0) {
                return {x->get<double>(), y->get<double>()};
            }
        }
    }
    throw Error(ErrorKind::input, file, "no white to dial in for " + harmless(name_in(panel)),
                "an answer that has one, or x,y");
}

/// The display of that name in an answer; without a name the only one.
const WhiteAnswerJson& panel_named(const WhiteAnswerJson& panels, const std::string& name,
                                   const std::string& file) {
    std::string names;
    for (const WhiteAnswerJson& panel : panels) {
        const std::string own = name_in(panel);
        if (name.empty() ? panels.size() == 1 : own == name) {
            return panel;
        }
        names += (names.empty() ? "" : ", ") + own;
    }
    throw Error(ErrorKind::input, file,
                name.empty() ? "whites of " + std::to_string(panels.size()) + " displays"
                             : "no display " + harmless(name),
                "FILE#DISPLAY, of " + harmless(beginning_of(names, 500)));
}

}  // namespace

Chromaticity<Cie1931_2deg> parse_dialled_white(std::string_view bytes, const std::string& source,
                                               const std::string& display) {
    const std::string file = harmless(source);
    const WhiteAnswerJson answer = detail::answer_json(bytes, file);
    const auto schema = answer.is_object() ? answer.find("schema") : answer.end();
    const auto panels = answer.is_object() ? answer.find("panels") : answer.end();
    if (schema == answer.end() || *schema != "samelight/white/1" || panels == answer.end() ||
        !panels->is_array()) {
        throw Error(ErrorKind::input, file, "no answer about whites",
                    "a white as x,y, or the JSON of samelight white");
    }
    return white_of_panel(panel_named(*panels, display, file), file);
}

Chromaticity<Cie1931_2deg> read_dialled_white(const std::filesystem::path& file,
                                              const std::string& display) {
    return parse_dialled_white(detail::file_bytes(file, detail::largest_answer_bytes, "an answer"),
                               detail::source_name(file), display);
}

}  // namespace samelight::io
