#ifdef _WIN32
#ifndef NOMINMAX
#define NOMINMAX
#endif
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
// Behind windows.h, which it needs.
#include <fcntl.h>
#include <io.h>
#include <shellapi.h>

#include <climits>
#include <cstddef>
#include <cstdio>
#include <filesystem>

#include "platform.hpp"

namespace samelight::command {

namespace {

std::string in_utf8(const wchar_t* text) {
    const int size = WideCharToMultiByte(CP_UTF8, 0, text, -1, nullptr, 0, nullptr, nullptr);
    if (size <= 1) return {};
    // One for the zero at the end, which a string has besides.
    std::string utf8(static_cast<std::size_t>(size) - 1, '\0');
    WideCharToMultiByte(CP_UTF8, 0, text, -1, utf8.data(), size, nullptr, nullptr);
    return utf8;
}

HANDLE handle_of(std::FILE* stream) {
    // NOLINTNEXTLINE(performance-no-int-to-ptr): the system's own form of a handle
    return reinterpret_cast<HANDLE>(_get_osfhandle(_fileno(stream)));
}

/// Which file it is: by its volume and number there.
bool same_file(HANDLE one, HANDLE other) {
    BY_HANDLE_FILE_INFORMATION a{};
    BY_HANDLE_FILE_INFORMATION b{};
    return GetFileInformationByHandle(one, &a) != 0 && GetFileInformationByHandle(other, &b) != 0 &&
           a.dwVolumeSerialNumber == b.dwVolumeSerialNumber &&
           a.nFileIndexHigh == b.nFileIndexHigh && a.nFileIndexLow == b.nFileIndexLow;
}

void (*tick_of_seconds)(unsigned int) = nullptr;
unsigned int seconds_passed = 0;
HANDLE timer_of_seconds = nullptr;

void CALLBACK on_second(void*, BOOLEAN) { tick_of_seconds(++seconds_passed); }

}  // namespace

std::vector<std::string> typed_words(int argc, const char* const* argv) {
    int count = 0;
    wchar_t** words = CommandLineToArgvW(GetCommandLineW(), &count);
    if (words == nullptr) return {argv, argv + argc};
    std::vector<std::string> typed;
    for (int i = 0; i < count; ++i)
        typed.push_back(in_utf8(words[i]));
    LocalFree(words);
    return typed;
}

PreparedStreams::PreparedStreams() {
    for (std::FILE* stream : {stdin, stdout, stderr}) {
        static_cast<void>(_setmode(_fileno(stream), _O_BINARY));
    }
    // Unbuffered, as it is for a console, it gets a letter's bytes one by one and shows none of them right.
    static_cast<void>(std::setvbuf(stdout, nullptr, _IOFBF, std::size_t{1} << 16U));
    code_page_before_ = GetConsoleOutputCP();
    if (code_page_before_ != 0) SetConsoleOutputCP(CP_UTF8);
}

PreparedStreams::~PreparedStreams() {
    static_cast<void>(std::fflush(nullptr));
    if (code_page_before_ != 0) SetConsoleOutputCP(code_page_before_);
}

bool is_terminal(std::FILE* stream) {
    DWORD mode = 0;
    HANDLE console = handle_of(stream);
    if (GetConsoleMode(console, &mode) == 0) return false;
    // Consoles before Windows 10 refuse it, and would show the sequences as they are.
    return SetConsoleMode(console, mode | ENABLE_VIRTUAL_TERMINAL_PROCESSING) != 0;
}

void start_seconds(void (*tick)(unsigned int)) {
    tick_of_seconds = tick;
    seconds_passed = 0;
    constexpr DWORD second_ms = 1000;
    if (CreateTimerQueueTimer(&timer_of_seconds, nullptr, on_second, nullptr, second_ms, second_ms,
                              WT_EXECUTEINTIMERTHREAD) == 0) {
        timer_of_seconds = nullptr;
    }
}

void stop_seconds() {
    if (timer_of_seconds == nullptr) return;
    // Waits for a tick that is under way.
    DeleteTimerQueueTimer(nullptr, timer_of_seconds, INVALID_HANDLE_VALUE);
    timer_of_seconds = nullptr;
}

void write_to_terminal(std::string_view text) {
    DWORD written = 0;
    WriteFile(handle_of(stderr), text.data(), static_cast<DWORD>(text.size()), &written, nullptr);
}

std::optional<unsigned int> terminal_columns(std::FILE* stream) {
    CONSOLE_SCREEN_BUFFER_INFO screen{};
    if (GetConsoleScreenBufferInfo(handle_of(stream), &screen) == 0) return std::nullopt;
    const int columns = screen.srWindow.Right - screen.srWindow.Left + 1;
    if (columns <= 0) return std::nullopt;
    return static_cast<unsigned int>(columns);
}

bool leads_to_standard_output(const std::string& path) {
    HANDLE out = handle_of(stdout);
    HANDLE there = CreateFileW(std::filesystem::path(path).c_str(), 0,
                               FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE, nullptr,
                               OPEN_EXISTING, FILE_FLAG_BACKUP_SEMANTICS, nullptr);
    if (there == INVALID_HANDLE_VALUE) return false;
    DWORD mode = 0;
    const DWORD kind = GetFileType(there);
    // CON, where the page goes to a console, too; NUL is one for everybody.
    const bool mixed = kind == FILE_TYPE_DISK
                           ? same_file(out, there)
                           : kind == FILE_TYPE_CHAR && GetConsoleMode(there, &mode) != 0 &&
                                 GetConsoleMode(out, &mode) != 0;
    CloseHandle(there);
    return mixed;
}

int open_to_read(const std::string& path) {
    return _wopen(std::filesystem::path(path).c_str(), _O_RDONLY | _O_BINARY | _O_NOINHERIT);
}

int take_standard_input() {
    const int input = _fileno(stdin);
    const int taken = _dup(input);
    const int nothing = _wopen(L"NUL", _O_RDONLY | _O_BINARY);
    if (taken < 0 || nothing < 0) return -1;
    _dup2(nothing, input);
    _close(nothing);
    _setmode(taken, _O_BINARY);
    static_cast<void>(std::fgetc(stdin));
    return taken;
}

std::ptrdiff_t read_some(int descriptor, char* bytes, std::size_t most) {
    return _read(descriptor, bytes, most > INT_MAX ? INT_MAX : static_cast<unsigned int>(most));
}

void close_descriptor(int descriptor) { _close(descriptor); }

}  // namespace samelight::command

namespace {

/// The first character in UTF-8 from `bytes`, and of how many bytes it is: 0 where there are too few, 1 and U+FFFD for what is none
/// (RFC 3629: no more bytes than needed, no surrogates, nothing beyond U+10FFFF).
std::size_t decode_utf8(const unsigned char* bytes, std::size_t count, char32_t& character) {
    const unsigned char lead = bytes[0];
    character = lead;
    if (lead < 0x80U) return 1;
    const std::size_t size = lead >= 0xf0U ? 4 : lead >= 0xe0U ? 3 : 2;
    constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    constexpr unsigned int in_lead[] = {0, 0, 0x1f, 0x0f, 0x07};
    bool right = lead >= 0xc2U && lead <= 0xf4U;
    character = lead & in_lead[size];
    for (std::size_t i = 1; right && i < size; ++i) {
        if (i == count) return 0;
        right = (bytes[i] & 0xc0U) == 0x80U;
        character = (character << 6U) | (bytes[i] & 0x3fU);
    }
    right = right && character >= least[size] && character <= 0x10ffff &&
            (character < 0xd800 || character > 0xdfff);
    if (!right) character = 0xfffd;
    return right ? size : 1;
}

}  // namespace

/// What the compiler's library asks, character by character, where a std::filesystem::path is made of a std::string: there it would take
/// each byte for a character, since the system's own library has no locale with UTF-8. Linked in the place of the system's function
/// (--wrap=mbrtowc). A character beyond 16 bits is two: the second waits in `state`, and counts as the last of the four bytes.
extern "C" __attribute__((used)) std::size_t __wrap_mbrtowc(wchar_t* wide, const char* text,
                                                            std::size_t count, int* state) {
    static int nobodys = 0;
    if (state == nullptr) state = &nobodys;
    wchar_t unused = 0;
    if (wide == nullptr) wide = &unused;
    if (text == nullptr) {
        *state = 0;
        return 0;
    }
    if (count == 0) return static_cast<std::size_t>(-2);
    if (*state != 0) {
        *wide = static_cast<wchar_t>(*state);
        *state = 0;
        return 1;
    }
    char32_t character = 0;
    const std::size_t size =
        decode_utf8(reinterpret_cast<const unsigned char*>(text), count, character);
    if (size == 0) return static_cast<std::size_t>(-2);
    if (character > 0xffff) {
        *wide = static_cast<wchar_t>(0xd7c0 + (character >> 10U));
        *state = static_cast<int>(0xdc00 + (character & 0x3ffU));
        return size - 1;
    }
    *wide = static_cast<wchar_t>(character);
    return character == 0 ? 0 : size;
}
#endif
