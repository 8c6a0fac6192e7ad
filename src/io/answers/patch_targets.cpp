// Targets of patches, read back.
#include "samelight/io/answers/patch_targets.hpp"
#include "samelight/io/text_for_people.hpp"

#include <array>
#include <cmath>
#include <string>

#include "io/answers/kept_json.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io {
namespace {

using detail::Node;

/// The one of these values whose code stands behind the key.
template <class Code, std::size_t N>
Code coded(const Node& node, const char* key, const std::array<Code, N>& values) {
    const Node found = node.require(key, "a code");
    const std::string code = found.text();
    std::string codes;
    for (const Code value : values) {
        if (code == code_of(value)) {
            return value;
        }
        codes += (codes.empty() ? "" : ", ") + std::string(code_of(value));
    }
    found.refuse_value("one of " + codes);
}

Quantisation kept_quantisation(const Node& answer) {
    const Node bits = answer.require("bits", "a whole number");
    const double value = bits.number();
    if (value < 8.0 || value > 16.0 || value != std::trunc(value)) {
        bits.refuse_value("8 to 16");
    }
    const Node range = answer.require("range", "full or limited");
    const std::string name = range.text();
    if (name != "full" && name != "limited") {
        range.refuse_value("full or limited");
    }
    return {static_cast<int>(value), name == "full" ? SignalRange::full : SignalRange::limited};
}

PatchTarget kept_patch(const Node& node) {
    constexpr std::array groups = {SignalGroup::grey, SignalGroup::skin, SignalGroup::saturated,
                                   SignalGroup::other};
    constexpr std::array reaches = {PatchReach::shown, PatchReach::nearest,
                                    PatchReach::reference_lacks};
    return {{detail::text_at(node, "patch"), coded(node, "group", groups),
             detail::numbers_at<3>(node, "signal")},
            detail::numbers_at<3>(node, "xyz_cd_m2"),
            coded(node, "reach", reaches),
            detail::number_at(node, "left_uv")};
}

}  // namespace

KeptPatchTargets parse_patch_targets(std::string_view bytes, const std::string& source) {
    const std::string file = harmless(source);
    const auto json =
        detail::answer_json(bytes, file, "samelight/targets/1", "the JSON of targets of patches");
    const Node answer(json, "", file, ErrorKind::input);
    constexpr std::array kinds = {TargetKind::white_replaced, TargetKind::seen_alike};
    KeptPatchTargets kept{source,
                          detail::text_at(answer, "version"),
                          coded(answer, "kind", kinds),
                          kept_quantisation(answer),
                          detail::numbers_at<3>(answer, "white_xyz_cd_m2"),
                          {}};
    const Node targets = answer.require("targets", "an array");
    for (const Node& target : targets.items("an array of targets")) {
        kept.targets.push_back(kept_patch(target));
    }
    if (kept.targets.empty()) {
        targets.refuse_value("a target at least");
    }
    return kept;
}

KeptPatchTargets read_patch_targets(const std::filesystem::path& file) {
    return parse_patch_targets(detail::file_bytes(file, detail::largest_answer_bytes, "an answer"),
                               detail::source_name(file));
}

}  // namespace samelight::io
