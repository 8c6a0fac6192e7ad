#include <pybind11/pybind11.h>

#include "python/base/bindings.hpp"
#include "samelight/numeric/version.hpp"

namespace {

constexpr const char* about =
    "What the instrument must read so that displays look alike, how sure that is, who will disagree,\n"
    "corrections of filter meters, and the proof of the work.\n\n"
    "Spectra are radiance in W/(sr m2 nm) or relative power over wavelengths in nm, ascending, even or\n"
    "not; where no wavelengths are given they are 380 to 780 nm by 1 nm, 401 of them. X, Y, Z of\n"
    "instruments are cd/m2; x, y and white targets are CIE 1931. Arrays are numpy's, rows first; those\n"
    "of float64 whose rows lie close together are read where they are. Errors are of SamelightError.\n"
    "What takes long leaves the interpreter to other threads meanwhile.";

}  // namespace

PYBIND11_MODULE(samelight, module) {
    pybind11::options options;
    options.disable_enum_members_docstring();
    module.doc() = about;
    module.attr("__version__") = samelight::version;
    // Errors first: what follows throws them. Then in the order in which the data flows, so that signatures name what there is.
    samelight::python::bind_errors(module);
    samelight::python::bind_observers(module);
    samelight::python::bind_colour(module);
    samelight::python::bind_panels(module);
    samelight::python::bind_people(module);
    samelight::python::bind_white(module);
    samelight::python::bind_white_targets(module);
    samelight::python::bind_metamerism(module);
    samelight::python::bind_corrections(module);
    samelight::python::bind_check(module);
}
