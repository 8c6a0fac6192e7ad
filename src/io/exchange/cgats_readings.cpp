#include "io/exchange/cgats_readings.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "io/exchange/cgats_sections.hpp"
#include "io/exchange/exchange_spectra.hpp"
#include "io/text/words.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"

namespace samelight::io::detail {

namespace {

/// A field that readings have, and the column of the plain form that it is.
struct FieldOfReadings {
    std::string_view field, column;
};
constexpr std::array<FieldOfReadings, 3> tristimulus_fields = {
    {{"XYZ_X", "X"}, {"XYZ_Y", "Y"}, {"XYZ_Z", "Z"}}};
constexpr std::array<FieldOfReadings, 3> signal_fields = {
    {{"RGB_R", "r"}, {"RGB_G", "g"}, {"RGB_B", "b"}}};

bool has_all(const CgatsSection& section, const std::array<FieldOfReadings, 3>& fields) {
    return std::all_of(fields.begin(), fields.end(), [&](const FieldOfReadings& one) {
        return section.field(one.field).has_value();
    });
}

/// A column of the table that is made.
struct TakenField {
    std::size_t place = 0;
    std::string_view column;
    bool number = true;
};

std::vector<TakenField> taken_fields(const CgatsSection& section, CgatsPatches kind) {
    std::vector<TakenField> taken;
    const auto take = [&](const std::array<FieldOfReadings, 3>& fields) {
        for (const FieldOfReadings& one : fields) {
            if (const auto place = section.field(one.field)) taken.push_back({*place, one.column});
        }
    };
    if (kind == CgatsPatches::readings) take(tristimulus_fields);
    take(signal_fields);
    if (const auto naming = section.naming_field()) taken.push_back({*naming, "patch", false});
    return taken;
}

[[noreturn]] void refuse_sections(const Original& file, const CgatsFile& read, CgatsPatches kind) {
    const CgatsSection& first = read.sections.front();
    const std::size_t offset = file.offset_of(first.fields.front().text);
    if (kind == CgatsPatches::signals) {
        file.refuse(offset, "no RGB_R, RGB_G, RGB_B among the fields",
                    "these, or SPECTRAL_NM with SPECTRAL_DEC or SPECTRAL_PCT");
    }
    const bool lab = first.field("LAB_L").has_value();
    file.refuse(offset,
                std::string("no XYZ_X, XYZ_Y, XYZ_Z among the fields") +
                    (lab ? " (LAB_L says no luminance)" : ""),
                "these, in cd/m2");
}

}  // namespace

ExchangeReadings cgats_readings(const Original& file, CgatsPatches kind) {
    CgatsFile read = cgats_file(file);
    const auto section =
        std::find_if(read.sections.begin(), read.sections.end(), [&](const CgatsSection& one) {
            return has_all(one, kind == CgatsPatches::signals ? signal_fields : tristimulus_fields);
        });
    if (section == read.sections.end()) refuse_sections(file, read, kind);
    if (section->sets.size() > largest_readings_rows) {
        file.refuse(file.offset_of(section->sets[largest_readings_rows]),
                    "more than " + std::to_string(largest_readings_rows) + " sets",
                    "a file of " + std::to_string(largest_readings_rows) + " at most");
    }
    const std::vector<TakenField> taken = taken_fields(*section, kind);
    DecimalMark decimals(file);
    for (const std::string_view line : section->sets) {
        const std::vector<CgatsWord> set = values_of(file, line, section->fields.size()).words;
        for (const TakenField& field : taken) {
            if (field.number) decimals.look_at(set[field.place].text);
        }
    }
    const char mark = decimals.mark();
    ExchangeReadings result{MadeText(mark == ',' ? '\t' : ','), std::move(read.understood)};
    if (mark == ',') result.understood.emplace_back("Decimal commas.");
    if (kind == CgatsPatches::readings) {
        result.understood.emplace_back("XYZ_X, XYZ_Y, XYZ_Z taken as cd/m2.");
    }
    if (read.sections.size() > 1) {
        result.understood.push_back(counted(read.sections.size() - 1, "other section") +
                                    " left out.");
    }
    for (const CgatsWord& remark : read.remarks) {
        result.made.comment(file.offset_of(remark.text), text_of(remark));
    }
    for (const TakenField& field : taken) {
        result.made.words(file.offset_of(section->fields[field.place].text), field.column);
    }
    result.made.end_line();
    for (const std::string_view line : section->sets) {
        const std::vector<CgatsWord> set = values_of(file, line, section->fields.size()).words;
        for (const TakenField& field : taken) {
            const CgatsWord& word = set[field.place];
            const std::size_t offset = file.offset_of(word.text);
            if (!field.number) {
                result.made.words(offset, text_of(word));
                continue;
            }
            file.require_number(offset, word.text, mark,
                                std::string(section->fields[field.place].text));
            result.made.number(offset, word.text);
        }
        result.made.end_line();
    }
    return result;
}

bool holds_cgats_spectra(std::string_view bytes, const std::string& source) {
    if (bytes.size() > largest_readings_file_bytes) return false;
    const DecodedText decoded = decode_text(bytes, harmless(source));
    if (form_of(decoded.text) != TextForm::cgats) return false;
    const Original file(decoded.text, harmless(source));
    const CgatsFile read = cgats_file(file);
    return std::any_of(read.sections.begin(), read.sections.end(), [](const CgatsSection& one) {
        return one.field("SPECTRAL_NM").has_value();
    });
}

}  // namespace samelight::io::detail
