#pragma once
// Many changes compiled into one program, of which the environment chooses one as it runs: put into the copy of the tree by tools/mutate.
//   SAMELIGHT_MUTANT=17    change 17 is made; without it, or 0: none
//   SAMELIGHT_MUTANT=-1    none is made, but which of them are reached is kept, and added at the end to the file SAMELIGHT_MUTANT_REACHED
// Each form stands where an operator stood and has its precedence: `a < b` becomes `a < mutant::less_or_equal(mutant::late(17)) < b`.
#include <concepts>
#include <cstdio>
#include <cstdlib>
#include <iterator>
#include <type_traits>
#include <utility>

namespace [[gnu::visibility("default")]] mutant {

inline constexpr int most = 16384;
inline unsigned char reached[most];

inline int read_chosen() {
    const char* text = std::getenv("SAMELIGHT_MUTANT");
    return text != nullptr ? std::atoi(text) : 0;
}
inline const int chosen = read_chosen();

inline bool on(int id) {
    if (chosen == id) {
        return true;
    }
    if (chosen < 0) {
        reached[id] = 1;
    }
    return false;
}

inline void keep_reached() {
    const char* path = std::getenv("SAMELIGHT_MUTANT_REACHED");
    std::FILE* file = chosen < 0 && path != nullptr ? std::fopen(path, "a") : nullptr;
    if (file == nullptr) {
        return;
    }
    for (int id = 0; id < most; ++id) {
        if (reached[id] != 0) {
            std::fprintf(file, "%d\n", id);
        }
    }
    std::fclose(file);
}
struct Keeper {
    ~Keeper() { keep_reached(); }
};
inline const Keeper keeper;

/// Whether a change is made: `late` where the place is never a constant's, `early` in functions that the compiler may also run itself.
struct Late {
    int id;
    bool on() const { return mutant::on(id); }
};
inline Late late(int id) { return {id}; }
struct Early {
    int id;
    constexpr bool on() const { return !std::is_constant_evaluated() && mutant::on(id); }
};
constexpr Early early(int id) { return {id}; }

template <class S, class T>
constexpr T value(S s, T original, T changed) {
    return s.on() ? changed : original;
}

/// What an operator's left side becomes until the right one is there.
template <class Operator, class L>
struct Left {
    Operator op;
    const L& l;
};

template <class T>
concept number = std::is_arithmetic_v<T>;
template <class A, class B>
concept one_type = std::same_as<A, B>;
template <class L>
concept no_place =
    !std::is_pointer_v<L> && !std::is_array_v<L> && !std::input_or_output_iterator<L>;

// ---- + and -, one for the other -----------------------------------------------------------------------

template <class S>
struct Minus {
    S s;
};
template <class S>
constexpr Minus<S> minus(S s) {
    return {s};
}
template <class L, class S>
requires no_place<L>
constexpr Left<Minus<S>, L> operator+(const L& l, Minus<S> op) { return {op, l}; }
template <class L, class S, class R>
requires requires(const L& l, const R& r) {
    l + r;
    l - r;
}
constexpr auto operator+(Left<Minus<S>, L> a, const R& r) {
    if constexpr (one_type<decltype(a.l + r), decltype(a.l - r)>) {
        return a.op.s.on() ? a.l - r : a.l + r;
    } else {
        return a.l + (a.op.s.on() ? -1.0 : 1.0) * r;
    }
}

template <class S>
struct Plus {
    S s;
};
template <class S>
constexpr Plus<S> plus(S s) {
    return {s};
}
template <class L, class S>
requires no_place<L>
constexpr Left<Plus<S>, L> operator-(const L& l, Plus<S> op) { return {op, l}; }
template <class L, class S, class R>
requires requires(const L& l, const R& r) {
    l + r;
    l - r;
}
constexpr auto operator-(Left<Plus<S>, L> a, const R& r) {
    if constexpr (one_type<decltype(a.l + r), decltype(a.l - r)>) {
        return a.op.s.on() ? a.l + r : a.l - r;
    } else {
        return a.l - (a.op.s.on() ? -1.0 : 1.0) * r;
    }
}

// ---- * and /, one for the other -----------------------------------------------------------------------

template <class S>
struct Over {
    S s;
};
template <class S>
constexpr Over<S> over(S s) {
    return {s};
}
template <class L, class S>
constexpr Left<Over<S>, L> operator*(const L& l, Over<S> op) {
    return {op, l};
}
template <class L, class S, class R>
requires(std::floating_point<R> || std::floating_point<L> ||
         (std::integral<L> && std::integral<R>) ||
         requires(const L& l, const R& r) {
             { l / r } -> std::same_as<decltype(l * r)>;
         }) constexpr auto
operator*(Left<Over<S>, L> a, const R& r) {
    if constexpr (std::integral<L> && std::integral<R>) {
        return a.op.s.on() ? (r != 0 ? a.l / r : a.l * r) : a.l * r;
    } else if constexpr (requires {
                             { a.l / r } -> std::same_as<decltype(a.l * r)>;
                         }) {
        return a.op.s.on() ? a.l / r : a.l * r;
    } else if constexpr (std::floating_point<R>) {
        return a.l * (a.op.s.on() ? R(1) / r : r);
    } else {
        return (a.op.s.on() ? L(1) / a.l : a.l) * r;
    }
}

template <class S>
struct Times {
    S s;
};
template <class S>
constexpr Times<S> times(S s) {
    return {s};
}
template <class L, class S>
constexpr Left<Times<S>, L> operator/(const L& l, Times<S> op) {
    return {op, l};
}
template <class L, class S, class R>
requires(std::floating_point<R> || (std::integral<L> && std::integral<R>) ||
         requires(const L& l, const R& r) {
             { l* r } -> std::same_as<decltype(l / r)>;
         }) constexpr auto
operator/(Left<Times<S>, L> a, const R& r) {
    if constexpr (requires {
                      { a.l* r } -> std::same_as<decltype(a.l / r)>;
                  }) {
        return a.op.s.on() ? a.l * r : a.l / r;
    } else {
        return a.l / (a.op.s.on() ? R(1) / r : r);
    }
}

// ---- += and -=, *= and /= -------------------------------------------------------------------------------

template <class S>
struct Negated {
    S s;
    template <class R>
    requires requires(const R& r) { -r; }
    constexpr auto turned(const R& r) const {
        if constexpr (number<R>) {
            return static_cast<R>(s.on() ? -r : r);
        } else if constexpr (one_type<decltype(-r), R>) {
            return s.on() ? -r : r;
        } else {
            return (s.on() ? -1.0 : 1.0) * r;
        }
    }
    template <class R>
    constexpr auto operator+=(const R& r) const {
        return turned(r);
    }
    template <class R>
    constexpr auto operator-=(const R& r) const {
        return turned(r);
    }
};
template <class S>
constexpr Negated<S> negated(S s) {
    return {s};
}

template <class S>
struct Inverted {
    S s;
    template <std::floating_point R>
    constexpr R operator*=(const R& r) const {
        return s.on() ? R(1) / r : r;
    }
    template <std::floating_point R>
    constexpr R operator/=(const R& r) const {
        return s.on() ? R(1) / r : r;
    }
};
template <class S>
constexpr Inverted<S> inverted(S s) {
    return {s};
}

// ---- - and ! before a value, left out -----------------------------------------------------------------

template <class S>
struct Unsigned {
    S s;
    template <class R>
    requires requires(const R& r) { -r; }
    constexpr auto operator->*(const R& r) const {
        if constexpr (number<R>) {
            return static_cast<decltype(-r)>(s.on() ? r : -r);
        } else if constexpr (one_type<decltype(-r), R>) {
            return s.on() ? r : -r;
        } else {
            return (s.on() ? 1.0 : -1.0) * r;
        }
    }
};
template <class S>
constexpr Unsigned<S> without_sign(S s) {
    return {s};
}

template <class S>
struct Affirmed {
    S s;
    template <class R>
    constexpr bool operator->*(const R& r) const {
        return s.on() ? static_cast<bool>(r) : !r;
    }
};
template <class S>
constexpr Affirmed<S> without_not(S s) {
    return {s};
}

// ---- Comparisons ------------------------------------------------------------------------------------------

#define MUTANT_COMPARISON(Name, name, from, to)                           \
    template <class S>                                                    \
    struct Name {                                                         \
        S s;                                                              \
    };                                                                    \
    template <class S>                                                    \
    constexpr Name<S> name(S s) {                                         \
        return {s};                                                       \
    }                                                                     \
    template <class L, class S>                                           \
    constexpr Left<Name<S>, L> operator from(const L& l, Name<S> op) {    \
        return {op, l};                                                   \
    }                                                                     \
    template <class L, class S, class R>                                  \
    requires requires(const L& l, const R& r) {                           \
        l from r;                                                         \
        l to r;                                                           \
    }                                                                     \
    constexpr auto operator from(const Left<Name<S>, L>& a, const R& r) { \
        return a.op.s.on() ? a.l to r : a.l from r;                       \
    }
MUTANT_COMPARISON(LessToLessOrEqual, less_to_less_or_equal, <, <=)
MUTANT_COMPARISON(LessToNotLess, less_to_greater_or_equal, <, >=)
MUTANT_COMPARISON(LessOrEqualToLess, less_or_equal_to_less, <=, <)
MUTANT_COMPARISON(LessOrEqualToGreater, less_or_equal_to_greater, <=, >)
MUTANT_COMPARISON(GreaterToGreaterOrEqual, greater_to_greater_or_equal, >, >=)
MUTANT_COMPARISON(GreaterToLessOrEqual, greater_to_less_or_equal, >, <=)
MUTANT_COMPARISON(GreaterOrEqualToGreater, greater_or_equal_to_greater, >=, >)
MUTANT_COMPARISON(GreaterOrEqualToLess, greater_or_equal_to_less, >=, <)
MUTANT_COMPARISON(EqualToUnequal, equal_to_unequal, ==, !=)
MUTANT_COMPARISON(UnequalToEqual, unequal_to_equal, !=, ==)
#undef MUTANT_COMPARISON

}  // namespace mutant
