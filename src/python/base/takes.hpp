#pragma once
// What functions of several subjects take: a value, or what stands for it.
#include <optional>
#include <vector>

#include <pybind11/pybind11.h>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::python {

/// The members of a list or a tuple; anything else is the only one.
std::vector<pybind11::object> several(const pybind11::object& given);

/// An Observer or the name of one. Throws Error (input, domain).
Observer observer_of(const pybind11::object& given);

/// A Panel, or what panel() takes. Throws Error.
assess::WhitePanel panel_of(const pybind11::object& given);

/// A Reference, a Panel, or what reference() takes. Throws Error.
assess::WhiteReference reference_of(const pybind11::object& given);

/// A Population; None: nobody said. Throws Error (input) for anything else.
std::optional<Population> population_of(const pybind11::object& given);

/// A display as lists have it. Throws Error (input) for one with its white as it stands.
assess::ListedPanel listed(const assess::WhitePanel& panel);

}  // namespace samelight::python
