#!/usr/bin/env python3
"""Checks that each public header includes what it names. Usage: check_includes.py ROOT

A header that gets <vector> by way of another one breaks the day the other one changes. The compiler can't see it, and the test that
compiles each header alone can't where these very headers are precompiled. Looked at: names of the standard library that belong to
one header, Eigen and Boost. And none includes what makes threads, in the compiled form: that is for the bodies (numeric/impl/parallel.ipp), since it
would come with every header that divides its work.
"""
import pathlib
import re
import sys

FUNCTIONS = {
    "algorithm": "adjacent_find|all_of|any_of|binary_search|clamp|copy|copy_if|copy_n|count|count_if|equal|equal_range|fill|fill_n|"
                 "find|find_if|find_if_not|for_each|generate|is_sorted|lower_bound|max|max_element|min|min_element|minmax|"
                 "minmax_element|mismatch|none_of|nth_element|partial_sort|partition|remove|remove_if|replace|replace_if|reverse|"
                 "rotate|search|sort|stable_sort|swap_ranges|transform|unique|upper_bound",
    "cmath": "acos|asin|atan|atan2|cbrt|ceil|copysign|cos|exp|expm1|floor|fmod|hypot|isfinite|isinf|isnan|ldexp|log|log10|log1p|"
             "log2|lround|llround|nearbyint|nextafter|pow|round|sin|sqrt|tan|trunc",
    "numeric": "accumulate|inner_product|iota|partial_sum",
}
NAMES = {
    "array": "array",
    "cstddef": "size_t|ptrdiff_t",
    "cstdint": "u?int(8|16|32|64)_t|uintmax_t",
    "functional": "function|ref|cref|greater|plus|invoke",
    "limits": "numeric_limits",
    "memory": "unique_ptr|shared_ptr|make_unique|make_shared",
    "optional": "optional|nullopt",
    "random": "mt19937|mt19937_64|normal_distribution|uniform_int_distribution|uniform_real_distribution",
    "span": "span",
    "string": "string|to_string",
    "string_view": "string_view",
    "utility": "as_const|exchange|forward|make_pair|move|pair|swap",
    "vector": "vector",
}
RULES = [(f"<{header}>", header, re.compile(rf"\bstd::({names})\("), False) for header, names in FUNCTIONS.items()]
RULES += [(f"<{header}>", header, re.compile(rf"\bstd::({names})\b"), False) for header, names in NAMES.items()]
RULES += [("<Eigen/...>", "Eigen/", re.compile(r"\bEigen::\w+"), True), ("<boost/...>", "boost/", re.compile(r"\bboost::\w+"), True)]
COMMENT = re.compile(r"//[^\n]*|/\*.*?\*/", re.DOTALL)
INCLUDE = re.compile(r"^\s*#\s*include\s*<([^>]+)>", re.MULTILINE)
FOR_BODIES = {"atomic", "barrier", "condition_variable", "future", "latch", "mutex", "semaphore", "shared_mutex", "stop_token", "thread"}


def missing(text):
    """(header, the name that needs it) for each header that `text` names something of without including it."""
    code = COMMENT.sub("", text)
    included = INCLUDE.findall(code)
    for shown, header, pattern, folder in RULES:
        found = pattern.search(code)
        if found and not any(name.startswith(header) if folder else name == header for name in included):
            yield shown, found[0].rstrip("(")


def makes_threads(text):
    """The headers of threads that a public header includes."""
    return [header for header in INCLUDE.findall(COMMENT.sub("", text)) if header in FOR_BODIES]


def main(root):
    headers = sorted((root / "include" / "samelight").rglob("*.hpp"))
    faults = [f"{path.relative_to(root)}: names {name}, includes no {header}"
              for path in headers for header, name in missing(path.read_text(encoding="utf-8"))]
    faults += [f"{path.relative_to(root)}: includes <{header}>, which is for bodies"
               for path in headers for header in makes_threads(path.read_text(encoding="utf-8"))]
    for line in faults:
        print(line, file=sys.stderr)
    print(f"{len(headers)} headers, {len(faults)} faults")
    return 1 if faults or not headers else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: check_includes.py ROOT")
    sys.exit(main(pathlib.Path(sys.argv[1])))
