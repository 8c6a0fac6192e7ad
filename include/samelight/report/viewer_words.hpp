#pragma once
// What is particular about a viewer's eye, in English.
#include <string>

#include "samelight/metamerism/extreme_viewer.hpp"

namespace samelight::report {

/// A trait of the viewer's eye as people say it: "older lens (70s)", "L peak +2.0 nm". Age works through the lens alone, so that is what is
/// named. Throws nothing but std::bad_alloc.
std::string words_of(const ExtremeViewer& viewer, ViewerTrait trait);

/// All reasons in one phrase, or that the viewer is close to the average. Throws nothing but std::bad_alloc.
std::string description_of(const ExtremeViewer& viewer);

}  // namespace samelight::report
