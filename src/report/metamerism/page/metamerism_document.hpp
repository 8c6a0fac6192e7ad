#pragma once
// What is said of how well displays can be made to agree, as a document.
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// The answer first, then every pair, then what it rests on.
Document metamerism_document(const MetamerismAnswer& answer);

}  // namespace samelight::report
