#pragma once
// Names and figures that every part of the page on metamerism says alike.
#include <cstddef>
#include <string>

#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// A difference with one place.
std::string de_said(double value);

/// The names of a pair's displays, of at most so many characters each.
std::string names_of_pair(const MetamerismAnswer& answer, std::size_t pair, std::size_t room);

/// What the figures of a pair are those of, in words for a sentence about several pairs or one.
std::string basis_said(const MetamerismAnswer& answer, std::size_t pair);

}  // namespace samelight::report
