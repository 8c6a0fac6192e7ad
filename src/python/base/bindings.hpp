#pragma once
// The Python module, a function a subject: each adds its names to the module.
#include <pybind11/pybind11.h>

namespace samelight::python {

void bind_errors(pybind11::module_& module);
void bind_observers(pybind11::module_& module);
void bind_colour(pybind11::module_& module);
void bind_panels(pybind11::module_& module);
void bind_people(pybind11::module_& module);
void bind_white(pybind11::module_& module);
void bind_white_targets(pybind11::module_& module);
void bind_metamerism(pybind11::module_& module);
void bind_corrections(pybind11::module_& module);
void bind_check(pybind11::module_& module);

}  // namespace samelight::python
