#pragma once
// Warnings in English: the one place in which their codes and facts become sentences.
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {

/// What a warning says to people, on one line, naming no program and no option. Where `warning` is of an unknown code, or lacks a fact that
/// its sentence needs (a file may hold anything), its plain_line(). The fact `message`, which files of earlier versions hold, is said as
/// it is. Throws nothing but std::bad_alloc.
std::string sentence(const Warning& warning);

/// A warning without a sentence of its own: "code: name value, name value.", numbers with all their digits, on one line.
/// Throws nothing but std::bad_alloc.
std::string plain_line(const Warning& warning);

/// What the sampling guard found in one spectrum: what is wrong, or that nothing is, why, and the sampling that would do. Throws nothing but
/// std::bad_alloc.
std::string sentence(const SamplingVerdict& verdict);

}  // namespace samelight::report
