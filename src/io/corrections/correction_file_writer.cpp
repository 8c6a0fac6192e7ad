// Writing of correction files.
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/corrections/correction_json.hpp"
#include "io/corrections/correction_keys.hpp"
#include "io/corrections/correction_warnings.hpp"
#include "io/files/file_bytes.hpp"
#include "samelight/io/atomic_write.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io {

namespace {

using Json = nlohmann::ordered_json;
constexpr const char* writer = "correction_text";

double finite(const std::string& key, double value) {
    if (!std::isfinite(value)) {
        throw Error(ErrorKind::domain, std::string(writer) + ": " + key, to_text(value),
                    "a finite number");
    }
    return value;
}

Json row_json(const std::string& key, std::span<const double> values) {
    Json row = Json::array();
    for (const double value : values) {
        row.push_back(finite(key, value));
    }
    return row;
}

Json rows_json(const std::string& key, std::span<const double> values, std::size_t columns) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < values.size(); i += columns) {
        rows.push_back(row_json(key, values.subspan(i, columns)));
    }
    return rows;
}

Json error_json(const ColourError& e) {
    Json json = {{"delta_x", finite("residuals", e.x)},
                 {"delta_y", finite("residuals", e.y)},
                 {"delta_u", finite("residuals", e.u)},
                 {"delta_v", finite("residuals", e.v)},
                 {"luminance_relative", finite("residuals", e.luminance)}};
    if (e.de00) {
        json["de00"] = finite("residuals", *e.de00);
    }
    return json;
}

void put_certainty(Json& json, const Correction& c) {
    if (c.covariance) {
        json["covariance"] = {
            {"reference_from_meter", rows_json("covariance", c.covariance->elements, 9)}};
        if (c.covariance->luminance_known) {
            json["covariance"]["with_luminance_factor"] =
                row_json("covariance", c.covariance->with_luminance);
            json["covariance"]["luminance_factor"] = finite("covariance", c.covariance->luminance);
        }
        if (std::isinf(c.degrees_of_freedom) && c.degrees_of_freedom > 0.0) {
            json["degrees_of_freedom"] = "infinite";
        } else {
            json["degrees_of_freedom"] = finite("degrees_of_freedom", c.degrees_of_freedom);
        }
    }
    json["condition_number"] = finite("condition_number", c.condition_number);
    if (c.valid_near) {
        json["valid_near"] = {{"x", finite("valid_near", c.valid_near->x)},
                              {"y", finite("valid_near", c.valid_near->y)},
                              {"radius", finite("valid_near", c.valid_near->radius)}};
    }
}

Json spectra_json(const StoredPanelSpectra& s) {
    Json json = {{"wavelengths_nm", row_json("panel_spectra", s.wavelengths_nm)},
                 {"red", row_json("panel_spectra", s.red)},
                 {"green", row_json("panel_spectra", s.green)},
                 {"blue", row_json("panel_spectra", s.blue)}};
    if (!s.white.empty()) {
        json["white"] = row_json("panel_spectra", s.white);
    }
    return json;
}

Json json_of(const StoredCorrection& stored) {
    const Correction& c = stored.correction;
    Json json = {{"schema", detail::correction_schema},
                 {"method", code_of(c.method)},
                 {"observer", c.observer}};
    if (c.verdict) {
        json["verdict"] = code_of(*c.verdict);
    }
    if (c.raw_channels) {
        json["raw_channels"] = true;
    }
    for (const detail::TextKey& key : detail::provenance_keys) {
        const std::string& text = c.provenance.*key.member;
        if (!text.empty()) {
            json[key.key] = text;
        }
    }
    json["reference_from_meter"] = rows_json("reference_from_meter", c.reference_from_meter, 3);
    json["luminance_factor"] = finite("luminance_factor", c.luminance_factor);
    put_certainty(json, c);
    if (!c.residuals.empty()) {
        json["residuals"] = Json::array();
        for (const PatchResidual& r : c.residuals) {
            json["residuals"].push_back({{"patch", r.patch},
                                         {"fitted", r.fitted},
                                         {"before", error_json(r.before)},
                                         {"after", error_json(r.after)}});
        }
    }
    if (stored.panel_spectra) {
        json["panel_spectra"] = spectra_json(*stored.panel_spectra);
    }
    if (!stored.panel_spectra_digest.empty()) {
        json["panel_spectra_digest"] = stored.panel_spectra_digest;
    }
    json["warnings"] = Json::array();
    for (const Warning& w : c.warnings) {
        json["warnings"].push_back(detail::warning_json(w));
    }
    return json;
}

/// The value of a key on one line. Strict about UTF-8, unlike answers on standard output: what is kept must be what was said.
std::string line_of(const std::string& key, const Json& value) {
    try {
        return value.dump();
    } catch (const Json::type_error&) {
        throw Error(ErrorKind::domain, std::string(writer) + ": " + key, "text that is not UTF-8",
                    "UTF-8");
    }
}

}  // namespace

std::string correction_text(const StoredCorrection& stored) {
    const Json json = json_of(stored);
    // A line a key: arrays of numbers stay readable, and files can be compared line by line.
    std::string text;
    for (const auto& item : json.items()) {
        text += (text.empty() ? "{\n  \"" : ",\n  \"") + item.key() +
                "\": " + line_of(item.key(), item.value());
    }
    text += "\n}\n";
    static_cast<void>(detail::correction_of(json, writer, ErrorKind::domain));
    detail::require_size(text.size(), largest_correction_file_bytes, writer, "a correction file");
    detail::require_modest_json(text, writer);
    return text;
}

void write_correction(const std::filesystem::path& file, const StoredCorrection& stored) {
    write_file_atomically(file, correction_text(stored));
}

}  // namespace samelight::io
