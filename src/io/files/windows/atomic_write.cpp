// What a path leads to, and which way of writing suits it (Windows).
#define _CRT_RAND_S  // before every header: it declares rand_s()
#include "samelight/io/atomic_write.hpp"

#ifndef NOMINMAX
#define NOMINMAX
#endif
#define WIN32_LEAN_AND_MEAN
#include <windows.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <string_view>

#include "io/files/part_name.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {

bool detail::draw_unforeseen(std::uint64_t& bits) {
    unsigned low = 0;
    unsigned high = 0;
    if (rand_s(&low) != 0 || rand_s(&high) != 0) return false;
    bits = std::uint64_t{high} << 32U | low;
    return true;
}

namespace {

constexpr int most_windows_part_names = 100;
constexpr DWORD everybody = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE;

/// What the system means; its own texts are in the language and the code page of the machine.
std::string words_of(DWORD error) {
    switch (error) {
        case ERROR_FILE_NOT_FOUND:
        case ERROR_PATH_NOT_FOUND:
            return "no such folder";
        case ERROR_ACCESS_DENIED:
            return "access denied";
        case ERROR_SHARING_VIOLATION:
        case ERROR_LOCK_VIOLATION:
        case ERROR_USER_MAPPED_FILE:
            return "open in another program";
        case ERROR_HANDLE_DISK_FULL:
        case ERROR_DISK_FULL:
            return "no space left on the disk";
        case ERROR_WRITE_PROTECT:
            return "the disk is write-protected";
        case ERROR_INVALID_NAME:
        case ERROR_BAD_PATHNAME:
            return "no name that a file can have";
        case ERROR_BROKEN_PIPE:
        case ERROR_NO_DATA:
            return "nobody reads the pipe any more";
        default:
            return "system error " + std::to_string(error);
    }
}

[[noreturn]] void refuse_on_windows(const std::filesystem::path& file, const std::string& what,
                                    DWORD error) {
    const bool full = error == ERROR_DISK_FULL || error == ERROR_HANDLE_DISK_FULL;
    throw Error(ErrorKind::system, file.string(), what + " (" + words_of(error) + ")",
                full ? "room on the disk" : "a path that can be written");
}

/// An open file, closed at the end.
class FileHandle {
  public:
    explicit FileHandle(HANDLE handle) : handle_(handle) {}
    FileHandle(const FileHandle&) = delete;
    FileHandle& operator=(const FileHandle&) = delete;
    FileHandle(FileHandle&&) = delete;
    FileHandle& operator=(FileHandle&&) = delete;
    ~FileHandle() { close(); }
    [[nodiscard]] bool open() const { return handle_ != INVALID_HANDLE_VALUE; }
    [[nodiscard]] HANDLE get() const { return handle_; }
    /// False where what was written can't be kept.
    bool close() {
        const bool closed = !open() || CloseHandle(handle_) != 0;
        handle_ = INVALID_HANDLE_VALUE;
        return closed;
    }

  private:
    HANDLE handle_;
};

void write_bytes(HANDLE handle, std::string_view bytes, const std::filesystem::path& file) {
    constexpr std::size_t at_once = std::size_t{1} << 20U;
    while (!bytes.empty()) {
        DWORD written = 0;
        const auto size = static_cast<DWORD>(std::min(bytes.size(), at_once));
        if (WriteFile(handle, bytes.data(), size, &written, nullptr) == 0) {
            refuse_on_windows(file, "can't be written", GetLastError());
        }
        bytes.remove_prefix(written);
    }
}

/// A new file in the folder of the one to be replaced; gone again unless it took its place.
class PartFile {
  public:
    explicit PartFile(const std::filesystem::path& target) : target_(target) {}
    PartFile(const PartFile&) = delete;
    PartFile& operator=(const PartFile&) = delete;
    PartFile(PartFile&&) = delete;
    PartFile& operator=(PartFile&&) = delete;
    ~PartFile() {
        if (!part_.empty()) DeleteFileW(part_.c_str());
    }

    void write(std::string_view bytes) {
        FileHandle made(INVALID_HANDLE_VALUE);
        for (int number = 0; number < most_windows_part_names; ++number) {
            const std::string drawn = detail::drawn_part_name();
            if (drawn.empty()) break;
            std::filesystem::path name = target_.parent_path() / drawn;
            const HANDLE handle = CreateFileW(name.c_str(), GENERIC_WRITE, 0, nullptr, CREATE_NEW,
                                              FILE_ATTRIBUTE_NORMAL, nullptr);
            if (handle != INVALID_HANDLE_VALUE) {
                part_ = std::move(name);
                return fill(FileHandle(handle), bytes);
            }
            if (GetLastError() != ERROR_FILE_EXISTS) break;
        }
        refuse_on_windows(target_, "no file can be made in its folder", GetLastError());
    }

    /// A file that is there keeps who may read it and what it is marked as, where the file system knows of such.
    void replace_target(bool existing) {
        if (existing && ReplaceFileW(target_.c_str(), part_.c_str(), nullptr,
                                     REPLACEFILE_IGNORE_MERGE_ERRORS, nullptr, nullptr) != 0) {
            part_.clear();
            return;
        }
        if (MoveFileExW(part_.c_str(), target_.c_str(),
                        MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH) == 0) {
            refuse_on_windows(target_, "can't be replaced", GetLastError());
        }
        part_.clear();
    }

  private:
    void fill(FileHandle&& file, std::string_view bytes) {
        write_bytes(file.get(), bytes, target_);
        if (FlushFileBuffers(file.get()) == 0 || !file.close()) {
            refuse_on_windows(target_, "can't be flushed to the disk", GetLastError());
        }
    }

    std::filesystem::path target_;
    std::filesystem::path part_;  // empty: no name
};

/// The name of a file behind links: the one whose folder the new file must be made in.
std::filesystem::path behind_windows_links(const std::filesystem::path& file, HANDLE handle) {
    std::wstring name(32768, L'\0');
    const DWORD length =
        GetFinalPathNameByHandleW(handle, name.data(), static_cast<DWORD>(name.size()), 0);
    if (length == 0 || length >= name.size()) return file;
    name.resize(length);
    return name;
}

}  // namespace

void write_file_atomically(const std::filesystem::path& file, std::string_view bytes) {
    if (!file.has_filename()) {
        throw Error(ErrorKind::system, '"' + file.string() + '"', "no name of a file",
                    "a path that ends in one");
    }
    std::filesystem::path target =
        file.has_parent_path() ? file : std::filesystem::path(".") / file;
    const DWORD attributes = GetFileAttributesW(file.c_str());
    const bool existing = attributes != INVALID_FILE_ATTRIBUTES;
    if (existing && (attributes & FILE_ATTRIBUTE_DIRECTORY) != 0) {
        throw Error(ErrorKind::system, file.string(), "a folder", "a regular file or a new name");
    }
    if (existing && (attributes & FILE_ATTRIBUTE_READONLY) != 0) {
        throw Error(ErrorKind::system, file.string(), "a file that nobody may write",
                    "one that is not read-only, or a new name");
    }
    FileHandle there(
        CreateFileW(file.c_str(), GENERIC_WRITE, everybody, nullptr, OPEN_EXISTING, 0, nullptr));
    if (there.open() && GetFileType(there.get()) != FILE_TYPE_DISK) {
        // NUL, a console, a pipe: there is nothing to replace.
        return write_bytes(there.get(), bytes, file);
    }
    if (existing && !there.open()) refuse_on_windows(file, "can't be written", GetLastError());
    if (there.open()) target = behind_windows_links(file, there.get());
    there.close();
    PartFile part(target);
    part.write(bytes);
    part.replace_target(existing);
}

}  // namespace samelight::io
