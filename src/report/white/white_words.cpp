#include "report/white/white_words.hpp"

#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

std::string black_text(assess::BlackTaken black) {
    switch (black) {
        case assess::BlackTaken::too_dark:
            return " Black is too dark to measure; what was read of it was taken from every column.";
        case assess::BlackTaken::taken_off:
            return " Black was taken from every column and added once to the white.";
        case assess::BlackTaken::not_measured:
            break;
    }
    return " Black was not measured: it is inside the primaries.";
}

}  // namespace

// Directions suffice to tune a base; whose they are is what the answer rests on.
std::string rests_on(const assess::PanelPart& part) {
    const std::string whose =
        part.bent
            ? "a generic model of this type, bent until it reads as this unit did, not its spectra"
        : part.generic() ? "a generic model of this type, not this unit"
                         : "this unit's own spectra";
    if (part.white_measured) {
        return "the white as measured on the set; only the directions of red, green and blue come from " +
               whose + ".";
    }
    if (part.white_set_to) {
        const std::string reads =
            "x " + to_text(part.white_set_to->x(), 4) + ", y " + to_text(part.white_set_to->y(), 4);
        return whose + ", of which the white " + (part.white_read_now ? "now" : "as set") +
               " is taken to be made so that it reads " + reads +
               "; that reading alone doesn't tell its light." +
               (part.generic() ? "" : black_text(part.black));
    }
    return whose + "." +
           (part.generic() ? part.bent
                                 ? " Spectra of red, green, blue and white would make it surer."
                                 : " Measure red, green, blue and white for four places."
                           : black_text(part.black));
}

std::string command_remedy(const BudgetPart& part) {
    return remedy_of(part) + (part.remedy == BudgetRemedy::match_by_viewer
                                  ? ": --eye " + part.viewer + "=x,y"
                                  : std::string());
}

}  // namespace samelight::report
