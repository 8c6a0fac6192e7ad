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

std::string relative_said(const FactsSaid& f) {
    return f.text("file") + ": white reads " + with_digits(f.value("white"), 4) +
           ", so Y looks relative to white. x, y, DE00 and gamma hold all the same; what is said in "
           "cd/m2, near black, of noise, of HDR and in DE ITP (BT.2124) doesn't.";
}

/// "1 patch, sky," or "3 patches, the first sky,".
std::string patches_named(const FactsSaid& f) {
    const std::string count = f.number("patches", 0);
    return count + (count == "1" ? " patch, " : " patches, the first ") + f.text("patch") + ",";
}

std::string cut_said(const FactsSaid& f) {
    return f.text("file") + ": the signals of " + patches_named(f) +
           " lie beyond the codes of this depth and range. They were cut, and the targets are of "
           "what is shown in their place.";
}

std::string beyond_white_said(const FactsSaid& f) {
    return f.text("file") + ": the codes of " + patches_named(f) +
           " lie above white or below black. Their targets follow the curve further; whether the "
           "display does isn't known.";
}

std::string months_differ_said(const FactsSaid& f) {
    return "The months as typed, " + with_digits(f.value("typed"), 3) +
           ", aren't those of the two files' dates, " + with_digits(f.value("dated"), 3) +
           ": the typed ones were used.";
}

std::string later_said(const FactsSaid& f) {
    return f.text("file") + ": from before the work, but read on " + f.text("before") +
           ", later than these of " + f.text("now") + ". Are the two files exchanged?";
}

constexpr std::array<WarningWords, 7> proof_catalogue{
    {{"xy_look_exchanged", exchanged_headings_said},
     {"white_looks_exchanged", exchanged_white_said},
     {"luminance_looks_relative", relative_said},
     {"signals_cut", cut_said},
     {"signals_beyond_white", beyond_white_said},
     {"months_differ", months_differ_said},
     {"before_is_later", later_said}}};

}  // namespace

std::span<const WarningWords> words_of_proof() { return proof_catalogue; }

}  // namespace samelight::report
