// What a path leads to, and which way of writing suits it (POSIX).
#include "samelight/io/atomic_write.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <string>
#include <system_error>

#include "io/files/file_aside.hpp"
#include "io/files/signals_held.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {

namespace {

using detail::FileAside;

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& what,
                         const std::string& wanted) {
    throw Error(ErrorKind::system, file.string(), what, wanted);
}

/// Makes the renaming itself last. Some file systems can't flush a folder; the file is whole all the same.
void flush_folder(const std::filesystem::path& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    ::fsync(descriptor);
    ::close(descriptor);
}

/// What `file` leads to, through links; false for a name that is free.
bool look_at(const std::filesystem::path& file, struct stat& existing) {
    if (::stat(file.c_str(), &existing) == 0) return true;
    const int error = errno;
    struct stat link {};
    if (error != ENOENT) detail::refuse_file(file, "can't be looked at", error);
    // A link to nothing isn't nothing: a new file would take the link's place.
    if (::lstat(file.c_str(), &link) == 0) {
        detail::refuse_file(file, "a link that leads nowhere", error);
    }
    return false;
}

/// The name of a regular file behind symbolic links: the one whose folder the new file must be made in.
std::filesystem::path behind_links(const std::filesystem::path& file, const struct stat& existing) {
    std::error_code failed;
    std::filesystem::path real = std::filesystem::canonical(file, failed);
    struct stat found {};
    // Such as /dev/stdout where that is a file already removed.
    if (failed || ::stat(real.c_str(), &found) != 0 || found.st_dev != existing.st_dev ||
        found.st_ino != existing.st_ino) {
        refuse(file, "a link to a file without a name", "a regular file or a new name");
    }
    return real;
}

/// Renaming needs no right to the file that it does away with; so that right is asked for here.
void require_writable(const std::filesystem::path& file, const struct stat& existing) {
    constexpr mode_t anyone_writes = 0222;
    if ((existing.st_mode & anyone_writes) == 0) {  // meant for the superuser as well
        refuse(file, "a file that nobody may write", "one that is not read-only, or a new name");
    }
    const int descriptor = ::open(file.c_str(), O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (descriptor < 0) detail::refuse_file(file, "can't be written", errno);
    ::close(descriptor);
}

void replace(const std::filesystem::path& target, const struct stat* existing,
             std::string_view bytes) {
    // Beyond the limit on the size of files, write() shall say so and the process live.
    const detail::SignalsHeld held({}, {SIGXFSZ});
    for (const FileAside::Kind kind : {FileAside::Kind::nameless, FileAside::Kind::named}) {
        FileAside aside(target, existing);
        if (!aside.open(kind)) continue;
        aside.write(bytes);
        aside.replace_target();
        break;
    }
    flush_folder(target.parent_path());
}

/// Devices and pipes: there is nothing to replace.
void write_into(const std::filesystem::path& file, std::string_view bytes) {
    // A pipe that nobody reads any more: write() shall say so and the process live.
    const detail::SignalsHeld held({}, {SIGPIPE});
    int descriptor = -1;
    do {  // a pipe waits here for who reads it
        descriptor = ::open(file.c_str(), O_WRONLY | O_NOCTTY | O_CLOEXEC);
    } while (descriptor < 0 && errno == EINTR);
    if (descriptor < 0) detail::refuse_file(file, "can't be opened", errno);
    try {
        detail::write_all(descriptor, bytes, file);
    } catch (...) {
        ::close(descriptor);
        throw;
    }
    if (::close(descriptor) != 0) detail::refuse_file(file, "can't be closed", errno);
}

}  // namespace

void write_file_atomically(const std::filesystem::path& file, std::string_view bytes) {
    if (!file.has_filename()) {
        refuse('"' + file.string() + '"', "no name of a file", "a path that ends in one");
    }
    struct stat existing {};
    if (!look_at(file, existing)) {
        replace(file.has_parent_path() ? file : std::filesystem::path(".") / file, nullptr, bytes);
    } else if (S_ISREG(existing.st_mode)) {
        const std::filesystem::path target = behind_links(file, existing);
        require_writable(file, existing);
        replace(target, &existing, bytes);
    } else if (S_ISCHR(existing.st_mode) || S_ISFIFO(existing.st_mode)) {
        write_into(file, bytes);
    } else {  // a disk as a whole, too: nobody means that
        refuse(file, S_ISDIR(existing.st_mode) ? "a folder" : "neither a file, a pipe nor a folder",
               "a regular file or a new name");
    }
}

}  // namespace samelight::io
