#pragma once
// What a refusal asks where a reading is no light: whether columns are exchanged, and which. Own rules.
#include <array>
#include <optional>
#include <span>
#include <string>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Mean X, Y, Z of one instrument's readings of a patch, whatever they are; nothing where there are none.
std::optional<std::array<double, 3>> mean_of(std::span<const InstrumentReading> readings,
                                             Instrument instrument, const std::string& name);

}  // namespace detail

/// What to ask where a reading has no luminance, for a refusal: "are Y and Z exchanged in both instruments?"; empty where no exchange of columns would
/// make a light of it.
/// @param readings  all there are, as given
/// @param none      the one without luminance
SAMELIGHT_API std::string ask_for_columns(std::span<const InstrumentReading> readings,
                                          const InstrumentReading& none,
                                          const PatchNames& names = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/column_question.ipp"
#endif
