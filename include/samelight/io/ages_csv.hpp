#pragma once
// The ages of the people who are to be served, from a file or from a few characters.
#include <string>
#include <string_view>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::io {

/// Ages, and what had to be said about them.
struct NamedAges {
    Ages ages;
    /// How a file was read, and whom the formula leaves out.
    std::vector<std::string> understood;
};

/// Ages as typed: YOUNGEST-OLDEST in years ("20-70"), one age ("65"), or a file of two columns, age in years and how many people
/// (anything with a dot or slash is a file). Ages beyond 20 to 80 in a file are left out and said, since the formula of the eye
/// ends there. Throws Error (input or system).
SAMELIGHT_API NamedAges open_ages(const std::string& text);

/// The same from a file's bytes. @param source its name, for messages.
SAMELIGHT_API NamedAges parse_ages(std::string_view bytes, const std::string& source);

}  // namespace samelight::io
