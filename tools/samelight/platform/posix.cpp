#ifndef _WIN32
#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>

#include "platform.hpp"

namespace samelight::command {

namespace {

void (*tick_of_seconds)(unsigned int) = nullptr;
volatile std::sig_atomic_t seconds_passed = 0;

extern "C" void on_second(int) {
    const int kept = errno;
    seconds_passed = seconds_passed + 1;
    tick_of_seconds(static_cast<unsigned int>(seconds_passed));
    errno = kept;
}

void set_timer(time_t every_seconds) {
    itimerval timer{};
    timer.it_interval.tv_sec = every_seconds;
    timer.it_value.tv_sec = every_seconds;
    ::setitimer(ITIMER_REAL, &timer, nullptr);
}

}  // namespace

std::vector<std::string> typed_words(int argc, const char* const* argv) {
    return {argv, argv + argc};
}

// Beyond the limit on the size of files a write shall fail and be told, and the process not end without a word.
PreparedStreams::PreparedStreams() { std::signal(SIGXFSZ, SIG_IGN); }

PreparedStreams::~PreparedStreams() = default;

bool is_terminal(std::FILE* stream) { return isatty(fileno(stream)) != 0; }

void start_seconds(void (*tick)(unsigned int)) {
    tick_of_seconds = tick;
    seconds_passed = 0;
    struct sigaction action {};
    action.sa_handler = on_second;
    action.sa_flags = SA_RESTART;  // reading and writing know nothing of it
    if (::sigaction(SIGALRM, &action, nullptr) == 0) set_timer(1);
}

void stop_seconds() {
    set_timer(0);
    std::signal(SIGALRM, SIG_IGN);
}

void write_to_terminal(std::string_view text) {
    static_cast<void>(!::write(STDERR_FILENO, text.data(), text.size()));
}

std::optional<unsigned int> terminal_columns(std::FILE* stream) {
    winsize size{};
    if (ioctl(fileno(stream), TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return std::nullopt;
    return size.ws_col;
}

bool leads_to_standard_output(const std::string& path) {
    struct stat out {};
    struct stat there {};
    if (::fstat(STDOUT_FILENO, &out) != 0 || ::stat(path.c_str(), &there) != 0) return false;
    // /dev/null is one for everybody, and nothing is mixed there.
    const bool same = out.st_dev == there.st_dev && out.st_ino == there.st_ino;
    return same && (!S_ISCHR(out.st_mode) || ::isatty(STDOUT_FILENO) == 1);
}

int open_to_read(const std::string& path) { return ::open(path.c_str(), O_RDONLY | O_CLOEXEC); }

int take_standard_input() {
    const int taken = ::fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    std::array<int, 2> nothing{};
    if (taken < 0 || ::pipe(nothing.data()) != 0) return -1;
    ::dup2(nothing[0], STDIN_FILENO);
    ::close(nothing[0]);
    ::close(nothing[1]);
    static_cast<void>(std::fgetc(stdin));
    return taken;
}

std::ptrdiff_t read_some(int descriptor, char* bytes, std::size_t most) {
    ssize_t count = 0;
    do {
        count = ::read(descriptor, bytes, most);
    } while (count < 0 && errno == EINTR);
    return count;
}

void close_descriptor(int descriptor) { ::close(descriptor); }

}  // namespace samelight::command
#endif
