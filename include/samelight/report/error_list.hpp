#pragma once
// Several reasons why there is no answer.
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// Nothing could be answered, and more than one thing was wrong. It is the first of them; the others stand beside it.
class ErrorList : public Error {
  public:
    /// @param errors  two or more
    explicit ErrorList(std::vector<Error> errors)
        : Error(errors.at(0)), errors_(std::move(errors)) {}

    /// All of them, in their order.
    [[nodiscard]] const std::vector<Error>& errors() const noexcept { return errors_; }

  private:
    std::vector<Error> errors_;
};

/// Throws what was wrong, an Error or an ErrorList, where it leaves fewer than `least` things that an answer can be about. Without errors it
/// lets anything pass.
void require_enough(std::size_t good, std::size_t least, const std::vector<Error>& errors);

}  // namespace samelight::report
