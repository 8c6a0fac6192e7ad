#pragma once
// What pages and JSON say as a warning that no lower room gives.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::report {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 1> report_warning_kinds{{
    // How the file of ages was read, one of the reader's sentences.
    {"ages_read", "understood:text"},
}};

}  // namespace samelight::report
