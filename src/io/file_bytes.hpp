#pragma once
// All bytes of a file.
#include <cstdint>
#include <filesystem>
#include <string>

namespace samelight::io::detail {

/// A file's name for messages, which are one line.
std::string one_line(std::string name);

/// The bytes of a regular file (or a link to one); its size is checked before a byte is read.
/// @param wanted what the file should be, for messages: "a file of readings"
/// Throws Error (system) for what can't be opened or read, Error (input) for what is no regular file or larger than `most_bytes`.
std::string file_bytes(const std::filesystem::path& file, std::uintmax_t most_bytes,
                       const std::string& wanted);

}  // namespace samelight::io::detail
