#pragma once
// A file that is written beside the one it is to replace (POSIX, better on Linux).
#include <sys/stat.h>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "io/files/signals_held.hpp"

namespace samelight::io::detail {

/// Throws Error (system): the file, what failed, and what the operating system says of it (`error`, an errno).
[[noreturn]] void refuse_file(const std::filesystem::path& file, const std::string& what,
                              int error);

/// All bytes to an open file. Throws Error (system) that names `file`.
void write_all(int descriptor, std::string_view bytes, const std::filesystem::path& file);

/// A new file in the folder of the one to be replaced; gone again unless it took its place.
///
/// Where the file system can make files without a name (O_TMPFILE), it has none while it is written: whatever ends the process leaves
/// nothing behind. Such a file can take a free name at once, but never one that is taken; so to replace another it gets a name of its
/// own for the moment between linkat() and rename(). On other file systems it has that name from the beginning. While it has,
/// signals that would end the process (interrupt, terminate, hang-up, quit) wait: only SIGKILL and a crash of the machine leave it there.
///
/// Until it is whole nobody else can read it, unless the file is a new one: then it has the permissions of any new file.
class FileAside {
  public:
    enum class Kind { nameless, named };

    /// @param existing  what is there now; null for a new file
    FileAside(std::filesystem::path target, const struct stat* existing);
    FileAside(const FileAside&) = delete;
    FileAside& operator=(const FileAside&) = delete;
    FileAside(FileAside&&) = delete;
    FileAside& operator=(FileAside&&) = delete;
    ~FileAside();

    /// False where the system can't make such a file: only for nameless ones. Throws Error (system) where the folder takes none.
    [[nodiscard]] bool open(Kind kind);
    void write(std::string_view bytes);
    void replace_target();

  private:
    [[nodiscard]] bool open_nameless();
    void open_named();
    void take_permissions();
    [[nodiscard]] bool take_free_name() const;
    void take_part_name();
    void next_part_name();
    void hold_interrupts();
    [[nodiscard]] std::string own_link() const;

    std::optional<SignalsHeld> interrupts_;  // first, so that they arrive last
    std::filesystem::path target_;
    std::optional<struct stat> existing_;
    std::filesystem::path part_;  // empty: no name
    int drawn_ = 0;               // names tried
    int descriptor_ = -1;
};

}  // namespace samelight::io::detail
