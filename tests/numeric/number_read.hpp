#pragma once
// A number out of text by another route than the library's: from_chars, or the C library's where a standard library lacks that of doubles.
#include <locale.h>
#include <charconv>
#include <cstdlib>
#include <optional>
#include <string>

namespace samelight::test {

/// The whole of `text` as a number in any locale; nothing where it isn't one.
inline std::optional<double> number_read(const std::string& text) {
#if defined(__cpp_lib_to_chars)
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool read = error == std::errc() && end == text.data() + text.size();
#else
    static const locale_t plain = newlocale(LC_ALL_MASK, "C", nullptr);
    char* end = nullptr;
    const double value = strtod_l(text.c_str(), &end, plain);
    const bool read = !text.empty() && end == text.c_str() + text.size();
#endif
    return read ? std::optional(value) : std::nullopt;
}

}  // namespace samelight::test
