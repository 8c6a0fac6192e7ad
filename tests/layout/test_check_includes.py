#!/usr/bin/env python3
"""check_includes.py finds what it should find, and nothing else."""
import sys

from check_includes import makes_threads, missing

CASES = [
    ("#include <vector>\nstd::vector<int> v;", []),
    ("std::vector<int> v;", [("<vector>", "std::vector")]),
    ("// std::vector\n/* std::array\n */ int v;", []),
    ("#include <Eigen/LU>\nEigen::Matrix3d m;", []),
    ("Eigen::Matrix3d m;", [("<Eigen/...>", "Eigen::Matrix3d")]),
    ("#include <string>\nstd::string_view s;", [("<string_view>", "std::string_view")]),
    ("#include <algorithm>\nint m = std::max(1, 2);", []),
    ("int m = std::max(1, 2);", [("<algorithm>", "std::max")]),
    ("double m = std::sqrt(2.0); std::size_t n;", [("<cmath>", "std::sqrt"), ("<cstddef>", "std::size_t")]),
]
wrong = [(text, list(missing(text))) for text, wanted in CASES if sorted(missing(text)) != sorted(wanted)]
THREADS = [("#include <thread>\n#include <vector>\n#include <mutex>", ["thread", "mutex"]), ("// #include <thread>\n#include <array>", [])]
wrong += [(text, makes_threads(text)) for text, wanted in THREADS if makes_threads(text) != wanted]
for text, found in wrong:
    print(f"{text!r}: found {found}", file=sys.stderr)
sys.exit(1 if wrong else 0)
