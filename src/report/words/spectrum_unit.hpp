#pragma once
// What a file's values are in, in a word for people and programs.
#include "samelight/io/spectral_csv.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

inline const char* unit_text(const SpectrumAnswer& answer) {
    return answer.light_unit == io::LightUnit::spectral_radiance ? "W/(sr m2 nm)" : "relative";
}

}  // namespace samelight::report
