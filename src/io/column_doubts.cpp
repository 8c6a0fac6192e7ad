#include "samelight/io/column_doubts.hpp"

#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/doubts.hpp"

namespace samelight::io {

std::vector<Warning> column_doubts(const LightColumn& column) {
    std::vector<Warning> doubts;
    const double noise = relative_noise(column.light);
    if (noise > 0.01) {
        doubts.push_back(
            {"noisy", column.name + ": noise of up to " + to_text(100.0 * noise, 1) +
                          " % of the peak in each sample. Measure longer, or more often."});
    }
    if (const std::size_t clipped = clipped_samples(column.light)) {
        doubts.push_back(
            {"clipped",
             column.name + ": " + std::to_string(clipped) +
                 " neighbouring samples share the largest value: the instrument may have been saturated."});
    }
    return doubts;
}

}  // namespace samelight::io
