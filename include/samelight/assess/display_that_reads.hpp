#pragma once
// Displays of which only readings are known: as a unit of a named type, or as one of each type that reads so.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/white_request.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Says which standard's primaries these are, where they are: a picture mode that holds any panel to it makes them so, and then they don't tell
/// its type.
std::optional<Warning> primaries_of_standard(const PrimaryReadings& readings);

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

/// A display of `model`'s type that reads so: the type's spectra bent to the readings, and with them the units that read alike, by which its
/// target's range is told. Readings that no unit of the type gives are believed less (believable()), and that is said: `readings_unlike_type`,
/// or, where a primary is over .01 in x, y off, `readings_of_another_type`. `primaries_of_standard` where they may be a picture mode's, and
/// a white that nobody calls one, `read_white_is_no_white`, are said, too.
/// Takes a tenth of a second. Throws Error (domain), `name` first, where most of the type's units can't make the white; as require_readings()
/// and Panel.
SAMELIGHT_API WhitePanel display_that_reads(const std::string& name,
                                            const PrimaryReadings& readings,
                                            const GenericModel& model,
                                            const Sampling& sampling = {});

/// The same for a display of unknown type: one for each type that reads so, likeliest first, each called "name as type". A type is left out
/// where none of its units reads so (or, where no type's does, none reads so as nearly as the nearest type's), where most of its units can't
/// make the white, where its probability is below 1 in 100 (each type as likely before, and `WhitePanel::probability` is what the readings make
/// of that), or, where red, green and blue together are under nine tenths as bright as white, where it has no white emitter.
/// Throws Error (domain), `name` first, where no type is left; and as display_that_reads().
/// threads: that the work is divided over, type by type; 0: as many as the machine has (threads_meant()). No digit depends on it.
/// Source: own; Bayes' rule with Laplace's approximation (BentUnit::log_likelihood).
SAMELIGHT_API std::vector<WhitePanel> displays_that_read(const std::string& name,
                                                         const PrimaryReadings& readings,
                                                         const Sampling& sampling = {},
                                                         std::size_t threads = 1);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/display_that_reads.ipp"
#endif
