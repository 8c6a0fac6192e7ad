#pragma once
// The white to dial in, out of an answer that was kept.
#include <filesystem>
#include <string>
#include <string_view>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::io {

/// The white to dial in for a display, out of the JSON answer about whites ("samelight/white/1").
/// @param display  its name in the answer; empty: the only one
/// Throws Error (system) for what can't be opened or read, Error (input), one line, for what is no such answer, names no such display or has no white
/// for it.
[[nodiscard]] SAMELIGHT_API Chromaticity<Cie1931_2deg> read_dialled_white(
    const std::filesystem::path& file, const std::string& display = {});

/// The same of the answer's text. @param source its name, for messages. Throws Error (input).
[[nodiscard]] SAMELIGHT_API Chromaticity<Cie1931_2deg> parse_dialled_white(
    std::string_view bytes, const std::string& source, const std::string& display = {});

}  // namespace samelight::io
