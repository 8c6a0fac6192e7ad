#!/usr/bin/env python3
"""check_interface.py finds what it should find, and nothing else."""
import sys

from check_interface import faults_of_details, faults_of_signatures, without_comments

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
sys.exit(1 if wrong else 0)
