#include "samelight/report/viewer_words.hpp"

#include <cmath>
#include <string>

#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// With a plus where it isn't negative.
std::string signed_text(double value, int decimals) {
    const std::string text = to_text(value, decimals);
    return text.front() == '-' ? text : "+" + text;
}

std::string percent_words(double value, const char* more, const char* less) {
    return std::string(value > 0.0 ? more : less) + " (" + signed_text(value, 0) + " %)";
}

std::string peak_words(const char* cone, double nm) {
    return std::string(cone) + " peak " + signed_text(nm, 1) + " nm";
}

}  // namespace

std::string words_of(const ExtremeViewer& viewer, ViewerTrait trait) {
    const double age = viewer.eye.conditions.age_years;
    const auto d = viewer.eye.deviations.values();
    switch (trait) {
        case ViewerTrait::age:
            return std::string(age > viewer.average_age ? "older lens (" : "younger lens (") +
                   to_text(10.0 * std::floor(age / 10.0)) + "s)";
        case ViewerTrait::lens:
            return percent_words(d[0], "denser lens than usual at that age",
                                 "clearer lens than usual at that age");
        case ViewerTrait::macula:
            return percent_words(d[1], "more macular pigment", "less macular pigment");
        case ViewerTrait::l_density:
            return percent_words(d[2], "more L pigment", "less L pigment");
        case ViewerTrait::m_density:
            return percent_words(d[3], "more M pigment", "less M pigment");
        case ViewerTrait::s_density:
            return percent_words(d[4], "more S pigment", "less S pigment");
        case ViewerTrait::l_shift:
            return peak_words("L", d[5]);
        case ViewerTrait::m_shift:
            return peak_words("M", d[6]);
        case ViewerTrait::s_shift:
            break;
    }
    return peak_words("S", d[7]);
}

std::string description_of(const ExtremeViewer& viewer) {
    std::string text;
    for (const ViewerReason& reason : viewer.reasons) {
        text += (text.empty() ? "" : ", ") + words_of(viewer, reason.trait);
    }
    return text.empty() ? "close to the average" : text;
}

}  // namespace samelight::report
