#pragma once
// A number's bits as another type's.
#include <cstring>
#include <type_traits>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// std::bit_cast, which some standard libraries of C++20 lack.
template <class To, class From>
To same_bits(const From& from) {
    static_assert(sizeof(To) == sizeof(From));
    static_assert(std::is_trivially_copyable_v<To> && std::is_trivially_copyable_v<From>);
    To to;
    std::memcpy(&to, &from, sizeof to);
    return to;
}

}  // namespace samelight::detail
