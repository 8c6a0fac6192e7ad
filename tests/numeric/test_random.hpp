#pragma once
// Random numbers for tests: a fixed seed gives the same ones with every compiler and library.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

namespace samelight::test {

class Random {
  public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}

    std::uint64_t bits() { return engine_(); }

    /// Even between `low` (included) and `high`.
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(engine_() >> 11U) * 0x1p-53);
    }

    /// A whole number from `low` to `high`, both included.
    int whole(int low, int high) {
        return low + static_cast<int>(between(0.0, static_cast<double>(high - low + 1)));
    }

    /// Normal, mean 0 and standard deviation 1 (Box & Muller 1958).
    double normal() {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - between(0.0, 1.0)));
        return radius * std::cos(2.0 * std::numbers::pi * between(0.0, 1.0));
    }

    std::vector<double> values(std::size_t count, double low, double high) {
        std::vector<double> result(count);
        for (double& value : result) {
            value = between(low, high);
        }
        return result;
    }

    /// Ascending, from `first` to less than `last`, at distances from 0.1 to 1.9 times `mean_step`.
    std::vector<double> uneven(double first, double last, double mean_step) {
        std::vector<double> result;
        for (double x = first; x < last; x += mean_step * between(0.1, 1.9)) {
            result.push_back(x);
        }
        return result;
    }

  private:
    std::mt19937_64 engine_;
};

}  // namespace samelight::test
