#pragma once
// Numbers and people in words, as pages say them to those who set displays up, and to those who own them.
#include <cstddef>
#include <string>

#include "samelight/observer/population.hpp"

namespace samelight::report {

/// A number with at most `decimals` digits behind the point and no zeros at its end.
std::string rounded(double value, int decimals);

/// "1,024".
std::string counted(std::size_t number);

/// "2 in 100", and never 0 or 100 for a share that is neither.
std::string share_text(double share);

/// The population, as people say it: "1,024 computed people, 20 to 70 years, evenly, seeing 2 degrees".
std::string population_text(const Population& population);

/// A colour difference in words for whoever doesn't know what DE00 is. Limits: common practice, no source.
inline std::string difference_in_words(double de00) {
    if (de00 < 1.0) {
        return "most likely no difference";
    }
    return de00 < 3.0 ? "perhaps a slight difference, side by side and looking for it"
                      : "a difference side by side; seen alone it looks white";
}

/// The same of any colour, read wrongly by so much.
inline std::string misread_in_words(double de00) {
    if (de00 < 1.0) {
        return "by less than can be seen";
    }
    return de00 < 3.0 ? "by what can just be seen side by side" : "by what can be seen";
}

/// What the models of eyes are, and are not.
inline constexpr const char* eyes_are_models =
    "These numbers describe normal colour vision and are no medical statement.";

}  // namespace samelight::report
