#pragma once
// The options by which a line says what the display is meant to show.
#include <CLI/CLI.hpp>

#include "samelight/report/check/proof_typed.hpp"

namespace samelight::command {

/// Adds --white, --encoding, --curve, --peak and --black.
void add_intent_options(CLI::App& to, report::IntentTyped& typed);

}  // namespace samelight::command
