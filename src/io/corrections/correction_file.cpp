// Reading of correction files.
#include "samelight/io/correction_file.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/corrections/correction_json.hpp"
#include "io/corrections/correction_keys.hpp"
#include "io/corrections/correction_warnings.hpp"
#include "io/files/file_bytes.hpp"
#include "io/text/json_node.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using Json = nlohmann::ordered_json;

using detail::Node;

constexpr const char* wanted_matrix = "3 rows of 3 numbers";

void read_matrix(const Node& file, Correction& correction) {
    const Node matrix = file.require("reference_from_meter", wanted_matrix);
    matrix.numbers(correction.reference_from_meter, 3, 3);
    const auto& m = correction.reference_from_meter;
    const double determinant = m[0] * (m[4] * m[8] - m[5] * m[7]) -
                               m[1] * (m[3] * m[8] - m[5] * m[6]) +
                               m[2] * (m[3] * m[7] - m[4] * m[6]);
    // Raw channels may stand in any order.
    if (!(determinant > 0.0) && !(correction.raw_channels && determinant < 0.0)) {
        matrix.refuse("a determinant of " + to_text(determinant),
                      "a matrix that keeps the colours' order, with a determinant above 0");
    }
    if (const auto factor = file.find("luminance_factor")) {
        correction.luminance_factor = factor->number();
        constexpr double most = 1e12;
        if (!(correction.luminance_factor >= 1.0 / most && correction.luminance_factor <= most)) {
            factor->refuse_value("a factor from 1e-12 to 1e12");
        }
    }
}

CorrectionMethod method_of(const Node& node) {
    const std::string text = node.text();
    std::string known;
    for (std::size_t i = 0; i <= static_cast<std::size_t>(CorrectionMethod::spectra); ++i) {
        const auto method = static_cast<CorrectionMethod>(i);
        if (text == code_of(method)) {
            return method;
        }
        known += (i == 0 ? "\"" : ", \"") + std::string(code_of(method)) + "\"";
    }
    node.refuse_value("one of " + known);
}

FitVerdict verdict_of(const Node& node) {
    const std::string text = node.text();
    std::string known;
    for (std::size_t i = 0; i <= static_cast<std::size_t>(FitVerdict::do_not_use); ++i) {
        const auto verdict = static_cast<FitVerdict>(i);
        if (text == code_of(verdict)) {
            return verdict;
        }
        known += (i == 0 ? "\"" : ", \"") + std::string(code_of(verdict)) + "\"";
    }
    node.refuse_value("one of " + known);
}

void require_covariance(const Node& node, const ParameterCovariance& covariance) {
    const auto at = [&](std::size_t i, std::size_t k) { return covariance.elements[9 * i + k]; };
    for (std::size_t i = 0; i < 9; ++i) {
        if (!(at(i, i) >= 0.0)) {
            node.refuse("a variance of " + to_text(at(i, i)), "variances of 0 or more");
        }
    }
    constexpr double rounding = 1e-9;
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t k = 0; k < i; ++k) {
            if (std::abs(at(i, k) - at(k, i)) > rounding * std::sqrt(at(i, i) * at(k, k))) {
                node.refuse(to_text(at(i, k)) + " in row " + std::to_string(i + 1) + ", column " +
                                std::to_string(k + 1) + " and " + to_text(at(k, i)) +
                                " the other way around",
                            "a symmetric matrix");
            }
        }
    }
}

double degrees_of_freedom(const Node& node) {
    if (node.json().is_string() && node.text() == "infinite") {
        return std::numeric_limits<double>::infinity();
    }
    if (!node.json().is_number() || !(node.number() > 0.0)) {
        node.refuse_value("a number above 0, or \"infinite\"");
    }
    return node.number();
}

void read_certainty(const Node& file, Correction& correction) {
    if (const auto node = file.find("covariance")) {
        ParameterCovariance covariance;
        const Node elements = node->require("reference_from_meter", "9 rows of 9 numbers");
        elements.numbers(covariance.elements, 9, 9);
        require_covariance(elements, covariance);
        if (const auto with = node->find("with_luminance_factor")) {
            with->numbers(covariance.with_luminance, 1, 9);
        }
        const auto luminance = node->find("luminance_factor");
        covariance.luminance_known = luminance.has_value();
        if (luminance) {
            covariance.luminance = luminance->number();
            if (!(covariance.luminance >= 0.0)) {
                luminance->refuse_value("a variance of 0 or more");
            }
        }
        correction.covariance = covariance;
        correction.degrees_of_freedom = degrees_of_freedom(
            file.require("degrees_of_freedom", "the degrees of freedom behind the covariance"));
    }
    if (const auto condition = file.find("condition_number")) {
        correction.condition_number = condition->number();
        if (!(correction.condition_number >= 1.0)) {
            condition->refuse_value("a number of 1 or more");
        }
    }
    if (const auto near = file.find("valid_near")) {
        const auto value = [&](const char* key) { return near->require(key, "a number").number(); };
        correction.valid_near = ChromaticityDisc{value("x"), value("y"), value("radius")};
        if (!(correction.valid_near->radius > 0.0)) {
            near->require("radius", "a number").refuse_value("a radius above 0");
        }
    }
}

ColourError error_of(const Node& node) {
    const auto value = [&](const char* key) { return node.require(key, "a number").number(); };
    ColourError error{value("delta_x"),
                      value("delta_y"),
                      value("delta_u"),
                      value("delta_v"),
                      value("luminance_relative"),
                      {}};
    if (const auto de00 = node.find("de00")) {
        error.de00 = de00->number();
    }
    return error;
}

void read_residuals(const Node& file, Correction& correction) {
    const auto residuals = file.find("residuals");
    if (!residuals) {
        return;
    }
    for (const Node& item : residuals->items("an array of patches")) {
        correction.residuals.push_back({item.require("patch", "a patch's name").text(),
                                        item.require("fitted", "true or false").yes(),
                                        error_of(item.require("before", "errors")),
                                        error_of(item.require("after", "errors"))});
    }
}

std::vector<double> spectrum_of(const Node& node, std::size_t count) {
    std::vector<double> values(node.items("an array of numbers").size());
    if (count != 0 && values.size() != count) {
        node.refuse_value(std::to_string(count) + " numbers, one a wavelength");
    }
    node.numbers(values, 1, values.size());
    return values;
}

void read_spectra(const Node& file, StoredCorrection& stored) {
    if (const auto node = file.find("panel_spectra")) {
        StoredPanelSpectra spectra;
        const Node wavelengths = node->require("wavelengths_nm", "an array of numbers");
        spectra.wavelengths_nm = spectrum_of(wavelengths, 0);
        const auto& nm = spectra.wavelengths_nm;
        if (nm.size() < 2 || !std::is_sorted(nm.begin(), nm.end(), std::less_equal<>())) {
            wavelengths.refuse("wavelengths that don't ascend, or fewer than two",
                               "two or more, ascending");
        }
        if (nm.front() < detail::least_wavelength_nm || nm.back() > detail::most_wavelength_nm) {
            wavelengths.refuse(to_text(nm.front()) + " to " + to_text(nm.back()),
                               "wavelengths in nm, 100 to 5000");
        }
        const auto read = [&](const char* key) {
            return spectrum_of(node->require(key, "a spectrum"), nm.size());
        };
        spectra.red = read("red");
        spectra.green = read("green");
        spectra.blue = read("blue");
        if (const auto white = node->find("white")) {
            spectra.white = spectrum_of(*white, nm.size());
        }
        stored.panel_spectra = std::move(spectra);
    }
    if (const auto digest = file.find("panel_spectra_digest")) {
        stored.panel_spectra_digest = digest->text_or_number();
    }
}

std::vector<std::string> unknown_keys(const Json& json) {
    constexpr std::array<std::string_view, 15> known = {"schema",           "reference_from_meter",
                                                        "luminance_factor", "observer",
                                                        "method",           "covariance",
                                                        "condition_number", "degrees_of_freedom",
                                                        "valid_near",       "residuals",
                                                        "panel_spectra",    "panel_spectra_digest",
                                                        "warnings",         "verdict",
                                                        "raw_channels"};
    std::vector<std::string> unknown;
    for (const auto& item : json.items()) {
        const auto is_provenance = [&](const detail::TextKey& k) { return item.key() == k.key; };
        if (std::find(known.begin(), known.end(), item.key()) == known.end() &&
            std::none_of(detail::provenance_keys.begin(), detail::provenance_keys.end(),
                         is_provenance)) {
            unknown.push_back(item.key());
        }
    }
    return unknown;
}

}  // namespace

namespace detail {

StoredCorrection correction_of(const nlohmann::ordered_json& json, const std::string& source,
                               ErrorKind kind) {
    const Node file(json, "", source, kind);
    const Node schema = file.require("schema", correction_schema);
    if (schema.text() != correction_schema) {
        schema.refuse_value("\"" + std::string(correction_schema) + "\"");
    }
    StoredCorrection stored;
    Correction& correction = stored.correction;
    if (const auto raw = file.find("raw_channels")) {
        correction.raw_channels = raw->yes();
    }
    read_matrix(file, correction);
    const Node observer = file.require("observer", "an observer's id, such as cie1931-2deg");
    correction.observer = observer.text();
    if (correction.observer.empty()) {
        observer.refuse_value("an observer's id, such as cie1931-2deg");
    }
    correction.method = method_of(file.require("method", "how it was made, such as four-colour"));
    if (const auto verdict = file.find("verdict")) {
        correction.verdict = verdict_of(*verdict);
    }
    read_certainty(file, correction);
    read_residuals(file, correction);
    read_spectra(file, stored);
    for (const TextKey& key : provenance_keys) {
        if (const auto text = file.find(key.key)) {
            correction.provenance.*key.member = text->text_or_number();
        }
    }
    if (const auto warnings = file.find("warnings")) {
        for (const Node& item : warnings->items("an array of warnings")) {
            correction.warnings.push_back(warning_of(item));
        }
    }
    stored.ignored = unknown_keys(json);
    return stored;
}

}  // namespace detail

StoredCorrection parse_correction(std::string_view bytes, const std::string& source) {
    const std::string shown_source = harmless(source);
    detail::require_size(bytes.size(), largest_correction_file_bytes, shown_source,
                         "a correction file");
    const DecodedText decoded = decode_text(bytes, shown_source);
    detail::require_modest_json(decoded.text, shown_source);
    Json json;
    try {
        json = Json::parse(decoded.text);
    } catch (const Json::parse_error& error) {
        const std::size_t read = std::min(error.byte, decoded.text.size());
        const auto end = decoded.text.begin() + static_cast<std::ptrdiff_t>(read);
        const auto line = 1 + std::count(decoded.text.begin(), end, '\n');
        throw Error(ErrorKind::input, shown_source + ":" + std::to_string(line),
                    "what is no JSON, or ends too early", "a correction file, one JSON object");
    } catch (const Json::exception&) {
        throw Error(ErrorKind::input, shown_source, "a number too large for a computer's",
                    "finite numbers");
    }
    detail::require_unique_keys(decoded.text, shown_source);
    return detail::correction_of(json, shown_source, ErrorKind::input);
}

StoredCorrection read_correction(const std::filesystem::path& file) {
    return parse_correction(
        detail::file_bytes(file, largest_correction_file_bytes, "a correction file"),
        detail::source_name(file));
}

}  // namespace samelight::io
