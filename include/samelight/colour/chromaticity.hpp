#pragma once
// Chromaticity x, y and its two uniform relatives; positions and offsets are different types.
#include <cmath>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The diagrams a chromaticity can be given in; each is a kind of its own and does not mix with the others.
struct DiagramXy {
    static constexpr const char* name = "Chromaticity (x, y)";
};
/// u' = 4 X / (X + 15 Y + 3 Z), v' = 9 Y / (X + 15 Y + 3 Z): CIE 1976.
struct DiagramUv1976 {
    static constexpr const char* name = "Chromaticity (u', v')";
};
/// u = u', v = 2/3 v': CIE 1960, in which colour temperature is defined.
struct DiagramUv1960 {
    static constexpr const char* name = "Chromaticity (u, v)";
};

namespace detail {

/// Throws Error (domain) naming `where` unless both numbers are finite.
SAMELIGHT_API void require_finite(const char* where, double first, double second);

}  // namespace detail

/// The difference of two chromaticities of observer O in one diagram: two signed numbers without unit, any finite values; throws
/// Error (domain) for others.
template <class O, class Diagram>
class PlaneOffset : public OfObserver<O> {
  public:
    /// From its two numbers.
    PlaneOffset(double first, double second) requires StandardObserver<O> : first_(first),
                                                                            second_(second) {
        detail::require_finite(Diagram::name, first_, second_);
    }
    PlaneOffset(OfObserver<O> observer, double first, double second)
        : OfObserver<O>(std::move(observer)), first_(first), second_(second) {
        detail::require_finite(Diagram::name, first_, second_);
    }

    /// The difference in x, u or u', and in y, v or v'.
    [[nodiscard]] double first() const noexcept { return first_; }
    [[nodiscard]] double second() const noexcept { return second_; }
    /// Length, without unit.
    [[nodiscard]] double distance() const { return std::hypot(first_, second_); }

    friend PlaneOffset operator+(const PlaneOffset& a, const PlaneOffset& b) {
        require_same_observer<O>(Diagram::name, a, b);
        return {a, a.first_ + b.first_, a.second_ + b.second_};
    }
    friend PlaneOffset operator*(double factor, const PlaneOffset& a) {
        return {a, factor * a.first_, factor * a.second_};
    }
    friend bool operator==(const PlaneOffset&, const PlaneOffset&) = default;

  private:
    double first_;
    double second_;
};

/// A chromaticity of observer O in one diagram: two numbers without unit, any finite values; throws Error (domain) for others.
template <class O, class Diagram>
class PlanePosition : public OfObserver<O> {
  public:
    /// From its two numbers.
    PlanePosition(double first, double second) requires StandardObserver<O> : first_(first),
                                                                              second_(second) {
        detail::require_finite(Diagram::name, first_, second_);
    }
    PlanePosition(OfObserver<O> observer, double first, double second)
        : OfObserver<O>(std::move(observer)), first_(first), second_(second) {
        detail::require_finite(Diagram::name, first_, second_);
    }
    /// From a standard observer's value to Any.
    template <StandardObserver S>
    requires std::same_as<O, Any> PlanePosition(
        const PlanePosition<S, Diagram>& other)  // NOLINT(google-explicit-constructor)
        : OfObserver<Any>(S::id), first_(other.first()), second_(other.second()) {}

    /// x, u or u', and y, v or v'; by their own names in their own diagram.
    [[nodiscard]] double first() const noexcept { return first_; }
    [[nodiscard]] double second() const noexcept { return second_; }
    [[nodiscard]] double x() const noexcept requires std::same_as<Diagram, DiagramXy> {
        return first_;
    }
    [[nodiscard]] double y() const noexcept requires std::same_as<Diagram, DiagramXy> {
        return second_;
    }
    [[nodiscard]] double u() const noexcept requires(!std::same_as<Diagram, DiagramXy>) {
        return first_;
    }
    [[nodiscard]] double v() const noexcept requires(!std::same_as<Diagram, DiagramXy>) {
        return second_;
    }

    /// This value as one of standard observer S. Throws Error (observer) where it belongs to another.
    template <StandardObserver S>
    [[nodiscard]] PlanePosition<S, Diagram> as() const requires std::same_as<O, Any> {
        return {detail::checked_tag<S>("Chromaticity::as", *this), first_, second_};
    }

    friend PlaneOffset<O, Diagram> operator-(const PlanePosition& a, const PlanePosition& b) {
        require_same_observer<O>(Diagram::name, a, b);
        return {a, a.first_ - b.first_, a.second_ - b.second_};
    }
    friend PlanePosition operator+(const PlanePosition& a, const PlaneOffset<O, Diagram>& offset) {
        require_same_observer<O>(Diagram::name, a, offset);
        return {a, a.first_ + offset.first(), a.second_ + offset.second()};
    }
    friend bool operator==(const PlanePosition&, const PlanePosition&) = default;

  private:
    double first_;
    double second_;
};

template <class O>
using Chromaticity = PlanePosition<O, DiagramXy>;
template <class O>
using ChromaticityOffset = PlaneOffset<O, DiagramXy>;
template <class O>
using Uv1976 = PlanePosition<O, DiagramUv1976>;
template <class O>
using Uv1960 = PlanePosition<O, DiagramUv1960>;

/// x = X / (X + Y + Z), y = Y / (X + Y + Z). Throws Error (domain) where the sum isn't above 0. Source: CIE 15:2018, eq. 7.3.
template <class O>
Chromaticity<O> chromaticity(const Tristimulus<O>& t) {
    const double sum = t.X() + t.Y() + t.Z();
    if (!(sum > 0.0)) {
        throw Error(ErrorKind::domain, "chromaticity", "X + Y + Z = " + to_text(sum),
                    "a sum above 0");
    }
    return {t, t.X() / sum, t.Y() / sum};
}

namespace detail {

/// 4x and ky over -2x + 12y + 3: the projective map behind both uniform diagrams.
template <class Result, class O>
Result uniform_diagram(const char* where, const Chromaticity<O>& c, double k) {
    const double denominator = -2.0 * c.x() + 12.0 * c.y() + 3.0;
    if (denominator == 0.0) {
        throw Error(ErrorKind::domain, where, "-2x + 12y + 3 = 0", "a chromaticity off that line");
    }
    return {c, 4.0 * c.x() / denominator, k * c.y() / denominator};
}

}  // namespace detail

/// u', v' of the 1976 uniform diagram. Throws Error (domain) on the line -2x + 12y + 3 = 0. Source: CIE 15:2018, eq. 8.13-8.14.
template <class O>
Uv1976<O> uv1976(const Chromaticity<O>& c) {
    return detail::uniform_diagram<Uv1976<O>>("uv1976", c, 9.0);
}

/// u, v of the 1960 diagram, in which colour temperature is defined. Throws as uv1976. Source: CIE 15:2018, 9.4 (u = u', v = 2/3 v').
template <class O>
Uv1960<O> uv1960(const Chromaticity<O>& c) {
    return detail::uniform_diagram<Uv1960<O>>("uv1960", c, 6.0);
}

namespace detail {

template <class O>
Chromaticity<O> from_uv1960(const OfObserver<O>& observer, double u, double v) {
    const double denominator = 2.0 * u - 8.0 * v + 4.0;
    if (denominator == 0.0) {
        throw Error(ErrorKind::domain, "chromaticity", "u, v on the line 2u - 8v + 4 = 0",
                    "a chromaticity off that line");
    }
    return {observer, 3.0 * u / denominator, 2.0 * v / denominator};
}

}  // namespace detail

/// x, y from u, v (1960); the inverse of uv1960 to 2e-15 for real colours. Throws Error (domain) at infinity. Source: CIE 15:2018
/// (definition of the 1960 diagram, solved for x and y).
template <class O>
Chromaticity<O> chromaticity(const Uv1960<O>& c) {
    return detail::from_uv1960<O>(c, c.u(), c.v());
}

/// x, y from u', v' (1976); the inverse of uv1976 to 2e-15 for real colours. Throws Error (domain) at infinity. Source: CIE 15:2018
/// (definition of the 1976 diagram, solved for x and y).
template <class O>
Chromaticity<O> chromaticity(const Uv1976<O>& c) {
    return detail::from_uv1960<O>(c, c.u(), c.v() * (2.0 / 3.0));
}

/// Tristimulus values with chromaticity `c` and the given Y (any finite value). Throws Error (domain) where y is 0. Source: the definition
/// of x and y (CIE 15:2018).
template <class O>
Tristimulus<O> tristimulus(const Chromaticity<O>& c, double Y = 1.0) {
    if (c.y() == 0.0) {
        throw Error(ErrorKind::domain, "tristimulus", "y = 0",
                    "a chromaticity with y other than 0");
    }
    const double sum = Y / c.y();
    return {c, {c.x() * sum, Y, (1.0 - c.x() - c.y()) * sum}};
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/impl/chromaticity.ipp"
#endif
