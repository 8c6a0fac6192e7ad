#include "samelight/io/ages_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/population.hpp"

#include <cmath>
#include <utility>

#include "io/files/file_bytes.hpp"
#include "io/text/number_table.hpp"

namespace samelight::io {
namespace {

constexpr double youngest = 20.0;
constexpr double oldest = 80.0;
/// More than there are; a file's largest size times this stays below what Ages can count to the last person.
constexpr double most_people_of_an_age = 1e10;

}  // namespace

NamedAges parse_ages(std::string_view bytes, const std::string& source) {
    const std::string shown_source = harmless(source);
    DecodedText decoded = decode_text(bytes, shown_source);
    const detail::Sheet sheet(decoded.text, shown_source, "a list of ages");
    std::vector<AgeCount> counts;
    double inside = 0.0;
    double outside = 0.0;
    const detail::NumberTable table =
        detail::number_table(sheet, 2, "two columns: age in years and number of people");
    for (const detail::NumberRow& row : table.rows) {
        const double age = row.values[0];
        const double count = row.values[1];
        if (!(age >= 0.0) || !(age <= 130.0)) {
            sheet.refuse(row.line, row.cells[0], to_text(age) + " years", "an age in years");
        }
        if (!(count >= 0.0) || count != std::floor(count)) {
            sheet.refuse(row.line, row.cells[1], to_text(count) + " people",
                         "a whole number of people");
        }
        if (!(count <= most_people_of_an_age)) {
            sheet.refuse(row.line, row.cells[1], to_text(count) + " people",
                         "at most 10^10 people of an age");
        }
        const bool in_range = age >= youngest && age <= oldest;
        (in_range ? inside : outside) += count;
        if (in_range) {
            counts.push_back({age, count});
        }
    }
    if (!(inside >= 1.0)) {
        sheet.refuse_file("nobody from 20 to 80 years", "at least one person of those ages");
    }
    std::vector<std::string> understood = std::move(decoded.understood);
    if (outside > 0.0) {
        understood.push_back(to_text(outside) + " of " + to_text(inside + outside) +
                             " people are younger than 20 or older than 80 and left out.");
    }
    return {Ages::counted(std::move(counts)), std::move(understood)};
}

NamedAges open_ages(const std::string& text) {
    const std::size_t dash = text.find('-');
    const double first = samelight::detail::number_or_nan(std::string_view(text).substr(0, dash));
    const double last =
        dash == std::string::npos
            ? first
            : samelight::detail::number_or_nan(std::string_view(text).substr(dash + 1));
    if (std::isfinite(first) && std::isfinite(last)) {
        if (!(first >= youngest) || !(last <= oldest) || !(first <= last)) {
            throw Error(ErrorKind::input, "ages \"" + text + "\"", "not ages from 20 to 80 years",
                        "YOUNGEST-OLDEST, such as 20-70, or a file of ages and numbers of people");
        }
        return {Ages::range(first, last), {}};
    }
    if (!detail::is_file_name(text)) {
        throw Error(ErrorKind::input, "ages \"" + text + "\"", "neither ages nor a file",
                    "YOUNGEST-OLDEST, such as 20-70, or a file of ages and numbers of people");
    }
    return parse_ages(detail::file_bytes(text, detail::largest_small_file_bytes,
                                         "a file of ages and numbers of people"),
                      detail::source_name(text));
}

}  // namespace samelight::io
