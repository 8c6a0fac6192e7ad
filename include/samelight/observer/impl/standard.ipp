#pragma once
// The bodies of observer/standard.hpp.

#include <array>
#include <concepts>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/tables/cie1931_2deg.hpp"
#include "samelight/tables/cie1964_10deg.hpp"
#include "samelight/tables/cie2006_cones_10deg.hpp"
#include "samelight/tables/cie2006_cones_2deg.hpp"
#include "samelight/tables/cie2015_10deg.hpp"
#include "samelight/tables/cie2015_2deg.hpp"
#include "samelight/tables/judd_vos_1978.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

template <std::size_t N>
Observer from_table(std::string_view id, std::string_view title, const char* edition,
                    Receptors receptors, const Sampling& grid, const std::array<double, N>& a,
                    const std::array<double, N>& b, const std::array<double, N>& c) {
    return {OwnObserver{{std::string(id), std::string(title), edition, receptors}},
            grid,
            {Observer::Row(a.begin(), a.end()), Observer::Row(b.begin(), b.end()),
             Observer::Row(c.begin(), c.end())}};
}

SAMELIGHT_INLINE Observer load(Cie1931_2deg tag) {
    namespace t = tables::cie1931_2deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

SAMELIGHT_INLINE Observer load(Cie1964_10deg tag) {
    namespace t = tables::cie1964_10deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

SAMELIGHT_INLINE Observer load(Cie2015_2deg tag) {
    namespace t = tables::cie2015_2deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

SAMELIGHT_INLINE Observer load(Cie2015_10deg tag) {
    namespace t = tables::cie2015_10deg;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

SAMELIGHT_INLINE Observer load(JuddVos1978 tag) {
    namespace t = tables::judd_vos_1978;
    return from_table(tag.id, tag.title, t::edition, Receptors::colour_matching,
                      {t::first_nm, t::step_nm, t::count}, t::x, t::y, t::z);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const Observer& cie2006_cones_2deg() {
    namespace t = tables::cie2006_cones_2deg;
    static const Observer observer = detail::from_table(
        "cie2006-2deg", "CIE 2006 cone fundamentals, 2 degrees, 32 years", t::edition,
        Receptors::cones, {t::first_nm, t::step_nm, t::count}, t::l, t::m, t::s);
    return observer;
}

SAMELIGHT_INLINE const Observer& cie2006_cones_10deg() {
    namespace t = tables::cie2006_cones_10deg;
    static const Observer observer = detail::from_table(
        "cie2006-10deg", "CIE 2006 cone fundamentals, 10 degrees, 32 years", t::edition,
        Receptors::cones, {t::first_nm, t::step_nm, t::count}, t::l, t::m, t::s);
    return observer;
}

SAMELIGHT_INLINE std::array<const Observer*, 5> standard_observers() {
    return {&standard_observer<Cie1931_2deg>(), &standard_observer<Cie1964_10deg>(),
            &standard_observer<Cie2015_2deg>(), &standard_observer<Cie2015_10deg>(),
            &standard_observer<JuddVos1978>()};
}

SAMELIGHT_INLINE std::array<const Observer*, 7> named_observers() {
    const auto s = standard_observers();
    return {s[0], s[1], s[2], s[3], s[4], &cie2006_cones_2deg(), &cie2006_cones_10deg()};
}

}  // namespace samelight
