// Loaded before a program (LD_PRELOAD): its memory begins SAMELIGHT_SHIFT bytes behind a multiple of 64, a multiple of 16 from 0 to 48.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <new>

namespace {

constexpr std::size_t line = 64;

std::size_t shift() {
    static const std::size_t bytes = [] {
        const char* said = std::getenv("SAMELIGHT_SHIFT");
        return said == nullptr ? std::size_t{0} : std::strtoul(said, nullptr, 10);
    }();
    return bytes;
}

/// What malloc gave stands before what is handed out.
void* taken(std::size_t size) noexcept {
    void* const given = std::malloc(size + 3 * line);
    if (given == nullptr) {
        return nullptr;
    }
    const auto behind = reinterpret_cast<std::uintptr_t>(given) + sizeof(void*);
    void** const result =
        reinterpret_cast<void**>((behind + line - 1) / line * line + shift());  // NOLINT
    result[-1] = given;
    return result;
}

void* taken_or_thrown(std::size_t size) {
    void* const result = taken(size);
    if (result == nullptr) {
        throw std::bad_alloc();
    }
    return result;
}

void give_back(void* memory) noexcept {
    if (memory != nullptr) {
        std::free(static_cast<void**>(memory)[-1]);
    }
}

}  // namespace

void* operator new(std::size_t size) { return taken_or_thrown(size); }
void* operator new[](std::size_t size) { return taken_or_thrown(size); }
void* operator new(std::size_t size, const std::nothrow_t&) noexcept { return taken(size); }
void* operator new[](std::size_t size, const std::nothrow_t&) noexcept { return taken(size); }
void operator delete(void* memory) noexcept { give_back(memory); }
void operator delete[](void* memory) noexcept { give_back(memory); }
void operator delete(void* memory, std::size_t) noexcept { give_back(memory); }
void operator delete[](void* memory, std::size_t) noexcept { give_back(memory); }
void operator delete(void* memory, const std::nothrow_t&) noexcept { give_back(memory); }
void operator delete[](void* memory, const std::nothrow_t&) noexcept { give_back(memory); }
