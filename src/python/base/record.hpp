#pragma once
// Results for Python: values whose parts can be read but not changed, which tell them when printed and give them as a dict.
#include <string>

#include <pybind11/pybind11.h>

namespace samelight::python {

/// "Name(part=..., part=...)".
inline std::string told(const pybind11::object& self) {
    std::string text = std::string(pybind11::str(pybind11::type::of(self).attr("__name__"))) + "(";
    bool first = true;
    for (const pybind11::handle part : self.attr("_fields")) {
        const std::string name = pybind11::str(part);
        const pybind11::object value = self.attr(part);
        text += (first ? "" : ", ") + name + "=" + std::string(pybind11::repr(value));
        first = false;
    }
    return text + ")";
}

inline pybind11::dict as_dict(const pybind11::object& self) {
    pybind11::dict parts;
    for (const pybind11::handle part : self.attr("_fields")) {
        parts[part] = self.attr(part);
    }
    return parts;
}

/// A class of results. Parts are added one by one, finish() last.
template <class T>
class Record {
  public:
    Record(pybind11::module_& module, const char* name, const char* doc)
        : type_(module, name, doc) {}

    /// A part that `get` gives, a member or a function of T.
    template <class Get>
    Record& part(const char* name, Get&& get, const char* doc) {
        type_.def_property_readonly(name, std::forward<Get>(get), doc);
        fields_.append(name);
        return *this;
    }

    template <class Member>
    Record& member(const char* name, Member T::*at, const char* doc) {
        type_.def_readonly(name, at, doc);
        fields_.append(name);
        return *this;
    }

    /// By value: what lends a part of a builder that is gone by then ends the interpreter.
    pybind11::class_<T> finish() {
        type_.attr("_fields") = pybind11::tuple(fields_);
        type_.def("__repr__", &told);
        type_.def("as_dict", &as_dict, "The parts by their names, in a new dict.");
        return type_;
    }

  private:
    pybind11::class_<T> type_;
    pybind11::list fields_;
};

/// A page that stands by itself as a notebook shows it: in a frame of its own, so that neither's styles reach the other.
std::string framed(const std::string& page);

/// `html()`, `_repr_html_()` and `json()` of an answer, from functions that make its page and its JSON's text.
template <class T, class Page, class Json>
void say(pybind11::class_<T>& type, Page page, Json json) {
    type.def(
        "html", [page](const T& own) { return page(own); },
        "The answer as a page with its charts that stands by itself: no script, no request.");
    type.def(
        "_repr_html_", [page](const T& own) { return framed(page(own)); },
        "The same in a frame, for a notebook.");
    type.def(
        "json",
        [json](const T& own) { return pybind11::module_::import("json").attr("loads")(json(own)); },
        "The answer as the command gives it by its JSON: a dict, units in its keys.");
}

}  // namespace samelight::python
