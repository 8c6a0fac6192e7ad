#pragma once
// What `samelight targets` says.
#include "samelight/report/document.hpp"
#include "samelight/report/targets_answer.hpp"

namespace samelight::report {

Document targets_document(const TargetsAnswer& answer);

}  // namespace samelight::report
