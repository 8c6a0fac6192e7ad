#include "io/layout/roles.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "io/text/words.hpp"
#include "samelight/io/spectral_csv.hpp"

namespace samelight::io {

namespace detail {

namespace {

struct RoleWord {
    std::string_view text;  ///< as folded() leaves it
    std::string_view role;
};

constexpr std::array<RoleWord, 90> role_words = {{
    // English, and the letters of the trade.
    {"red", "red"},
    {"r", "red"},
    {"green", "green"},
    {"g", "green"},
    {"blue", "blue"},
    {"b", "blue"},
    {"white", "white"},
    {"w", "white"},
    {"black", "black"},
    {"k", "black"},
    // German.
    {"rot", "red"},
    {"rote", "red"},
    {"rotes", "red"},
    {"grun", "green"},
    {"gruen", "green"},
    {"grune", "green"},
    {"gruene", "green"},
    {"grunes", "green"},
    {"blau", "blue"},
    {"blaue", "blue"},
    {"blaues", "blue"},
    {"weiss", "white"},
    {"weisse", "white"},
    {"weisses", "white"},
    {"schwarz", "black"},
    {"schwarze", "black"},
    {"schwarzes", "black"},
    // French.
    {"rouge", "red"},
    {"vert", "green"},
    {"verte", "green"},
    {"bleu", "blue"},
    {"bleue", "blue"},
    {"blanc", "white"},
    {"blanche", "white"},
    {"noir", "black"},
    {"noire", "black"},
    // Spanish.
    {"rojo", "red"},
    {"roja", "red"},
    {"verde", "green"},
    {"azul", "blue"},
    {"blanco", "white"},
    {"blanca", "white"},
    {"negro", "black"},
    {"negra", "black"},
    // Italian; green as in Spanish.
    {"rosso", "red"},
    {"rossa", "red"},
    {"blu", "blue"},
    {"bianco", "white"},
    {"bianca", "white"},
    {"nero", "black"},
    {"nera", "black"},
    // Dutch.
    {"rood", "red"},
    {"rode", "red"},
    {"groen", "green"},
    {"groene", "green"},
    {"blauw", "blue"},
    {"blauwe", "blue"},
    {"wit", "white"},
    {"witte", "white"},
    {"zwart", "black"},
    {"zwarte", "black"},
    // Japanese; katakana without its voicing marks.
    {"赤", "red"},
    {"赤色", "red"},
    {"レット", "red"},
    {"緑", "green"},
    {"緑色", "green"},
    {"クリーン", "green"},
    {"青", "blue"},
    {"青色", "blue"},
    {"フルー", "blue"},
    {"白", "white"},
    {"白色", "white"},
    {"ホワイト", "white"},
    {"黒", "black"},
    {"黒色", "black"},
    {"フラック", "black"},
    // Chinese, simplified and traditional; white as in Japanese.
    {"红", "red"},
    {"红色", "red"},
    {"紅", "red"},
    {"紅色", "red"},
    {"绿", "green"},
    {"绿色", "green"},
    {"綠", "green"},
    {"綠色", "green"},
    {"蓝", "blue"},
    {"蓝色", "blue"},
    {"藍", "blue"},
    {"藍色", "blue"},
    {"黑", "black"},
    {"黑色", "black"},
}};

constexpr std::size_t longest_role_word =
    60;  // bytes of a name that may be one, accents written apart

}  // namespace

std::string_view role_of(std::string_view name) {
    if (name.size() > longest_role_word) return {};
    const std::string word = folded(trimmed(name));
    for (const RoleWord& role : role_words) {
        if (word == role.text) return role.role;
    }
    return {};
}

bool is_blue_in_japanese_alone(std::string_view name) { return name == "青" || name == "青色"; }

bool is_chinese_alone(std::string_view name) {
    constexpr std::array<std::string_view, 12> words = {"红", "红色", "绿", "绿色", "綠", "綠色",
                                                        "蓝", "蓝色", "藍", "藍色", "黑", "黑色"};
    return std::find(words.begin(), words.end(), name) != words.end();
}

bool heads_names(std::string_view heading) {
    constexpr std::array<std::string_view, 12> headings = {
        "name",  "sample", "sample name", "sample_name", "patch name", "patch_name",
        "light", "label",  "patch",       "colour",      "color",      "channel"};
    return std::find(headings.begin(), headings.end(), lowered(heading)) != headings.end();
}

bool heads_luminance(std::string_view heading) {
    const std::string word = lowered(heading);
    return word == "l" || word == "lv" || word == "luminance";
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
