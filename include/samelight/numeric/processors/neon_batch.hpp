#pragma once
// Batches of 64-bit ARM's NEON that divide and take roots as IEEE 754 has it. xsimd 8 does so for doubles; floats it divides as 32-bit ARM
// must, by estimates that are refined, which is a unit or more off in the last place and no number at the ends of the range. A kind of processor
// of our own, so that what others make of xsimd's batches stays as it is.
#include <cstdint>

#include <xsimd/xsimd.hpp>

#include "samelight/numeric/form.hpp"

#if XSIMD_WITH_NEON64

namespace samelight::inline SAMELIGHT_FORM::math::kernel {

/// xsimd's 64-bit NEON, but for what stands below.
struct Neon64 : xsimd::neon64 {};

}  // namespace samelight::inline SAMELIGHT_FORM::math::kernel

namespace xsimd {
namespace types {

XSIMD_DECLARE_SIMD_REGISTER_ALIAS(samelight::math::kernel::Neon64, neon64);
template <class T>
struct get_bool_simd_register<T, samelight::math::kernel::Neon64>
    : get_bool_simd_register<T, neon64> {};

}  // namespace types

/// One number, without a unit, in all places: xsimd's own is for its own kind alone. Own.
template <>
inline batch<float, samelight::math::kernel::Neon64>::batch(float value) noexcept
    : types::simd_register<float, samelight::math::kernel::Neon64>(vdupq_n_f32(value)) {}
/// As of floats, without a unit. Own.
template <>
inline batch<std::int32_t, samelight::math::kernel::Neon64>::batch(std::int32_t value) noexcept
    : types::simd_register<std::int32_t, samelight::math::kernel::Neon64>(vdupq_n_s32(value)) {}
/// As of floats, without a unit. Own.
template <>
inline batch<std::uint32_t, samelight::math::kernel::Neon64>::batch(std::uint32_t value) noexcept
    : types::simd_register<std::uint32_t, samelight::math::kernel::Neon64>(vdupq_n_u32(value)) {}
/// As of floats, without a unit. Own.
template <>
inline batch<std::uint64_t, samelight::math::kernel::Neon64>::batch(std::uint64_t value) noexcept
    : types::simd_register<std::uint64_t, samelight::math::kernel::Neon64>(vdupq_n_u64(value)) {}

/// The quotient of numbers without a unit, rounded as IEEE 754 has it. Source: IEEE 754, by the processor's instruction.
template <>
inline batch<float, samelight::math::kernel::Neon64>&
batch<float, samelight::math::kernel::Neon64>::operator/=(
    const batch<float, samelight::math::kernel::Neon64>& other) noexcept {
    return *this = batch(vdivq_f32(data, other.data));
}

}  // namespace xsimd

#endif

namespace samelight::inline SAMELIGHT_FORM::math::kernel {

#if XSIMD_WITH_NEON64
/// What batches are made for.
using Processor = Neon64;
/// As below, of numbers without a unit. Source: IEEE 754, by the processor's instruction.
inline xsimd::batch<float, Neon64> square_root(const xsimd::batch<float, Neon64>& x) {
    return vsqrtq_f32(x.data);
}
#else
using Processor = xsimd::default_arch;
#endif
/// Square root, rounded as IEEE 754 has it, of numbers without a unit. Source: IEEE 754, by the processor's instruction.
template <class T, class A>
xsimd::batch<T, A> square_root(const xsimd::batch<T, A>& x) {
    return xsimd::sqrt(x);
}

}  // namespace samelight::inline SAMELIGHT_FORM::math::kernel
