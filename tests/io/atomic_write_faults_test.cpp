// What may go wrong while a file is written: links, devices, permissions, limits, interrupts. Second route throughout: what
// the folder holds afterwards, and what system calls were made. All of it as a user who is not the superuser.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <set>
#include <string>
#include <vector>

#include "io/nobody.hpp"
#include "samelight/io/atomic_write.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::test {
namespace {

namespace fs = std::filesystem;
using samelight::test::as_nobody;
using samelight::test::give_to_nobody;
using samelight::test::refuse_nameless_files;
using samelight::test::SystemCall;

std::string contents(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// "written", or the error.
std::string attempt(const fs::path& file, const std::string& bytes = "bytes") {
    try {
        write_file_atomically(file, bytes);
        return "written";
    } catch (const Error& error) {
        return error.kind() == ErrorKind::system ? error.what() : "another kind of error";
    }
}

std::string attempt_without_nameless(const fs::path& file, const std::string& bytes) {
    refuse_nameless_files();
    return attempt(file, bytes);
}

mode_t mode_of(const fs::path& file) {
    struct stat found {};
    EXPECT_EQ(::stat(file.c_str(), &found), 0);
    return found.st_mode & 07777U;
}

/// A folder of nobody's own.
class WriteFaults : public testing::Test {
  protected:
    void SetUp() override {
        std::string name = (fs::temp_directory_path() / "samelight-test-XXXXXX").string();
        ASSERT_NE(::mkdtemp(name.data()), nullptr);
        folder_ = name;
        give_to_nobody(folder_);
        file_ = folder_ / "file";
    }
    void TearDown() override { fs::remove_all(folder_); }

    void put(mode_t mode) const {
        std::ofstream(file_) << "old";
        ASSERT_EQ(::chmod(file_.c_str(), mode), 0);
        give_to_nobody(file_);
    }
    [[nodiscard]] std::ptrdiff_t files() const {
        return std::distance(fs::directory_iterator(folder_), fs::directory_iterator());
    }

    fs::path folder_;
    fs::path file_;
};

bool text_says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// ---- Links, pipes, devices -----------------------------------------------------------------------

TEST_F(WriteFaults, LinksThatLeadNowhereStay) {
    fs::create_symlink("nowhere", folder_ / "link");
    fs::create_symlink("link", folder_ / "link to it");
    fs::create_symlink("loop", folder_ / "loop");
    for (const char* name : {"link", "link to it"}) {
        const std::string said = as_nobody([&] { return attempt(folder_ / name); });
        EXPECT_TRUE(text_says(said, "a link that leads nowhere (No such file or directory)"))
            << said;
        EXPECT_TRUE(fs::is_symlink(folder_ / name));
    }
    const std::string said = as_nobody([&] { return attempt(folder_ / "loop"); });
    EXPECT_TRUE(text_says(said, "can't be looked at (Too many levels of symbolic links)")) << said;
    EXPECT_EQ(files(), 3);
}

TEST_F(WriteFaults, LinksToFilesStayAndTheFileIsReplaced) {
    put(0640);
    fs::create_directory(folder_ / "below");
    fs::create_symlink("../file", folder_ / "below" / "link");
    fs::create_symlink("below/link", folder_ / "link");
    EXPECT_EQ(as_nobody([&] { return attempt(folder_ / "link"); }), "written");
    EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
    EXPECT_TRUE(fs::is_symlink(folder_ / "below" / "link"));
    EXPECT_EQ(contents(file_), "bytes");
    EXPECT_EQ(mode_of(file_), 0640U);
    EXPECT_EQ(files(), 3);
}

TEST_F(WriteFaults, PipesBehindLinksAreWrittenTo) {
    fs::create_symlink("/dev/stdout", folder_ / "link");
    for (const fs::path& name : {fs::path("/dev/stdout"), folder_ / "link"}) {
        EXPECT_EQ(as_nobody([&] {
                      std::array<int, 2> ends{};
                      if (::pipe(ends.data()) != 0) return std::string("no pipe");
                      ::dup2(ends[1], STDOUT_FILENO);
                      const std::string said = attempt(name, "through the pipe");
                      ::close(ends[1]);
                      ::close(STDOUT_FILENO);
                      return said + ": " + samelight::test::detail::read_to_end(ends[0]);
                  }),
                  "written: through the pipe");
        EXPECT_TRUE(fs::is_symlink(name));
    }
    EXPECT_EQ(files(), 1);
}

TEST_F(WriteFaults, APipeThatNobodyReadsIsAnErrorAndNoEnd) {
    const std::string said = as_nobody([] {
        std::array<int, 2> ends{};
        if (::pipe(ends.data()) != 0) return std::string("no pipe");
        ::dup2(ends[1], STDOUT_FILENO);
        ::close(ends[0]);
        const std::string first = attempt("/dev/stdout");
        return first + (::raise(SIGURG) == 0 ? "; alive" : "");
    });
    EXPECT_TRUE(text_says(said, "/dev/stdout: can't be written (Broken pipe)")) << said;
    EXPECT_TRUE(text_says(said, "; alive")) << said;
}

TEST_F(WriteFaults, NamedPipesAreWrittenTo) {
    ASSERT_EQ(::mkfifo(file_.c_str(), 0600), 0);
    give_to_nobody(file_);
    EXPECT_EQ(as_nobody([&] {
                  const int reader = ::open(file_.c_str(), O_RDONLY | O_NONBLOCK);
                  const std::string said = attempt(file_, "through the pipe");
                  return said + ": " + samelight::test::detail::read_to_end(reader);
              }),
              "written: through the pipe");
    EXPECT_TRUE(fs::is_fifo(file_));
    EXPECT_EQ(files(), 1);
}

TEST_F(WriteFaults, DevicesAreWrittenTo) {
    fs::create_symlink("/dev/full", folder_ / "full");
    fs::create_symlink("/dev/null", folder_ / "null");
    for (const fs::path& name : {fs::path("/dev/null"), folder_ / "null"}) {
        EXPECT_EQ(as_nobody([&] { return attempt(name); }), "written");
    }
    for (const fs::path& name : {fs::path("/dev/full"), folder_ / "full"}) {
        const std::string said = as_nobody([&] { return attempt(name); });
        EXPECT_TRUE(text_says(said, "can't be written (No space left on device)")) << said;
    }
    EXPECT_TRUE(fs::is_character_file("/dev/null"));
    EXPECT_TRUE(fs::is_symlink(folder_ / "null"));
    EXPECT_TRUE(fs::is_symlink(folder_ / "full"));
    EXPECT_EQ(files(), 2);
}

TEST_F(WriteFaults, AFileThatHasLostItsNameIsRefused) {
    EXPECT_TRUE(text_says(as_nobody([&] {
                              const int out = ::open(file_.c_str(), O_WRONLY | O_CREAT, 0600);
                              ::dup2(out, STDOUT_FILENO);
                              ::unlink(file_.c_str());
                              return attempt("/dev/stdout");
                          }),
                          "/dev/stdout: a link to a file without a name"));
    EXPECT_TRUE(fs::is_symlink("/dev/stdout"));
    EXPECT_EQ(files(), 0);
}

// ---- Permissions ---------------------------------------------------------------------------------

TEST_F(WriteFaults, WhatIsReadOnlyStays) {
    const auto expect_old = [&](const std::string& said, const char* part) {
        EXPECT_TRUE(text_says(said, part)) << said;
        EXPECT_EQ(contents(file_), "old");
        EXPECT_EQ(files(), 1);
    };
    put(0444);
    expect_old(as_nobody([&] { return attempt(file_); }), "a file that nobody may write");
    expect_old(attempt(file_), "a file that nobody may write");  // be it the superuser
    put(0464);                                                   // others may, the owner may not
    expect_old(as_nobody([&] { return attempt(file_); }), "can't be written (Permission denied)");
    if (::geteuid() != 0) GTEST_SKIP() << "other users' files need the superuser";
    ASSERT_EQ(::chmod(file_.c_str(), 0644), 0);
    ASSERT_EQ(::chown(file_.c_str(), 0, 0), 0);
    expect_old(as_nobody([&] { return attempt(file_); }), "can't be written (Permission denied)");
}

TEST_F(WriteFaults, AFolderThatTakesNoFileIsRefused) {
    put(0600);
    ASSERT_EQ(::chmod(folder_.c_str(), 0500), 0);
    for (const char* name : {"file", "new"}) {
        const std::string said = as_nobody([&] { return attempt(folder_ / name); });
        EXPECT_TRUE(text_says(said, "no file can be made in its folder (Permission denied)"))
            << said;
    }
    EXPECT_EQ(contents(file_), "old");
    EXPECT_EQ(files(), 1);
    ASSERT_EQ(::chmod(folder_.c_str(), 0700), 0);
}

/// Every mode with which something was made.
std::vector<mode_t> modes_made(const std::function<std::string()>& what) {
    std::vector<mode_t> modes;
    const std::string said = as_nobody(what, [&](const SystemCall& call) {
        constexpr std::uint64_t makes = O_CREAT | (O_TMPFILE & ~O_DIRECTORY);
        if (call.number == SYS_openat && (call.arguments[2] & makes) != 0) {
            modes.push_back(static_cast<mode_t>(call.arguments[3]));
        }
        return 0;
    });
    EXPECT_EQ(said, "written");
    return modes;
}

TEST_F(WriteFaults, APrivateFileIsPrivateFromTheBeginning) {
    const mode_t mask = ::umask(022);
    for (const bool nameless : {true, false}) {
        for (const mode_t mode : {mode_t{0600}, mode_t{0640}}) {
            put(mode);
            const std::vector<mode_t> made = modes_made([&] {
                return nameless ? attempt(file_) : attempt_without_nameless(file_, "bytes");
            });
            EXPECT_GE(made.size(), 1U);
            for (const mode_t one : made) {
                EXPECT_EQ(one & ~mode & 0777U, 0U) << std::oct << one;
            }
            EXPECT_EQ(mode_of(file_), mode);
            EXPECT_EQ(contents(file_), "bytes");
        }
    }
    ::umask(mask);
    EXPECT_EQ(files(), 1);
}

/// The names in a folder that a file had while `what` ran, but for `own`.
std::set<std::string> names_meanwhile(const fs::path& own,
                                      const std::function<std::string()>& what) {
    std::set<std::string> names;
    const std::string said = as_nobody(what, [&](const SystemCall&) {
        for (const fs::directory_entry& entry : fs::directory_iterator(own.parent_path())) {
            if (entry.path() != own) names.insert(entry.path().filename().string());
        }
        return 0;
    });
    EXPECT_EQ(said, "written");
    return names;
}

TEST_F(WriteFaults, NobodyCanForeseeTheNameOfAFileThatIsBeingWritten) {
    std::set<std::string> all;
    std::set<char> letters;
    for (int i = 0; i < 8; ++i) {
        put(0644);
        const auto names = names_meanwhile(file_, [&] {
            return i % 2 == 0 ? attempt(file_) : attempt_without_nameless(file_, "bytes");
        });
        ASSERT_EQ(names.size(), 1U);
        const std::string& name = *names.begin();
        ASSERT_EQ(name.size(), 32U) << name;
        EXPECT_TRUE(all.insert(name).second) << "the same name again: " << name;
        letters.insert(name.begin() + 11, name.begin() + 27);
    }
    // 128 letters of 16 kinds: less than 12 of these have a chance below 1e-13.
    EXPECT_GE(letters.size(), 12U);
}

TEST_F(WriteFaults, NobodyGainsAccessWhereTheOwnerCantBeKept) {
    if (::geteuid() != 0) GTEST_SKIP() << "other users' files need the superuser";
    put(0662);
    ASSERT_EQ(::chown(file_.c_str(), 0, 0), 0);
    EXPECT_EQ(as_nobody([&] { return attempt(file_); }), "written");
    EXPECT_EQ(mode_of(file_), 0622U) << "the new group may do what all others could";
    // The superuser gives it back to whom it belonged to.
    put(0640);
    EXPECT_EQ(attempt(file_), "written");
    struct stat found {};
    ASSERT_EQ(::stat(file_.c_str(), &found), 0);
    EXPECT_EQ(found.st_uid, samelight::test::nobody);
    EXPECT_EQ(mode_of(file_), 0640U);
}

// ---- Limits and interrupts -----------------------------------------------------------------------

TEST_F(WriteFaults, ALimitOnTheSizeIsAnErrorAndNoEnd) {
    for (const bool nameless : {true, false}) {
        put(0600);
        const std::string said = as_nobody([&] {
            const rlimit low{10000, 10000};
            ::setrlimit(RLIMIT_FSIZE, &low);
            const std::string bytes(20000, 'x');
            return nameless ? attempt(file_, bytes) : attempt_without_nameless(file_, bytes);
        });
        EXPECT_TRUE(text_says(said, "file: can't be written (File too large)")) << said;
        EXPECT_EQ(contents(file_), "old");
        EXPECT_EQ(files(), 1);
    }
}

TEST_F(WriteFaults, TheHostsOwnWaitingSignalsStayItsOwn) {
    EXPECT_EQ(as_nobody([&] {
                  sigset_t set;
                  ::sigemptyset(&set);
                  ::sigaddset(&set, SIGXFSZ);
                  ::sigprocmask(SIG_BLOCK, &set, nullptr);
                  ::raise(SIGXFSZ);
                  const std::string said = attempt(file_);
                  ::sigpending(&set);
                  return said + (::sigismember(&set, SIGXFSZ) == 1 ? ", waiting" : ", lost");
              }),
              "written, waiting");
}

/// Interrupts the writing at its first system call, then at its second, and so on to the last.
void interrupt_everywhere(const fs::path& file, int signal, bool nameless,
                          const std::function<void()>& before, const std::string& old) {
    const std::string bytes(5000, 'n');
    int ended = 0;
    int kept = 0;
    bool reached = true;
    for (int place = 0; reached; ++place) {
        before();
        int calls = 0;
        reached = false;
        const std::string said = as_nobody(
            [&] { return nameless ? attempt(file, bytes) : attempt_without_nameless(file, bytes); },
            [&](const SystemCall&) {
                const bool here = calls++ == place;
                reached = reached || here;
                return here ? signal : 0;
            });
        const bool exists = fs::exists(file);
        const std::string now = exists ? contents(file) : "";
        ASSERT_TRUE(now == old || now == bytes) << "call " << place << ": " << now.size();
        const auto left =
            std::distance(fs::directory_iterator(file.parent_path()), fs::directory_iterator());
        ASSERT_EQ(left, exists ? 1 : 0) << "something was left at call " << place;
        ended += said == "signal " + std::to_string(signal) ? 1 : 0;
        kept += now == old ? 1 : 0;
        ASSERT_LT(place, 500);
    }
    EXPECT_GT(ended, 5) << "nothing was interrupted: nothing was tested";
    EXPECT_GT(kept, 2);
}

TEST_F(WriteFaults, AnInterruptLeavesTheOldFileOrTheNewOneAndNothingElse) {
    for (const bool nameless : {true, false}) {
        for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT}) {
            interrupt_everywhere(
                file_, signal, nameless, [&] { put(0600); }, "old");
        }
        interrupt_everywhere(
            file_, SIGINT, nameless, [&] { fs::remove(file_); }, "");
    }
}

}  // namespace
}  // namespace samelight::io::test
