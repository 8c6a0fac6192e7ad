#!/usr/bin/env python3
"""check_interface.py finds what it should find, and nothing else."""
import sys

from check_interface import faults_of_bare_names, faults_of_details, faults_of_signatures, without_comments

NAMESPACE = "namespace samelight::inline SAMELIGHT_FORM"
SIGNATURES = [
    ("SAMELIGHT_API int four(int a, int b, int c, int d);", 0),
    ("SAMELIGHT_API int five(int a, int b, int c, int d, int e);", 1),
    ("SAMELIGHT_API std::pair<int, int> maps(const std::map<int, int>& a, int b, int c, int d);", 0),
    ("SAMELIGHT_API int choice(const Panel& panel, bool with_budget = false);", 1),
    ("inline int choice(const bool chosen) { return chosen ? 1 : 0; }", 1),
    ("namespace detail { int five(int a, int b, int c, int d, int e); }", 0),
    ("namespace detail::inline KERNELS { template <class T> int five(T a, T b, T c, T d, bool e) { return 0; } }", 0),
    ("class Judge {\n  public:\n    int seen(bool all) const;\n  private:\n    int own(bool all) const;\n};", 1),
    ("inline int f() { call(1, 2, 3, 4, 5); return 0; }", 0),
    ("// int five(int a, int b, int c, int d, int e);\n", 0),
]
DETAILS = [
    ({("white", "white/a.hpp"): "namespace detail { int own(); }", ("white", "white/a.ipp"): "detail::own();"}, 0),
    ({("white", "white/a.hpp"): "namespace detail { int own(); }", ("assess", "assess/a.ipp"): "detail::own();"}, 1),
    ({("white", "white/a.hpp"): "namespace detail { struct Own {}; }", ("assess", "assess/a.ipp"): "samelight::detail::Own o;"}, 1),
    ({("white", "white/a.hpp"): "int own();", ("assess", "assess/a.ipp"): "detail::own();"}, 0),
]
OWN = {("white", "include/white/a.hpp"): "namespace detail { struct Wide {}; constexpr int most = 3; template <class T> int own(T (*f)(int nothing)); }"}
BARE = [
    ({("assess", "assess/a.ipp"): "namespace detail { inline int f() { return own(1); } }"}, 1),
    ({("assess", "assess/a.ipp"): "namespace detail { inline int f(Wide w) { return most; } }"}, 2),
    ({("tools", "tools/a.cpp"): "int f() { return own(1); }"}, 1),
    ({("white", "white/a.ipp"): "namespace detail { inline int f() { return own(1); } }"}, 0),
    # Display may not include white: there the name is another thing.
    ({("display", "display/a.ipp"): "int f() { return own(1); }"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { return x.own(1) + y->own(1) + z::own(1); }"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { const int own = 1; return own; }"}, 0),
    ({("assess", "assess/a.ipp"): "enum class E {\n    most,\n};"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { return own(1); }", ("assess", "assess/b.hpp"): "int own(int one);"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { return own(1); }", ("meter", "include/meter/b.hpp"): "int own(int one);"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { return own(1); }", ("meter", "include/meter/b.hpp"): "namespace detail { int own(int one); }"}, 0),
    ({("assess", "assess/a.ipp"): "int f() { return nothing + f; }"}, 0),
    ({("tools", "tools/a.cpp"): "\n#include <samelight/own.hpp>\nint f();"}, 0),
]
ALLOWED = {"display": {"display"}, "white": {"white", "display"}, "meter": {"meter", "display"},
           "assess": {"assess", "white", "meter", "display"}}
wrong = 0
for text, wanted in SIGNATURES:
    found = list(faults_of_signatures("x", without_comments(f"{NAMESPACE} {{ {text} }}")))
    if len(found) != wanted:
        wrong += 1
        print(f"{text!r}: found {found}", file=sys.stderr)
for files, wanted in DETAILS:
    found = list(faults_of_details({key: f"{NAMESPACE} {{ {without_comments(text)} }}" for key, text in files.items()}))
    if len(found) != wanted:
        wrong += 1
        print(f"{files}: found {found}", file=sys.stderr)
for files, wanted in BARE:
    found = list(faults_of_bare_names({key: f"{NAMESPACE} {{ {without_comments(text)} }}" for key, text in {**OWN, **files}.items()}, ALLOWED))
    if len(found) != wanted:
        wrong += 1
        print(f"{files}: found {found}", file=sys.stderr)
sys.exit(1 if wrong else 0)
