// What a target's uncertainty comes from, and what would shrink it, in words.
#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "samelight/report/advice_words.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 12> titles{{
    {"sampling", "the step of the spectra"},
    {"wavelength_scale", "the instrument's wavelength scale"},
    {"bandwidth", "the instrument's bandwidth"},
    {"stray_light", "stray light in the instrument"},
    {"spectral_noise", "noise in the measured spectra"},
    {"reading_noise", "noise of the reading while the white is set"},
    {"viewers_eyes", "how well the viewers' own eyes are known"},
    {"observer_choice", "which observer describes the eye (field of view)"},
    {"white_emitter_share", "how much of white the white emitter makes"},
    {"additivity_floor", "what no observer function explains"},
    {"panel_spectrum", "the panel's spectrum, taken from its type"},
    {"people", "how people differ"},
}};

}  // namespace

std::string title_of(const BudgetPart& part) {
    if (part.remedy == BudgetRemedy::measure_spectra) {
        return "the panel's spectrum, its type's bent to what was read";
    }
    const auto found = std::find_if(titles.begin(), titles.end(),
                                    [&](const auto& title) { return title.first == part.code; });
    return found == titles.end() ? part.code : std::string(found->second);
}

std::string remedy_of(const BudgetPart& part) {
    switch (part.remedy) {
        case BudgetRemedy::finer_step:
            return "export the spectra at a finer step";
        case BudgetRemedy::check_wavelength_scale:
            return "check the instrument's wavelength scale on a lamp with known lines";
        case BudgetRemedy::narrower_bandwidth:
            return "use a narrower bandwidth, or correct the spectra for it";
        case BudgetRemedy::less_stray_light:
            return "use an instrument with less stray light, or one corrected for it";
        case BudgetRemedy::average_spectra:
            return "average more readings of every light that was measured";
        case BudgetRemedy::average_white:
            return "average several readings of the white";
        case BudgetRemedy::match_by_viewer:
            return "let viewer " + part.viewer +
                   " set the white by eye, side by side with the reference";
        case BudgetRemedy::match_once_more:
            return "let the viewers set the white by eye once more, best on another display";
        case BudgetRemedy::name_viewer:
            return "name the viewer and how large the white is seen, or let the eye set it";
        case BudgetRemedy::measure_white:
            return "measure the white as it is set, and ask again from that";
        case BudgetRemedy::only_by_eye:
            return "nothing but a match by eye";
        case BudgetRemedy::measure_spectra:
            return "measure spectra of red, green, blue and white of this very unit";
        case BudgetRemedy::measure_unit:
            return "measure red, green, blue and white of this very unit";
        case BudgetRemedy::name_viewers:
            return "name the viewers, or let the viewer set it by eye";
        case BudgetRemedy::none_viewers_named:
            break;
    }
    return "nothing: the viewers named are these";
}

}  // namespace samelight::report
