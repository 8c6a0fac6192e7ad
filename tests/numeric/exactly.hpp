#pragma once
// What "the same" and "nothing" allow.
#include <cfloat>

namespace samelight::test {

/// 0 where a double is a double. Processors that keep more digits in registers (x87) round one number differently from place to place, so that
/// what cancels leaves some last digits there.
inline constexpr double exactly = FLT_EVAL_METHOD == 0 ? 0.0 : 1e-12;

}  // namespace samelight::test
