// Files written aside.
#include "io/files/file_aside.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <system_error>
#include <utility>

#include "io/files/part_name.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

constexpr int most_part_names = 100;
constexpr mode_t own_only = 0600;

/// Who may do what: those who had access keep it, and nobody gains any.
mode_t kept_mode(const struct stat& existing, bool owner_kept, bool group_kept) {
    const mode_t mode = existing.st_mode & 07777U;
    if (owner_kept && group_kept) return mode;
    const mode_t others = mode & 07U;
    // The members of another group are among those who were "others".
    return group_kept ? mode & 0777U : (mode & 0707U) | ((others << 3U) & mode);
}

}  // namespace

bool draw_unforeseen(std::uint64_t& bits) { return ::getentropy(&bits, sizeof(bits)) == 0; }

void refuse_file(const std::filesystem::path& file, const std::string& what, int error) {
    throw Error(
        ErrorKind::system, file.string(), what + " (" + std::system_category().message(error) + ")",
        error == ENOSPC || error == EDQUOT ? "room on the disk" : "a path that can be written");
}

void write_all(int descriptor, std::string_view bytes, const std::filesystem::path& file) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) refuse_file(file, "can't be written", errno);
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
}

FileAside::FileAside(std::filesystem::path target, const struct stat* existing)
    : target_(std::move(target)) {
    if (existing != nullptr) existing_ = *existing;
}

FileAside::~FileAside() {
    if (descriptor_ >= 0) ::close(descriptor_);
    if (!part_.empty()) ::unlink(part_.c_str());
}

bool FileAside::open(Kind kind) {
    if (kind == Kind::nameless) return open_nameless();
    open_named();
    return true;
}

bool FileAside::open_nameless() {
#ifdef O_TMPFILE
    const std::string folder = target_.parent_path().string();
    descriptor_ =
        ::open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, existing_ ? own_only : 0666);
    if (descriptor_ < 0) return false;
    // A name is given through /proc. Asked before anything is written, so that the other way is still open.
    if (::access(own_link().c_str(), F_OK) == 0) return true;
    ::close(descriptor_);
    descriptor_ = -1;
#endif
    return false;
}

void FileAside::open_named() {
    hold_interrupts();
    do {
        next_part_name();
        // Not mkstemp(): with mode 0666 the process's umask decides, as for any other new file.
        descriptor_ = ::open(part_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                             existing_ ? own_only : 0666);
    } while (descriptor_ < 0 && errno == EEXIST && drawn_ < most_part_names);
    if (descriptor_ < 0) {
        const int error = errno;
        part_.clear();
        refuse_file(target_, "no file can be made in its folder", error);
    }
}

void FileAside::write(std::string_view bytes) { write_all(descriptor_, bytes, target_); }

void FileAside::replace_target() {
    if (existing_) take_permissions();
    if (::fsync(descriptor_) != 0) refuse_file(target_, "can't be flushed to the disk", errno);
    if (part_.empty()) {
        if (!existing_ && take_free_name()) return;
        take_part_name();
    }
    const int closed = ::close(descriptor_);
    descriptor_ = -1;
    if (closed != 0) refuse_file(target_, "can't be closed", errno);
    if (::rename(part_.c_str(), target_.c_str()) != 0) {
        refuse_file(target_, "can't be replaced", errno);
    }
    part_.clear();
}

/// Ours from the beginning; somebody else's again if we may give it away.
void FileAside::take_permissions() {
    const struct stat& existing = *existing_;
    const bool both = ::fchown(descriptor_, existing.st_uid, existing.st_gid) == 0;
    const bool group = both || ::fchown(descriptor_, static_cast<uid_t>(-1), existing.st_gid) == 0;
    if (::fchmod(descriptor_, kept_mode(existing, both, group)) != 0) {
        refuse_file(target_, "its permissions can't be kept", errno);
    }
}

/// A nameless file's way into the folder: no name but the last one, ever. False where it has been taken meanwhile.
bool FileAside::take_free_name() const {
    if (::linkat(AT_FDCWD, own_link().c_str(), AT_FDCWD, target_.c_str(), AT_SYMLINK_FOLLOW) == 0) {
        return true;
    }
    if (errno != EEXIST) refuse_file(target_, "can't be made in its folder", errno);
    return false;
}

void FileAside::take_part_name() {
    hold_interrupts();
    int failed = 0;
    do {
        next_part_name();
        failed = ::linkat(AT_FDCWD, own_link().c_str(), AT_FDCWD, part_.c_str(), AT_SYMLINK_FOLLOW);
    } while (failed != 0 && errno == EEXIST && drawn_ < most_part_names);
    if (failed != 0) {
        const int error = errno;
        part_.clear();
        refuse_file(target_, "no file can be made in its folder", error);
    }
}

/// One that is taken belongs to another writer, or to one that was killed.
void FileAside::next_part_name() {
    const std::string name = drawn_part_name();
    if (name.empty()) refuse_file(target_, "no name can be drawn for a file beside it", errno);
    ++drawn_;
    part_ = target_.parent_path() / name;
}

void FileAside::hold_interrupts() {
    interrupts_.emplace(std::initializer_list<int>{SIGINT, SIGTERM, SIGHUP, SIGQUIT},
                        std::initializer_list<int>{});
}

std::string FileAside::own_link() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

}  // namespace samelight::io::detail
