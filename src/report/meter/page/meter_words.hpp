#pragma once
// What pages about meters have in common: cautions, and how the files were read.
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// A caution for each warning, numbered from 1. Noise below zero is none: it is told by how the files were read.
void add_meter_cautions(std::span<const Warning> warnings, Section& section);

/// How the files were read, noise below zero first, and `more` behind it; nothing where there is nothing to say.
void add_meter_reading(std::span<const Warning> warnings,
                       const std::vector<std::string>& understood, Section& section,
                       const std::string& more = "");

}  // namespace samelight::report
