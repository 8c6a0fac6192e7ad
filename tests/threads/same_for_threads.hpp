#pragma once
// What is worked out by several threads is what one works out, to the bit.
#include <bit>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <span>
#include <vector>

#include <gtest/gtest.h>

namespace samelight::test {

/// Numbers as their bits, one after the other, so that not a number is equal to itself, and 0 not to -0.
class Bits {
  public:
    Bits& add(double value) {
        bits_.push_back(std::bit_cast<std::uint64_t>(value));
        return *this;
    }
    Bits& add(std::size_t value) {
        bits_.push_back(value);
        return *this;
    }
    template <class Values>
    Bits& add_all(const Values& values) {
        add(static_cast<std::size_t>(std::size(values)));
        for (const auto& value : values) {
            add(value);
        }
        return *this;
    }

    Bits& add_all_of(const Bits& other) {
        bits_.insert(bits_.end(), other.bits_.begin(), other.bits_.end());
        return *this;
    }

    friend bool operator==(const Bits&, const Bits&) = default;
    [[nodiscard]] std::size_t size() const { return bits_.size(); }

  private:
    std::vector<std::uint64_t> bits_;
};

/// answer(threads) gives Bits: those of 1 thread, of 2, 3, 8 and of as many as the machine has are the same.
template <class Answer>
void expect_same_for_threads(const Answer& answer) {
    const Bits alone = answer(std::size_t{1});
    EXPECT_GT(alone.size(), 0U);
    for (const std::size_t threads : {2U, 3U, 8U, 0U}) {
        EXPECT_TRUE(answer(threads) == alone) << threads << " threads";
    }
}

}  // namespace samelight::test
