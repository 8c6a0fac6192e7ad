#include "samelight/io/named_lights.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/light_flags.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>
#include <utility>

#include "io/displays/panel_words.hpp"
#include "io/files/file_bytes.hpp"
#include "io/spectra/scales.hpp"

namespace samelight::io {
namespace {

using detail::Asked;

const GenericModel* find_model(std::string_view name) {
    for (const GenericModel& model : generic_models()) {
        if (model.name() == name) {
            return &model;
        }
    }
    return nullptr;
}

std::string list_of_models() {
    std::string list;
    for (const GenericModel& model : generic_models()) {
        list += (list.empty() ? "" : ", ") + std::string(model.name());
    }
    return list;
}

/// The model that a file says it holds; none for a measurement, or where no built-in model has that title.
const GenericModel* model_of(const SpectralFile& file) {
    for (const GenericModel& model : generic_models()) {
        if (model.title() == file.model_title) {
            return &model;
        }
    }
    return nullptr;
}

std::string columns_of(const SpectralFile& file) {
    std::string list;
    for (const LightColumn& column : file.lights) {
        list += (list.empty() ? "" : ", ") + column.name;
    }
    return list;
}

ColumnInQuestion in_question(const SpectralFile& file, const LightColumn& column) {
    return {column.name, column.light, file.find("black") == &column};
}

bool any_clipped(const SpectralFile& file) {
    return std::any_of(file.lights.begin(), file.lights.end(), [&](const LightColumn& column) {
        return is_clipped(in_question(file, column));
    });
}

/// What is doubtful about one column.
void guard(const SpectralFile& file, const LightColumn& column, const Sampling& sampling,
           std::vector<Warning>& warnings) {
    for (Warning& flag : light_flags(in_question(file, column), file.source, sampling)) {
        warnings.push_back(std::move(flag));
    }
}

Spectrum column_or_throw(const SpectralFile& file, const char* role, const std::string& columns) {
    const LightColumn* column = file.find(role);
    if (column == nullptr) {
        throw Error(ErrorKind::input, file.source,
                    "no column " + std::string(role) + " (columns: " + columns_of(file) + ")",
                    "columns red, green and blue, and optionally white and black" +
                        (columns.empty() ? ""
                                         : ", or to be told which these are (" + columns +
                                               " red=1,green=2,blue=3)"));
    }
    return column->light;
}

std::optional<Spectrum> column_if_any(const SpectralFile& file, const char* role) {
    const LightColumn* column = file.find(role);
    return column == nullptr ? std::nullopt : std::optional<Spectrum>(column->light);
}

bool own_scales(const SpectralFile& file) { return file.equal_peak || file.scales_differ; }

/// @param columns  as in detail::panel_from_file()
Panel panel_of(const SpectralFile& file, const Sampling& sampling,
               const std::string& columns = {}) {
    return {file.source,
            {column_or_throw(file, "red", columns), column_or_throw(file, "green", columns),
             column_or_throw(file, "blue", columns), column_if_any(file, "white"),
             column_if_any(file, "black"), !own_scales(file)},
            sampling};
}

/// The file's warnings that matter beyond the panel's own (which says "scale_unknown" itself), and the guard's.
std::vector<Warning> warnings_of(const SpectralFile& file, const Sampling& sampling) {
    std::vector<Warning> result;
    for (const Warning& warning : file.warnings) {
        if (!detail::says_equal_peak(file, warning)) {
            result.push_back(warning);
        }
    }
    for (const LightColumn& column : file.lights) {
        guard(file, column, sampling, result);
    }
    return result;
}

const LightColumn& single_light(const SpectralFile& file) {
    if (const LightColumn* white = file.find("white")) {
        return *white;
    }
    if (file.lights.size() == 1) {
        return file.lights.front();
    }
    throw Error(ErrorKind::input, file.source, "columns " + columns_of(file),
                "one light, or a column white");
}

/// The step of a file's wavelengths in their middle; the ends may be uneven.
double step_of(const SpectralFile& file) {
    const Spectrum& light = file.lights.front().light;
    return light.band_nm(light.size() / 2);
}

void append(std::vector<Warning>& to, const std::vector<Warning>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

/// How to ask for a display as it is set, where its native white is hardly what was meant.
void hint_at_setting(Reference& reference) {
    if (reference.unlikely_white) {
        const Warning said = unlikely_white_warning(reference);
        const auto at = std::find(reference.warnings.begin(), reference.warnings.end(), said);
        if (at != reference.warnings.end()) {
            at->facts.push_back(Fact{"set_as", name_of_set_display});
        }
    }
}

/// A display's native white as the reference.
Reference native_reference(const Panel& panel) {
    if (!panel.white_known()) {
        throw Error(ErrorKind::domain, "reference " + panel.name(),
                    "red, green and blue on scales of their own and no white",
                    std::string("a white column, or ") + name_of_set_display);
    }
    Reference reference = display_reference(panel);
    hint_at_setting(reference);
    return reference;
}

NamedReference reference_from_file(const Asked& asked, const SpectralFile& file,
                                   const Sampling& sampling) {
    const bool is_display = file.find("red") != nullptr && file.find("green") != nullptr &&
                            file.find("blue") != nullptr;
    NamedReference result = [&]() -> NamedReference {
        if (asked.set_to) {
            return {display_reference(panel_of(file, sampling), *asked.set_to), file.understood};
        }
        if (is_display && file.find("white") == nullptr) {
            return {native_reference(panel_of(file, sampling)), file.understood};
        }
        Reference reference = light_reference(file.source, single_light(file).light, sampling,
                                              is_display ? LightOf::display : LightOf::anything);
        if (is_display) {
            hint_at_setting(reference);
        }
        return {std::move(reference), file.understood};
    }();
    append(result.reference.warnings, warnings_of(file, sampling));
    result.step_nm = step_of(file);
    result.clipped = any_clipped(file);
    result.measured = file.model_title.empty();
    if (!result.measured) {
        result.reference.warnings.push_back(generic_reference_warning());
    }
    return result;
}

/// The lights of the file, or the files, that the name means; none where it means no file.
std::optional<SpectralFile> file_of(const Asked& asked) {
    const std::vector<LightPlace> places = light_places(asked.name);
    if (!places.empty()) return read_display_files(places);
    if (detail::is_file_name(asked.name)) return read_spectral_csv(asked.name);
    return std::nullopt;
}

}  // namespace

namespace detail {

Asked take_apart(const std::string& text) {
    const std::size_t at = text.rfind('@');
    if (at == std::string::npos) {
        return {text, {}};
    }
    const std::string_view setting = std::string_view(text).substr(at + 1);
    const std::size_t comma = setting.find(',');
    const double x = samelight::detail::number_or_nan(setting.substr(0, comma));
    const double y = comma == std::string_view::npos
                         ? x
                         : samelight::detail::number_or_nan(setting.substr(comma + 1));
    const bool looks_meant =
        !setting.empty() && setting.find_first_not_of("0123456789.,+- ") == std::string_view::npos;
    if (comma != std::string_view::npos && x > 0.0 && y > 0.0 && x + y < 1.0) {
        return {text.substr(0, at), Chromaticity<Cie1931_2deg>(x, y)};
    }
    if (looks_meant || find_model(text.substr(0, at)) != nullptr) {
        throw Error(ErrorKind::input, text, "\"@" + std::string(setting) + "\"",
                    "@x,y with a CIE 1931 chromaticity, such as @0.3127,0.3290");
    }
    return {text, {}};  // a file name with an @ in it
}

NamedPanel panel_from_file(const SpectralFile& file, const SetWhite& set_to,
                           const Sampling& sampling, const std::string& columns) {
    NamedPanel result{panel_of(file, sampling, columns), model_of(file), set_to, file.understood,
                      warnings_of(file, sampling)};
    result.step_nm = step_of(file);
    result.clipped = any_clipped(file);
    return result;
}

}  // namespace detail

NamedPanel panel_in(const SpectralFile& file, const Sampling& sampling) {
    return detail::panel_from_file(file, {}, sampling, {});
}

NamedPanel open_panel(const std::string& text, const Sampling& sampling) {
    const Asked asked = detail::take_apart(text);
    if (const std::optional<SpectralFile> file = file_of(asked)) {
        return detail::panel_from_file(*file, asked.set_to, sampling, {});
    }
    const GenericModel* model = find_model(asked.name);
    if (model == nullptr) {
        throw Error(
            ErrorKind::input, "panel \"" + asked.name + "\"", "no built-in panel of that name",
            "a spectral CSV file (a name with a dot or a slash), or one of " + list_of_models());
    }
    return {generic_panel(*model, sampling), model, asked.set_to, {}, {}};
}

NamedReference open_reference(const std::string& text, const Sampling& sampling) {
    const Asked asked = detail::take_apart(text);
    if (const std::optional<SpectralFile> file = file_of(asked)) {
        return reference_from_file(asked, *file, sampling);
    }
    if (const GenericModel* model = find_model(asked.name)) {
        const Panel panel = generic_panel(*model, sampling);
        NamedReference result{
            asked.set_to ? display_reference(panel, *asked.set_to) : native_reference(panel), {}};
        result.reference.warnings.push_back(generic_reference_warning());
        return result;
    }
    if (asked.set_to) {
        throw Error(ErrorKind::input, "reference \"" + text + "\"",
                    "no display of that name to set to an x, y",
                    "a display's CSV file, or one of " + list_of_models());
    }
    std::string illuminant = asked.name;
    if (!illuminant.empty()) {  // d65 is D65
        illuminant.front() =
            static_cast<char>(std::toupper(static_cast<unsigned char>(illuminant.front())));
    }
    try {
        return {illuminant_reference(illuminant, sampling), {}};
    } catch (const Error&) {
        throw Error(
            ErrorKind::input, "reference \"" + asked.name + "\"", "no light of that name",
            "a spectral CSV file (a name with a dot or a slash), a CIE illuminant (A, C, E, D50, D55, D65, D75, ...), or one of " +
                list_of_models());
    }
}

NamedLight open_light(const std::string& name, const Sampling& sampling) {
    const SpectralFile file = read_spectral_csv(name);
    const LightColumn& column = single_light(file);
    NamedLight result{rebin(column.light, sampling), file.understood, {}};
    result.step_nm = step_of(file);
    for (const Warning& warning : file.warnings) {
        if (!detail::says_equal_peak(file, warning)) {
            result.warnings.push_back(warning);
        }
    }
    guard(file, column, sampling, result.warnings);
    result.clipped = is_clipped(in_question(file, column));
    return result;
}

}  // namespace samelight::io
