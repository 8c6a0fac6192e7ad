// Spectra in the forms of standards.
#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <pugixml.hpp>
#include <sstream>
#include <string>
#include <string_view>

#include "io/text/words.hpp"
#include "samelight/io/spectral_exchange.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/numeric/version.hpp"

namespace samelight::io {

namespace {

constexpr const char* unit_sentence = "Spectral radiance in W/(sr m2 nm).";

/// The number of `count` digits at `at`; -1 where there are others.
int digits_of(std::string_view text, std::size_t at, std::size_t count) {
    int number = -1;
    const std::string_view part = text.substr(at, count);
    const bool all = std::all_of(part.begin(), part.end(), detail::is_digit);
    if (all && part.size() == count) {
        std::from_chars(part.data(), part.data() + part.size(), number);
    }
    return number;
}

void check_date(const std::string& date) {
    const int year = date.size() == 10 ? digits_of(date, 0, 4) : -1;
    const bool marks = date.size() == 10 && date[4] == '-' && date[7] == '-';
    const std::chrono::year_month_day day{
        std::chrono::year(year),
        std::chrono::month(static_cast<unsigned>(std::max(0, marks ? digits_of(date, 5, 2) : 0))),
        std::chrono::day(static_cast<unsigned>(std::max(0, marks ? digits_of(date, 8, 2) : 0)))};
    if (year < 0 || !day.ok()) {
        throw Error(ErrorKind::domain, "date", "the date " + detail::shown(date),
                    "a day as YYYY-MM-DD");
    }
}

/// What the document says, as one line.
std::string remarks_of(const SpectraDocument& document, LightUnit unit) {
    std::string text = unit == LightUnit::spectral_radiance ? unit_sentence : "";
    for (const std::string& comment : document.comments) {
        text += (text.empty() ? "" : " ") + comment;
    }
    return text;
}

std::string creator_of(const SpectraDocument& document) {
    if (document.creator.empty()) return std::string("samelight ") + version;
    if (document.creator != detail::as_name(document.creator)) {
        throw Error(ErrorKind::domain, "creator", "the creator " + detail::shown(document.creator),
                    "one line without outer blanks");
    }
    return document.creator;
}

/// Lights, names and comments are checked as those of the plain form are, which has the same demands.
void check_document(const SpectraDocument& document, std::span<const LightColumn> lights,
                    LightUnit unit) {
    check_date(document.date);
    static_cast<void>(spectral_csv_text(document.comments, lights, unit));
    static_cast<void>(spectral_csv_text({creator_of(document)}, lights, unit));
}

/// A word in quotation marks, those within doubled.
std::string in_quotes(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace

std::string code_of(SpectraForm form) {
    switch (form) {
        case SpectraForm::tm_27:
            return "tm-27";
        case SpectraForm::cgats_17:
            return "cgats.17";
        case SpectraForm::csv:
            break;
    }
    return "csv";
}

std::optional<SpectraForm> spectra_form_named(std::string_view code) {
    for (const SpectraForm form : {SpectraForm::csv, SpectraForm::tm_27, SpectraForm::cgats_17}) {
        if (detail::lowered(code) == code_of(form)) return form;
    }
    return std::nullopt;
}

std::string tm27_text(const SpectraDocument& document, std::span<const LightColumn> lights,
                      LightUnit unit) {
    if (lights.size() != 1) {
        throw Error(ErrorKind::shape, "lights", detail::counted(lights.size(), "light"),
                    "one, since a TM-27 file holds no more");
    }
    check_document(document, lights, unit);
    pugi::xml_document xml;
    pugi::xml_node declaration = xml.append_child(pugi::node_declaration);
    declaration.append_attribute("version") = "1.0";
    declaration.append_attribute("encoding") = "UTF-8";
    pugi::xml_node root = xml.append_child("IESTM2714");
    root.append_attribute("xmlns") = "iestm2714";
    root.append_attribute("version") = "1.0";
    const auto add = [](pugi::xml_node& parent, const char* name, const std::string& text) {
        parent.append_child(name).text().set(text.c_str());
    };
    pugi::xml_node header = root.append_child("Header");
    add(header, "Description", lights.front().name);
    add(header, "DocumentCreator", creator_of(document));
    add(header, "DocumentCreationDate", document.date);
    const std::string remarks = remarks_of(document, unit);
    if (!remarks.empty()) add(header, "Comments", remarks);
    pugi::xml_node distribution = root.append_child("SpectralDistribution");
    add(distribution, "SpectralQuantity",
        unit == LightUnit::spectral_radiance ? "radiance" : "relative");
    const Spectrum& light = lights.front().light;
    for (std::size_t i = 0; i < light.size(); ++i) {
        pugi::xml_node data = distribution.append_child("SpectralData");
        data.append_attribute("wavelength") = to_text(light.wavelengths_nm()[i]).c_str();
        data.text().set(to_text(light.values()[i]).c_str());
    }
    std::ostringstream out;
    xml.save(out, "  ", pugi::format_default, pugi::encoding_utf8);
    return out.str();
}

std::string cgats_text(const SpectraDocument& document, std::span<const LightColumn> lights,
                       LightUnit unit) {
    check_document(document, lights, unit);
    const Spectrum& first = lights.front().light;
    std::string text = "CGATS.17\nORIGINATOR " + in_quotes(creator_of(document)) + '\n';
    const std::string remarks = remarks_of(document, unit);
    if (!remarks.empty()) text += "DESCRIPTOR " + in_quotes(remarks) + '\n';
    text += "CREATED " + in_quotes(document.date) + '\n';
    text += "NUMBER_OF_FIELDS " + std::to_string(2 + 2 * first.size()) + '\n';
    text += "BEGIN_DATA_FORMAT\nSAMPLE_ID SAMPLE_NAME";
    for (std::size_t i = 0; i < first.size(); ++i) {
        text += " SPECTRAL_NM SPECTRAL_DEC";
    }
    text += "\nEND_DATA_FORMAT\nNUMBER_OF_SETS " + std::to_string(lights.size()) + "\nBEGIN_DATA\n";
    for (std::size_t k = 0; k < lights.size(); ++k) {
        text += std::to_string(k + 1) + ' ' + in_quotes(lights[k].name);
        for (std::size_t i = 0; i < first.size(); ++i) {
            text += ' ' + to_text(first.wavelengths_nm()[i]) + ' ' +
                    to_text(lights[k].light.values()[i]);
        }
        text += '\n';
    }
    return text + "END_DATA\n";
}

std::string spectra_text(SpectraForm form, const SpectraDocument& document,
                         std::span<const LightColumn> lights, LightUnit unit) {
    switch (form) {
        case SpectraForm::tm_27:
            return tm27_text(document, lights, unit);
        case SpectraForm::cgats_17:
            return cgats_text(document, lights, unit);
        case SpectraForm::csv:
            break;
    }
    return spectral_csv_text(document.comments, lights, unit);
}

}  // namespace samelight::io
