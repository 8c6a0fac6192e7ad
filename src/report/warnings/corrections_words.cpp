// What is doubtful about corrections and the choice of one, in words.
#include <array>
#include <span>
#include <string>

#include "report/warnings/facts_said.hpp"

namespace samelight::report {
namespace {

std::string no_meter_said(const FactsSaid& f) {
    const std::string reason = f.text("reason");
    if (reason == "row") {
        return "No filter meter has these rows: " + f.text("channel") + " is " +
               f.number("off_percent", 0) +
               " % off its function. Are the columns in the order X, Y, Z?";
    }
    if (reason == "scales") {
        return "No filter meter has these rows: read as given, one channel's scale is " +
               f.number("scale_ratio", 1) +
               " times another's on illuminant A. Are they known in shape only (to be scaled on "
               "illuminant A)?";
    }
    if (reason != "corrections") {
        f.lack();
    }
    return "No filter meter can have the corrections at hand: its filters would be " +
           f.number("off_percent", 0) +
           " % off. Were its rows in the wrong order, or known in shape only (to be scaled on "
           "illuminant A), or are the corrections those of different meters? Nothing is called "
           "safe by them.";
}

std::string four_emitters_said(const FactsSaid& f) {
    return "White is more than red + green + blue: four emitters, and no 3 x 3 matrix is exact for "
           "all mixtures of four. This one was made with " +
           f.text("method") + "; white is left " + f.number("white_left", 4) + " off in " +
           f.chosen("measure", {{"xy", "x, y"}, {"lm_shares", "the shares of L and M"}}) +
           ", the worst, " + f.text("worst") + ", " + f.number("worst_left", 4) + ".";
}

std::string outside_validity_said(const FactsSaid& f) {
    return "This correction was made from one white and holds within " + f.number("radius_xy") +
           " of " + f.xy("near_") + " in x, y; this reading is " + f.number("distance_xy", 4) +
           " away.";
}

std::string not_settled_said(const FactsSaid& f) {
    return "The weighted fit had not settled after " + f.number("rounds", 0) + " rounds.";
}

std::string white_only_said(const FactsSaid& f) {
    return "Made from one white alone: it holds for whites within " + f.number("radius_xy") +
           " of " + f.xy("near_") + " as the meter reads them, for no other colour.";
}

std::string no_repeats_said(const FactsSaid&) {
    return "There are no repeats, or one only, so nothing is known about noise: how sure the "
           "correction is can't be said. Read each patch three times or more.";
}

std::string none_left_out_said(const FactsSaid&) {
    return "Every colour was needed for the fit, so none proves it: read two more, such as yellow "
           "and a mid grey.";
}

std::string same_said(const FactsSaid& f) {
    const std::string name = f.text("correction");
    const std::string other = f.text("same_as");
    return name + (name == other ? " is named twice" : " holds the same correction as " + other) +
           ": it counts once.";
}

std::string worse_meter_said(const FactsSaid& f) {
    return "The corrections at hand are those of a meter about " + f.number("times", 1) +
           " times as far off as supposed, or of more than one meter; a mismatch of " +
           f.number("mismatch_percent", 0) + " % is taken.";
}

std::string different_meters_said(const FactsSaid& f) {
    return "The corrections say that they were made for different meters (" + f.text("first") +
           "; " + f.text("second") + "): one says little of the other.";
}

constexpr std::array<WarningWords, 10> corrections_catalogue{
    {{"no_such_meter", no_meter_said},
     {"four_emitters", four_emitters_said},
     {"outside_validity", outside_validity_said},
     {"weights_not_settled", not_settled_said},
     {"white_only", white_only_said},
     {"no_repeats", no_repeats_said},
     {"no_colour_left_out", none_left_out_said},
     {"same_correction", same_said},
     {"meter_worse_than_supposed", worse_meter_said},
     {"different_meters", different_meters_said}}};

}  // namespace

std::span<const WarningWords> words_of_corrections() { return corrections_catalogue; }

}  // namespace samelight::report
