#pragma once
// Two viewers or observers as the subject of a sentence.
#include <string>

namespace samelight::report {

/// "viewers A and B", of "viewer A" and "viewer B"; "CIE 2015, 2 degrees, and CIE 2015, 10 degrees,".
inline std::string both_names(const std::string& a, const std::string& b) {
    const std::string viewer = "viewer ";
    if (a.rfind(viewer, 0) == 0 && b.rfind(viewer, 0) == 0) {
        return "viewers " + a.substr(viewer.size()) + " and " + b.substr(viewer.size());
    }
    return a + ", and " + b + ",";
}

}  // namespace samelight::report
