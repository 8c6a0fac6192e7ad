// The words that say what a spectrum runs along.
#include "io/layout/axis.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

struct AxisWord {
    std::string_view text;
    AxisUnit unit;
};

/// ASCII in small letters.
constexpr std::array<AxisWord, 54> axis_words = {{
    {"nm", AxisUnit::nanometre},
    {"nanometer", AxisUnit::nanometre},
    {"nanometers", AxisUnit::nanometre},
    {"nanometre", AxisUnit::nanometre},
    {"nanometres", AxisUnit::nanometre},
    {"um", AxisUnit::micrometre},
    {"\u00b5m", AxisUnit::micrometre},
    {"\u03bcm", AxisUnit::micrometre},
    {"micron", AxisUnit::micrometre},
    {"microns", AxisUnit::micrometre},
    {"micrometer", AxisUnit::micrometre},
    {"micrometers", AxisUnit::micrometre},
    {"micrometre", AxisUnit::micrometre},
    {"micrometres", AxisUnit::micrometre},
    {"\u00e5", AxisUnit::angstrom},
    {"\u00c5", AxisUnit::angstrom},
    {"\u212b", AxisUnit::angstrom},
    {"angstrom", AxisUnit::angstrom},
    {"angstroms", AxisUnit::angstrom},
    {"\u00e5ngstr\u00f6m", AxisUnit::angstrom},
    {"\u00c5ngstr\u00f6m", AxisUnit::angstrom},
    {"m", AxisUnit::metre},
    {"meter", AxisUnit::metre},
    {"meters", AxisUnit::metre},
    {"metre", AxisUnit::metre},
    {"metres", AxisUnit::metre},
    {"mm", AxisUnit::other_length},
    {"cm", AxisUnit::other_length},
    {"pm", AxisUnit::other_length},
    {"wavenumber", AxisUnit::wavenumber},
    {"wavenumbers", AxisUnit::wavenumber},
    {"kayser", AxisUnit::wavenumber},
    {"kaysers", AxisUnit::wavenumber},
    {"\u03bd", AxisUnit::frequency},
    {"nu", AxisUnit::frequency},
    {"freq", AxisUnit::frequency},
    {"frequency", AxisUnit::frequency},
    {"frequencies", AxisUnit::frequency},
    {"frequenz", AxisUnit::frequency},
    {"fr\u00e9quence", AxisUnit::frequency},
    {"frecuencia", AxisUnit::frequency},
    {"frequenza", AxisUnit::frequency},
    {"frequentie", AxisUnit::frequency},
    {"hz", AxisUnit::frequency},
    {"khz", AxisUnit::frequency},
    {"mhz", AxisUnit::frequency},
    {"ghz", AxisUnit::frequency},
    {"thz", AxisUnit::frequency},
    {"phz", AxisUnit::frequency},
    {"terahertz", AxisUnit::frequency},
    {"hertz", AxisUnit::frequency},
    {"ev", AxisUnit::energy},
    {"mev", AxisUnit::energy},
    {"kev", AxisUnit::energy},
}};

constexpr std::size_t longest = 200;  // bytes of a heading that are looked at

bool is_length(AxisUnit unit) {
    return unit == AxisUnit::micrometre || unit == AxisUnit::metre ||
           unit == AxisUnit::other_length;
}

/// True for what makes a length its inverse: 1/cm, cm-1, cm^-1, cm\u207b\u00b9, cm**-1.
bool is_inverse(std::string_view before, std::string_view behind) {
    if (before.ends_with("1/")) return true;
    for (const std::string_view power : {"^", "**", ""}) {
        for (const std::string_view exponent : {"-1", "(-1)", "{-1}", "\u22121", "\u207b\u00b9"}) {
            if (behind.starts_with(std::string(power) + std::string(exponent))) return true;
        }
    }
    return false;
}

/// Calls f(word, what stands before it, what stands behind it) for each run of letters of `text`, which is in small letters.
template <class F>
void for_each_word(std::string_view text, F&& f) {
    for (std::size_t i = 0; i < text.size();) {
        if (!is_letter(text[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < text.size() && is_letter(text[end])) {
            // The marks of an exponent are letters of no word.
            const std::string_view rest = text.substr(end);
            if (rest.starts_with("\u207b") || rest.starts_with("\u2212")) break;
            ++end;
        }
        if (end > i) f(text.substr(i, end - i), text.substr(0, i), text.substr(end));
        i = std::max(end, i + 1);
    }
}

}  // namespace

AxisUnit axis_unit(std::string_view text) {
    const std::string small = lowered(narrowed(text.substr(0, longest)));
    const std::string_view whole = trimmed(small);
    if (whole == "energy" || whole == "photon energy") return AxisUnit::energy;
    AxisUnit length = AxisUnit::unsaid;
    AxisUnit other = AxisUnit::unsaid;
    bool nanometres = false;
    for_each_word(small, [&](std::string_view word, std::string_view before,
                             std::string_view behind) {
        const auto* const found =
            std::find_if(axis_words.begin(), axis_words.end(),
                         [&](const AxisWord& one) { return one.text == word; });
        if (found == axis_words.end()) return;
        AxisUnit unit = found->unit;
        if (is_length(unit) && is_inverse(before, behind)) unit = AxisUnit::wavenumber;
        nanometres = nanometres || unit == AxisUnit::nanometre;
        if (is_wavelength(unit) || unit == AxisUnit::other_length) {
            length = length == AxisUnit::unsaid || length == unit ? unit : AxisUnit::other_length;
        } else {
            other = unit;
        }
    });
    if (nanometres) return AxisUnit::nanometre;
    return other != AxisUnit::unsaid ? other : length;
}

bool names_frequency_axis(std::string_view text) {
    constexpr std::array<std::string_view, 4> telling = {"thz", "terahertz", "wavenumber",
                                                         "wavenumbers"};
    bool found = false;
    for_each_word(lowered(text.substr(0, longest)), [&](std::string_view word, std::string_view,
                                                        std::string_view) {
        found = found || std::find(telling.begin(), telling.end(), word) != telling.end();
    });
    return found;
}

bool is_wavelength(AxisUnit unit) {
    return unit == AxisUnit::unsaid || unit == AxisUnit::nanometre ||
           unit == AxisUnit::micrometre || unit == AxisUnit::angstrom || unit == AxisUnit::metre;
}

int power_to_nm(AxisUnit unit) {
    switch (unit) {
        case AxisUnit::micrometre:
            return 3;
        case AxisUnit::angstrom:
            return -1;
        case AxisUnit::metre:
            return 9;
        default:
            return 0;
    }
}

const char* name_of(AxisUnit unit) {
    switch (unit) {
        case AxisUnit::unsaid:
            return "";
        case AxisUnit::nanometre:
            return "nanometres";
        case AxisUnit::micrometre:
            return "micrometres";
        case AxisUnit::angstrom:
            return "angstroms";
        case AxisUnit::metre:
            return "metres";
        case AxisUnit::other_length:
            return "another unit of length";
        case AxisUnit::wavenumber:
            return "a wavenumber";
        case AxisUnit::frequency:
            return "a frequency";
        case AxisUnit::energy:
            return "an energy";
    }
    return "";
}

}  // namespace samelight::io::detail
