#pragma once
// Names of files from a list, one a line: of a file, or of standard input as they come in.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::command {

/// A list that is read no further than its names are needed.
class NameList {
  public:
    /// The most names that next() gives at a time.
    static constexpr std::size_t most_at_once = 32;
    /// The longest name, in bytes: sixteen times what the operating system takes for a path.
    static constexpr std::size_t longest_name = std::size_t{64} << 10U;

    /// @param file  "-": standard input, of which nothing is left for files named - from then on. Throws Error (system) for what can't be
    /// opened, Error (input) where standard input was read before.
    explicit NameList(const std::string& file);
    ~NameList();
    NameList(const NameList&) = delete;
    NameList& operator=(const NameList&) = delete;

    /// The names that are there: at least one, for which it waits, and no more than are there without waiting. Lines end in LF, CR LF or CR;
    /// those without a name are passed over, and a byte order mark before the first. A list in UTF-16 (io::decode_text()) is read to its end
    /// before its first name is given. None at the end. Throws Error (system) for what can't be read, Error (input), with the line, for a name
    /// that is too long or holds a zero byte, and for a list in UTF-16 that is no text or larger than 64 MiB.
    std::vector<std::string> next();

  private:
    /// The next line of what was read, where it is whole; nothing is left of it.
    bool take_line(std::string& line);
    void read_more();
    /// Some bytes more, or the end.
    void read_bytes();

    std::string name_;
    int file_;
    bool at_end_ = false;
    bool encoding_known_ = false;
    bool after_cr_ = false;  // a LF would be of the same line end
    std::string read_;       // and not taken yet
    std::size_t from_ = 0;   // where in it the next line begins
    std::size_t line_ = 0;
};

/// A list in which there is no name.
inline Error no_name_in(const std::string& list) {
    return {ErrorKind::input, ErrorPlace{list == "-" ? "standard input" : list}, "no name",
            "one a line, at least one"};
}

}  // namespace samelight::command
