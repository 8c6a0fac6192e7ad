#pragma once
// Numbers, counts and words out of a fuzzer's bytes: mostly such as a user could mean, now and then any that a double can hold.
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <limits>
#include <vector>

namespace fuzz {

/// Reads bytes one after another; behind their end, zeros.
class Drawn {
  public:
    Drawn(const std::uint8_t* bytes, std::size_t size) : at_(bytes), end_(bytes + size) {}

    std::uint8_t byte() { return at_ == end_ ? std::uint8_t{0} : *at_++; }

    /// 0 to `most`.
    std::size_t count(std::size_t most) { return byte() % (most + 1); }

    bool one_in(std::size_t n) { return byte() % n == n - 1; }

    /// Within the range; in 1 of 16 a number that may be out of every range, in 1 of 32 any eight bytes.
    double number(double low, double high) {
        const std::uint8_t kind = byte();
        if (kind >= 240) return odd_number(kind);
        if (kind >= 232) return any_number();
        const unsigned share = 256U * byte() + byte();
        return low + (high - low) * share / 65535.0;
    }

    /// As number(), each of `count`, on one kind of scale: some lie within the range and some have all been made small or large.
    std::vector<double> numbers(std::size_t count, double low, double high) {
        constexpr std::array<double, 6> scales = {1.0, 1.0, 1.0, 1e-9, 1e9, 1e300};
        const std::uint8_t kind = byte();
        const double scale = kind < 250 ? 1.0 : scales[kind - 250U];
        // Where bytes are few, smooth values cost none of them.
        const bool each = (kind & 1U) != 0;
        const double first = number(low, high);
        const double last = number(low, high);
        std::vector<double> all;
        for (std::size_t i = 0; i < count; ++i) {
            const double share = count > 1 ? double(i) / double(count - 1) : 0.0;
            all.push_back(scale * (each ? number(low, high) : first + share * (last - first)));
        }
        return all;
    }

    template <std::size_t N>
    const char* word(const std::array<const char*, N>& words) {
        return words[byte() % N];
    }

  private:
    double any_number() {
        std::uint64_t bits = 0;
        for (int i = 0; i < 8; ++i) {
            bits = bits << 8U | byte();
        }
        double value = 0.0;
        std::memcpy(&value, &bits, sizeof(value));
        return value;
    }
    static double odd_number(std::uint8_t kind) {
        using limits = std::numeric_limits<double>;
        constexpr std::array<double, 16> odd = {limits::quiet_NaN(),
                                                limits::infinity(),
                                                -limits::infinity(),
                                                0.0,
                                                -0.0,
                                                1.0,
                                                -1.0,
                                                limits::max(),
                                                5e-324,
                                                limits::min(),
                                                1e154,
                                                1e-154,
                                                limits::epsilon(),
                                                1e-12,
                                                -1e-12,
                                                1e9};
        return odd[kind - 240U];
    }

    const std::uint8_t* at_;
    const std::uint8_t* end_;
};

}  // namespace fuzz
