#include "report/targets/made_for.hpp"

#include <string>

#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::report {
namespace {

constexpr const char* curve_mark = "; curve ";
constexpr const char* encoding_mark = ", encoding ";

/// The standard value is what nobody typed.
void take_one(const std::string& made, const std::string& standard, const char* option,
              std::string& typed) {
    if (made.empty() || typed == made) {
        return;
    }
    if (typed != standard) {
        throw Error(ErrorKind::input, option, "\"" + io::harmless(typed) + "\"",
                    io::harmless(made) + ", for which the targets were made, or none");
    }
    typed = made;
}

}  // namespace

std::string made_for(const TargetsMade& made) {
    return made.encoding.find_first_of("./") == std::string::npos
               ? curve_mark + made.curve + encoding_mark + made.encoding
               : "";
}

TargetsMade made_in_remark(const std::string& remark) {
    const std::size_t curve = remark.find(curve_mark);
    const std::size_t encoding =
        curve == std::string::npos ? curve : remark.find(encoding_mark, curve);
    if (encoding == std::string::npos) {
        return {};
    }
    const std::size_t begin = curve + std::string(curve_mark).size();
    return {remark.substr(begin, encoding - begin),
            remark.substr(encoding + std::string(encoding_mark).size())};
}

void take_made(const TargetsMade& made, IntentTyped& intent) {
    const IntentTyped standard;
    take_one(made.curve, standard.curve, "--curve", intent.curve);
    take_one(made.encoding, standard.encoding, "--encoding", intent.encoding);
}

}  // namespace samelight::report
