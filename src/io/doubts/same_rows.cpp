#include "io/doubts/same_rows.hpp"

#include <map>
#include <optional>
#include <tuple>

#include "samelight/io/text_for_people.hpp"

namespace samelight::io::detail {
namespace {

/// What a row says, but for its place in the file and how often the patch was read before.
using Said = std::tuple<std::string, std::array<double, 3>, std::optional<std::array<double, 3>>,
                        std::optional<double>, std::string, std::string, std::optional<double>>;

Said said_by(const PatchReading& reading) {
    return {reading.patch, reading.xyz,      reading.signal, reading.window_pct,
            reading.mode,  reading.position, reading.time_s};
}

/// How many rows that say different things have each time.
std::map<double, std::size_t> rows_by_time(const std::map<Said, std::size_t>& seen) {
    std::map<double, std::size_t> count;
    for (const auto& one : seen) {
        if (const auto& time_s = std::get<6>(one.first)) {
            ++count[*time_s];
        }
    }
    return count;
}

}  // namespace

void leave_out_copies(const std::string& source, const std::vector<std::size_t>& digits,
                      std::vector<PatchReading>& rows, std::vector<Warning>& warnings) {
    constexpr std::size_t digits_of_noise = 5;
    std::map<Said, std::size_t> seen;
    for (const PatchReading& row : rows) {
        ++seen[said_by(row)];
    }
    if (seen.size() == rows.size()) {
        return;
    }
    const auto by_time = rows_by_time(seen);
    std::map<Said, std::size_t> kept_once;
    std::vector<PatchReading> kept;
    std::size_t copies = 0;
    std::size_t first_line = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const bool again = kept_once[said_by(rows[i])]++ > 0;
        const bool own_time = rows[i].time_s && by_time.at(*rows[i].time_s) == 1;
        if (!again || (digits[i] < digits_of_noise && !own_time)) {
            kept.push_back(std::move(rows[i]));
            continue;
        }
        first_line = copies == 0 ? rows[i].line : first_line;
        ++copies;
    }
    rows = std::move(kept);
    if (copies > 0) {
        warnings.push_back(Warning{"same_rows",
                                   {{"file", harmless(source)},
                                    {"rows", static_cast<double>(copies)},
                                    {"line", static_cast<double>(first_line)}}});
    }
}

}  // namespace samelight::io::detail
