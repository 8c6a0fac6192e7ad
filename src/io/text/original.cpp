#include "io/text/original.hpp"

#include "io/text/numbers.hpp"
#include "io/text/words.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

LineAndColumn line_and_column(std::string_view text, std::size_t offset) {
    LineAndColumn place;
    for (std::size_t i = 0; i < offset && i < text.size(); ++i) {
        const bool within_pair = text[i] == '\r' && text.substr(i).starts_with("\r\n");
        if (text[i] == '\n' || (text[i] == '\r' && !within_pair)) {
            ++place.line;
            place.column = 1;
        } else if (!continues_character(text[i])) {
            ++place.column;
        }
    }
    return place;
}

void Original::refuse(std::size_t offset, const std::string& found,
                      const std::string& wanted) const {
    const LineAndColumn place = line_and_column(text_, offset);
    throw Error(ErrorKind::input,
                source_ + ':' + std::to_string(place.line) + ':' + std::to_string(place.column),
                found, wanted);
}

void Original::require_number(std::size_t offset, std::string_view text, char mark,
                              const std::string& what) const {
    switch (number_of(text, mark).fault) {
        case Fault::none:
            return;
        case Fault::empty:
            refuse(offset, "nothing for " + what, "a number");
        case Fault::grouped:
            refuse(offset, shown(text) + " for " + what,
                   mark == ',' ? "a number without marks between thousands"
                               : "a number with a decimal point, and none between thousands");
        case Fault::out_of_range:
            refuse(offset, shown(text) + " for " + what + ", beyond the range of numbers",
                   "a finite number of magnitude up to 1e30");
        case Fault::not_finite:
            refuse(offset, shown(text) + " for " + what, "a finite number");
        case Fault::text:
            break;
    }
    refuse(offset, shown(text) + " for " + what, "a number");
}

void Original::require_plain(std::size_t offset, std::string_view text,
                             const std::string& what) const {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool blank = byte == '\t' || byte == '\n' || byte == '\r';
        const bool second =
            byte == 0xc2 && length == 2 && static_cast<unsigned char>(text[i + 1]) < 0xa0;
        if (length == 0 || (byte < 0x20 && !blank) || byte == 0x7f || second) {
            refuse(offset, "a control character, or none at all, in " + what,
                   "text without control characters");
        }
        i += length;
    }
}

void MadeText::begin(std::size_t origin) {
    origins_.push_back(
        {static_cast<std::uint32_t>(text_.size()), static_cast<std::uint32_t>(origin)});
}

void MadeText::separate() {
    if (line_begun_) text_ += separator_;
    line_begun_ = true;
}

void MadeText::comment(std::size_t origin, std::string_view text) {
    begin(origin);
    text_ += "# ";
    for (const char c : as_name(text)) {
        text_ += c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
    }
    end_line();
}

void MadeText::number(std::size_t origin, std::string_view text) {
    separate();
    begin(origin);
    text_ += text;
}

void MadeText::words(std::size_t origin, std::string_view text) {
    separate();
    begin(origin);
    text_ += '"';
    for (const char c : as_name(text)) {
        if (c == '"') text_ += '"';
        text_ += c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
    }
    text_ += '"';
}

void MadeText::end_line() {
    text_ += '\n';
    ++lines_;
    line_begun_ = false;
}

}  // namespace samelight::io::detail
