#pragma once
// The way from a JSON object to a correction, for the reader and for the writer's own check.
#include <array>
#include <string>
#include <string_view>
#include <utility>

#include <nlohmann/json.hpp>

#include "samelight/io/correction_file.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

inline constexpr const char* correction_schema = "samelight/correction/1";

/// The keys that hold free text, and where it belongs.
struct TextKey {
    const char* key;
    std::string Provenance::*member;
};
inline constexpr std::array<TextKey, 8> provenance_keys{
    {{"display", &Provenance::panel},
     {"reference_instrument", &Provenance::reference_instrument},
     {"meter_instrument", &Provenance::meter_instrument},
     {"date", &Provenance::date},
     {"picture_mode", &Provenance::picture_mode},
     {"window", &Provenance::window},
     {"level", &Provenance::level},
     {"note", &Provenance::note}}};

/// Throws Error (`kind`) that begins with `source` and names the key.
StoredCorrection correction_of(const nlohmann::ordered_json& json, const std::string& source,
                               ErrorKind kind);

}  // namespace samelight::io::detail
