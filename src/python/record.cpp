#include "python/base/record.hpp"

#include <string>

namespace samelight::python {

std::string framed(const std::string& page) {
    std::string quoted;
    quoted.reserve(page.size() + page.size() / 16);
    for (const char c : page) {
        if (c == '&') {
            quoted += "&amp;";
        } else if (c == '"') {
            quoted += "&quot;";
        } else {
            quoted += c;
        }
    }
    return "<iframe title=\"samelight\" style=\"width: 100%; height: 640px; border: 0\" sandbox=\"\" srcdoc=\"" +
           quoted + "\"></iframe>";
}

}  // namespace samelight::python
