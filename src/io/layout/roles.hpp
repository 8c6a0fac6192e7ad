#pragma once
// The parts that lights play on a display.
#include <array>
#include <string_view>

namespace samelight::io::detail {

/// In the order in which they are told.
inline constexpr std::array<std::string_view, 5> display_roles = {"red", "green", "blue", "white",
                                                                  "black"};

/// "red", "green", "blue", "white" or "black" for a name that is that word or its letter (R, G, B, W, K), or that word in German, French,
/// Spanish, Italian, Dutch, Japanese or Chinese, whatever its case and however its accents are written; empty for any other name.
std::string_view role_of(std::string_view name);

/// True for the word that is blue in Japanese and between blue and green in Chinese.
bool is_blue_in_japanese_alone(std::string_view name);

/// True for a word that says a colour in Chinese and in no other of these languages.
bool is_chinese_alone(std::string_view name);

/// Whether a heading says that names stand below or beside it: "name", "sample", "colour", ..., whatever its case.
bool heads_names(std::string_view heading);

/// Whether a heading says that luminances stand below it, in another way than Y: "L", "Lv", "luminance", whatever its case.
bool heads_luminance(std::string_view heading);

}  // namespace samelight::io::detail
