#pragma once
// Names of files that are being written.
#include <cstdint>
#include <string>

namespace samelight::io::detail {

/// 64 bits that nobody can foresee, from the operating system; false where it has none to give.
[[nodiscard]] bool draw_unforeseen(std::uint64_t& bits);

/// ".samelight-", 16 letters and digits, ".part": a name that nobody who may write in the folder can take beforehand. Empty where
/// draw_unforeseen() has nothing to give.
inline std::string drawn_part_name() {
    std::uint64_t bits = 0;
    if (!draw_unforeseen(bits)) return {};
    std::string name = ".samelight-";
    for (int i = 0; i < 16; ++i) {
        name += "0123456789abcdef"[bits & 15U];
        bits >>= 4U;
    }
    return name + ".part";
}

}  // namespace samelight::io::detail
