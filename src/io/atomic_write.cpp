// Writes aside, then renames (POSIX).
#include "samelight/io/atomic_write.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <system_error>

#include "samelight/numeric/error.hpp"

namespace samelight::io {

namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& what, int error) {
    throw Error(ErrorKind::system, file.string(),
                what + " (" + std::system_category().message(error) + ")",
                "a path that can be written");
}

/// A new file beside the one to be replaced; gone again unless it was renamed.
class FileAside {
  public:
    explicit FileAside(const std::filesystem::path& target) : target_(target) {
        // Numbers already taken belong to other writers, or to one that was killed.
        for (int number = 0; descriptor_ < 0; ++number) {
            path_ = target.parent_path() / (".samelight-" + std::to_string(::getpid()) + "-" +
                                            std::to_string(number) + ".part");
            // Not mkstemp(): with mode 0666 the process's umask decides, as for any other new file.
            descriptor_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (descriptor_ < 0 && (errno != EEXIST || number == 1000)) {
                refuse(target_, "no file can be made in its folder", errno);
            }
        }
    }

    FileAside(const FileAside&) = delete;
    FileAside& operator=(const FileAside&) = delete;
    FileAside(FileAside&&) = delete;
    FileAside& operator=(FileAside&&) = delete;

    ~FileAside() {
        if (descriptor_ >= 0) ::close(descriptor_);
        if (!renamed_) ::unlink(path_.c_str());
    }

    void write(std::string_view bytes) {
        while (!bytes.empty()) {
            const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) refuse(target_, "can't be written", errno);
            bytes.remove_prefix(static_cast<std::size_t>(written));
        }
    }

    void take_permissions_of(const struct stat& existing) {
        if (::fchmod(descriptor_, existing.st_mode & 07777U) != 0) {
            refuse(target_, "its permissions can't be kept", errno);
        }
    }

    void replace_target() {
        if (::fsync(descriptor_) != 0) refuse(target_, "can't be flushed to the disk", errno);
        const int closed = ::close(descriptor_);
        descriptor_ = -1;
        if (closed != 0) refuse(target_, "can't be closed", errno);
        if (::rename(path_.c_str(), target_.c_str()) != 0) {
            refuse(target_, "can't be replaced", errno);
        }
        renamed_ = true;
    }

  private:
    std::filesystem::path target_;
    std::filesystem::path path_;
    int descriptor_ = -1;
    bool renamed_ = false;
};

/// Makes the renaming itself last. Some file systems can't flush a folder; the file is whole all the same.
void flush_folder(const std::filesystem::path& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    ::fsync(descriptor);
    ::close(descriptor);
}

/// The file behind symbolic links, with a folder to its name.
std::filesystem::path resolved(const std::filesystem::path& file) {
    std::error_code no_such_file;
    std::filesystem::path real = std::filesystem::canonical(file, no_such_file);
    if (!no_such_file) return real;
    return file.has_parent_path() ? file : std::filesystem::path(".") / file;
}

}  // namespace

void write_file_atomically(const std::filesystem::path& file, std::string_view bytes) {
    if (!file.has_filename()) {
        throw Error(ErrorKind::system, '"' + file.string() + '"', "no name of a file",
                    "a path that ends in one");
    }
    const std::filesystem::path target = resolved(file);
    struct stat existing {};
    const bool exists = ::stat(target.c_str(), &existing) == 0;
    if (!exists && errno != ENOENT) refuse(file, "can't be looked at", errno);
    if (exists && !S_ISREG(existing.st_mode)) {
        throw Error(ErrorKind::system, file.string(),
                    S_ISDIR(existing.st_mode) ? "a folder" : "neither a file nor a folder",
                    "a regular file or a new name");
    }
    FileAside aside(target);
    aside.write(bytes);
    if (exists) aside.take_permissions_of(existing);
    aside.replace_target();
    flush_folder(target.parent_path());
}

}  // namespace samelight::io
