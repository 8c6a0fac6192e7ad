#pragma once
// Causes that bend the whole picture: which of them, and how far, explain the readings best. One after another, each judged beside the others.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/faults/display_model.hpp"
#include "samelight/check/faults/fault.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A cause as something that the model can do.
struct ModelCause {
    FaultKind kind;
    FaultChannel channel = FaultChannel::none;
    /// What it moves, and from where the search begins; more than one start are tried one by one.
    std::vector<ModelNumber> numbers = {};
    std::vector<std::vector<double>> starts = {};
    ModelRange range = ModelRange::as_meant;
    ModelHeadroom headroom = ModelHeadroom::none;
    std::optional<SignalCurve> curve = {};
    std::optional<RgbEncoding> encoding = {};
    ModelGamut gamut = ModelGamut::signals;
    /// Which signal each channel has.
    std::array<std::size_t, 3> order = {0, 1, 2};
    /// Name of the encoding, the curve or the exchanged channels.
    std::string other = {};
};

/// What was found of the whole picture.
struct ModelExplanation {
    /// The model with all causes in it.
    ModelState state;
    std::vector<Fault> faults;
};

/// Which of the signals the panel of a state can't show: those whose light its primaries cut by a CIELAB distance of 0.5 or more. None where it shows
/// signals as its own. Own rule.
SAMELIGHT_API std::vector<std::size_t> outside_gamut(const DisplayModel& model,
                                                     const ModelState& state);

/// The causes that a model about this display can have. Own list.
SAMELIGHT_API std::vector<ModelCause> model_causes(const IntendedDisplay& intended,
                                                   WhiteLevel white);

/// How the whole picture is looked at.
struct ExplainOptions {
    /// What is known already, and stays: its merged levels.
    ModelState begin = {};
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// Adds causes, of those that explain most the one with the fewest numbers first, as long as one explains enough; then takes away what the others
/// have made needless. Looks at 96 points at most, evenly of all. Throws what IntendedDisplay does. Own method.
SAMELIGHT_API ModelExplanation explain(const ProofReadings& readings,
                                       const IntendedDisplay& intended, WhiteLevel white,
                                       const ExplainOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/model_causes.ipp"
#include "samelight/check/faults/impl/model_search.ipp"
#endif
