#include "io/readings/readings_text.hpp"

#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"

#include "io/files/file_bytes.hpp"

namespace samelight::io::detail {
namespace {

std::string_view of_size(std::string_view bytes, const std::string& source,
                         const std::string& holds) {
    require_size(bytes.size(), largest_readings_file_bytes, harmless(source), holds.c_str());
    return bytes;
}

}  // namespace

ReadingsText::ReadingsText(std::string_view bytes, const std::string& source,
                           const std::string& holds)
    : decoded_(decode_text(of_size(bytes, source, holds), harmless(source))),
      sheet_(decoded_.text, harmless(source), holds) {}

ReadingsLayout ReadingsText::layout(ReadingsKind kind, std::vector<std::string>& understood) const {
    const ReadingsLayout layout = find_readings_layout(sheet_, kind);
    for (const auto& sentences :
         {decoded_.understood, sheet_.understood(), how_readings_were_read(sheet_, layout)}) {
        understood.insert(understood.end(), sentences.begin(), sentences.end());
    }
    return layout;
}

}  // namespace samelight::io::detail
