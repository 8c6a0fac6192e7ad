#pragma once
// All bytes of a file.
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace samelight::io::detail {

/// The name that means standard input wherever a file is read.
inline constexpr std::string_view standard_input = "-";

/// True for what is a file's name where other names are possible: anything with a dot or a slash, and - for standard input.
bool is_file_name(std::string_view text);

/// What a file is called in messages and answers: its name, "standard input" for -.
std::string source_name(const std::filesystem::path& file);

/// The most that a small file is read of, one of ages or deviation functions, in bytes.
inline constexpr std::uintmax_t largest_small_file_bytes = std::uintmax_t{1} << 20;

/// Throws Error (input) for more than `most_bytes` bytes.
void require_size(std::uintmax_t bytes, std::uintmax_t most_bytes, const std::string& source,
                  const std::string& wanted);

/// The bytes of a regular file (or a link to one), whose size is checked before a byte is read; or, for -, of standard input up to its
/// end, which can be read once.
/// @param wanted what the file should be, for messages: "a file of readings"
/// Throws Error (system) for what can't be opened or read, Error (input) for what is no regular file or larger than `most_bytes`, and for
/// standard input a second time.
std::string file_bytes(const std::filesystem::path& file, std::uintmax_t most_bytes,
                       const std::string& wanted);

}  // namespace samelight::io::detail
