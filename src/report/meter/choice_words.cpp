#include "samelight/report/choice_words.hpp"

#include <string>

#include "samelight/meter/selection/choice.hpp"

namespace samelight::report {

std::string words_of(CannotJudge why) {
    switch (why) {
        case CannotJudge::no_panel_spectra:
            return "can't be judged from afar, as it keeps no spectra of the display that it was made on";
        case CannotJudge::cones:
            return "gives cone responses, which have no u'v' to judge by";
        case CannotJudge::raw_beside_rows:
            return "corrects raw channels, which the rows given for X, Y, Z say nothing of";
        case CannotJudge::raw_to_other_observer:
            return "corrects raw channels to another observer than CIE 1931, which can't be judged from afar";
        case CannotJudge::other_white:
            return "made from one white, which this panel's is too far from";
        case CannotJudge::no_light:
            break;
    }
    return "would turn this panel's light into no light at all";
}

std::string words_of(NotSafe why) {
    switch (why) {
        case NotSafe::read_again_first:
            return "it was made with the verdict to read again first";
        case NotSafe::not_settled:
            return "whether it still holds is not settled";
        case NotSafe::white_not_settled:
            break;
    }
    return "the white read now does not settle that it is within the limit with it";
}

std::string words_of(NotAtAll why) {
    switch (why) {
        case NotAtAll::do_not_use:
            return "it was made with the verdict not to use it";
        case NotAtAll::no_longer_holds:
            return "the white read now says that it no longer holds";
        case NotAtAll::never_confirmed:
            break;
    }
    return "the white read now can't confirm it, nor can any other";
}

}  // namespace samelight::report
