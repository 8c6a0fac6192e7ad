#pragma once
// What there is to say of one pair of displays.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// Which pairs are worth sentences: all of a short list, else the ends of each ranking.
std::vector<std::size_t> pairs_told(const MetamerismAnswer& answer);

/// "2.0 (0.5-4.1)".
std::string expected_said(const assess::ExpectedSeen& seen);

/// What one viewer is expected to see between two whites, as set and with white targets.
std::string viewer_text(const assess::MetamerismViewer& viewer, const assess::ViewerPair& sees);

/// One pair in sentences: why, and for whom. A section's number goes into its id.
Section pair_section(const MetamerismAnswer& answer, std::size_t pair, std::size_t number);

}  // namespace samelight::report
