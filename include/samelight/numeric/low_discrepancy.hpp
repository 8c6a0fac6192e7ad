#pragma once
// Sobol's low-discrepancy sequence in ten dimensions, scrambled in integers.
#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// A primitive polynomial over GF(2) and the first direction numbers that go with it.
struct SobolDimension {
    int degree;
    /// Coefficients between the first and the last, which are 1.
    std::uint64_t inner;
    /// m_1 to m_degree
    std::array<std::uint64_t, 5> initial;
};

/// Dimensions 2 to 10; dimension 1 is van der Corput's sequence. Source: Joe & Kuo 2008, Constructing Sobol sequences with better
/// two-dimensional projections, SIAM J. Sci. Comput. 30:2635, doi:10.1137/070709359, their set new-joe-kuo-6.
inline constexpr std::array<SobolDimension, 9> joe_kuo_2008{{
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
    {5, 2, {1, 1, 5, 5, 17}},
    {5, 4, {1, 1, 5, 5, 5}},
    {5, 7, {1, 1, 7, 11, 19}},
}};

constexpr int sobol_dimensions = 10;
/// Of the index, so of an unscrambled coordinate.
constexpr int sobol_bits = 32;

constexpr std::uint64_t reverse_bits(std::uint64_t x) noexcept {
    x = ((x >> 1) & 0x5555555555555555u) | ((x & 0x5555555555555555u) << 1);
    x = ((x >> 2) & 0x3333333333333333u) | ((x & 0x3333333333333333u) << 2);
    x = ((x >> 4) & 0x0f0f0f0f0f0f0f0fu) | ((x & 0x0f0f0f0f0f0f0f0fu) << 4);
    x = ((x >> 8) & 0x00ff00ff00ff00ffu) | ((x & 0x00ff00ff00ff00ffu) << 8);
    x = ((x >> 16) & 0x0000ffff0000ffffu) | ((x & 0x0000ffff0000ffffu) << 16);
    return (x >> 32) | (x << 32);
}

using DirectionNumbers = std::array<std::array<std::uint64_t, sobol_bits>, sobol_dimensions>;

/// v_j = m_j / 2^j for every dimension, as binary fractions with the first digit in the lowest bit. The recurrence is Joe & Kuo's
/// eq. 2: m_j = 2 a_1 m_(j-1) xor ... xor 2^s m_(j-s) xor m_(j-s).
constexpr DirectionNumbers make_direction_numbers() noexcept {
    DirectionNumbers result{};
    for (std::size_t d = 0; d < result.size(); ++d) {
        std::array<std::uint64_t, sobol_bits> m{};
        for (int j = 0; j < sobol_bits; ++j) {
            const auto at = static_cast<std::size_t>(j);
            if (d == 0) {
                m[at] = 1;
                continue;
            }
            const SobolDimension& source = joe_kuo_2008[d - 1];
            if (j < source.degree) {
                m[at] = source.initial[at];
                continue;
            }
            const auto s = static_cast<std::size_t>(source.degree);
            m[at] = m[at - s] ^ (m[at - s] << s);
            for (std::size_t k = 1; k < s; ++k) {
                if (((source.inner >> (s - 1 - k)) & 1u) != 0) {
                    m[at] ^= m[at - k] << k;
                }
            }
        }
        for (int j = 0; j < sobol_bits; ++j) {
            const auto at = static_cast<std::size_t>(j);
            result[d][at] = reverse_bits(m[at] << (63 - j));
        }
    }
    return result;
}

inline constexpr DirectionNumbers direction_numbers = make_direction_numbers();

}  // namespace detail

/// Points that fill the unit cube of ten dimensions evenly: Sobol's sequence in its natural order, from point 0, the origin.
///
/// Scrambled by a seed, every point is uniform on the cube over the seeds, and any 2^k points from a multiple of 2^k on keep the
/// balance of the sequence: each of the 2^k equal intervals of a coordinate holds exactly one. Digit k of a coordinate is
/// flipped or not depending on the seed, the dimension and the digits before it alone (a nested scrambling in Owen's sense, with a
/// hash in place of a tree of random bits). So one may take point 0 along, and must: without it the balance is lost.
///
/// Use counts that are powers of 2. Up to 2^32 points. Integer arithmetic alone, so identical to the bit with every compiler,
/// optimisation and processor. Sources: Joe & Kuo 2008 (above); Owen 1995, Randomly permuted (t,m,s)-nets and (t,s)-sequences,
/// doi:10.1007/978-1-4612-2552-2_19; the idea of hashing the reversed digits: Laine & Karras 2011, Stratified sampling for
/// stochastic transparency, doi:10.1111/j.1467-8659.2011.02005.x (all from memory).
class LowDiscrepancy {
  public:
    static constexpr int dimensions = detail::sobol_dimensions;

    /// Scrambled; any seed.
    explicit constexpr LowDiscrepancy(std::uint64_t seed) noexcept : scrambled_(true) {
        const PseudoRandom random(seed);
        std::uint64_t number = 0;
        for (Keys& keys : keys_) {
            for (std::uint64_t& key : keys) {
                key = random.word(number++);
            }
        }
    }

    /// The sequence as Sobol and Joe & Kuo have it.
    [[nodiscard]] static constexpr LowDiscrepancy unscrambled() noexcept { return {}; }

    /// Coordinate `dimension` (0 to 9) of point `index` (0 to 2^32 - 1) as a binary fraction of 64 digits: the
    /// coordinate times 2^64. Throws Error (domain) outside these ranges.
    [[nodiscard]] constexpr std::uint64_t word(std::uint64_t index, int dimension) const {
        require(index, dimension);
        std::uint64_t digits = 0;
        const auto& v = detail::direction_numbers[static_cast<std::size_t>(dimension)];
        for (std::uint64_t rest = index; rest != 0; rest &= rest - 1) {
            digits ^= v[static_cast<std::size_t>(std::countr_zero(rest))];
        }
        return detail::reverse_bits(
            scrambled_ ? scramble(digits, keys_[static_cast<std::size_t>(dimension)]) : digits);
    }

    /// The same as a number in the open interval (0, 1): the middle of the cell, 2^-52 wide, that the coordinate lies in, so
    /// that a quantile of it is always finite. Exact. No unit. Throws as word().
    [[nodiscard]] constexpr double unit(std::uint64_t index, int dimension) const {
        return detail::centred_unit(word(index, dimension));
    }

  private:
    using Keys = std::array<std::uint64_t, 8>;

    constexpr LowDiscrepancy() noexcept = default;

    static constexpr void require(std::uint64_t index, int dimension) {
        if ((index >> detail::sobol_bits) != 0 || dimension < 0 || dimension >= dimensions) {
            throw Error(
                ErrorKind::domain, "LowDiscrepancy",
                "point " + std::to_string(index) + ", dimension " + std::to_string(dimension),
                "a point below 2^32 and a dimension from 0 to 9");
        }
    }

    /// One to one, and a bit of the result depends on that bit and the lower ones alone: so do a sum, a product with an odd
    /// number, and an exclusive or with an even multiple. In reversed digits "lower" means "before".
    static constexpr std::uint64_t scramble(std::uint64_t x, const Keys& keys) noexcept {
        x += keys[0];
        x ^= x * (keys[1] << 1);
        x *= keys[2] | 1u;
        x += keys[3];
        x ^= x * (keys[4] << 1);
        x *= keys[5] | 1u;
        x ^= x * (keys[6] << 1);
        return x + keys[7];
    }

    bool scrambled_ = false;
    std::array<Keys, dimensions> keys_{};
};

}  // namespace samelight
