#pragma once
// What `samelight targets` says.
#include "samelight/report/check/targets_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

Document targets_document(const TargetsAnswer& answer);

}  // namespace samelight::report
