#pragma once
// What a display does in HDR, for whoever owns it.
#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// How bright, whether its white holds, what it does with what is too bright for it: plain words.
Document hdr_client_document(const HdrAnswer& answer);

}  // namespace samelight::report
