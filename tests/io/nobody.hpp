#pragma once
// Runs a function in a process without privileges, where wanted stopped at each system call (Linux).
#include <fcntl.h>
#include <grp.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>

#include <gtest/gtest.h>

namespace samelight::test {

inline constexpr uid_t nobody = 65534;

/// Gives up all privileges of the superuser, who may do everything, so that nothing would be tested. Others have none to give up.
/// Where lines are counted (tools/test --coverage) this user may not write the counters, and the complaint would be taken for the command's: they go
/// into the folder that SAMELIGHT_COUNTERS_OF_NOBODY names.
inline void become_nobody() {
    if (::geteuid() != 0) return;
    if (const char* counters = std::getenv("SAMELIGHT_COUNTERS_OF_NOBODY")) {
        ::setenv("GCOV_PREFIX", counters, 1);
        ::setenv("GCOV_ERROR_FILE", "/dev/null", 1);  // that no room was left for them either
    }
    if (::setgroups(0, nullptr) != 0 || ::setgid(nobody) != 0 || ::setuid(nobody) != 0) {
        std::_Exit(111);
    }
    ::prctl(PR_SET_DUMPABLE, 1);  // as any process that began without privileges
}

inline void give_to_nobody(const std::filesystem::path& file) {
    if (::geteuid() == 0) {
        ASSERT_EQ(::lchown(file.c_str(), nobody, nobody), 0);
    }
}

namespace detail {

inline std::string read_to_end(int descriptor) {
    std::string text;
    std::array<char, 4096> bytes{};
    for (ssize_t n = 0; (n = ::read(descriptor, bytes.data(), bytes.size())) > 0;) {
        text.append(bytes.data(), static_cast<std::size_t>(n));
    }
    return text;
}

struct Child {
    pid_t id = -1;
    int answer = -1;  // what the function returns can be read here
};

/// @param begin  runs first, without privileges
inline Child start(const std::function<std::string()>& what, const std::function<void()>& begin) {
    std::array<int, 2> ends{};
    EXPECT_EQ(::pipe2(ends.data(), O_CLOEXEC), 0);
    const pid_t id = ::fork();
    if (id == 0) {
        ::close(ends[0]);
        become_nobody();
        begin();
        const std::string text = what();
        const bool whole =
            ::write(ends[1], text.data(), text.size()) == static_cast<ssize_t>(text.size());
        std::_Exit(whole ? 0 : 112);
    }
    ::close(ends[1]);
    return {id, ends[0]};
}

inline std::string ending(int status, int answer) {
    const std::string text = read_to_end(answer);
    ::close(answer);
    if (WIFSIGNALED(status)) return "signal " + std::to_string(WTERMSIG(status));
    return WEXITSTATUS(status) == 0 ? text : "exit " + std::to_string(WEXITSTATUS(status));
}

}  // namespace detail

/// What `what` returns (a pipe full at most), or "signal 15" where one ended it.
inline std::string as_nobody(const std::function<std::string()>& what) {
    const detail::Child child = detail::start(what, [] {});
    int status = 0;
    ::waitpid(child.id, &status, 0);
    return detail::ending(status, child.answer);
}

/// A system call that is about to be made.
struct SystemCall {
    std::uint64_t number = 0;
    std::array<std::uint64_t, 6> arguments{};
};

/// The same, asking `at` before each system call for a signal to send just then (0: none).
inline std::string as_nobody(const std::function<std::string()>& what,
                             const std::function<int(const SystemCall&)>& at) {
    const detail::Child child = detail::start(what, [] {
        if (::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr) != 0) std::_Exit(113);
        ::raise(SIGSTOP);
    });
    int status = 0;
    ::waitpid(child.id, &status, 0);
    ::ptrace(PTRACE_SETOPTIONS, child.id, nullptr, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL);
    for (int deliver = 0; WIFSTOPPED(status);) {
        ::ptrace(PTRACE_SYSCALL, child.id, nullptr, deliver);
        ::waitpid(child.id, &status, 0);
        deliver = 0;
        if (!WIFSTOPPED(status)) break;
        if (WSTOPSIG(status) != (SIGTRAP | 0x80)) {
            deliver = WSTOPSIG(status);
            continue;
        }
        __ptrace_syscall_info info{};
        ::ptrace(PTRACE_GET_SYSCALL_INFO, child.id, sizeof(info), &info);
        if (info.op != PTRACE_SYSCALL_INFO_ENTRY) continue;
        SystemCall call{info.entry.nr, {}};
        for (std::size_t i = 0; i < call.arguments.size(); ++i) {
            call.arguments.at(i) = info.entry.args[i];
        }
        if (const int signal = at(call)) ::kill(child.id, signal);
    }
    return detail::ending(status, child.answer);
}

/// From now on this process's file systems can't make files without a name, as many can't.
inline void refuse_nameless_files() {
    constexpr std::uint32_t nameless = O_TMPFILE & ~O_DIRECTORY;
    std::array<sock_filter, 6> program{{
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_openat, 0, 3),
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, args) + 16),
        BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, nameless, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EOPNOTSUPP),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    }};
    const sock_fprog filter{program.size(), program.data()};
    if (::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
        ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &filter) != 0) {
        std::_Exit(114);
    }
}

}  // namespace samelight::test
