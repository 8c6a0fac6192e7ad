#include "io/layout/roles.hpp"

#include <array>
#include <string>

#include "io/text/words.hpp"
#include "samelight/io/spectral_csv.hpp"

namespace samelight::io {

namespace detail {

namespace {

struct Role {
    std::string_view word;
    std::string_view letter;
};

constexpr std::array<Role, 5> roles = {
    {{"red", "r"}, {"green", "g"}, {"blue", "b"}, {"white", "w"}, {"black", "k"}}};

}  // namespace

std::string_view role_of(std::string_view name) {
    if (name.size() > 5) return {};
    const std::string small = lowered(name);
    for (const Role& role : roles) {
        if (small == role.word || small == role.letter) return role.word;
    }
    return {};
}

}  // namespace detail

const LightColumn* SpectralFile::find(std::string_view role) const {
    for (const LightColumn& column : lights) {
        const std::string_view played = detail::role_of(column.name);
        if (!played.empty() && played == role) return &column;
    }
    return nullptr;
}

}  // namespace samelight::io
