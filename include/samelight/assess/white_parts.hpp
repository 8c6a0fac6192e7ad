#pragma once
// The part of each display in the answer about whites: targets, people, uncertainty and verdict, for many displays at a time.
#include <span>
#include <string>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What is asked of one panel's answer besides the panel: the whole request and its observers.
struct WhiteAsked {
    const assess::WhiteRequest& request;
    const std::vector<Observer>& observers;
};

/// Throws Error (domain), `where` first, for a light that nobody sees: it has no colour.
void require_seen(const SampledLight& light, const std::string& where);

/// Throws Error (domain), white_now_place first, where one of the whites as they stand lacks the light of a primary for one of the
/// observers: it is no white of that panel.
void require_whites_now(const WhiteAsked& asked, std::span<const PanelAsked> panels);

/// The displays, each with the light that its white starts from.
std::vector<PanelAsked> panels_asked(std::span<const assess::WhitePanel> panels);

/// The displays' parts, in their order. An error is said of the display that it is about.
std::vector<assess::PanelPart> white_parts(const WhiteAsked& asked,
                                           std::span<const PanelAsked> panels,
                                           const assess::WhiteAnswer& answer);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white_parts.ipp"
#endif
