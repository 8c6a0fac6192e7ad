#include "io/readings/readings_text.hpp"

#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"

#include "io/exchange/exchange_spectra.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io::detail {
namespace {

std::string_view of_size(std::string_view bytes, const std::string& source,
                         const std::string& holds) {
    require_size(bytes.size(), largest_readings_file_bytes, harmless(source), holds.c_str());
    return bytes;
}

std::optional<ExchangeReadings> made_of(const Original& original,
                                        std::optional<CgatsPatches> cgats_as) {
    if (!cgats_as || form_of(original.text()) != TextForm::cgats) return std::nullopt;
    return cgats_readings(original, *cgats_as);
}

}  // namespace

ReadingsText::ReadingsText(std::string_view bytes, const std::string& source,
                           const std::string& holds, std::optional<CgatsPatches> cgats_as)
    : decoded_(decode_text(of_size(bytes, source, holds), harmless(source))),
      original_(decoded_.text, harmless(source)),
      made_(made_of(original_, cgats_as)),
      sheet_(made_ ? Sheet(made_->made, original_, holds)
                   : Sheet(decoded_.text, harmless(source), holds)) {}

ReadingsLayout ReadingsText::layout(ReadingsKind kind, std::vector<std::string>& understood) const {
    const ReadingsLayout layout = find_readings_layout(sheet_, kind);
    const auto add = [&](const std::vector<std::string>& sentences) {
        understood.insert(understood.end(), sentences.begin(), sentences.end());
    };
    add(decoded_.understood);
    if (made_) {
        add(made_->understood);
    } else {
        add(sheet_.understood());
        add(how_readings_were_read(sheet_, layout));
    }
    return layout;
}

}  // namespace samelight::io::detail
