#include "samelight/report/catalogue.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <array>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "report/words/command_words.hpp"
#include "report/words/json_parts.hpp"
#include "report/words/text_layout.hpp"

namespace samelight::report {
namespace {

const GenericModel& model_named(const std::string& name) {
    try {
        return generic_model(name);
    } catch (const Error& error) {
        throw_in_command_words(error, "panel " + name);
    }
}

using Json = nlohmann::ordered_json;

Json parameters_json(const GenericModel& model) {
    Json json = Json::array();
    for (const ModelParameter& p : model.parameters()) {
        json.push_back({{"name", p.name},
                        {"unit", p.unit},
                        {"value", p.value},
                        {"low", p.low},
                        {"high", p.high},
                        {"source", p.source}});
    }
    return json;
}

Json model_json(const GenericModel& model) {
    return {{"name", model.name()},
            {"title", model.title()},
            {"recognise", model.recognise()},
            {"kind", "generic"},
            {"parameters", parameters_json(model)}};
}

/// A generic panel's columns on the 1 nm grid. What a model keeps on a coarser grid of its own (the measured tube table) is
/// interpolated here, since the grid is promised to other tools; the white target itself uses the model's own grid.
std::vector<io::LightColumn> columns_of(const GenericModel& model) {
    const Sampling grid;
    const PanelSpectra spectra = generic_spectra(model, grid);
    const auto on_grid = [&](const Spectrum& s) {
        return resample(s, grid, Interpolation::shape_preserving, Beyond::zero).spectrum;
    };
    std::vector<io::LightColumn> columns = {{"red", on_grid(spectra.red)},
                                            {"green", on_grid(spectra.green)},
                                            {"blue", on_grid(spectra.blue)}};
    if (spectra.white) {
        columns.push_back({"white", on_grid(*spectra.white)});
    }
    return columns;
}

/// An observer's rows on the 1 nm grid of its table's range, linear between the table's wavelengths; cones 1 at their peak.
std::vector<io::LightColumn> columns_of(const Observer& observer) {
    const Sampling& table = observer.grid();
    const Sampling grid(table.first_nm(), 1.0,
                        static_cast<int>(table.last_nm() - table.first_nm() + 0.5) + 1);
    const bool cones = observer.receptors() == Receptors::cones;
    const std::array<const char*, 3> names =
        cones ? std::array{"l", "m", "s"} : std::array{"x", "y", "z"};
    std::vector<io::LightColumn> columns;
    for (std::size_t k = 0; k < 3; ++k) {
        std::vector<double> values;
        for (int i = 0; i < grid.count(); ++i) {
            values.push_back(observer.at(k, grid.wavelength_nm(i)));
        }
        const Spectrum row(grid, std::move(values));
        columns.push_back({names[k], cones ? row.scaled(1.0 / row.peak()) : row});
    }
    return columns;
}

Json columns_json(const std::vector<io::LightColumn>& columns) {
    const auto nm = columns.front().light.wavelengths_nm();
    Json json = {{"wavelength_nm", std::vector<double>(nm.begin(), nm.end())}};
    for (const io::LightColumn& column : columns) {
        json[column.name] =
            std::vector<double>(column.light.values().begin(), column.light.values().end());
    }
    return json;
}

}  // namespace

std::string panel_list_page() {
    std::string page = "Built-in generic panels: models of a type, not measurements of a unit.\n";
    for (const GenericModel& model : generic_models()) {
        page += "\n";
        page += paragraph(padded(model.name(), 18), std::string(model.title()) + ".");
        page += paragraph(padded("", 18), model.recognise());
    }
    return page;
}

std::string panel_list_json() {
    Json json = {{"schema", "samelight/panel/1"}, {"version", version}, {"panels", Json::array()}};
    for (const GenericModel& model : generic_models()) {
        json["panels"].push_back(model_json(model));
    }
    return json_text(json);
}

std::string panel_csv(const std::string& name) {
    const GenericModel& model = model_named(name);
    std::vector<std::string> comments = {
        std::string(io::generic_model_mark) + std::string(model.title()),
        "samelight " + std::string(version) + "; relative power; native white at CIE 1931 x " +
            to_text(generic_native_white_xy[0], 4) + " y " +
            to_text(generic_native_white_xy[1], 4)};
    for (const ModelParameter& p : model.parameters()) {
        comments.push_back(std::string(p.name) + " = " + to_text(p.value) + " " +
                           std::string(p.unit) + ", plausible " + to_text(p.low) + " to " +
                           to_text(p.high));
    }
    return io::spectral_csv_text(comments, columns_of(model));
}

std::string panel_json(const std::string& name) {
    const GenericModel& model = model_named(name);
    Json json = {{"schema", "samelight/panel/1"}, {"version", version}};
    json.update(model_json(model));
    json["spectra"] = columns_json(columns_of(model));
    return json_text(json);
}

std::string observer_list_page() {
    std::string page = "Observers that can be asked for by name:\n\n";
    for (const Observer* observer : named_observers()) {
        page += padded(observer->id(), 18) + observer->title() + "\n";
    }
    return page + padded("cie2006:AGE:FIELD", 18) +
           "CIE 2006 cone fundamentals, 20-80 years, 1-10 degrees (cie2006:45:2)\n";
}

std::string observer_list_json() {
    Json json = {
        {"schema", "samelight/observer/1"}, {"version", version}, {"observers", Json::array()}};
    for (const Observer* observer : named_observers()) {
        json["observers"].push_back({{"id", observer->id()},
                                     {"title", observer->title()},
                                     {"edition", observer->edition()}});
    }
    return json_text(json);
}

std::string observer_csv(const std::string& name) {
    const Observer observer = observer_named(name);
    return io::spectral_csv_text({observer.title() + "; " + observer.edition()},
                                 columns_of(observer));
}

std::string observer_json(const std::string& name) {
    const Observer observer = observer_named(name);
    Json json = {{"schema", "samelight/observer/1"},
                 {"version", version},
                 {"id", observer.id()},
                 {"title", observer.title()},
                 {"edition", observer.edition()}};
    json["rows"] = columns_json(columns_of(observer));
    return json_text(json);
}

}  // namespace samelight::report
