// Spectra in CGATS.17 text: SPECTRAL_NM beside SPECTRAL_DEC or SPECTRAL_PCT, as many of each as a set has wavelengths.
#include <algorithm>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "io/exchange/cgats_sections.hpp"
#include "io/exchange/exchange_spectra.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

struct CgatsLight {
    std::string name;
    std::size_t offset = 0;
    std::vector<std::string_view> nm, values;
};

/// Where a section has its wavelengths and values.
struct SpectralFields {
    std::vector<std::size_t> nm, values;
    bool per_cent = false;
};

class CgatsSpectra {
  public:
    explicit CgatsSpectra(const Original& file) : file_(file), read_(cgats_file(file)) {}

    ExchangeSpectra make() {
        for (const CgatsSection& section : read_.sections) {
            take_section(section);
        }
        if (lights_.empty()) {
            file_.refuse(file_.offset_of(read_.sections.front().fields.front().text),
                         "no SPECTRAL_NM among the fields",
                         "SPECTRAL_NM with SPECTRAL_DEC or SPECTRAL_PCT");
        }
        result_.understood = std::move(read_.understood);
        if (left_out_ > 0) {
            result_.understood.push_back(counted(left_out_, "section") +
                                         " without SPECTRAL_NM left out.");
        }
        DecimalMark mark(file_);
        for (const CgatsLight& light : lights_) {
            std::for_each(light.nm.begin(), light.nm.end(), [&](auto nm) { mark.look_at(nm); });
            std::for_each(light.values.begin(), light.values.end(),
                          [&](auto v) { mark.look_at(v); });
        }
        result_.mark = mark.mark();
        if (result_.mark == ',') result_.understood.emplace_back("Decimal commas.");
        if (per_cent_) {
            result_.power_of_ten = -2;
            result_.understood.emplace_back("SPECTRAL_PCT taken as hundredths.");
        }
        require_numbers();
        require_same_wavelengths();
        write_table();
        return std::move(result_);
    }

  private:
    [[nodiscard]] SpectralFields spectral_fields(const CgatsSection& section) {
        SpectralFields found;
        const CgatsWord* kind = nullptr;
        for (std::size_t i = 0; i < section.fields.size(); ++i) {
            const CgatsWord& field = section.fields[i];
            if (!is_spectral_field(field.text)) continue;
            if (field.text == "SPECTRAL_NM") {
                found.nm.push_back(i);
                continue;
            }
            if (kind == nullptr) kind = &field;
            if (kind->text != field.text) refuse_kinds(field.text);
            found.values.push_back(i);
        }
        if (found.nm.size() != found.values.size()) {
            file_.refuse(section.offset,
                         std::to_string(found.nm.size()) + " SPECTRAL_NM and " +
                             std::to_string(found.values.size()) +
                             " SPECTRAL_DEC or SPECTRAL_PCT among the fields",
                         "as many wavelengths as values");
        }
        found.per_cent = kind != nullptr && kind->text == "SPECTRAL_PCT";
        return found;
    }

    [[noreturn]] void refuse_kinds(std::string_view field) const {
        file_.refuse(file_.offset_of(field), "both SPECTRAL_DEC and SPECTRAL_PCT",
                     "one of them in a file");
    }

    void take_section(const CgatsSection& section) {
        const SpectralFields fields = spectral_fields(section);
        if (fields.nm.empty()) {
            ++left_out_;
            return;
        }
        if (!lights_.empty() && fields.per_cent != per_cent_) {
            refuse_kinds(section.fields[fields.values.front()].text);
        }
        per_cent_ = fields.per_cent;
        const std::optional<std::size_t> naming = section.naming_field();
        std::unordered_map<std::string, std::size_t> rows_of;
        for (const std::string_view line : section.sets) {
            const std::vector<CgatsWord> set = values_of(file_, line, section.fields.size()).words;
            const std::string name = naming ? name_of(set[*naming]) : std::string();
            const bool row_by_row = fields.nm.size() == 1;
            std::size_t place = lights_.size();
            if (row_by_row) place = rows_of.try_emplace(name, place).first->second;
            if (place == lights_.size()) {
                const std::string_view at = naming ? set[*naming].text : set.front().text;
                lights_.push_back({name, file_.offset_of(at), {}, {}});
            }
            CgatsLight& light = lights_[place];
            for (std::size_t i = 0; i < fields.nm.size(); ++i) {
                light.nm.push_back(set[fields.nm[i]].text);
                light.values.push_back(set[fields.values[i]].text);
            }
        }
    }

    [[nodiscard]] std::string name_of(const CgatsWord& word) const {
        std::string name = as_name(text_of(word));
        if (name.empty()) {
            file_.refuse(file_.offset_of(word.text), "a set without a name",
                         "SAMPLE_NAME or SAMPLE_ID of each set");
        }
        return name;
    }

    void require_numbers() const {
        for (const CgatsLight& light : lights_) {
            for (std::size_t i = 0; i < light.nm.size(); ++i) {
                file_.require_number(file_.offset_of(light.nm[i]), light.nm[i], result_.mark,
                                     "SPECTRAL_NM");
                file_.require_number(
                    file_.offset_of(light.values[i]), light.values[i], result_.mark,
                    shown(light.name) + " at " + std::string(light.nm[i].substr(0, 20)) + " nm");
            }
        }
    }

    void require_same_wavelengths() const {
        const CgatsLight& first = lights_.front();
        for (const CgatsLight& light : lights_) {
            for (std::size_t i = 0; i < light.nm.size() && i < first.nm.size(); ++i) {
                const bool same = number_of(light.nm[i], result_.mark).value ==
                                  number_of(first.nm[i], result_.mark).value;
                if (!same) {
                    file_.refuse(file_.offset_of(light.nm[i]),
                                 "the wavelength " + std::string(light.nm[i].substr(0, 20)) +
                                     " in " + shown(light.name) + " where " + shown(first.name) +
                                     " has " + std::string(first.nm[i].substr(0, 20)),
                                 "the same wavelengths in all sets");
                }
            }
            if (light.nm.size() != first.nm.size()) {
                file_.refuse(light.offset,
                             counted(light.nm.size(), "wavelength") + " in " + shown(light.name) +
                                 ", but " + std::to_string(first.nm.size()) + " in " +
                                 shown(first.name),
                             "the same wavelengths in all sets");
            }
        }
    }

    void write_table() {
        MadeText& made = result_.made;
        for (const CgatsWord& remark : read_.remarks) {
            made.comment(file_.offset_of(remark.text), text_of(remark));
        }
        made.words(lights_.front().offset, "wavelength_nm");
        for (std::size_t k = 0; k < lights_.size(); ++k) {
            const bool only = lights_.size() == 1;
            made.words(lights_[k].offset, !lights_[k].name.empty() ? lights_[k].name
                                          : only                   ? std::string("light")
                                                 : "light " + std::to_string(k + 1));
        }
        made.end_line();
        result_.heading_lines = made.lines();
        result_.columns = lights_.size() + 1;
        for (std::size_t i = 0; i < lights_.front().nm.size(); ++i) {
            const std::string_view nm = lights_.front().nm[i];
            made.number(file_.offset_of(nm), nm);
            for (const CgatsLight& light : lights_) {
                made.number(file_.offset_of(light.values[i]), light.values[i]);
            }
            made.end_line();
        }
    }

    const Original& file_;
    CgatsFile read_;
    std::vector<CgatsLight> lights_;
    std::size_t left_out_ = 0;
    bool per_cent_ = false;
    ExchangeSpectra result_;
};

}  // namespace

ExchangeSpectra cgats_spectra(const Original& file) { return CgatsSpectra(file).make(); }

}  // namespace samelight::io::detail
