#pragma once
// How an instrument's bandwidth was taken out, as a plain value. What takes it out is in bandwidth.

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a bandwidth was taken out.
enum class BandwidthMethod {
    none,          ///< nothing to take out: no bandwidth, or no light
    stearns,       ///< stearns_bandpass(): readings one bandwidth apart
    deconvolution  ///< deconvolve(): readings closer together
};

}  // namespace samelight
