#pragma once
// What there is to say of one pair of displays.
#include <cstddef>
#include <vector>

#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// Which pairs are worth sentences: all of a short list, else the ends of each ranking.
std::vector<std::size_t> pairs_told(const MetamerismAnswer& answer);

/// One pair in sentences: why, and for whom. A section's number goes into its id.
Section pair_section(const MetamerismAnswer& answer, std::size_t pair, std::size_t number);

}  // namespace samelight::report
