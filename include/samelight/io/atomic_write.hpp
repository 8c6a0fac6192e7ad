#pragma once
// Files that are there as a whole or not at all.
#include <filesystem>
#include <string_view>

#include "samelight/numeric/form.hpp"
namespace samelight::io {

/// Replaces (or makes) `file` in one step: nobody ever reads half of it, and a failure leaves what was there.
///
/// The bytes are written to a new file in the same folder, flushed to the disk, and that file takes the name. Where the file system can,
/// it has no name until then; where it can't (or for the moment of replacing), it is called .samelight-XXXXXXXXXXXXXXXX.part, 64 bits that nobody can foresee, and SIGINT,
/// SIGTERM, SIGHUP and SIGQUIT wait in the calling thread. On failure and on these signals nothing is left behind. The
/// limit on the size of files (RLIMIT_FSIZE) is a failure like others, without SIGXFSZ. No handler is installed.
///
/// An existing file keeps its permissions, and its owner and group where the system lets us give it away (otherwise nobody gains access
/// by it), but not its hard links, access lists or extended attributes; it is never readable by more people on the way. A symbolic link
/// stays and the file it points to is replaced.
///
/// Devices and pipes (character devices, FIFOs, links to them such as /dev/stdout) are written to as they are, never replaced: that can fail
/// half-way, and a FIFO waits for its reader. A reader that went away is a failure like others, without SIGPIPE.
///
/// On Windows the new file has that name from the beginning, an existing file keeps its access lists and attributes, and a process that is
/// ended meanwhile leaves the new file behind.
///
/// @param file  a path in a folder that exists; a name that is free, a regular file that the process may write, a device or a pipe
/// @param bytes the whole contents; may be empty
/// Throws Error (system) naming the file and what the operating system said: a folder, a disk, a link that leads nowhere, a file that is
/// read-only (for the superuser, too, where nobody may write it), a folder that takes no new file, a full disk.
SAMELIGHT_API void write_file_atomically(const std::filesystem::path& file, std::string_view bytes);

}  // namespace samelight::io
