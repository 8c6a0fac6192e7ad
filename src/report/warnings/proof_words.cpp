// What is to be asked about the files and numbers of a proof, in words.
#include <array>
#include <span>
#include <string>

#include "report/warnings/facts_said.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string exchanged_headings_said(const FactsSaid& f) {
    return f.text("file") + ": greys read " + f.xy("", 4) + ", far from any daylight, and " +
           f.xy("exchanged_", 4) +
           " with x and y exchanged. If the two headings are exchanged, mend them and ask again; "
           "if the white really is so purple, all of this holds.";
}

std::string exchanged_white_said(const FactsSaid& f) {
    const std::string x = f.number("x", 4);
    const std::string y = f.number("y", 4);
    return "The white " + x + ", " + y + " is far from any daylight: did you mean " + y + ", " + x +
           "?";
}

constexpr std::array<WarningWords, 2> proof_catalogue{
    {{"xy_look_exchanged", exchanged_headings_said},
     {"white_looks_exchanged", exchanged_white_said}}};

}  // namespace

std::span<const WarningWords> words_of_proof() { return proof_catalogue; }

}  // namespace samelight::report
