#include <array>
#include <cstddef>
#include <exception>
#include <string>

#include <pybind11/pybind11.h>

#include "python/base/bindings.hpp"
#include "samelight/numeric/error.hpp"

namespace py = pybind11;

namespace samelight::python {
namespace {

/// The class of each kind, in the order of ErrorKind. They live as long as the process: an error may be the last thing that happens.
std::array<PyObject*, 6>& classes() {
    static std::array<PyObject*, 6> own{};
    return own;
}

PyObject* made(py::module_& module, const char* name, const char* doc, const py::object& bases) {
    const std::string full = std::string("samelight.") + name;
    PyObject* type = PyErr_NewExceptionWithDoc(full.c_str(), doc, bases.ptr(), nullptr);
    if (type == nullptr) {
        throw py::error_already_set();
    }
    module.attr(name) = py::handle(type);
    return type;
}

void set_python_error(const Error& error) {
    PyObject* type = classes().at(static_cast<std::size_t>(error.kind()));
    try {
        const py::object raised = py::handle(type)(py::str(error.what()));
        raised.attr("place") = error.place().name;
        raised.attr("line") = error.place().line;
        raised.attr("column") = error.place().column;
        raised.attr("found") = error.found();
        raised.attr("wanted") = error.wanted();
        PyErr_SetObject(type, raised.ptr());
    } catch (py::error_already_set& other) {
        // A text that is no UTF-8, a file's name for one.
        other.restore();
    }
}

}  // namespace

void bind_errors(py::module_& module) {
    const py::handle exception(PyExc_Exception);
    PyObject* base = made(
        module, "SamelightError",
        "What samelight refuses, in one line: the place, what was found and what was wanted, also as\n"
        "attributes place, line, column (0: none), found and wanted.",
        py::make_tuple(exception));
    const auto kind = [&](ErrorKind of, const char* name, const char* doc, PyObject* also) {
        classes().at(static_cast<std::size_t>(of)) =
            made(module, name, doc, py::make_tuple(py::handle(base), py::handle(also)));
    };
    kind(ErrorKind::domain, "DomainError",
         "A value outside the range in which a function is defined; NaN.", PyExc_ValueError);
    kind(ErrorKind::shape, "ShapeError", "Shapes, counts or samplings that do not go together.",
         PyExc_ValueError);
    kind(ErrorKind::singular, "SingularError",
         "Directions that do not span what they must: primaries that depend on each other, say.",
         PyExc_ValueError);
    kind(ErrorKind::observer, "ObserverError", "Values of different observers.", PyExc_ValueError);
    kind(ErrorKind::input, "InputError", "A file, a text or an argument that can't be understood.",
         PyExc_ValueError);
    kind(ErrorKind::system, "SystemRefusal", "The operating system refused: no such file, say.",
         PyExc_OSError);
    py::register_exception_translator([](std::exception_ptr pointer) {
        try {
            if (pointer) {
                std::rethrow_exception(pointer);
            }
        } catch (const Error& error) {
            set_python_error(error);
        }
    });
}

}  // namespace samelight::python
