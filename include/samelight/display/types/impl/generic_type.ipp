#pragma once
// The bodies of display/types/generic_type.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<double> GenericModel::default_values() const {
    std::vector<double> result;
    result.reserve(parameters_.size());
    for (const ModelParameter& parameter : parameters_) {
        result.push_back(parameter.value);
    }
    return result;
}

SAMELIGHT_INLINE EmissionSpectra GenericModel::emission(std::span<const double> values,
                                                        const Sampling& sampling) const {
    validate(values);
    return function_(values, sampling);
}

SAMELIGHT_INLINE void GenericModel::validate(std::span<const double> values) const {
    const std::string where = "generic model " + std::string(name_);
    if (values.size() != parameters_.size()) {
        throw Error(ErrorKind::shape, where, std::to_string(values.size()) + " values",
                    std::to_string(parameters_.size()) + ", one a parameter");
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!makes_sense(parameters_[i].kind, values[i])) {
            throw Error(ErrorKind::domain, where,
                        std::string(parameters_[i].name) + " " + to_text(values[i]),
                        std::string(wanted(parameters_[i].kind)));
        }
    }
}

SAMELIGHT_INLINE bool GenericModel::makes_sense(ParameterKind kind, double value) {
    switch (kind) {
        case ParameterKind::wavelength:
            return value >= 300.0 && value <= 900.0;
        case ParameterKind::width:
            return value > 0.0 && value <= 300.0;
        case ParameterKind::factor:
            return value >= 0.0 && value <= 1000.0;
        case ParameterKind::share:
            return value >= 0.0 && value < 1.0;
        case ParameterKind::shift:
            return value >= -20.0 && value <= 20.0;
    }
    return false;
}

SAMELIGHT_INLINE std::string_view GenericModel::wanted(ParameterKind kind) {
    switch (kind) {
        case ParameterKind::wavelength:
            return "a wavelength of 300 to 900 nm";
        case ParameterKind::width:
            return "a width above 0 and up to 300 nm";
        case ParameterKind::factor:
            return "a factor of 0 to 1000";
        case ParameterKind::share:
            return "a share of 0 or more and below 1";
        case ParameterKind::shift:
            return "a shift of -20 to 20 nm";
    }
    return "a known kind of parameter";
}

}  // namespace samelight
