#pragma once
// How far screens can be made to agree, for whoever owns them.
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// Plain words, without names of people and without figures of doubt: what was compared, what it looks like now, what setting the whites
/// does, and what no setting takes away.
Document metamerism_client_document(const MetamerismAnswer& answer);

}  // namespace samelight::report
