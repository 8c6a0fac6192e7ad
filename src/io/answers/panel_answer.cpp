// A built-in panel, read back.
#include "samelight/io/answers/panel_answer.hpp"
#include "samelight/io/text_for_people.hpp"

#include <string>
#include <utility>
#include <vector>

#include "io/answers/kept_json.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io {
namespace {

std::vector<double> numbers_in(const detail::Node& node) {
    std::vector<double> values;
    for (const detail::Node& value : node.items("an array of numbers")) {
        values.push_back(value.number());
    }
    return values;
}

}  // namespace

KeptPanel parse_panel_answer(std::string_view bytes, const std::string& source) {
    const std::string file = harmless(source);
    const auto json =
        detail::answer_json(bytes, file, "samelight/panel/1", "the JSON of one panel");
    const detail::Node answer(json, "", file, ErrorKind::input);
    const detail::Node spectra = answer.require("spectra", "the spectra of one panel");
    const std::vector<double> wavelengths =
        numbers_in(spectra.require("wavelength_nm", "an array of numbers"));
    const auto light = [&](const char* role) {
        const detail::Node column = spectra.require(role, "an array of numbers");
        std::vector<double> values = numbers_in(column);
        if (values.size() != wavelengths.size()) {
            column.refuse_value("as many numbers as wavelengths");
        }
        return detail::made_of(column, [&] { return Spectrum(wavelengths, std::move(values)); });
    };
    KeptPanel kept{source,
                   detail::text_at(answer, "version"),
                   detail::text_at(answer, "name"),
                   detail::text_at(answer, "title"),
                   {light("red"), light("green"), light("blue")}};
    if (spectra.find("white")) {
        kept.spectra.white = light("white");
    }
    return kept;
}

KeptPanel read_panel_answer(const std::filesystem::path& file) {
    return parse_panel_answer(detail::file_bytes(file, detail::largest_answer_bytes, "an answer"),
                              detail::source_name(file));
}

}  // namespace samelight::io
