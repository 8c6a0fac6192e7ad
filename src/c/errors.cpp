#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <exception>
#include <iterator>
#include <new>
#include <stdexcept>
#include <string>
#include <string_view>

#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/c/samelight.h"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"

namespace samelight::c {
namespace {

samelight_status status_of(ErrorKind kind) noexcept {
    switch (kind) {
        case ErrorKind::domain:
            return SAMELIGHT_DOMAIN;
        case ErrorKind::shape:
            return SAMELIGHT_SHAPE;
        case ErrorKind::singular:
            return SAMELIGHT_SINGULAR;
        case ErrorKind::observer:
            return SAMELIGHT_OBSERVER;
        case ErrorKind::input:
            return SAMELIGHT_INPUT;
        case ErrorKind::system:
            return SAMELIGHT_SYSTEM;
    }
    return SAMELIGHT_INTERNAL;
}

/// Whether a byte goes on with a character that began before it.
bool goes_on(char byte) noexcept { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// How long the character is that begins with `byte`; 0 where none does.
std::size_t bytes_of_character(unsigned char byte) noexcept {
    if (byte < 0x80U) return 1;
    if (byte >= 0xC2U && byte < 0xE0U) return 2;
    if (byte >= 0xE0U && byte < 0xF0U) return 3;
    return byte >= 0xF0U && byte < 0xF5U ? 4 : 0;
}

bool is_utf8(const std::string& text) noexcept {
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<unsigned char>(text[i]);
        const std::size_t length = bytes_of_character(first);
        if (length == 0 || i + length > text.size()) return false;
        for (std::size_t k = 1; k < length; ++k) {
            if (!goes_on(text[i + k])) return false;
        }
        if (length > 2) {
            // Neither longer than need be, nor half of a pair of UTF-16, nor beyond the last character.
            const auto second = static_cast<unsigned char>(text[i + 1]);
            if ((first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU) ||
                (first == 0xF0U && second < 0x90U) || (first == 0xF4U && second > 0x8FU)) {
                return false;
            }
        }
        i += length;
    }
    return true;
}

}  // namespace

samelight_status said(samelight_error* error, samelight_status status,
                      const char* message) noexcept {
    if (error != nullptr) {
        error->status = status;
        std::size_t length = std::strlen(message);
        if (length >= sizeof(error->message)) {
            length = sizeof(error->message) - 1;
            while (length > 0 && goes_on(message[length])) {
                --length;
            }
        }
        // One line, whatever names were in it.
        std::transform(message, message + length, error->message, [](char c) {
            return static_cast<unsigned char>(c) < 0x20U || c == 0x7F ? ' ' : c;
        });
        error->message[length] = '\0';
    }
    return status;
}

samelight_status caught(samelight_error* error) noexcept {
    try {
        throw;
    } catch (const Error& e) {
        return said(error, status_of(e.kind()), e.what());
    } catch (const std::bad_alloc&) {
        return said(error, SAMELIGHT_MEMORY,
                    "samelight: no memory left; wanted: more, or less at once");
    } catch (const std::length_error&) {
        return said(error, SAMELIGHT_MEMORY,
                    "samelight: more than any memory holds; wanted: less at once");
    } catch (const std::exception& e) {
        return said(error, SAMELIGHT_INTERNAL, e.what());
    } catch (...) {
        return said(error, SAMELIGHT_INTERNAL, "samelight: an unknown fault; wanted: none");
    }
}

std::string text_of(const char* text, const char* name) {
    std::string result = place(text, name);
    if (!is_utf8(result)) {
        throw Error(ErrorKind::input, ErrorPlace{name}, "a text that is no UTF-8", "UTF-8");
    }
    return result;
}

std::string text_or(const char* text, const char* name, const char* otherwise) {
    return text != nullptr ? text_of(text, name) : otherwise;
}

std::string_view bytes_given(const char* bytes, std::size_t length) {
    constexpr std::size_t most = std::size_t{16} << 20U;
    place(bytes, "bytes");
    if (length > most) {
        throw Error(ErrorKind::input, ErrorPlace{"bytes"}, std::to_string(length) + " of them",
                    std::to_string(most) + " at most");
    }
    return {bytes, length};
}

void require_size(std::size_t size, std::size_t first, std::size_t own, const char* name) {
    if (size != own && size != first) {
        throw Error(ErrorKind::input, ErrorPlace{name},
                    "a struct of " + std::to_string(size) + " bytes",
                    std::to_string(own) + ", as its _defaults function fills in");
    }
}

}  // namespace samelight::c

uint32_t samelight_abi_version(void) { return SAMELIGHT_ABI_VERSION; }

const char* samelight_version(void) { return samelight::version; }

const char* samelight_status_name(samelight_status status) {
    constexpr const char* names[] = {"ok",    "domain", "shape",  "singular", "observer",
                                     "input", "system", "memory", "internal"};
    const auto at = static_cast<std::size_t>(status);
    return at < std::size(names) ? names[at] : "unknown";
}

const char* samelight_text_data(const samelight_text* text) {
    return text != nullptr ? text->value.c_str() : "";
}

size_t samelight_text_length(const samelight_text* text) {
    return text != nullptr ? text->value.size() : 0;
}

void samelight_text_destroy(samelight_text* text) { delete text; }
