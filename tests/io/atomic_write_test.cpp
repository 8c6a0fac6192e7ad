// A file is there as a whole or not at all.
#include "samelight/io/atomic_write.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "samelight/numeric/error.hpp"
#include "scratch_folder.hpp"

namespace samelight::io::test {
namespace {

namespace fs = std::filesystem;

class AtomicWrite : public ScratchFolder {
  protected:
    static std::string read(const fs::path& file) {
        std::ifstream stream(file, std::ios::binary);
        return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    }

    [[nodiscard]] std::ptrdiff_t files() const {
        return std::distance(fs::directory_iterator(folder_), fs::directory_iterator());
    }

    static void expect_error(const fs::path& file, const std::string& part) {
        try {
            write_file_atomically(file, "bytes");
            ADD_FAILURE() << "written " << file;
        } catch (const Error& error) {
            EXPECT_EQ(error.kind(), ErrorKind::system);
            EXPECT_NE(std::string(error.what()).find(part), std::string::npos) << error.what();
        }
    }
};

TEST_F(AtomicWrite, WritesEveryByte) {
    const std::string bytes("a\0\r\n\xff", 5);
    write_file_atomically(folder_ / "file", bytes);
    EXPECT_EQ(read(folder_ / "file"), bytes);
    write_file_atomically(folder_ / "file", "");
    EXPECT_EQ(read(folder_ / "file"), "");
    const std::string large(5000000, 'x');
    write_file_atomically(folder_ / "file", large);
    EXPECT_EQ(read(folder_ / "file"), large);
    EXPECT_EQ(files(), 1);
}

TEST_F(AtomicWrite, ReadersKeepTheOldFileWhole) {
    const fs::path file = folder_ / "file";
    write_file_atomically(file, "old");
    std::ifstream reader(file);
    write_file_atomically(file, "new, and longer");
    std::string text;
    std::getline(reader, text);
    EXPECT_EQ(text, "old");
    EXPECT_EQ(read(file), "new, and longer");
}

TEST_F(AtomicWrite, PermissionsAreThoseOfTheProcessOrOfTheOldFile) {
    const fs::path file = folder_ / "file";
    const mode_t mask = ::umask(027);
    write_file_atomically(file, "new");
    ::umask(mask);
    EXPECT_EQ(fs::status(file).permissions(), fs::perms{0640});
    fs::permissions(file, fs::perms{0604});
    write_file_atomically(file, "newer");
    EXPECT_EQ(fs::status(file).permissions(), fs::perms{0604});
    EXPECT_EQ(read(file), "newer");
}

TEST_F(AtomicWrite, FollowsLinks) {
    write_file_atomically(folder_ / "file", "old");
    fs::create_symlink("file", folder_ / "link");
    write_file_atomically(folder_ / "link", "new");
    EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
    EXPECT_EQ(read(folder_ / "file"), "new");
    EXPECT_EQ(files(), 2);
}

TEST_F(AtomicWrite, TakesNamesWithoutAFolder) {
    const fs::path before = fs::current_path();
    fs::current_path(folder_);
    write_file_atomically("file", "here");
    fs::current_path(before);
    EXPECT_EQ(read(folder_ / "file"), "here");
    EXPECT_EQ(files(), 1);
}

TEST_F(AtomicWrite, RefusesWhatIsNoFile) {
    expect_error(folder_, "a folder; wanted a regular file or a new name");
    expect_error("", "no name of a file");
    expect_error(folder_ / "", "no name of a file");
    expect_error(folder_ / "none" / "file",
                 "no file can be made in its folder (No such file or directory)");
    write_file_atomically(folder_ / "file", "old");
    expect_error(folder_ / "file" / "below", "can't be looked at (Not a directory)");
    EXPECT_EQ(files(), 1);
}

}  // namespace
}  // namespace samelight::io::test
