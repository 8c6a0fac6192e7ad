#pragma once
// All bytes of a file.
#include <cstdint>
#include <filesystem>
#include <string>

namespace samelight::io::detail {

/// The most that a small file is read of, one of ages or deviation functions, in bytes.
inline constexpr std::uintmax_t largest_small_file_bytes = std::uintmax_t{1} << 20;

/// Throws Error (input) for more than `most_bytes` bytes.
void require_size(std::uintmax_t bytes, std::uintmax_t most_bytes, const std::string& source,
                  const std::string& wanted);

/// The bytes of a regular file (or a link to one); its size is checked before a byte is read.
/// @param wanted what the file should be, for messages: "a file of readings"
/// Throws Error (system) for what can't be opened or read, Error (input) for what is no regular file or larger than `most_bytes`.
std::string file_bytes(const std::filesystem::path& file, std::uintmax_t most_bytes,
                       const std::string& wanted);

}  // namespace samelight::io::detail
