#pragma once
// Targets of patches that were kept, read back.
#include <array>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/check/patches/patch_target.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What each patch must read, as it was kept.
struct KeptPatchTargets {
    /// The file's name as it was given.
    std::string source;
    /// Which version made it.
    std::string version;
    TargetKind kind = TargetKind::white_replaced;
    /// Of the codes.
    Quantisation quantisation{8, SignalRange::full};
    /// X, Y, Z of the white, cd/m2.
    std::array<double, 3> white{};
    /// In the answer's order; at least one. PatchTarget::patch has no surface.
    std::vector<PatchTarget> targets = {};
};

/// Reads an answer about targets, "samelight/targets/1". As parse_patch_targets(), and throws Error (system) for what can't be opened or read.
[[nodiscard]] SAMELIGHT_API KeptPatchTargets read_patch_targets(const std::filesystem::path& file);

/// Understands the text of such an answer: X, Y, Z in cd/m2 come back to the last digit. Keys that this version doesn't know are left alone.
/// @param bytes  at most 16 MiB, brackets 32 within each other at most
/// @param source its name, for messages
/// Throws Error (input), one line that names the key, for what is no such answer, and for a kind, group or reach that this version doesn't know.
[[nodiscard]] SAMELIGHT_API KeptPatchTargets parse_patch_targets(std::string_view bytes,
                                                                 const std::string& source);

}  // namespace samelight::io
