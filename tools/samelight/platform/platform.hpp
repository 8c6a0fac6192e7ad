#pragma once
// What the command asks of the operating system: implemented once for POSIX, once for Windows.
#include <cstddef>
#include <cstdio>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace samelight::command {

/// The words of the line in UTF-8, the program's name first. On Windows they are taken from the system: argv has lost what isn't in
/// the local code page.
std::vector<std::string> typed_words(int argc, const char* const* argv);

/// What is done to the process before anything is read or printed; undone at the end. A write beyond the limit on the size of files then
/// fails and ends nothing; on Windows streams are bytes, LF stays LF, and a console shows UTF-8.
class PreparedStreams {
  public:
    PreparedStreams();
    ~PreparedStreams();
    PreparedStreams(const PreparedStreams&) = delete;
    PreparedStreams& operator=(const PreparedStreams&) = delete;

  private:
    [[maybe_unused]] unsigned int code_page_before_ = 0;
};

/// Whether somebody looks at it, with a terminal that takes emphasis as ECMA-48 has it.
bool is_terminal(std::FILE* stream);

/// Columns of the terminal, where it says how many.
std::optional<unsigned int> terminal_columns(std::FILE* stream);

/// Calls `tick` once a second from now on with how many have passed, whatever the program does meanwhile: in a signal's handler or in another
/// thread, so that it may do little. Where the system can't, never.
void start_seconds(void (*tick)(unsigned int seconds));
/// No tick is under way or comes afterwards.
void stop_seconds();

/// To standard error at once. May be called by a tick.
void write_to_terminal(std::string_view text);

/// Whether what is written to this path and what is printed get mixed: it leads to the file, pipe or terminal that standard output is.
/// Not for the null device, where nothing is mixed.
bool leads_to_standard_output(const std::string& path);

/// A descriptor to read bytes from; below 0, with errno, where it can't be opened.
int open_to_read(const std::string& path);

/// Standard input as a descriptor of the caller's own. What is left in its place is at its end, from which whoever reads files sees that
/// it has been taken. Below 0, with errno, where there is none.
int take_standard_input();

/// How many bytes were read; 0 at the end; below 0, with errno, for a failure.
std::ptrdiff_t read_some(int descriptor, char* bytes, std::size_t most);

void close_descriptor(int descriptor);

}  // namespace samelight::command
