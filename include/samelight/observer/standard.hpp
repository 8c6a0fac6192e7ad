#pragma once
// The standard observers: a tag for each, so that the compiler keeps their values apart, and the observer behind it.
#include <array>
#include <concepts>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/tables/cie1931_2deg.hpp"
#include "samelight/tables/cie1964_10deg.hpp"
#include "samelight/tables/cie2006_cones_10deg.hpp"
#include "samelight/tables/cie2006_cones_2deg.hpp"
#include "samelight/tables/cie2015_10deg.hpp"
#include "samelight/tables/cie2015_2deg.hpp"
#include "samelight/tables/judd_vos_1978.hpp"

namespace samelight {

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

template <std::size_t N>
Observer from_table(std::string_view id, std::string_view title, const char* edition,
                    Receptors receptors, const Sampling& grid, const std::array<double, N>& a,
                    const std::array<double, N>& b, const std::array<double, N>& c) {
    return {std::string(id),
            std::string(title),
            edition,
            receptors,
            grid,
            {Observer::Row(a.begin(), a.end()), Observer::Row(b.begin(), b.end()),
             Observer::Row(c.begin(), c.end())}};
}

inline Observer load(Cie1931_2deg tag) {
    namespace t = tables::cie1931_2deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}
inline Observer load(Cie1964_10deg tag) {
    namespace t = tables::cie1964_10deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}
inline Observer load(Cie2015_2deg tag) {
    namespace t = tables::cie2015_2deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}
inline Observer load(Cie2015_10deg tag) {
    namespace t = tables::cie2015_10deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}
inline Observer load(JuddVos1978 tag) {
    namespace t = tables::judd_vos_1978;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

}  // namespace detail

/// The observer behind a tag. Loaded once, on first use; thread-safe.
template <StandardObserver O>
const Observer& standard_observer() {
    static const Observer observer = detail::load(O{});
    return observer;
}

/// CIE 2006 cone fundamentals, 2 degrees, 32 years, 390-830 nm by 1 nm, peak 1 (CIE 170-1:2006, Table 6.2).
inline const Observer& cie2006_cones_2deg() {
    namespace t = tables::cie2006_cones_2deg;
    static const Observer observer = detail::from_table(
        "cie2006-2deg", "CIE 2006 cone fundamentals, 2 degrees, 32 years", t::edition,
        Receptors::cones, {t::first_nm, t::step_nm, t::count}, t::l, t::m, t::s);
    return observer;
}

/// CIE 2006 cone fundamentals, 10 degrees, 32 years, 390-830 nm by 1 nm, peak 1 (CIE 170-1:2006, Table 6.2).
inline const Observer& cie2006_cones_10deg() {
    namespace t = tables::cie2006_cones_10deg;
    static const Observer observer = detail::from_table(
        "cie2006-10deg", "CIE 2006 cone fundamentals, 10 degrees, 32 years", t::edition,
        Receptors::cones, {t::first_nm, t::step_nm, t::count}, t::l, t::m, t::s);
    return observer;
}

/// The five standard observers, CIE 1931 first.
inline std::array<const Observer*, 5> standard_observers() {
    return {&standard_observer<Cie1931_2deg>(), &standard_observer<Cie1964_10deg>(),
            &standard_observer<Cie2015_2deg>(), &standard_observer<Cie2015_10deg>(),
            &standard_observer<JuddVos1978>()};
}

/// The observers that can be called by name: the standard ones and the two tabulated sets of cone fundamentals.
inline std::array<const Observer*, 7> named_observers() {
    const auto s = standard_observers();
    return {s[0], s[1], s[2], s[3], s[4], &cie2006_cones_2deg(), &cie2006_cones_10deg()};
}

/// An observer by its id. Throws Error (domain) that lists the ids there are.
inline const Observer& observer_by_name(std::string_view id) {
    std::string known;
    for (const Observer* observer : named_observers()) {
        if (observer->id() == id) {
            return *observer;
        }
        known += (known.empty() ? "" : ", ") + observer->id();
    }
    throw Error(ErrorKind::domain, "observer", "\"" + std::string(id) + "\"", "one of " + known);
}

}  // namespace samelight
