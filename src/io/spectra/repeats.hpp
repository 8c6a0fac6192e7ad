#pragma once
// Which lights of a file are repeats of one another.
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/column_question.hpp"

namespace samelight::io::detail {

/// Lights of a file that are one light.
struct RepeatGroup {
    std::string name;                  ///< of the light, without a repeat's number
    std::vector<std::size_t> members;  ///< their places in the file, ascending; at least one
};

/// Groups names: the same name (capitals or not), with or without "(2)", "[2]", "#2" or "repeat 2" behind it; or a
/// role with a bare number behind it, a letter only where all names are roles. In order of their first members. A
/// name that stands alone stays as it is, number and all.
std::vector<RepeatGroup> group_repeats(const std::vector<std::string>& names);

/// The mean of some spectra, sample by sample.
std::vector<double> mean_of(const std::vector<std::vector<double>>& values,
                            const std::vector<std::size_t>& members);

/// The member that lies further than 20 % from the mean of all (sum of differences over sum of the mean's magnitudes, beyond what its
/// own noise adds to it), if there is one.
struct Outlier {
    std::size_t member = 0;
    double distance = 0.0;
};
std::optional<Outlier> find_outlier(const std::vector<std::vector<double>>& values,
                                    const std::vector<std::size_t>& members,
                                    std::span<const double> mean);

/// Standard deviation (n - 1) of the members' areas over their mean area; 0 for one member, or where the mean isn't
/// above 0.
double spread_of(const std::vector<std::vector<double>>& values,
                 const std::vector<std::size_t>& members, std::span<const double> wavelengths_nm);

}  // namespace samelight::io::detail
