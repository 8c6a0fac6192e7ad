#pragma once
// Where the search of check/faults/model_causes.hpp stands.

#include <algorithm>
#include <cstddef>
#include <vector>

#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/faults/model_fit.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The causes that are in the model so far.
struct ModelSearch {
    const ModelFit& fit;
    const std::vector<ModelCause>& causes;
    WhiteLevel white;
    std::vector<std::size_t> chosen = {};
    ModelState state = {};
    double misfit = 0.0;

    /// All numbers of these causes, and the scale where the white's level is the measured one.
    [[nodiscard]] std::vector<ModelNumber> numbers(const std::vector<std::size_t>& of) const {
        std::vector<ModelNumber> result;
        if (white == WhiteLevel::as_measured) {
            result.push_back(ModelNumber::scale);
        }
        for (const std::size_t c : of) {
            for (const ModelNumber n : causes[c].numbers) {
                if (std::find(result.begin(), result.end(), n) == result.end()) {
                    result.push_back(n);
                }
            }
        }
        return result;
    }
    /// A discrete choice that another cause has made already, or the very same numbers.
    [[nodiscard]] bool excluded(std::size_t candidate) const {
        const ModelCause& c = causes[candidate];
        return std::any_of(chosen.begin(), chosen.end(), [&](std::size_t other) {
            const ModelCause& o = causes[other];
            return other == candidate || (c.curve && o.curve) || (c.encoding && o.encoding) ||
                   (c.range != ModelRange::as_meant && o.range != ModelRange::as_meant);
        });
    }
};

}  // namespace samelight::detail
