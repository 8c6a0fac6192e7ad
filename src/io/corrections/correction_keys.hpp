#pragma once
// Keys of JSON that stand twice.
#include <string>
#include <string_view>

namespace samelight::io::detail {

/// Refuses what would take too much time or memory to understand: too many keys, brackets or values. Takes any text, valid JSON or not.
/// Throws Error (input), with the line.
void require_modest_json(std::string_view json, const std::string& source);

/// Refuses an object in which a key stands twice, however deep: of two values one would have to be believed.
/// @param json  valid JSON
/// @param source  its name, for messages
/// Time is linear in the number of bytes, but for a logarithm of the number of keys. Throws Error (input): source:line, the key with the
/// path to it, and the line where it stood first.
void require_unique_keys(std::string_view json, const std::string& source);

}  // namespace samelight::io::detail
