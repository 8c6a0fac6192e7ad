#pragma once
// The standard observers: a tag for each, so that the compiler keeps their values apart, and the observer behind it.
#include <array>
#include <concepts>
#include <string_view>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/tables/cie1931_2deg.hpp"
#include "samelight/tables/cie1964_10deg.hpp"
#include "samelight/tables/cie2006_cones_10deg.hpp"
#include "samelight/tables/cie2006_cones_2deg.hpp"
#include "samelight/tables/cie2015_10deg.hpp"
#include "samelight/tables/cie2015_2deg.hpp"
#include "samelight/tables/judd_vos_1978.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// CIE 1931 standard observer, 2 degrees, 360-830 nm by 1 nm (ISO/CIE 11664-1). What instruments read.
struct Cie1931_2deg {
    static constexpr std::string_view id = "cie1931-2deg";
    static constexpr std::string_view title = "CIE 1931, 2 degrees";
};
/// CIE 1964 standard observer, 10 degrees, 360-830 nm by 1 nm (ISO/CIE 11664-1).
struct Cie1964_10deg {
    static constexpr std::string_view id = "cie1964-10deg";
    static constexpr std::string_view title = "CIE 1964, 10 degrees";
};
/// CIE 2015 cone-fundamental-based observer, 2 degrees, 390-830 nm by 1 nm (CIE 170-2:2015).
struct Cie2015_2deg {
    static constexpr std::string_view id = "cie2015-2deg";
    static constexpr std::string_view title = "CIE 2015, 2 degrees";
};
/// CIE 2015 cone-fundamental-based observer, 10 degrees, 390-830 nm by 1 nm (CIE 170-2:2015).
struct Cie2015_10deg {
    static constexpr std::string_view id = "cie2015-10deg";
    static constexpr std::string_view title = "CIE 2015, 10 degrees";
};
/// Judd's 1951 modification of the 1931 observer as finished by Vos, 2 degrees, 380-780 nm by 5 nm (Vos 1978, Color Res. Appl. 3:125).
struct JuddVos1978 {
    static constexpr std::string_view id = "judd-vos-1978";
    static constexpr std::string_view title = "Judd-Vos 1978, 2 degrees";
};
/// An observer that is known only at run time; its values carry its identity and check it.
struct Any {};

/// One of the standard observers' tags.
template <class O>
concept StandardObserver = std::same_as<O, Cie1931_2deg> || std::same_as<O, Cie1964_10deg> ||
    std::same_as<O, Cie2015_2deg> || std::same_as<O, Cie2015_10deg> || std::same_as<O, JuddVos1978>;

namespace detail {

SAMELIGHT_API Observer load(Cie1931_2deg tag);
SAMELIGHT_API Observer load(Cie1964_10deg tag);
SAMELIGHT_API Observer load(Cie2015_2deg tag);
SAMELIGHT_API Observer load(Cie2015_10deg tag);
SAMELIGHT_API Observer load(JuddVos1978 tag);

}  // namespace detail

/// The observer behind a tag. Loaded once, on first use; thread-safe. Source: the table that its edition names, see data/README.md.
template <StandardObserver O>
const Observer& standard_observer() {
    static const Observer observer = detail::load(O{});
    return observer;
}

/// CIE 2006 cone fundamentals, 2 degrees, 32 years, 390-830 nm by 1 nm, peak 1 (CIE 170-1:2006, Table 6.2).
SAMELIGHT_API const Observer& cie2006_cones_2deg();

/// CIE 2006 cone fundamentals, 10 degrees, 32 years, 390-830 nm by 1 nm, peak 1 (CIE 170-1:2006, Table 6.2).
SAMELIGHT_API const Observer& cie2006_cones_10deg();

/// The five standard observers, CIE 1931 first. Source: as standard_observer().
SAMELIGHT_API std::array<const Observer*, 5> standard_observers();

/// The observers that can be called by name, see observer_named(): the standard ones and the two tabulated sets of cone fundamentals.
SAMELIGHT_API std::array<const Observer*, 7> named_observers();

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/standard.ipp"
#endif
