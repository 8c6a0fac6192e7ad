#include "name_list.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <system_error>

#include "platform/platform.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::command {

namespace {

constexpr const char* wanted_list = "a list of names, one a line";

[[noreturn]] void refuse_list(const std::string& name, const char* what) {
    throw Error(ErrorKind::system, ErrorPlace{name},
                what + (" (" + std::generic_category().message(errno) + ")"), wanted_list);
}

/// For the list alone.
int standard_input_alone(const std::string& name) {
    if (std::feof(stdin) != 0) {
        throw Error(ErrorKind::input, ErrorPlace{name}, "named a second time, but can be read once",
                    "- in one place, and the names of files elsewhere");
    }
    const int list = take_standard_input();
    if (list < 0) refuse_list(name, "can't be opened");
    return list;
}

/// By its byte order mark, or by the zero in one half of the first letter of a name.
bool begins_as_utf16(const std::string& bytes) {
    return bytes.starts_with("\xff\xfe") || bytes.starts_with("\xfe\xff") ||
           (bytes.size() > 1 && (bytes[0] == '\0') != (bytes[1] == '\0'));
}

}  // namespace

NameList::NameList(const std::string& file)
    : name_(file == "-" ? "standard input" : file),
      file_(file == "-" ? standard_input_alone(name_) : open_to_read(file)) {
    if (file_ < 0) refuse_list(name_, "can't be opened");
}

NameList::~NameList() { close_descriptor(file_); }

void NameList::read_more() {
    constexpr std::size_t most_to_decode = std::size_t{64} << 20U;
    do {
        read_bytes();
    } while (!encoding_known_ && read_.size() < 2 && !at_end_);
    if (encoding_known_) return;
    encoding_known_ = true;
    if (!begins_as_utf16(read_)) return;
    while (!at_end_) {
        if (read_.size() > most_to_decode) {
            throw Error(ErrorKind::input, ErrorPlace{name_}, "more than 64 MiB in UTF-16",
                        "a list in UTF-8, or a shorter one");
        }
        read_bytes();
    }
    read_ = io::decode_text(read_, name_).text;
}

void NameList::read_bytes() {
    std::array<char, 65536> bytes;
    const std::ptrdiff_t count = read_some(file_, bytes.data(), bytes.size());
    if (count < 0) refuse_list(name_, "can't be read");
    at_end_ = count == 0;
    read_.erase(0, from_);
    from_ = 0;
    read_.append(bytes.data(), static_cast<std::size_t>(count));
}

bool NameList::take_line(std::string& line) {
    if (after_cr_ && from_ < read_.size()) {
        from_ += read_[from_] == '\n' ? 1U : 0U;
        after_cr_ = false;
    }
    const std::size_t end = read_.find_first_of("\r\n", from_);
    const bool last = end == std::string::npos && at_end_ && from_ < read_.size();
    const std::size_t length = (end == std::string::npos ? read_.size() : end) - from_;
    if (length > longest_name) {
        throw Error(ErrorKind::input, ErrorPlace{name_, static_cast<int>(line_ + 1)},
                    "a line of more than " + std::to_string(longest_name) + " bytes", wanted_list);
    }
    if (end == std::string::npos && !last) return false;
    line = read_.substr(from_, length);
    from_ += length + (last ? 0 : 1);
    after_cr_ = !last && read_[end] == '\r';
    ++line_;
    if (line_ == 1 && line.starts_with("\xef\xbb\xbf")) line.erase(0, 3);
    if (line.find('\0') != std::string::npos) {
        throw Error(ErrorKind::input, ErrorPlace{name_, static_cast<int>(line_)}, "a zero byte",
                    wanted_list);
    }
    return true;
}

std::vector<std::string> NameList::next() {
    std::vector<std::string> names;
    std::string line;
    while (names.size() < most_at_once) {
        if (take_line(line)) {
            if (!line.empty()) names.push_back(line);
        } else if (!names.empty() || at_end_) {
            break;
        } else {
            read_more();
        }
    }
    return names;
}

}  // namespace samelight::command
