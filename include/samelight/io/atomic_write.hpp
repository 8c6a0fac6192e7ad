#pragma once
// Files that are there as a whole or not at all.
#include <filesystem>
#include <string_view>

namespace samelight::io {

/// Replaces (or makes) `file` in one step: nobody ever reads half of it, and a failure leaves what was there.
///
/// The bytes are written to a new file in the same folder, flushed to the disk, and that file is renamed. An existing file
/// keeps its permissions, but not its hard links; a symbolic link stays and the file it points to is replaced. On
/// failure nothing is left behind.
///
/// @param file  a path in a folder that exists; where something is there already, it must be a regular file
/// @param bytes the whole contents; may be empty
/// Throws Error (system) naming the file and what the operating system said.
void write_file_atomically(const std::filesystem::path& file, std::string_view bytes);

}  // namespace samelight::io
