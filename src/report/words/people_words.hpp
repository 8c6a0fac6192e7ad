#pragma once
// Numbers and people in words, as pages say them.
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

}  // namespace samelight::report
