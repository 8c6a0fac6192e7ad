#!/usr/bin/env python3
"""check_docstrings.py finds what it should find, and nothing else."""
import sys

from check_docstrings import bodies_of, faults_of

NAMESPACE = "namespace samelight::inline SAMELIGHT_FORM"
# Room, what the header declares, definitions in its .ipp, the kinds of fault that are to be found.
CASES = [
    # meaning
    ("io", "int one();", "", ["meaning"]),
    ("io", "// One.\nint one();", "", ["meaning"]),
    ("io", "/// One.\n\nint one();", "", ["meaning"]),
    ("io", "/// One.\nint one();", "", []),
    ("io", "/// One and two.\nint one();\nint two();", "", []),
    ("io", "/// One and two.\nint one() {\n    return 1;\n}\nint two();", "", []),
    ("io", "/// One.\nint one();\n\nint two();", "", ["meaning"]),
    ("io", "/// One.\nint one();\n// Between.\nint two();", "", ["meaning"]),
    ("io", "/// One.\nstruct One {\n    int a;\n    int two() const;\n};", "", ["meaning"]),
    ("io", "struct One {};", "", ["meaning"]),
    ("io", "enum class One { a, b };", "", ["meaning"]),
    ("io", "struct One;\nclass Two;\ntemplate <>\nstruct Three<int> {\n    int f();\n};", "", []),
    ("io", "namespace detail { int one(); struct Two {}; }", "", []),
    ("io", "/// A class.\nclass One {\n    int own();\n  public:\n    int seen();\n  private:\n    int hidden();\n};", "", ["meaning"]),
    ("io", "/// One.\nclass One {\n  public:\n    One() = default;\n    One(const One& other);\n    ~One();\n"
           "    One& operator=(const One&) = delete;\n    friend bool operator==(const One&, const One&) = default;\n};", "", []),
    ("io", "/// One.\nclass One {\n  public:\n    explicit One(int a) : a_{a}, b_(f(1)) {}\n};", "", ["meaning"]),
    ("io", "int one(const Options& options = {}, int b = 2);", "", ["meaning"]),
    ("io", "/// One.\n// NOLINTNEXTLINE(some)\nint one();", "", []),
    ("io", '/// One.\nint one(const char* a = "; {");\n\nint two();', "", ["meaning"]),
    # units
    ("io", "/// One.\ndouble one();", "", ["units"]),
    ("io", "/// One.\nint one(std::span<const double> values);", "", ["units"]),
    ("io", "/// One.\nint one(const Eigen::MatrixXd& values);", "", ["units"]),
    ("io", "/// One, 3 x n.\nint one(const Eigen::MatrixXd& values);", "", []),
    ("io", "/// One, nm.\ndouble one();", "", []),
    ("io", "/// A number without unit.\ndouble one();", "", []),
    ("io", "/// A reunited family of inkwells.\ndouble one();", "", ["units"]),
    ("io", "/// One.\ndouble one_nm(double age_years);", "", []),
    ("io", "/// One.\ndouble one_nm(double age);", "", ["units"]),
    ("io", "/// One.\ndouble one(double age_years);", "", ["units"]),
    ("io", "/// One.\nint one(int a, Lab b);", "", []),
    ("io", "/// A place, cd/m2.\nstruct One {\n    /// One.\n    double one() const;\n};", "", []),
    ("io", "/// One, nm.\ndouble one();\n\n/// The same again.\ndouble one(int a);", "", []),
    ("io", "/// One, nm.\ndouble one();\n\n/// Two. Otherwise as one.\ndouble two(int a);", "", []),
    # throws
    ("io", '/// One.\ninline int one() { throw Error("x"); }', "", ["throws"]),
    ("io", "/// One.\ninline int one() { require_it(3); return 1; }", "", ["throws"]),
    ("io", "/// One. Throws Error (domain).\ninline int one() { throw Error(); }", "", []),
    ("io", "/// One. Throws nothing.\ninline int one() { throw Error(); }", "", ["throws"]),
    ("io", "/// One.\nint one(int a);", "SAMELIGHT_INLINE int one(int a) {\n    if (a) { throw Error(); }\n    return a;\n}", ["throws"]),
    ("io", "/// One.\nint one(int a);\n\n/// One of text.\nint one(Text a);",
     "int one(Text a) { throw Error(); }\nint one(int a) { return a; }", ["throws"]),
    ("io", "/// One.\nclass One {\n  public:\n    /// From a.\n    explicit One(int a);\n    /// Two.\n    int two() const;\n};",
     "One::One(int a) : a_(a) { validate(); }\nint One::two() const { return 2; }\nint Other::two() const { throw Error(); }", ["throws"]),
    ("io", "/// One. Throws Error.\nclass One {\n  public:\n    /// From a.\n    explicit One(int a) { throw Error(); }\n"
           "    /// Two.\n    int two() const { throw Error(); }\n};", "", ["throws"]),
    ("io", '/// One.\ninline int one() { return 1; /* throw */ }  // throw\n', "", []),
    # source
    ("white", "/// One.\nint one(const Panel& panel);", "", ["source"]),
    ("io", "/// One.\nint one(const Panel& panel);", "", []),
    ("white", "/// One. Source: a book.\nint one(const Panel& panel);", "", []),
    ("white", "/// One (CIE 15:2018, 7.1).\nint one(const Panel& panel);", "", []),
    ("white", "/// One (ISO/CIE 11664-6).\nint one(const Panel& panel);", "", []),
    ("white", "/// One (Ohno & Hardis 1997).\nint one(const Panel& panel);", "", []),
    ("white", "/// One. Own rule.\nint one(const Panel& panel);", "", []),
    ("white", "/// One, each on its own.\nint one(const Panel& panel);", "", ["source"]),
    ("white", "/// One for CIE 1931 and CIE 2015.\nint one(const Panel& panel);", "", ["source"]),
    ("white", "/// One.\nint one(int a);", "", []),
    ("white", "/// One.\nText to_text(Verdict verdict);", "", []),
    ("white", "/// A thing.\nstruct One {\n    /// Two.\n    int two(const Panel& panel);\n};", "", []),
    # behind
    ("io", "/// One.\nstruct One {\n    int a;  ///< nm\n};", "", ["behind"]),
]
wrong = 0


def compare(room, header, sources, wanted):
    global wrong
    found = list(faults_of(f"{room}/a.hpp", header, bodies_of(sources)))
    if [line.split(": ")[1] for line in found] != wanted:
        wrong += 1
        print(f"{header!r}: found {found}, wanted {wanted}", file=sys.stderr)


for case_room, text, definitions, kinds in CASES:
    compare(case_room, f"#pragma once\n// A header.\n#include <a>\n\n{NAMESPACE} {{\n\n{text}\n\n}}\n",
            [f"{NAMESPACE} {{\n{definitions}\n}}\n"], kinds)
compare("white", f"#pragma once\n// A header. Source: a book.\n\n{NAMESPACE} {{\n\n/// One.\nint one(const Panel& panel);\n\n}}\n", [], [])
compare("io", f"#pragma once\n#define ONE {{ \\\n int f();\n#if 1\n{NAMESPACE} {{\n\nint one();\n\n}}\n#endif\n", [], ["meaning"])
sys.exit(1 if wrong else 0)
