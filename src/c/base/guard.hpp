#pragma once
// What stands around every function of the C interface: exceptions become a status and a message, and what is given is looked at first.
#include <algorithm>
#include <cstddef>
#include <cstring>
#include <string>
#include <string_view>
#include <utility>

#include "samelight/c/samelight.h"
#include "samelight/numeric/error.hpp"

namespace samelight::c {

/// Says in `error`, where there is one, what became of a call, and returns the status.
samelight_status said(samelight_error* error, samelight_status status,
                      const char* message) noexcept;

/// The exception that is being handled, said in `error`. To be called in a handler.
samelight_status caught(samelight_error* error) noexcept;

/// Calls f. Whatever it throws becomes a status.
template <class F>
samelight_status guarded(samelight_error* error, F&& f) noexcept {
    try {
        std::forward<F>(f)();
    } catch (...) {
        return caught(error);
    }
    return said(error, SAMELIGHT_OK, "");
}

/// Throws Error (input) where `pointer` is null. @param name  of the argument
template <class T>
const T& given(const T* pointer, const char* name) {
    if (pointer == nullptr) {
        throw Error(ErrorKind::input, ErrorPlace{name}, "null", "a pointer");
    }
    return *pointer;
}
template <class T>
T* place(T* pointer, const char* name) {
    if (pointer == nullptr) {
        throw Error(ErrorKind::input, ErrorPlace{name}, "null", "a pointer");
    }
    return pointer;
}

/// A text. Throws as given(), and Error (input) for what is no UTF-8, which no message or answer could hold.
std::string text_of(const char* text, const char* name);

/// The same, where null stands for another text.
std::string text_or(const char* text, const char* name, const char* otherwise);

/// The bytes of a file. Throws as given(), and Error (input) for more than any reader takes, before one of them is read.
std::string_view bytes_given(const char* bytes, std::size_t length);

/// What `make` gives, in a new handle; null where it throws. What else was made beside it is its own to put back.
template <class Handle, class F>
samelight_status made(Handle** out, const char* name, samelight_error* error, F&& make) noexcept {
    if (out != nullptr) {
        *out = nullptr;
    }
    return guarded(error, [&] {
        Handle** where = place(out, name);
        *where = new Handle{std::forward<F>(make)()};
    });
}

/// Throws Error (input) for a `size` that no version of the struct has had: its own, or that of the first version.
void require_size(std::size_t size, std::size_t first, std::size_t own, const char* name);

/// What a struct's size was in the first version, before `threads` stood at its end.
template <class T>
constexpr std::size_t first_size() {
    if constexpr (requires(T options) { options.threads; }) {
        return offsetof(T, threads);
    } else {
        return sizeof(T);
    }
}

/// A struct that a program of this or an earlier version filled in, on top of the defaults; these themselves where it is null.
template <class T>
T taken_or_defaults(const T* options, void (*defaults)(T*), const char* name) {
    T result;
    defaults(&result);
    if (options != nullptr) {
        require_size(options->size, first_size<T>(), sizeof(T), name);
        std::memcpy(&result, options, std::min(options->size, sizeof(T)));
    }
    return result;
}

/// The same, where null is refused.
template <class T>
T taken(const T* options, void (*defaults)(T*), const char* name) {
    return taken_or_defaults(&given(options, name), defaults, name);
}

/// Throws as taken() for a struct that can't take an answer.
template <class T>
T* answer_place(T* out, const char* name) {
    require_size(given(out, name).size, first_size<T>(), sizeof(T), name);
    return out;
}

/// Writes as much of an answer as the program's version knows.
template <class T>
void hand_over(const T& answer, T* out) {
    const std::size_t size = out->size;
    std::memcpy(out, &answer, std::min(size, sizeof(T)));
    out->size = size;
}

}  // namespace samelight::c
