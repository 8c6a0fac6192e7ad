#pragma once
// The bodies of metamerism/comparison.hpp.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const MatrixPair& PanelMatrix::pair(std::size_t i, std::size_t j) const {
    for (const MatrixPair& pair : pairs) {
        if (pair.first == std::min(i, j) && pair.second == std::max(i, j)) {
            return pair;
        }
    }
    throw Error(ErrorKind::domain, "PanelMatrix::pair",
                std::to_string(i) + " and " + std::to_string(j), "two panels of the list");
}

SAMELIGHT_INLINE Bought bought(const PanelMatrix& matrix, const MatrixPair& pair, Setting before,
                               Setting after) {
    const auto figures = [&](Setting setting) -> const PairFigures& {
        const auto at = std::find(matrix.settings.begin(), matrix.settings.end(), setting);
        if (at == matrix.settings.end()) {
            throw Error(ErrorKind::domain, "bought", "a setting that isn't in this matrix",
                        "one of its settings");
        }
        return pair.figures.at(static_cast<std::size_t>(at - matrix.settings.begin()));
    };
    const PairFigures& from = figures(before);
    const PairFigures& to = figures(after);
    return {from.white_de00.mean, to.white_de00.mean, from.colours_de00.mean, to.colours_de00.mean};
}

}  // namespace samelight
