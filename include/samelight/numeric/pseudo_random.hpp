#pragma once
// Pseudo-random numbers that are the same on every machine, in order or by number.
#include <cstdint>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// The finishing permutation of SplitMix64: 64 bits to 64 bits, one to one.
constexpr std::uint64_t mix_bits(std::uint64_t z) noexcept {
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

/// The middle of the 2^-52 wide cell of [0, 1) that the leading 52 bits name: exact, never 0, never 1, and
/// symmetric about 1/2.
constexpr double centred_unit(std::uint64_t bits) noexcept {
    return (static_cast<double>(bits >> 12) + 0.5) * 0x1p-52;
}

}  // namespace detail

/// SplitMix64: a plain pseudo-random generator of 64-bit words, period 2^64, any of which can be asked for by its number.
///
/// Integer arithmetic alone, so identical to the bit with every compiler, optimisation and processor. Not for cryptography.
/// Source: Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA, doi:10.1145/2714064.2660195
/// (their 64-bit generator with its usual constants; from memory).
class PseudoRandom {
  public:
    /// Any seed.
    explicit constexpr PseudoRandom(std::uint64_t seed) noexcept : seed_(seed) {}

    /// Word `number` of the sequence, from 0, wherever next() stands.
    [[nodiscard]] constexpr std::uint64_t word(std::uint64_t number) const noexcept {
        return detail::mix_bits(seed_ + (number + 1) * 0x9e3779b97f4a7c15u);
    }
    /// The same as a number in the open interval (0, 1): a multiple of 2^-52 plus 2^-53. No unit.
    [[nodiscard]] constexpr double unit(std::uint64_t number) const noexcept {
        return detail::centred_unit(word(number));
    }

    /// The next word, and one step on.
    constexpr std::uint64_t next() noexcept { return word(position_++); }
    /// The next number in (0, 1), and one step on. No unit.
    constexpr double next_unit() noexcept { return detail::centred_unit(next()); }

  private:
    std::uint64_t seed_;
    std::uint64_t position_ = 0;
};

}  // namespace samelight
