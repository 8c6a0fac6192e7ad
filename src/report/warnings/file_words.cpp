// What is doubtful about a file, in words.
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "report/warnings/facts_said.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string negative_said(const FactsSaid& f) {
    const std::vector<std::string> columns = f.texts("columns");
    const std::vector<double> lowest = f.numbers("lowest");
    if (columns.empty() || lowest.size() != columns.size()) {
        f.lack();
        return "";
    }
    std::string list;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        list += (list.empty() ? "" : ", ") + in_quotes(columns[i]) + " (down to " +
                with_digits(lowest[i], 3) + ")";
    }
    return "Negative values are kept as noise: " + list + ".";
}

std::string scales_said(const FactsSaid& f) {
    return in_quotes(f.text("weakest")) + " holds " + f.rough("share") + " of the light of " +
           in_quotes(f.text("strongest")) +
           ", but on no display do red, green, blue and white differ by a factor of 1000: they "
           "can't be in one unit. Their common scale is taken as unknown.";
}

std::string step_said(const FactsSaid& f) {
    return "No wavelength between " + f.number("from_nm") + " and " + f.number("to_nm") +
           " nm: narrow peaks may be missed.";
}

std::string otherwise_said(const FactsSaid& f) {
    return f.text("file") + ": " + in_quotes(f.text("heading")) + " was taken for " +
           f.text("light") + ", as asked, though its heading says otherwise. Check which it is.";
}

std::string repeats_said(const FactsSaid& f) {
    return "The repeats of " + in_quotes(f.text("column")) + " spread by " +
           f.number("spread_percent", 2) + " % in area.";
}

std::string unit_said(const FactsSaid& f) {
    return "The unit " + in_quotes(f.text("unit")) +
           " isn't one of spectral radiance: values are taken as relative.";
}

std::string flagged_said(const FactsSaid& f) {
    const std::string readings = f.number("readings", 0);
    return readings + (readings == "1" ? " reading" : " readings") + " with a flag, the first " +
           in_quotes(f.text("flag")) + " in line " + f.number("line", 0) +
           ". All were used: take the rows out where they should not be.";
}

std::string unread_said(const FactsSaid& f) {
    const std::string rows = f.number("rows", 0);
    return rows + (rows == "1" ? " row" : " rows") +
           " of the list not read yet, the first in line " + f.number("line", 0) + ": left out.";
}

std::string modes_said(const FactsSaid& f) {
    return "The readings are of " + f.number("modes", 0) +
           " picture modes; a correction is for one.";
}

std::string windows_said(const FactsSaid& f) {
    return "The readings are of windows from " + f.number("least_percent") + " to " +
           f.number("most_percent") + " % of the screen; a correction is for one.";
}

std::string same_rows_said(const FactsSaid& f) {
    const std::string rows = f.number("rows", 0);
    return f.text("file") + ": " + rows + (rows == "1" ? " row says" : " rows say") +
           " the same as an earlier one to the last digit, the first in line " +
           f.number("line", 0) +
           ", and counted once. A copy tells nothing of the noise: read repeats anew.";
}

std::string window_shares_said(const FactsSaid& f) {
    return f.text("file") + ": windows of " + f.number("least") + " to " + f.number("most") +
           ", taken as per cent of the screen. If they are shares of 1, write them times 100.";
}

std::string level_shares_said(const FactsSaid& f) {
    return f.text("file") + ": " + f.number("levels", 0) + " levels, none above " +
           f.number("largest") +
           ", taken as per cent of the signal. If they are shares of 1, write them times 100.";
}

std::string limited_codes_said(const FactsSaid& f) {
    return f.text("file") + ": codes of exactly " + f.number("least", 0) + " to " +
           f.number("most", 0) +
           " look like limited range, and were taken for full range. Name it: a column range "
           "(limited or full).";
}

constexpr std::array<WarningWords, 14> files_catalogue{
    {{"negative_noise", negative_said},
     {"scales_differ", scales_said},
     {"coarse_step", step_said},
     {"light_called_otherwise", otherwise_said},
     {"repeats_differ", repeats_said},
     {"unit_not_radiance", unit_said},
     {"flagged", flagged_said},
     {"unread_rows", unread_said},
     {"several_modes", modes_said},
     {"several_windows", windows_said},
     {"same_rows", same_rows_said},
     {"windows_look_like_shares", window_shares_said},
     {"levels_look_like_shares", level_shares_said},
     {"codes_look_limited", limited_codes_said}}};

}  // namespace

std::span<const WarningWords> words_of_files() { return files_catalogue; }

}  // namespace samelight::report
