#include "samelight/report/spectrum_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/error_list.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/sampling.hpp"

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"

namespace samelight::report {
namespace {

/// "3 samples".
std::string held_text(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " sample" : " samples");
}

/// The wavelengths that `text` asks for.
std::vector<double> lines_from(const std::string& text) {
    if (text == "mercury") {
        return {mercury_lines_nm.begin(), mercury_lines_nm.end()};
    }
    std::vector<double> lines;
    std::string_view rest = text;
    while (true) {
        const std::size_t comma = std::min(rest.find(','), rest.size());
        const std::string_view cell = rest.substr(0, comma);
        const double nm = samelight::detail::number_or_nan(cell);
        if (!(nm >= 200.0) || !(nm <= 1200.0)) {
            throw Error(
                ErrorKind::input, "--lines", "\"" + std::string(cell) + "\"",
                "mercury, or wavelengths of 200 to 1200 nm with commas between (435.83,546.07)");
        }
        lines.push_back(nm);
        if (comma == rest.size()) {
            return lines;
        }
        rest.remove_prefix(comma + 1);
    }
}

/// Does what may find fault with a bandwidth or a shift, which the line calls by its options' names. Only what knows nothing of files may
/// be done so: a file may have any name.
template <class F>
auto in_options_words(F&& work) {
    try {
        return work();
    } catch (const Error& error) {
        const std::string& name = error.place().name;
        throw_in_command_words(error, name == "bandwidth" || name == "shift" ? "--" + name : "");
    }
}

/// What the line asks for, once it is understood.
assess::SpectrumWishes wishes_of(const SpectrumRequest& request, const Sampling& sampling) {
    assess::SpectrumWishes wishes{request.bandwidth_nm, request.shift_nm, {}, sampling};
    in_options_words([&] { assess::require_wishes(wishes); });
    if (!request.lines.empty()) {
        wishes.lines_nm = lines_from(request.lines);
    }
    return wishes;
}

assess::SpectrumRequest columns_of(const io::SpectralFile& file, assess::SpectrumWishes wishes) {
    assess::SpectrumRequest request{{}, std::move(wishes), {file.understood, file.warnings}};
    for (const io::LightColumn& column : file.lights) {
        request.columns.push_back({column.name, column.light, file.find("black") == &column,
                                   column.repeats, column.repeat_spread});
    }
    return request;
}

/// The columns' lights, and which of a display's each is; not of more columns than any display has, since that reads every heading.
std::vector<FileLight> lights_of(const io::SpectralFile& file) {
    std::vector<FileLight> lights;
    for (const io::LightColumn& column : file.lights) {
        lights.push_back({column.light, ""});
    }
    constexpr std::size_t most_of_a_display = 64;
    if (lights.size() > most_of_a_display) {
        return lights;
    }
    for (const char* role : {"red", "green", "blue", "white", "black"}) {
        if (const io::LightColumn* column = file.find(role)) {
            lights.at(static_cast<std::size_t>(column - file.lights.data())).role = role;
        }
    }
    return lights;
}

}  // namespace

SpectrumAnswer answer_spectrum(const SpectrumRequest& request, const Sampling& sampling) {
    assess::SpectrumWishes wishes = wishes_of(request, sampling);
    const io::SpectralFile file = io::read_spectral_csv(request.file, request.choices);
    const assess::SpectrumRequest asked = columns_of(file, std::move(wishes));
    SpectrumAnswer answer{in_options_words([&] {
                              return assess::about({file.source},
                                                   [&] { return assess::answer_spectrum(asked); });
                          }),
                          file.source, file.unit};
    answer.lights = lights_of(file);
    answer.model_title = file.model_title;
    return answer;
}

SpectraAnswer answer_spectra(const SpectraRequest& request, const Sampling& sampling) {
    std::vector<io::FileOfLights> files;
    const auto add = [&](const std::vector<io::LightPlace>& places) {
        for (io::FileOfLights& file : io::by_file(places)) {
            files.push_back(std::move(file));
        }
    };
    const std::vector<io::LightChoice> columns = io::columns_in_options(request.lights);
    bool columns_used = false;
    for (const std::string& word : request.files) {
        const std::vector<io::LightPlace> places = io::light_places(word);
        add(places);
        if (places.empty()) files.push_back({word, columns});
        columns_used = columns_used || places.empty();
    }
    if (!columns_used) io::require_columns_used({}, request.lights);
    add(io::places_in_options(request.lights));
    static_cast<void>(wishes_of(request.each, sampling));
    SpectraAnswer answer;
    answer.asked = files.size();
    for (io::FileOfLights& file : files) {
        try {
            SpectrumRequest one = request.each;
            one.file = file.file;
            one.choices = std::move(file.choices);
            answer.files.push_back(answer_spectrum(one, sampling));
        } catch (const Error& error) {
            answer.errors.push_back(error);
        }
    }
    require_enough(answer.files.size(), 1, answer.errors);
    return answer;
}

namespace {

/// io::spectra_text(), whose faults the line calls by its options' names.
std::string written_text(const SpectraWriting& writing, const io::SpectraDocument& document,
                         std::span<const io::LightColumn> lights, io::LightUnit unit) {
    try {
        return io::spectra_text(writing.form, document, lights, unit);
    } catch (const Error& error) {
        const std::string& name = error.place().name;
        throw_in_command_words(error, name == "date"     ? "--date"
                                      : name == "lights" ? "--as " + io::code_of(writing.form)
                                                         : "");
    }
}

}  // namespace

std::string lights_text(const SpectrumAnswer& answer, const SpectraWriting& writing) {
    io::SpectraDocument document{{}, writing.date};
    if (!answer.model_title.empty()) {
        document.comments.push_back(std::string(io::generic_model_mark) + answer.model_title);
    }
    std::vector<io::LightColumn> columns;
    for (std::size_t i = 0; i < answer.lights.size(); ++i) {
        columns.push_back({answer.columns[i].name, answer.lights[i].light});
    }
    return written_text(writing, document, columns, answer.light_unit);
}

std::string corrected_text(const SpectrumAnswer& answer, const SpectraWriting& writing) {
    if (answer.corrected.empty()) {
        throw Error(ErrorKind::shape, "corrected_text", "nothing that was corrected",
                    "a bandwidth or a shift to take out");
    }
    std::vector<std::string> comments;
    if (answer.bandwidth_nm) {
        comments.push_back("a bandwidth of " + to_text(*answer.bandwidth_nm) + " nm was taken out");
    }
    if (answer.shift_nm) {
        comments.push_back("wavelengths were made " + to_text(*answer.shift_nm) + " nm shorter");
    }
    for (const assess::ColumnPart& part : answer.columns) {
        if (part.correction && part.correction->held > 0) {
            comments.push_back(part.name + ": " + held_text(part.correction->held) +
                               " that would have fallen below nothing held there");
        }
    }
    std::vector<io::LightColumn> columns;
    for (std::size_t i = 0; i < answer.corrected.size(); ++i) {
        columns.push_back({answer.columns[i].name, answer.corrected[i]});
    }
    return written_text(writing, {std::move(comments), writing.date}, columns, answer.light_unit);
}

}  // namespace samelight::report
