#include "report/words/people_words.hpp"

#include <algorithm>
#include <cmath>

#include "samelight/numeric/text.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::report {

std::string rounded(double value, int decimals) {
    std::string text = to_text(value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text;
}

std::string counted(std::size_t number) {
    std::string text = std::to_string(number);
    for (std::size_t at = text.size(); at > 3;) {
        at -= 3;
        text.insert(at, ",");
    }
    return text;
}

std::string share_text(double share) {
    const double whole = std::round(100.0 * share);
    const double shown = share > 0.0 && share < 1.0 ? std::clamp(whole, 1.0, 99.0) : whole;
    return to_text(shown, 0) + " in 100";
}

std::string population_text(const Population& population) {
    return (population.size() == 1 ? "one computed person"
                                   : counted(population.size()) + " computed people") +
           ", " + population.parameters().ages.describe() + ", seeing " +
           rounded(population.parameters().field_deg, 1) + " degrees";
}

}  // namespace samelight::report
