#pragma once
// How an instrument's bandwidth was taken out, as a plain value. What takes it out is in bandwidth.

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a bandwidth was taken out.
enum class BandwidthMethod {
    /// Nothing to take out: no bandwidth, or no light.
    none,
    /// stearns_bandpass(): readings one bandwidth apart
    stearns,
    /// deconvolve(): readings closer together
    deconvolution
};

}  // namespace samelight
