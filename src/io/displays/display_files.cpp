// One display from the files that hold its lights.
#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "io/displays/panel_words.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/roles.hpp"
#include "io/spectra/noise_around_zero.hpp"
#include "io/spectra/noise_below_zero.hpp"
#include "io/spectra/scales.hpp"
#include "io/text/words.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {

namespace detail {

namespace {

const char* words_for(LightUnit unit) {
    return unit == LightUnit::spectral_radiance ? "in W/(sr m2 nm)" : "in no stated unit";
}

void check_units(const std::vector<SpectralFile>& parts) {
    for (const SpectralFile& part : parts) {
        if (part.unit == parts.front().unit) continue;
        throw Error(ErrorKind::input, ErrorPlace{harmless(part.source)},
                    std::string("values ") + words_for(part.unit) + ", but " +
                        words_for(parts.front().unit) + " in " + parts.front().source,
                    "one unit in all files of a display");
    }
}

/// "red from r.csv, green from g.csv": which light came whence.
std::string sources_sentence(const std::vector<SpectralFile>& parts) {
    std::string sentence;
    for (const SpectralFile& part : parts) {
        for (const LightColumn& column : part.lights) {
            sentence += (sentence.empty() ? "One display: " : ", ") + column.name + " from " +
                        harmless(part.source);
        }
    }
    return sentence + '.';
}

/// What was understood of every file alike once, the rest with the file's name before it.
std::vector<std::string> understood_together(const std::vector<SpectralFile>& parts) {
    const auto everywhere = [&](const std::string& sentence) {
        return std::all_of(parts.begin(), parts.end(), [&](const SpectralFile& part) {
            return std::find(part.understood.begin(), part.understood.end(), sentence) !=
                   part.understood.end();
        });
    };
    std::vector<std::string> sentences{sources_sentence(parts)};
    for (const SpectralFile& part : parts) {
        std::string own;
        for (const std::string& sentence : part.understood) {
            if (!everywhere(sentence)) {
                own += ' ' + sentence;
            } else if (&part == &parts.front()) {
                sentences.push_back(sentence);
            }
        }
        if (!own.empty()) sentences.push_back(harmless(part.source) + ':' + own);
    }
    return sentences;
}

/// A black of a file of its own, beside the lights of the others.
void check_black(const SpectralFile& display, const std::string& source) {
    const LightColumn* black = display.find("black");
    double brightest = 0.0;
    double noise = 0.0;
    for (const LightColumn& column : display.lights) {
        if (&column == black) continue;
        brightest = std::max(brightest, column.light.peak());
        noise = std::max(noise, dark_noise(column.light.values()).of_value);
    }
    if (black == nullptr || !(brightest > 0.0)) return;
    const std::optional<BelowZero> found = below_zero(black->light.values(), brightest, noise);
    if (!found || !found->matters) return;
    throw Error(ErrorKind::input, ErrorPlace{harmless(source)},
                "\"black\" lies " + rough_text(-found->mean) + " below zero, " +
                    rough_text(-100.0 * found->mean / brightest) +
                    " % of the brightest peak of the other files: that is no noise around zero",
                "a black as light or as noise around zero: measure it again after the "
                "instrument's own dark reading");
}

}  // namespace

std::string title_of(const std::string& first_file, std::size_t files) {
    return files == 1 ? first_file : first_file + " and " + std::to_string(files - 1) + " more";
}

SpectralFile assembled(std::vector<SpectralFile> parts) {
    check_units(parts);
    SpectralFile display;
    display.source = title_of(parts.front().source, parts.size());
    display.unit = parts.front().unit;
    display.understood = understood_together(parts);
    std::string source_of_black;
    for (SpectralFile& part : parts) {
        if (part.find("black") != nullptr) source_of_black = part.source;
        for (Warning& warning : part.warnings) {
            const bool of_scale = says_scale(part, warning);
            const bool said = std::find(display.warnings.begin(), display.warnings.end(),
                                        warning) != display.warnings.end();
            if (!of_scale && !said) display.warnings.push_back(std::move(warning));
        }
        if (display.model_title.empty()) display.model_title = part.model_title;
        if (display.unit_of_power.empty()) display.unit_of_power = part.unit_of_power;
        std::move(part.lights.begin(), part.lights.end(), std::back_inserter(display.lights));
    }
    std::stable_sort(display.lights.begin(), display.lights.end(),
                     [](const LightColumn& a, const LightColumn& b) {
                         const auto place = [](const LightColumn& column) {
                             return std::find(display_roles.begin(), display_roles.end(),
                                              role_of(column.name));
                         };
                         return place(a) < place(b);
                     });
    std::vector<double> peaks;
    for (const LightColumn& column : display.lights) {
        peaks.push_back(column.light.peak());
    }
    warn_scales(display, peaks);
    if (parts.size() > 1) check_black(display, source_of_black);
    return display;
}

}  // namespace detail

std::vector<FileOfLights> by_file(std::span<const LightPlace> places) {
    std::vector<FileOfLights> files;
    for (const LightPlace& place : places) {
        auto found = std::find_if(files.begin(), files.end(), [&](const FileOfLights& file) {
            return file.file == place.file;
        });
        if (found == files.end()) found = files.insert(files.end(), {place.file});
        found->choices.push_back({place.role, place.column});
    }
    return files;
}

SpectralFile read_display_files(std::span<const LightPlace> places) {
    std::vector<SpectralFile> parts;
    for (const FileOfLights& file : by_file(places)) {
        parts.push_back(read_spectral_csv(file.file, file.choices));
    }
    if (parts.empty()) {
        throw Error(ErrorKind::shape, "read_display_files", "no place of a light", "one or more");
    }
    return parts.size() == 1 ? std::move(parts.front()) : detail::assembled(std::move(parts));
}

}  // namespace samelight::io
