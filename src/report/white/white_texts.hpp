#pragma once
// The small languages of `samelight white`: people and what they set by eye, as typed.
#include <vector>

#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// The people whose spread the answer tells, seeing the field of the first observer asked for, and what had to be said about a file
/// of ages. Throws Error (input or system).
Population population_of(const WhiteRequest& request, double field_deg,
                         std::vector<Warning>& notes);

/// Whites set by eye, from A=x,y; without a letter viewer A's. Where no viewer is named those who set one are added to `viewers`, of unknown
/// age. Throws Error (input) for a letter that is no viewer's, too.
std::vector<assess::WhiteByEye> whites_by_eye(const WhiteRequest& request,
                                              std::vector<assess::WatchingEye>& viewers);

}  // namespace samelight::report
