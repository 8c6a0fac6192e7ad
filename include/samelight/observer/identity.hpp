#pragma once
// The observer as part of a value: by type for the standard ones, by name for the rest.
#include <string>
#include <string_view>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What every observer-dependent value carries: nothing but its type for a standard observer.
template <class O>
class OfObserver {
  public:
    /// The identity of the observer, the same text as Observer::id().
    [[nodiscard]] static constexpr std::string_view observer_id() noexcept { return O::id; }
    friend bool operator==(const OfObserver&, const OfObserver&) = default;
};

/// For Any: the identity, kept and checked at run time.
template <>
class OfObserver<Any> {
  public:
    explicit OfObserver(std::string_view id) : id_(id) {}
    [[nodiscard]] std::string_view observer_id() const noexcept { return id_; }
    friend bool operator==(const OfObserver&, const OfObserver&) = default;

  private:
    std::string id_;
};

/// Throws Error (observer) naming `where` and both observers unless the two values belong to the same one. Costs nothing for
/// standard observers, whose values cannot even meet.
template <class O>
void require_same_observer(const char* where, const OfObserver<O>& a, const OfObserver<O>& b) {
    if constexpr (std::same_as<O, Any>) {
        if (a.observer_id() != b.observer_id()) {
            throw Error(ErrorKind::observer, where,
                        "values of " + std::string(a.observer_id()) + " and of " +
                            std::string(b.observer_id()),
                        "values of one observer");
        }
    }
}

namespace detail {

/// The way back from Any to a tag, checked.
template <StandardObserver O>
OfObserver<O> checked_tag(const char* where, const OfObserver<Any>& value) {
    if (value.observer_id() != O::id) {
        throw Error(ErrorKind::observer, where, "a value of " + std::string(value.observer_id()),
                    "a value of " + std::string(O::id));
    }
    return {};
}

/// The tag or identity that the result of a computation with `observer_id` carries.
template <class O>
OfObserver<O> identity_of(const char* where, std::string_view observer_id) {
    if constexpr (std::same_as<O, Any>) {
        return OfObserver<Any>(observer_id);
    } else {
        return checked_tag<O>(where, OfObserver<Any>(observer_id));
    }
}

}  // namespace detail

}  // namespace samelight
